"""A coach's programme file, verified whole before anything of it is kept, and whose programme is followed."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum

from app.device.clock import Clock
from app.domain.branding.brand import CoachKey
from app.domain.errors import UntrustedSigner
from app.domain.model.names import reads_like
from app.domain.model.person import Person
from app.domain.model.source import Source
from app.exchange.crypto.keys import matching_words
from app.exchange.crypto.text_form import unwrapped
from app.exchange.packs.pack import Pack, read_pack
from app.exchange.packs.trust import PinnedCoach as Pinned
from app.exchange.packs.trust import Trust, pin, trust
from app.storage import packs, people, settings
from app.storage.database import Connection, Store
from app.storage.packs import KeptPack, StoredCoach

#: Setting: name by signing key, of coaches whose key was compared before any programme of theirs came.
EXPECTED = "expected_coaches"


class TrustStep(StrEnum):
    """What has to happen before a file is taken in."""

    COMPARE = "compare"
    """The coach is new here: the five words are to be compared first."""
    KNOWN = "known"
    EXPECTED = "expected"
    """The coach is new here, and the key came with the app or was compared before."""
    RENEWED = "renewed"
    """The coach has new keys, and a pinned key vouches for them: the five words are to be compared all the same."""


MUST_COMPARE = frozenset({TrustStep.COMPARE, TrustStep.RENEWED})
"""Nothing of a file that stands so is kept before somebody found the words the same."""


@dataclass(frozen=True)
class OpenedProgramme:
    """A programme file whose every byte was verified. Nothing of it is kept yet."""

    name: str
    standing: TrustStep
    words: tuple[str, ...]
    """The five words that the coach reads out."""
    coach_key: str
    replaces: str
    """The coach's key that was pinned before; empty for a coach who is new."""
    version_here: int | None
    """The highest version of this coach that is here, or None."""
    is_here: bool
    """This very file was taken in before."""
    epoch: int
    """What to pin with its keys, see `trust`."""
    known_as: str
    """The name under which its coach is known here; empty for a coach who is new."""
    pack: Pack = field(repr=False)
    data: bytes = field(repr=False)

    @property
    def source(self) -> Source:
        """The coach's work."""
        return self.pack.source


@dataclass(frozen=True)
class Followable:
    """A coach whose programmes are here, with the newest of them."""

    coach_key: str
    coach: str
    source: Source


async def open_pack(
    store: Store, clock: Clock, name: str, data: bytes, expected: Sequence[CoachKey] = (),
) -> OpenedProgramme:
    """Verifies a programme file, and says whether its signer is the coach that was agreed on. Keeps nothing.

    `data` may also be its text form. `expected`: the coaches whose keys came with the app or were compared before.

    Raises:
        FileError: it is no programme file, damaged, too large, of a newer format, or signed by another key than the
            one of the coach whose name it bears, or by one that the coach has replaced.
    """
    data = unwrapped(data, name)
    pack = await read_pack(data, name)
    now_s = int(clock.now().timestamp())
    with store.read() as db:
        coach = _pinned_for(pack, packs.pinned_coaches(db))
        retired = {bytes.fromhex(key): who for key, who in packs.retired_coaches(db).items()}
        before = _as_pinned(coach) if coach else None
        standing = trust(pack, before, name, now_s=now_s, retired=retired)
        newest = packs.newest_pack(db, coach.signing_key) if coach else None
        is_here = packs.is_kept(db, pack.sha256)
    return OpenedProgramme(
        name, _step(standing, pack, name, expected), matching_words(pack.signing_key),
        pack.signing_key.hex(), coach.signing_key if coach else "", newest.source.version if newest else None,
        is_here, pin(pack, before, now_s).epoch, coach.name if coach else "", pack, data,
    )


def _step(standing: Trust, pack: Pack, name: str, expected: Sequence[CoachKey]) -> TrustStep:
    """What has to happen before the pack is taken in."""
    if standing is Trust.KNOWN:
        return TrustStep.KNOWN
    if standing is Trust.FIRST_SIGHT:
        return _at_first(pack, name, expected)
    compared = pack.signing_key.hex() in {one.signing_key for one in expected}
    return TrustStep.EXPECTED if compared else TrustStep.RENEWED


def accept_pack(store: Store, clock: Clock, person_id: str, opened: OpenedProgramme) -> Person:
    """Keeps a verified file and pins its coach; somebody who follows nobody, or this coach, follows it now.

    Call it for a coach who is new, or has new keys, only after the five words were found the same.

    Raises:
        KeyError: nobody of that id.
    """
    with store.begin() as db:
        person = people.person(db, person_id)
        if person is None:
            raise KeyError(person_id)
        _keep(db, clock, opened)
        if person.coach_key in ("", opened.replaces, opened.coach_key):
            person = _following(person, opened.coach_key, opened.source, "", clock)
            people.save_person(db, person)
    return person


def keep_pack(store: Store, clock: Clock, opened: OpenedProgramme) -> None:
    """Keeps a verified file and pins its coach; nobody new follows it."""
    with store.begin() as db:
        _keep(db, clock, opened)


