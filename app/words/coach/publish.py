"""Words of the coach's Publish page: keys, recovery sheet, programmes. Knows no Flet."""
from __future__ import annotations

from collections.abc import Sequence

from app.words.text import count, listed

PUBLISH_TITLE = "Publish"
NO_KEYS = (
    "Your keys are made when you publish for the first time, or now. Clients know your files by them, and only you can "
    "read what they send."
)
MAKE_KEYS = "Make my keys"
MATCHING_HEAD = "Your matching words"
MATCHING_WHY = (
    "Read these five out when you hand over your first programme, in person or by telephone. The client compares them; "
    "if they are the same, the programme is yours."
)
SHEET_HEAD = "Recovery sheet"
SHEET_WHY = (
    "If this computer is lost, these 25 words give you back what people sent and let you sign again. Whoever has them "
    "can do so too. Print or write them down now, and keep the sheet where nobody else looks."
)
SHEET_SHOW, SHEET_HIDE, SHEET_SAVE = "Show the words", "Hide the words", "Save as text"
SHEET_DONE = "I have it on paper"
SHEET_SURE = "The words leave this computer and can never be shown again. Is the sheet on paper, and can you read it?"
SHEET_YES, SHEET_NO = "Yes, remove them here", "Not yet"
SHEET_GONE = "The sheet is on paper. Its words are no longer on this computer."
RECOVER_OPEN = "I have a recovery sheet"
RECOVER_HEAD = "From the recovery sheet"
RECOVER_WHY = (
    "For a new computer when the old one is lost. Type the 25 words in their order. You get new keys, and the next "
    "programme that you hand out tells your clients that they are yours; what people sent before can be read here."
)
RECOVER_FIELD = "The 25 words"
RECOVER, RECOVER_NOT = "Take my name back", "Cancel"
RECOVERED = "Done. Hand out a programme now: with it your clients take your new keys over."
SHEET_NAME = "evenload-recovery-sheet.txt"
SOURCES_HEAD = "Programmes to publish"
SOURCES_WHY = "A programme is a folder of text files (TOML) that you write."
RECHECK = "Check again"
SAVE_PROGRAMME = "Save programme file"
BLOCKED = "Mend first what could hurt a client; then it can be saved."
FINE = "Nothing to object to."
MEND = "What would mend it"
BLOCKS = "Could hurt a client"
REMARKS = "Worth a look"


def sources_where(folder: str) -> str:
    """Where the coach's own sources are put."""
    return f"Put yours into {folder}"


def command_hint(folder: str, name: str) -> str:
    """The same from the command line."""
    return f"evenload pack {folder} -o {name}"


COMMAND_WHY = "The same from a command line:"


def holds(sessions: int, exercises: int, programmes: int) -> str:
    """`4 sessions, 31 exercises, 1 programme`."""
    return listed([count(sessions, "session"), count(exercises, "exercise"), count(programmes, "programme")])


def source_line(coach: str, version: int, before: int | None) -> str:
    """By whom, which version, and what was signed before."""
    if before is None:
        return f"by {coach}, version {version}, not published yet"
    if before == version:
        return f"by {coach}, version {version}, published; raise the version in source.toml once you change something"
    return f"by {coach}, version {version}; published before as version {before}"


def saved_programme(name: str, coach: str) -> str:
    """After saving."""
    return f"{name} is saved and signed for {coach}. Send it to your clients as it is."


def not_saved() -> str:
    """Where the file could not be handed over."""
    return "The file could not be saved here. Nothing is lost; try again, or use the command."


def against(value: int, limit: int) -> str:
    """A number and its limit."""
    return f"{value} against {limit}"


def problems_line(blocking: int, others: int) -> str:
    """How many problems of each kind."""
    told = [f"{blocking} that could hurt a client"] if blocking else []
    told += [f"{count(others, 'remark')}"] if others else []
    return listed(told) or FINE


def sheet_text(words: Sequence[str], made_for: str, app: str) -> str:
    """The recovery sheet as text to print: five lines of five words."""
    lines = [f"{app} recovery sheet" + (f" of {made_for}" if made_for else ""), "",
             "These 25 words, in this order, give back the coach’s recovery keys.",
             "Keep this sheet on paper where nobody else looks, and delete this file.", ""]
    lines += [f"{at + 1:>2}-{at + 5:<2}  {'  '.join(words[at:at + 5])}" for at in range(0, len(words), 5)]
    return "\n".join([*lines, ""])
