"""Words of the commands. Knows no Flet."""
from __future__ import annotations

from collections.abc import Sequence

from app.words.text import count

NOT_PUBLISHED = "Nothing was written: first fix what could hurt a client."


def packed(name: str, coach: str, words: str) -> str:
    """What the `pack` command says at the end."""
    return (f"{name} is ready, signed by {coach}. When a client opens your first programme file, "
            f"read these words to them: {words}.")


def open_at(name: str, address: str) -> str:
    """Where the app of that name can be opened."""
    return f"{name} is open at {address}"


def opens_once(page: str) -> str:
    """How often that address opens, and what does after that."""
    return f"This address works once. To open the app again, or if no page appears, open {page} in your browser"


def demo_at(folder: str) -> str:
    """Where the demo's records lie."""
    return f"The demo is a coach with three clients and six weeks of records, in {folder}"


def closed(name: str) -> str:
    """What is said at the end."""
    return f"{name} is closed. Everything is saved."


def taken_in(file: str, person: str, new: int, newer: int, same: int, older: int) -> str:
    """What became of one diary."""
    return f"{file}: {person}, {count(new, 'new record')}, {newer} corrected, {same + older} you already had."


def refused(name: str, why: str) -> str:
    """A file that was not added."""
    return why if why.startswith(name) else f"{name}: {why}"


NO_KEYS = "There are no keys yet: they are made when you first publish a programme."


def coach_key(line: str, words: str, waits: bool) -> str:
    """The key as clients get it, the words to read out, and a reminder while the sheet is not on paper."""
    sheet = "\nThe recovery words are still on this computer: print or write them down at the desk." if waits else ""
    return f"{line}\nMatching words: {words}{sheet}"


def backed_up(path: str) -> str:
    """A copy was written."""
    return f"The copy is {path}. It isn’t sealed, so keep it where only you can get at it."


def backed_up_sealed(path: str) -> str:
    """A copy was written under a passphrase."""
    return (f"The copy is {path}. It is sealed: without the passphrase nobody can open it, and nobody can find the "
            "passphrase out for you.")


PASSPHRASE, PASSPHRASE_NEW, PASSPHRASE_AGAIN = "Passphrase: ", "New passphrase: ", "The same once more: "


def would_erase(folder: str) -> str:
    """Without --yes."""
    return (f"Nothing was erased. With --yes, everything that the app keeps in {folder} is erased: everyone who trains "
            "here, and the coach’s side with its keys, programmes, sources, apps and copies. You can’t undo that.")


def erased(folder: str, left: Sequence[str]) -> str:
    """What is gone, and what is not the app's and stays."""
    stays = f" Left alone, because it isn’t the app’s: {', '.join(left)}." if left else ""
    return f"Everything that the app kept in {folder} is erased.{stays}"


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
    "figures": "Adding the moving figures",
    "voice": "Adding the spoken lines",
    "signing": "Packing and signing",
}
MAKING_APP = "Making the app"


def spoken(line: int) -> str:
    """While a speech engine says what nobody has recorded."""
    return f"Speaking line {line}"


def returns_read(done: int, of: int) -> str:
    """While diaries are added."""
    return f"Diaries: {done} of {of}"


def demo_told(done: int, of: int) -> str:
    """While six weeks are lived through."""
    return f"Making the demo: {done} of {of}"


def app_files(done: int, of: int) -> str:
    """While an app is written."""
    return f"{MAKING_APP}: {done} of {count(of, 'file')}"


def unexpected(log: str) -> str:
    """After a mistake of the program's own. `log` is a file, empty where none could be written."""
    noted = (f" {log} says where it happened, for whoever fixes it; it contains none of your records." if log else
             " No log could be written.")
    return f"Something unexpected happened, and the command stopped. Your records are as they were.{noted}"
