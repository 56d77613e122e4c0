"""What a coach gives away as a code: the key always, links only where the brand says where the app lies."""
from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from app.actions.desk import brand_apps, publishing
from app.actions.desk.codes import Code, Holds, codes
from app.device.abilities import PickedFile
from app.device.clock import ManualClock
from app.domain.branding.brand import EVENLOAD, CoachKey, Link
from app.exchange.crypto.key_text import key_from_text
from app.storage import settings
from app.storage.database import Store
from tests.exchange.fixed import run

BRANDS = Path(__file__).resolve().parents[3] / "build" / "brands"
ADDRESS = "https://steps.example/saltmarsh/"
ON_THE_WEB = replace(EVENLOAD, links=(Link("Timetable", "https://steps.example/times"), Link("Our app", ADDRESS, True)))


@pytest.fixture
def desk(store: Store, clock: ManualClock) -> Store:
    """A coach who has signed one programme."""
    run(publishing.ensure_coach_keys(store, clock))
    with store.begin() as db:
        settings.save_setting(db, publishing.NAME, "Nell Harker")
        settings.save_setting(db, publishing.PUBLISHED, {"quay": {"version": 3}})
    return store


def test_without_keys_there_is_nothing_to_give_away(store: Store) -> None:
    """They are made when the coach asks for them."""
    assert codes(store, ON_THE_WEB) == ()


def test_without_an_address_the_key_is_a_line(desk: Store) -> None:
    """Whose words are the coach's own."""
    (code,) = codes(desk, EVENLOAD)
    keys = publishing.coach_keys(desk)
    assert keys is not None and code.holds is Holds.KEY
    assert key_from_text(code.text, "x") == CoachKey("Nell Harker", keys.signing.public.hex())


def test_with_an_address_there_are_links_to_key_app_and_programmes(desk: Store) -> None:
    """Each below the app's own address."""
    key, app, pack = codes(desk, ON_THE_WEB)
    assert key.text.startswith(f"{ADDRESS}#/key?") and key_from_text(key.text, "x").name == "Nell Harker"
    assert app == Code(Holds.APP, ADDRESS)
    assert pack == Code(Holds.PACK, f"{ADDRESS}#/get?file=quay-3.evenload-pack", "quay-3.evenload-pack")


def test_a_brand_that_was_taken_in_says_where_its_app_lies(desk: Store) -> None:
    """Though the desk itself runs under another."""
    told = (BRANDS / "evenload.toml").read_text("utf-8")
    told += f'\n[[link]]\nwords = "Our app"\naddress = "{ADDRESS}"\napp = true\n'
    brand_apps.take_files(desk, [PickedFile("own.toml", told.encode())])
    assert [code.holds for code in codes(desk, EVENLOAD)] == [Holds.KEY, Holds.APP, Holds.PACK]
