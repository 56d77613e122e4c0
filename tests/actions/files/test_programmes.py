"""A programme file is verified whole before anything is kept, and only the coach's own passes for the coach's."""
from __future__ import annotations

from dataclasses import replace

import pytest

from app.actions import people
from app.actions.files import programmes
from app.actions.files.programmes import OpenedProgramme, TrustStep
from app.device.clock import ManualClock
from app.domain.branding.brand import CoachKey
from app.domain.errors import DamagedFile, FileError, OlderKeys, RetiredKey, UntrustedSigner
from app.domain.model.person import Person
from app.domain.model.programme import Programme, Week
from app.domain.model.source import Source
from app.exchange.crypto.keys import CoachKeys, matching_words
from app.exchange.packs.manifest import public_keys, signed_key_change
from app.exchange.packs.pack import build_pack
from app.storage import packs
from app.storage.database import Store
from app.storage.export import logical_dump
from tests.exchange.damage import cut, flipped
from tests.exchange.fixed import COACH, RECOVERY_SIGNING, SOURCE, STRANGER, coach_keys, run
from tests.exchange.forgery import forged


@pytest.fixture
def ada(store: Store, clock: ManualClock) -> Person:
    """Somebody who follows nobody yet."""
    return people.register(store, clock, Person("", "Ada"))


def packed(source: Source = SOURCE, coach: CoachKeys = COACH, **more: object) -> bytes:
    """A programme file."""
    return run(build_pack(source, coach=coach, **more))  # type: ignore[arg-type]


def opened(store: Store, clock: ManualClock, data: bytes) -> OpenedProgramme:
    """The file, verified."""
    return run(programmes.open_pack(store, clock, "quay.evenload-pack", data))


def dump(store: Store) -> str:
    """All that is kept."""
    with store.read() as db:
        return logical_dump(db)


def test_a_new_coach_s_file_shows_the_words_and_keeps_nothing(store: Store, clock: ManualClock) -> None:
    """Until somebody has compared them."""
    before = dump(store)
    first = opened(store, clock, packed())
    assert first.standing is TrustStep.COMPARE
    assert first.words == matching_words(COACH.signing.public)
    assert first.version_here is None
    assert dump(store) == before


def test_accepting_pins_the_coach_and_follows_the_programme(store: Store, clock: ManualClock, ada: Person) -> None:
    """From that day on."""
    followed = programmes.accept_pack(store, clock, ada.id, opened(store, clock, packed()))
    assert (followed.coach_key, followed.programme) == (COACH.signing.public.hex(), "month")
    assert followed.started == clock.now().date()
    with store.read() as db:
        kept = packs.newest_pack(db, followed.coach_key)
        pinned = packs.pinned_coach(db, followed.coach_key)
    assert kept is not None and kept.source == SOURCE
    assert pinned is not None and pinned.words_confirmed
    assert pinned.recovery_keys == (COACH.recovery_signing.hex(), COACH.recovery_sealing.hex())


def test_the_next_file_of_the_same_coach_asks_nothing(store: Store, clock: ManualClock, ada: Person) -> None:
    """And the programme goes on from the day it was begun."""
    begun = programmes.accept_pack(store, clock, ada.id, opened(store, clock, packed()))
    run(clock.advance(7 * 86_400))
    second = opened(store, clock, packed(replace(SOURCE, version=4)))
    assert (second.standing, second.version_here) == (TrustStep.KNOWN, 3)
    assert programmes.accept_pack(store, clock, ada.id, second).started == begun.started


