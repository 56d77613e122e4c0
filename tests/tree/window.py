"""The app on a data directory, without a browser."""
from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from app.device.device import open_device
from app.device.store_place import StorePlace
from app.domain.branding.brand import EVENLOAD, Brand
from app.main import build_app
from app.serving.tracks import shelf_in
from app.storage.database import open_store
from tests.stories.person import PHONE
from tests.tree.driver import TreeWalker
from tests.tree.still_loop import LoopClock, StillLoop

FASTEST = 80
"""Within two beats of the player less than two seconds pass, so it never takes the machine for one that slept."""


@contextmanager
def window(data: Path, at: str = "/", *, began: datetime | None = None, rate: float = 1,
           size: tuple[int, int] = PHONE, calm: bool = True,
           brand: Brand = EVENLOAD, place: StorePlace | None = None) -> Iterator[TreeWalker]:
    """Somebody at an address. Time costs nothing here, so a rate beyond the fastest is as good as that.

    `calm`: whether the machine asks for no motion. `place`: where it runs, if not as a program of this machine.
    """
    data.mkdir(parents=True, exist_ok=True)
    loop, store = StillLoop(), open_store(data)
    clock = LoopClock(loop, began or datetime.now(UTC), min(rate, FASTEST))
    main = build_app(store, partial(open_device, shelf=shelf_in(data), place=place), clock, brand)
    try:
        with TreeWalker(loop, main, size=size, calm=calm) as walker:
            yield walker.open(at)
    finally:
        store.close()
