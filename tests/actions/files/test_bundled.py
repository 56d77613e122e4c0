"""What came with an app is trusted as if the words had been compared, and nothing else is."""
from __future__ import annotations

from dataclasses import replace

import pytest

from app.actions import people
from app.actions.files import programmes
from app.actions.files.bundled import register_with_coach, take_bundled
from app.actions.files.programmes import TrustStep
from app.device.clock import ManualClock
from app.domain.branding.brand import EVENLOAD, CoachKey
from app.domain.errors import DamagedFile, UntrustedSigner
from app.domain.model.person import Person
from app.exchange.packs.manifest import public_keys, signed_key_change
from app.exchange.packs.pack import build_pack
from app.storage import packs
from app.storage.database import Store
from app.storage.export import logical_dump
from tests.exchange.fixed import COACH, SOURCE, STRANGER, run

PACK = run(build_pack(SOURCE, coach=COACH))
KEY = CoachKey(SOURCE.coach, COACH.signing.public.hex())
BRAND = replace(EVENLOAD, coaches=(KEY,), packs=("a.evenload-pack",))


def dump(store: Store) -> str:
    with store.read() as db:
        return logical_dump(db)


def test_a_bundled_pack_is_here_and_its_coach_known(store: Store, clock: ManualClock) -> None:
    """So that the coach's next pack needs no words either."""
    assert run(take_bundled(store, clock, BRAND, [("a", PACK)])) == ()
    with store.read() as db:
        (coach,) = packs.pinned_coaches(db)
    assert (coach.signing_key, coach.words_confirmed) == (KEY.signing_key, True)
    newer = run(build_pack(replace(SOURCE, version=SOURCE.version + 1), coach=COACH))
    assert run(programmes.open_pack(store, clock, "b", newer)).standing is TrustStep.KNOWN


def test_the_second_start_changes_nothing(store: Store, clock: ManualClock) -> None:
    """Nor a hundred more."""
    run(take_bundled(store, clock, BRAND, [("a", PACK)]))
    before = dump(store)
    run(clock.advance(60_000))
    assert run(take_bundled(store, clock, BRAND, [("a", PACK)])) == ()
    assert dump(store) == before


def test_a_pack_of_a_coach_whom_the_brand_does_not_name_is_refused(store: Store, clock: ManualClock) -> None:
    """Whatever lies in the folder; the others are taken in all the same."""
    strange = run(build_pack(replace(SOURCE, coach="Somebody Else"), coach=STRANGER))
    refused = run(take_bundled(store, clock, BRAND, [("x", strange), ("a", PACK)]))
    assert [type(error) for error in refused] == [UntrustedSigner]
    assert [one.coach_key for one in programmes.followables(store)] == [KEY.signing_key]


def test_a_damaged_pack_is_said_and_stops_nothing(store: Store, clock: ManualClock) -> None:
    """An app must start without it."""
    refused = run(take_bundled(store, clock, BRAND, [("x", PACK[:-40]), ("a", PACK)]))
    assert [type(error) for error in refused] == [DamagedFile]
    assert len(programmes.followables(store)) == 1


def test_an_expected_coach_s_file_needs_no_words(store: Store, clock: ManualClock) -> None:
    """The key came with the app; without the brand the words are asked for."""
    assert run(programmes.open_pack(store, clock, "a", PACK, BRAND.coaches)).standing is TrustStep.EXPECTED
    assert run(programmes.open_pack(store, clock, "a", PACK)).standing is TrustStep.COMPARE


def test_another_key_under_an_expected_name_is_refused(store: Store, clock: ManualClock) -> None:
    """Unless the expected key says that it is the coach's now; then the words are compared."""
    theirs = run(build_pack(SOURCE, coach=STRANGER))
    with pytest.raises(UntrustedSigner):
        run(programmes.open_pack(store, clock, "x", theirs, BRAND.coaches))
    change = run(signed_key_change(public_keys(STRANGER), COACH.signing))
    vouched = run(build_pack(SOURCE, coach=STRANGER, key_change=change))
    assert run(programmes.open_pack(store, clock, "x", vouched, BRAND.coaches)).standing is TrustStep.COMPARE


def test_somebody_new_follows_the_one_coach_of_the_app(store: Store, clock: ManualClock) -> None:
    """And nobody is moved from a coach whom they chose."""
    run(take_bundled(store, clock, BRAND, [("a", PACK)]))
    ada = register_with_coach(store, clock, BRAND, Person("", "Ada"))
    assert ada.coach_key == KEY.signing_key and people.current_person(store) == ada
    bo = register_with_coach(store, clock, BRAND, Person("", "Bo", coach_key="00" * 32))
    assert bo.coach_key == "00" * 32 and people.current_person(store) == bo


def test_without_a_coach_or_with_two_nobody_is_chosen(store: Store, clock: ManualClock) -> None:
    """The person chooses."""
    assert register_with_coach(store, clock, BRAND, Person("", "Ada")).coach_key == ""
    both = replace(BRAND, coaches=(KEY, CoachKey("Other", STRANGER.signing.public.hex())))
    other = run(build_pack(replace(SOURCE, coach="Other"), coach=STRANGER))
    assert run(take_bundled(store, clock, both, [("a", PACK), ("b", other)])) == ()
    assert register_with_coach(store, clock, both, Person("", "Bo")).coach_key == ""