@pytest.mark.parametrize("harm", [
    lambda data: next(iter(flipped(data))), lambda data: data[:-1], lambda data: b"", lambda data: b"PK\x03\x04" + data,
    lambda data: data[: len(data) // 2] + bytes([data[len(data) // 2] ^ 1]) + data[len(data) // 2 + 1:],
])
def test_a_damaged_file_is_refused_and_nothing_changes(store: Store, clock: ManualClock, harm: object) -> None:
    """Whatever was done to it."""
    before = dump(store)
    with pytest.raises(FileError):
        opened(store, clock, harm(packed()))  # type: ignore[operator]
    assert dump(store) == before


@pytest.mark.whole(keep=4)
@pytest.mark.parametrize("at", range(40))
def test_a_file_cut_short_is_refused(store: Store, clock: ManualClock, at: int) -> None:
    """Wherever the transfer broke off."""
    data = packed()
    short = list(cut(data, max(1, len(data) // 40)))[at]
    with pytest.raises(FileError):
        opened(store, clock, short)


def test_a_strange_key_under_a_known_name_is_refused(store: Store, clock: ManualClock, ada: Person) -> None:
    """It never comes to comparing words: a coach who is known is not new."""
    programmes.accept_pack(store, clock, ada.id, opened(store, clock, packed()))
    before = dump(store)
    with pytest.raises(UntrustedSigner):
        opened(store, clock, packed(replace(SOURCE, coach="nell  HARKER"), STRANGER))
    assert dump(store) == before


def test_two_coaches_live_side_by_side(store: Store, clock: ManualClock, ada: Person) -> None:
    """The one that is followed stays so until somebody chooses."""
    programmes.accept_pack(store, clock, ada.id, opened(store, clock, packed()))
    other = replace(SOURCE, id="hill", coach="Aron Vale",
                    programmes=(Programme("a", "A", (Week(("short",)),)), Programme("b", "B", (Week(("short",)),))))
    still = programmes.accept_pack(store, clock, ada.id, opened(store, clock, packed(other, STRANGER)))
    assert still.coach_key == COACH.signing.public.hex()
    assert [f.coach for f in programmes.followables(store)] == ["Aron Vale", "Nell Harker"]
    chosen = programmes.follow(store, clock, ada.id, STRANGER.signing.public.hex(), "b")
    assert (chosen.coach_key, chosen.programme) == (STRANGER.signing.public.hex(), "b")


def test_new_keys_vouched_for_replace_the_old_ones(store: Store, clock: ManualClock, ada: Person) -> None:
    """Whoever followed the coach goes on; what the old key signs passes no more."""
    programmes.accept_pack(store, clock, ada.id, opened(store, clock, packed()))
    new = replace(coach_keys(61))
    change = run(signed_key_change(public_keys(new), RECOVERY_SIGNING))
    renewed = opened(store, clock, packed(replace(SOURCE, version=5), new, key_change=change))
    assert renewed.standing is TrustStep.RENEWED
    assert programmes.accept_pack(store, clock, ada.id, renewed).coach_key == new.signing.public.hex()
    with pytest.raises(UntrustedSigner):
        opened(store, clock, packed(replace(SOURCE, version=6)))


def renewal(coach: CoachKeys, epoch: int, version: int) -> bytes:
    """A programme with new keys, named by the sheet's."""
    change = run(signed_key_change(public_keys(coach), RECOVERY_SIGNING, epoch))
    return packed(replace(SOURCE, version=version), coach, key_change=change)


def test_a_replaced_key_never_comes_back(store: Store, clock: ManualClock, ada: Person) -> None:
    """K0, K1, K2: then packs of K1 and K0, old and new, are refused, and nothing is kept of them."""
    one, two, now = coach_keys(61), coach_keys(71), int(clock.now().timestamp())
    programmes.accept_pack(store, clock, ada.id, opened(store, clock, packed()))
    first, second = renewal(one, now - 90, 4), renewal(two, now, 5)
    for data in (first, second):
        renewed = opened(store, clock, data)
        assert (renewed.standing, renewed.known_as) == (TrustStep.RENEWED, "Nell Harker")
        programmes.accept_pack(store, clock, ada.id, renewed)
    before = dump(store)
    newer = renewal(one, now + 60, 9)
    for data in (first, newer, packed(replace(SOURCE, version=7), one), packed(replace(SOURCE, version=8))):
        with pytest.raises(RetiredKey):
            opened(store, clock, data)
    stranger = coach_keys(81)
    for data in (renewal(stranger, now, 9), renewal(stranger, now - 1, 9)):
        with pytest.raises(OlderKeys):
            opened(store, clock, data)
    assert dump(store) == before


def test_new_keys_are_compared_like_the_first_ones(store: Store, clock: ManualClock, ada: Person) -> None:
    """Opening such a file keeps nothing; only a key that was compared before asks nothing more."""
    programmes.accept_pack(store, clock, ada.id, opened(store, clock, packed()))
    before, new = dump(store), coach_keys(61)
    data = renewal(new, int(clock.now().timestamp()), 4)
    renewed = opened(store, clock, data)
    assert renewed.standing in programmes.MUST_COMPARE and renewed.words == matching_words(new.signing.public)
    assert dump(store) == before
    compared = (CoachKey("Nell Harker", new.signing.public.hex()),)
    assert run(programmes.open_pack(store, clock, "a", data, compared)).standing is TrustStep.EXPECTED


@pytest.mark.parametrize("name", [
    "N\u0435ll Harker", "Nell\u200b Harker", "\u202eNell Harker", "\uff2e\uff45\uff4c\uff4c \uff28\uff41rker",
    "Nell Harker.", "Ne\u0301ll Harker", "NELL\u00a0HARKER", "Ne11 Harker", " Nell  Harker ", "Nell \u2068Harker\u2069",
])
def test_a_name_that_reads_like_a_known_one_is_that_name(store: Store, clock: ManualClock, ada: Person, name: str
                                                         ) -> None:
    """Spelt with other letters, with what is invisible, with another width."""
    programmes.accept_pack(store, clock, ada.id, opened(store, clock, packed()))
    with pytest.raises(FileError):
        opened(store, clock, forged(replace(SOURCE, coach=name), STRANGER))


def test_a_file_of_somebody_else_s_making_is_named_so(store: Store, clock: ManualClock) -> None:
    """A pack whose body belongs to another pack is damaged, not new."""
    one, two = packed(), packed(replace(SOURCE, version=4))
    with pytest.raises(DamagedFile):
        opened(store, clock, one[:250] + two[250:])