def _keep(db: Connection, clock: Clock, opened: OpenedProgramme) -> None:
    pack, now = opened.pack, clock.now()
    coach = StoredCoach(opened.coach_key, pack.coach, pack.sealing_key.hex(),
                        (pack.recovery_signing_key.hex(), pack.recovery_sealing_key.hex()), now, words_confirmed=True,
                        epoch=opened.epoch)
    if opened.standing is not TrustStep.KNOWN:
        packs.save_coach(db, coach)
    _no_longer_expected(db, opened.coach_key)
    packs.keep_pack(db, KeptPack(pack.sha256, opened.coach_key, pack.source, now), opened.data)
    if opened.replaces and opened.replaces != opened.coach_key:
        packs.retire_coach(db, opened.replaces, opened.coach_key, now)
        _no_longer_expected(db, opened.replaces)
        for other in people.people(db):
            if other.coach_key == opened.replaces:
                people.save_person(db, replace(other, coach_key=opened.coach_key))


def _no_longer_expected(db: Connection, key: str) -> None:
    """A pinned coach is known by the pin alone, so that a key that was replaced later opens nothing any more."""
    kept = settings.setting(db, EXPECTED, {})
    if key in kept:
        settings.save_setting(db, EXPECTED, {other: name for other, name in kept.items() if other != key})


def follow(store: Store, clock: Clock, person_id: str, coach_key: str, programme: str = "") -> Person:
    """From now on this coach's programme; the first one where none is named.

    Raises:
        KeyError: nobody of that id, or no programme of that coach.
    """
    with store.begin() as db:
        return follow_in(db, clock, person_id, coach_key, programme)


def follow_in(db: Connection, clock: Clock, person_id: str, coach_key: str, programme: str = "") -> Person:
    """The same within a transaction.

    Raises:
        KeyError: nobody of that id, or no programme of that coach.
    """
    person, kept = people.person(db, person_id), packs.newest_pack(db, coach_key)
    if person is None or kept is None:
        raise KeyError(person_id if person is None else coach_key)
    changed = _following(person, coach_key, kept.source, programme, clock)
    people.save_person(db, changed)
    return changed


def followables(store: Store) -> tuple[Followable, ...]:
    """Every coach whose programmes are here, by name."""
    with store.read() as db:
        return followables_in(db)


def followables_in(db: Connection) -> tuple[Followable, ...]:
    """The same within a transaction."""
    found = [(coach, packs.newest_pack(db, coach.signing_key)) for coach in packs.pinned_coaches(db)]
    return tuple(Followable(coach.signing_key, coach.name, kept.source) for coach, kept in found if kept)


def _following(person: Person, coach_key: str, source: Source, programme: str, clock: Clock) -> Person:
    """The person with a programme that exists; it starts today, unless they are in it already."""
    ids = [p.id for p in source.programmes]
    stays = person.programme if person.programme in ids else ""
    chosen = programme or stays or (ids[0] if ids else "")
    same = chosen == person.programme and person.coach_key != "" and person.started is not None
    day = person.started if same else clock.local(clock.now()).day
    return replace(person, coach_key=coach_key, programme=chosen, started=day)


def _as_pinned(coach: StoredCoach) -> Pinned:
    recovery = coach.recovery_keys[0] if coach.recovery_keys else ""
    return Pinned(bytes.fromhex(coach.signing_key), bytes.fromhex(recovery), coach.epoch)


def _pinned_for(pack: Pack, coaches: Sequence[StoredCoach]) -> StoredCoach | None:
    """The coach it claims to come from: by key, by the key that vouches for a new one, or by the name it bears.

    A strange key under a known name is what must not pass for a coach who is new.
    """
    key = pack.signing_key.hex()
    by = pack.key_change.by.hex() if pack.key_change else None
    tests = (
        lambda c: c.signing_key == key,
        lambda c: by is not None and by in (c.signing_key, *c.recovery_keys[:1]),
        lambda c: same_name(c.name, pack.coach),
    )
    return next((coach for test in tests for coach in coaches if test(coach)), None)


def _at_first(pack: Pack, name: str, expected: Sequence[CoachKey]) -> TrustStep:
    """What has to happen with a coach of whom nothing is pinned.

    Raises:
        UntrustedSigner: it bears the name of an expected coach, and nothing ties its key to theirs.
    """
    by_key = {one.signing_key for one in expected}
    if pack.signing_key.hex() in by_key:
        return TrustStep.EXPECTED
    vouched = pack.key_change is not None and pack.key_change.by.hex() in by_key
    if not vouched and any(same_name(pack.coach, one.name) for one in expected):
        raise UntrustedSigner(name=name, who=pack.coach)
    return TrustStep.COMPARE


def same_name(one: str, other: str) -> bool:
    """Whether two names are read as the same, also where they are spelt with other characters."""
    return one.casefold().split() == other.casefold().split() or reads_like(one, other)
