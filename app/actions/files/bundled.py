"""The packs that came with a coach's own app, and who follows their coach.

Looked at on every start, and nearly always all here: what reads a pack is loaded only when one is not.
"""
from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable

from app.actions.people import register_in
from app.device.clock import Clock
from app.domain.branding.brand import Brand
from app.domain.errors import AppError, UntrustedSigner
from app.domain.model.person import Person
from app.storage import packs
from app.storage.database import Store

Bundled = Callable[[], Iterable[tuple[str, bytes]]]
"""Name and bytes of each pack that came with the app, read anew at each call."""


async def take_bundled(
    store: Store, clock: Clock, brand: Brand, files: Iterable[tuple[str, bytes]]
) -> tuple[AppError, ...]:
    """Takes in the packs of the brand that are not here yet; gives what was wrong with those that were refused.

    They are trusted since their coach's key came with the app. Call it at each start, and after everything was
    erased: what is here stays as it is.
    """
    refused = []
    for name, data in files:
        try:
            if not _is_here(store, data):
                await _take(store, clock, brand, name, data)
        except AppError as error:
            refused.append(error)
    return tuple(refused)


def register_with_coach(store: Store, clock: Clock, brand: Brand, person: Person) -> Person:
    """Adds somebody who trains here, whose turn it is now.

    They follow the brand's coach, where there is exactly one whose programme is here and they follow nobody yet.
    """
    from app.actions.files import programmes

    with store.begin() as db:
        person = register_in(db, clock, person)
        here = {one.coach_key for one in programmes.followables_in(db)}
        found = [one.signing_key for one in brand.coaches if one.signing_key in here]
        if person.coach_key or len(found) != 1:
            return person
        return programmes.follow_in(db, clock, person.id, found[0])


def _is_here(store: Store, data: bytes) -> bool:
    with store.read() as db:
        return packs.is_kept(db, hashlib.sha256(data).hexdigest())


async def _take(store: Store, clock: Clock, brand: Brand, name: str, data: bytes) -> None:
    """Raises:
        FileError: it is damaged, or signed by a key that the brand does not name and nobody has compared.
    """
    from app.actions.files import programmes

    opened = await programmes.open_pack(store, clock, name, data, brand.coaches)
    if opened.standing in programmes.MUST_COMPARE:
        raise UntrustedSigner(name=name, who=" or ".join(one.name for one in brand.coaches) or "anybody named here")
    programmes.keep_pack(store, clock, opened)
