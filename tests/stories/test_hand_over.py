"""A programme comes in as pasted text, and the coach's key goes out as a code."""
from __future__ import annotations

import re
import shutil
from dataclasses import replace
from pathlib import Path

from app.domain.branding.brand import CoachKey
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.key_text import key_line
from app.exchange.crypto.keys import matching_words
from app.exchange.crypto.text_form import MOST_PACK_BYTES, to_text
from app.exchange.letters.replies import write_reply
from app.exchange.packs.manifest import public_keys, signed_key_change
from app.exchange.packs.pack import build_pack
from app.words.client import hand_over as words
from app.words.client import today as client
from app.words.coach import publish
from tests.exchange.fixed import CLIENT, COACH, RECOVERY_SIGNING, REPLY, SOURCE, STRANGER, coach_keys, run
from tests.stories.person import DESKTOP, Person, PersonAt
from tests.stories.turns import COACH as THE_COACH
from tests.stories.turns import Demo

NEW = coach_keys(61)
PACK = run(build_pack(SOURCE, coach=COACH))
#: Made here and not within a story, where a browser driver may have a loop going.
CHANGE = run(signed_key_change(public_keys(NEW), RECOVERY_SIGNING, 1_760_000_000))
RENEWED = to_text(run(build_pack(replace(SOURCE, version=4), coach=NEW, key_change=CHANGE)), Kind.PACK)
REPLY_TEXT = to_text(run(write_reply(REPLY, coach=COACH.signing, readers=[CLIENT.sealing.public])), Kind.REPLY)
STRANGE_KEY = key_line(CoachKey("Somebody Else", STRANGER.signing.public.hex()))
NAME = "march.evenload-pack"
HERE = re.compile(f"^{SOURCE.coach}’s programme is now on this device")


def paste(walker: Person, text: str) -> Person:
    """Pastes a text where the programmes are."""
    return walker.press(words.PASTE_OPEN).paste(words.PASTE_FIELD, text).press(words.TAKE)


def compared(walker: Person, key: bytes) -> Person:
    """Reads the five words of a key, and finds them the same."""
    walker.sees_heading(client.MATCH_HEAD).sees(*(re.compile(f"^{word}$") for word in matching_words(key)))
    return walker.press(client.SAME)


def test_a_programme_and_a_key_are_pasted(person_at: PersonAt, ready: Path, tmp_path: Path) -> None:
    """With the same question as for a file; what is none of ours is told in a sentence."""
    data = Path(shutil.copytree(ready, tmp_path / "data"))
    large = to_text(bytes(2 * MOST_PACK_BYTES), Kind.RETURN).replace("return", "pack")
    with person_at(data, "/programme") as walker:
        walker.sees_heading(client.PROGRAMME_TITLE)
        for text, said in (("Good morning", "This text isn’t a programme"), (REPLY_TEXT, "is a message from a coach"),
                           (to_text(PACK, Kind.PACK)[:900], "This text is damaged"),
                           (large, "This text is too large to paste .* choose the file"),
                           (f"https://steps.example/#/get?file={NAME}", f"Links to {NAME} work only when")):
            paste(walker, text).sees(re.compile(said))
        compared(paste(walker, to_text(PACK, Kind.PACK)), COACH.signing.public).sees(HERE)
        compared(paste(walker, STRANGE_KEY), STRANGER.signing.public).sees(words.key_kept("Somebody Else"))
        paste(walker, STRANGE_KEY).sees(words.key_known("Somebody Else"))
        walker.go("/get?file=x").sees(re.compile("^Links to x work only when"))


def test_new_keys_stand_still_until_the_words_are_compared(person_at: PersonAt, ready: Path, tmp_path: Path) -> None:
    """A notice, no sentence in passing: who finds other words takes nothing in; later the old key opens nothing."""
    data = Path(shutil.copytree(ready, tmp_path / "data"))
    with person_at(data, "/programme") as walker:
        compared(paste(walker, to_text(PACK, Kind.PACK)), COACH.signing.public).sees(HERE)
        paste(walker, RENEWED).sees(words.new_keys_head(SOURCE.coach), words.new_keys_why(SOURCE.coach))
        walker.press(client.NOT_SAME).sees(client.NOT_SAME_SAID)
        compared(paste(walker, RENEWED), NEW.signing.public).sees(re.compile(re.escape(words.KEYS_TAKEN_OVER)))
        paste(walker, to_text(PACK, Kind.PACK)).sees(re.compile("is signed with a key that .* has replaced"))


def test_the_desk_shows_a_code_of_the_key(person_at: PersonAt, demo_data: Path, tmp_path: Path) -> None:
    """With the words under it; as a picture it can be kept."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(THE_COACH)
    with person_at(demo.data, "/publish", size=DESKTOP) as walker:
        walker.sees_heading(publish.PUBLISH_TITLE)
        walker.press(words.CODE_OPEN).sees(words.code_name(words.KEY_CODE))
        five, again = (line for line in walker.spoken() if "   " in line)
        assert five == again
        with walker.download() as got:
            walker.press(words.SAVE_PICTURE)
        assert got[0].suggested_filename == "qr-key.svg"
        got[0].save_as(tmp_path / "key.svg")
        assert b"<svg" in (tmp_path / "key.svg").read_bytes()
        walker.press(words.CODE_CLOSE).sees_button(words.CODE_OPEN)
