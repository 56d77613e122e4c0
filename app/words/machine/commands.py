"""Words of the commands. Knows no Flet."""
from __future__ import annotations

from collections.abc import Sequence

from app.words.text import count

NOT_PUBLISHED = "Nothing was written: mend what could hurt a client first."


def packed(name: str, coach: str, words: str) -> str:
    """What the `pack` command says at the end."""
    return (f"{name} is written and signed for {coach}. When a client opens the first one, "
            f"read these words to them: {words}.")


def open_at(name: str, address: str) -> str:
    """Where the app of that name can be opened."""
    return f"{name} is open at {address}"


def opens_once(page: str) -> str:
    """How often that address opens, and what does after that."""
    return f"The address opens once. To open the app again, or if no page appears: open {page} in your browser"


def demo_at(folder: str) -> str:
    """Where the demo's records lie."""
    return f"The demo is a coach with three clients and six weeks of records, in {folder}"


def closed(name: str) -> str:
    """What is said at the end."""
    return f"{name} is closed. Everything is kept."


def taken_in(file: str, person: str, new: int, newer: int, same: int, older: int) -> str:
    """What became of one return."""
    return f"{file}: {person}, {count(new, 'new record')}, {newer} corrected, {same + older} known already."


def refused(name: str, why: str) -> str:
    """A file that was not taken in."""
    return why if why.startswith(name) else f"{name}: {why}"


NO_KEYS = "There are no keys yet: they are made when the first programme is published."


def coach_key(line: str, words: str, waits: bool) -> str:
    """The key as clients get it, the words to read out, and a reminder while the sheet is not on paper."""
    sheet = "\nThe recovery words are still on this computer: print or write them down at the desk." if waits else ""
    return f"{line}\nMatching words: {words}{sheet}"


def backed_up(path: str) -> str:
    """A copy was written."""
    return f"The copy is {path}. It is not sealed: keep it where only you can reach it."


def would_erase(folder: str) -> str:
    """Without a yes."""
    return (f"Nothing was erased. With --yes, everything that the app keeps in {folder} goes: everybody who trains "
            "here, the coach’s side with its keys, programmes, sources, apps and copies. There is no way back.")


def erased(folder: str, left: Sequence[str]) -> str:
    """What is gone, and what is not the program's and stays."""
    stays = f" Not the app’s own, and left alone: {', '.join(left)}." if left else ""
    return f"Everything that the app kept in {folder} is erased.{stays}"


def taken_over(source: str, folder: str) -> str:
    """A source stands on the coach's shelf."""
    return f"{source} was taken over from {folder}."


def given_as_folder(source: str, folder: str) -> str:
    """A source was written as a folder."""
    return f"{source} is in {folder} as it is written now, drafts included."


def went_back(copy: str, aside: str) -> str:
    """The store was put back from a copy."""
    kept = f" What was there is kept as {aside}." if aside else ""
    return f"The records are as they were in {copy}.{kept}"


# ------------------------------------------------------------------ files, progress, and what went wrong

STANDARD_INPUT, STANDARD_OUTPUT = "standard input", "Standard output"


def was_read(name: str, size: int) -> str:
    """With `-v`, after a file was read."""
    return f"{name} was read: {count(size, 'byte')}"


def was_written(path: str) -> str:
    """With `-v`, after a file stands in its place."""
    return f"{path} was written"


def records_in(store: str) -> str:
    """With `-v`, once the records are open."""
    return f"The records are in {store}"


BUILDING = {
    "reading": "Reading and proofreading the programme",
    "figures": "Fitting the moving figures",
    "voice": "Fitting the spoken lines",
    "signing": "Packing and signing",
}
MAKING_APP = "Making the app"


def spoken(line: int) -> str:
    """While a speech engine says what nobody has recorded."""
    return f"Speaking line {line}"


def returns_read(done: int, of: int) -> str:
    """While returns are taken in."""
    return f"Returns: {done} of {of}"


def demo_told(done: int, of: int) -> str:
    """While six weeks are lived through."""
    return f"Making the demo: {done} of {of}"


def app_files(done: int, of: int) -> str:
    """While an app is written."""
    return f"{MAKING_APP}: {done} of {count(of, 'file')}"


def unexpected(log: str) -> str:
    """After a mistake of the program's own. `log` is a file, empty where none could be written."""
    noted = (f" For whoever mends it, {log} says where it happened; it holds none of your records." if log else
             " Nothing could be noted about it.")
    return f"Something unexpected happened, and the command stopped. What was kept before is as it was.{noted}"
