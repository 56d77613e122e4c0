"""Words of the coach's Publish page: keys, recovery sheet, programmes. Knows no Flet."""
from __future__ import annotations

from collections.abc import Sequence

from app.words.text import count, listed

PUBLISH_TITLE = "Publish"
NO_KEYS = (
    "Your keys are made when you first publish, or you can make them now. They let clients check that a file is yours, "
    "and only you can read what they send."
)
MAKE_KEYS = "Make my keys"
MATCHING_HEAD = "Your matching words"
MATCHING_WHY = (
    "Read these five out when you hand over your first programme, in person or by phone. The client compares them: "
    "if they are the same, the programme is yours."
)
SHEET_HEAD = "Recovery sheet"
SHEET_WHY = (
    "If you lose this computer, these 25 words let you read what people sent and sign again. Anyone who has them can "
    "do the same. Print or write them down now, and keep the sheet somewhere private."
)
SHEET_SHOW, SHEET_HIDE, SHEET_SAVE = "Show the words", "Hide the words", "Save as text"
SHEET_DONE = "I have it on paper"
SHEET_SURE = (
    "The words will be removed from this computer and can’t be shown again. Are they on paper, and can you read them?"
)
SHEET_YES, SHEET_NO = "Yes, remove them here", "Not yet"
SHEET_GONE = "The words are no longer on this computer; you have them on paper."
RECOVER_OPEN = "I have a recovery sheet"
RECOVER_HEAD = "From the recovery sheet"
RECOVER_WHY = (
    "For a new computer when you have lost the old one. Type the 25 words in order. You get new keys, and your next "
    "programme file tells your clients that they are yours. You can read what people sent before."
)
RECOVER_FIELD = "The 25 words"
RECOVER, RECOVER_NOT = "Recover my keys", "Cancel"
RECOVERED = "Done. Now send your clients a programme file: it brings them your new keys."
SHEET_NAME = "evenload-recovery-sheet.txt"
SOURCES_HEAD = "Programmes to publish"
SOURCES_WHY = "You write each one as a folder of text files (TOML)."
RECHECK = "Check again"
SAVE_PROGRAMME = "Save programme file"
BLOCKED = "First fix what could hurt a client; then you can save it."
FINE = "No problems found."
MEND = "How to fix it"
BLOCKS = "Could hurt a client"
REMARKS = "Worth a look"


def sources_where(folder: str) -> str:
    """Where the coach's own sources are put."""
    return f"Put yours in {folder}"


def command_hint(folder: str, name: str) -> str:
    """The same from the command line."""
    return f"evenload pack {folder} -o {name}"


COMMAND_WHY = "The same on the command line:"


def holds(sessions: int, exercises: int, programmes: int) -> str:
    """`4 sessions, 31 exercises, 1 programme`."""
    return listed([count(sessions, "session"), count(exercises, "exercise"), count(programmes, "programme")])


def source_line(coach: str, version: int, before: int | None) -> str:
    """By whom, which version, and what was signed before."""
    if before is None:
        return f"by {coach}, version {version}, not published yet"
    if before == version:
        return f"by {coach}, version {version}, published; after a change, raise the version in source.toml"
    return f"by {coach}, version {version}; published before as version {before}"


def saved_programme(name: str, coach: str) -> str:
    """After saving."""
    return f"{name} is saved and signed by {coach}. Send it to your clients as it is."


def not_saved() -> str:
    """Where the file could not be handed over."""
    return "The file couldn’t be saved here. Nothing is lost: try again, or use the command."


def against(value: int, limit: int) -> str:
    """A number and its limit."""
    return f"{value} (limit {limit})"


def problems_line(blocking: int, others: int) -> str:
    """How many problems of each kind."""
    told = [f"{blocking} that could hurt a client"] if blocking else []
    told += [f"{count(others, 'remark')}"] if others else []
    return listed(told) or FINE


def sheet_text(words: Sequence[str], made_for: str, app: str) -> str:
    """The recovery sheet as text to print: five lines of five words."""
    lines = [f"{app} recovery sheet" + (f" of {made_for}" if made_for else ""), "",
             "These 25 words, in this order, bring back the coach’s keys.",
             "Keep this sheet on paper somewhere private, and delete this file.", ""]
    lines += [f"{at + 1:>2}-{at + 5:<2}  {'  '.join(words[at:at + 5])}" for at in range(0, len(words), 5)]
    return "\n".join([*lines, ""])
