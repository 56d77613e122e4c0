"""What lies on a device, kept from others: a sealed copy, and one without a passphrase."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from app.exchange.crypto.passphrase import is_sealed_copy
from app.words.client import at_rest
from app.words.client import today as client
from app.words.machine import web
from tests.stories.kept import dump
from tests.stories.person import PersonAt

PHRASE = "lantern gravel oboe unpaid"


@pytest.fixture
def data(following: Path, tmp_path: Path) -> Path:
    """Somebody who follows a programme and has answered nothing today."""
    return Path(shutil.copytree(following, tmp_path / "data"))


def test_a_sealed_copy_is_saved_and_put_back_with_its_passphrase_alone(
    person_at: PersonAt, data: Path, tmp_path: Path,
) -> None:
    """An easy passphrase seals nothing, a wrong one opens nothing, and everything is there again."""
    before, copy = dump(data), tmp_path / "records.evenload-copy"
    with person_at(data, "/settings") as walker:
        walker.press(at_rest.SAVE_SEALED).write(at_rest.PASSPHRASE, "12345").press(at_rest.SEAL_NOW)
        walker.sees(re.compile("^That passphrase is too easy to guess"))
        walker.write(at_rest.PASSPHRASE, PHRASE)
        with walker.download() as saved:
            walker.press(at_rest.SEAL_NOW).sees(web.SAVED_ALL)
        saved[0].save_as(copy)
        assert saved[0].suggested_filename.endswith(".evenload-copy") and is_sealed_copy(copy.read_bytes())
        walker.choose_file(web.PUT_BACK, copy).write(at_rest.ITS_PASSPHRASE, f"{PHRASE} no").press(web.PUT_BACK_NOW)
        walker.sees(re.compile("doesn’t open with that passphrase"))
        walker.write(at_rest.ITS_PASSPHRASE, PHRASE).press(web.PUT_BACK_NOW).sees(web.BACK_AGAIN)
    assert dump(data) == before


def test_a_passphrase_is_suggested_and_an_open_copy_comes_back_with_a_yes(
    person_at: PersonAt, data: Path, tmp_path: Path,
) -> None:
    """What is suggested is shown to be written down; cancelling leaves everything as it is."""
    copy = tmp_path / "records.db"
    with person_at(data, "/settings") as walker:
        walker.press(at_rest.SAVE_SEALED, at_rest.SUGGEST).sees(at_rest.WRITE_DOWN).press(client.CANCEL)
        walker.sees_no_button(at_rest.SEAL_NOW)
        with walker.download() as saved:
            walker.press(web.SAVE_ALL).sees(web.SAVED_ALL)
        saved[0].save_as(copy)
        walker.choose_file(web.PUT_BACK, copy).press(client.CANCEL).sees_no_button(web.PUT_BACK_NOW)
        walker.choose_file(web.PUT_BACK, copy).press(web.PUT_BACK_NOW).sees(web.BACK_AGAIN)
