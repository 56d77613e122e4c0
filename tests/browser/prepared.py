"""Data directories as they are after some steps, made by the app's own actions.

    python -m tests.browser.prepared KIND DIR

In a process of its own, since the browser driver keeps this one's event loop.
"""
from __future__ import annotations

import asyncio
import subprocess
import sys
import tempfile
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from app.actions import people
from app.actions.desk import publishing
from app.actions.files import programmes
from app.actions.training import check_in
from app.demo.clock import StoryClock
from app.demo.story import tell_story
from app.device.clock import SystemClock
from app.domain.dosing.screening import LIST_NOW
from app.domain.model.body import Spot, parse_spot
from app.domain.model.client import Client, Place
from app.domain.model.person import Person
from app.domain.model.record import CheckIn
from app.exchange.forms.source import read_source
from app.resources import resource_dir
from app.storage.database import Store, open_store
from tests.browser.server import ROOT, surroundings

#: When the demo's six weeks are over in pictures and tests; its server's clock begins here too.
MORNING = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)
SOURCE = resource_dir("assets") / "programmes" / "brackwater"


def prepare(kind: str, folder: Path) -> Path:
    """Makes a data directory of that kind, from outside."""
    subprocess.run([sys.executable, "-m", "tests.browser.prepared", kind, str(folder)], cwd=ROOT, check=True,
                   env=surroundings())
    return folder


def ready_client(store: Store) -> None:
    """Somebody whose answers of this morning are in: Start is open."""
    _answered(store, person_with_programme(store), {})


def _answered(store: Store, person: Person, pain: dict[Spot, int]) -> None:
    clock = SystemClock()
    blank = check_in.with_signs(check_in.blank_check_in(clock, person.id), ())
    told: CheckIn = replace(blank, pain=pain, soreness={parse_spot("left hip"): 2}, slept=4, energy=4, calm=4)
    card = check_in.save_check_in(store, clock, told)
    assert card.timeline and card.timeline.steps


def led_client(store: Store) -> None:
    """Somebody whose daughter leads him: this morning's answers are in, the left knee a little sore."""
    _answered(store, person_with_programme(store, name="Anton Brekke", led_by="Ragna", sex="man",
                                           emergency_contact="Ragna, 555 0102"), {parse_spot("left knee"): 2})


def alone_client(store: Store) -> None:
    """Somebody who trains alone and was shown everything."""
    body = Client(kit=HOME, weights_g=(2000, 4000), alone=True, shown=frozenset(read_source(SOURCE).library()))
    _answered(store, person_with_programme(store, body=body), {})


def person_with_programme(store: Store, **more: object) -> Person:
    """Somebody who follows the demo programme and has answered nothing today."""
    clock = SystemClock()
    today = clock.local(clock.now()).day
    usual: dict[str, object] = {"name": "Greta Olsen", "body": Client(kit=HOME, weights_g=(2000, 4000), alone=False)}
    person = people.register(store, clock, Person(
        "", places=(Place("Home", HOME, floor=True, noise=True),), place="Home", birth_year=1958,
        country="GB", emergency_number="999", started=today, screened=today,
        answered_list=LIST_NOW, **(usual | more),  # type: ignore[arg-type]
    ))
    opened = asyncio.run(_opened(store))
    return programmes.accept_pack(store, clock, person.id, opened)


HOME = frozenset({"chair", "worktop", "dumbbell", "mat", "wall"})


async def _opened(store: Store) -> programmes.OpenedProgramme:
    """The demo pack of a coach elsewhere."""
    with tempfile.TemporaryDirectory() as other:
        theirs = open_store(Path(other))
        built = await publishing.build(theirs, StoryClock(SystemClock().now() - timedelta(days=3)), SOURCE)
        theirs.close()
    assert built.data
    return await programmes.open_pack(store, SystemClock(), built.name, built.data)


def demo(store: Store) -> None:
    """The demo's story, as it stands on one certain morning."""
    tell_story(store, StoryClock(MORNING))


KINDS: dict[str, Callable[[Store], object]] = {"ready": ready_client, "following": person_with_programme,
                                              "demo": demo, "led": led_client, "alone": alone_client}


def main() -> None:
    """Makes one."""
    kind, folder = sys.argv[1:]
    store = open_store(Path(folder))
    KINDS[kind](store)
    store.close()


if __name__ == "__main__":
    main()
