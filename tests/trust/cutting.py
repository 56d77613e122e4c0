"""Cuts: a process ended, or its disk failing, in the midst of something; then the question what is left.

    LD_PRELOAD=failing_disk.so python -m tests.trust.cutting COUNT [SEED] [--only NAME] [--small-disk]

JSON, one line a cut. A small disk is one of its own, mounted for it, full but for a few blocks at some of the cuts.

Each undertaking is first done whole, noting every state between two transactions. Then a forked process does it again
and meets its fault; what it said that it had done has to be there afterwards, and nothing that is half of a step.
"""
from __future__ import annotations

import argparse
import json
import os
import random
import re
import shutil
import sqlite3
import sys
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager, nullcontext
from dataclasses import asdict, dataclass, field
from pathlib import Path

from app.domain.errors import AppError
from app.storage.copies import is_whole
from app.storage.database import Connection, Store, open_store
from app.storage.export import logical_dump
from tests.trust.disk import ENDED, Disk, Fault
from tests.trust.small_disk import filled, small_disk
from tests.trust.undertakings import HERS, UNDERTAKINGS, Undertaking, World

#: Keys, digests and ids; those that chance makes are others each time, and count as the same.
_TOKEN = re.compile(r"[0-9A-Za-z+/]{32,}=*")


@dataclass(frozen=True)
class Cut:
    """One cut and what was left. `wrong` is empty where all was well."""

    undertaking: str
    fault: str
    moment: int
    acknowledged: int
    """So many steps."""
    told: str
    """How the process ended: `cut`, `done`, or the name of the error that it was told."""
    wrong: str = ""


@dataclass
class Whole:
    """An undertaking done whole: its states in their order, which of them stood after each step, and its moments."""

    states: list[str] = field(default_factory=list)
    after: list[int] = field(default_factory=list)
    moments: dict[Fault, int] = field(default_factory=dict)
    fixed: frozenset[str] = frozenset()
    """Keys, digests and ids that are the same each time."""

    def add(self, state: str) -> None:
        """A state, where it is another one than before."""
        if not self.states or self.states[-1] != state:
            self.states.append(state)


    def leave(self, once_more: Whole) -> None:
        """Leaves in the states what is the same when it is done once more."""
        self.fixed = frozenset(_tokens(self.states) & _tokens(once_more.states))
        self.states = [self.seen(state) for state in self.states]

    def seen(self, state: str) -> str:
        """A state without what chance has made."""
        plain = _TOKEN.sub(lambda found: found[0] if found[0] in self.fixed else "*", state)
        return "\n".join(sorted(plain.splitlines()))


def _tokens(states: Sequence[str]) -> set[str]:
    return {token for state in states for token in _TOKEN.findall(state)}


def state_of(store: Store) -> str:
    """Everything that is kept, as text."""
    with store.read() as db:
        return logical_dump(db)


class Cutter:
    """Data directories as they begin, kept to be copied; and cuts."""

    def __init__(self, place: Path, disk: Disk, small: Path | None = None) -> None:
        self._place, self._disk, self._small = place, disk, small
        self._wholes: dict[str, Whole] = {}

    def whole(self, name: str) -> Whole:
        """The undertaking done whole, once."""
        if name not in self._wholes:
            self._wholes[name] = self._done_whole(name)
        return self._wholes[name]

    def begun(self, name: str) -> Path:
        """A fresh data directory for it."""
        kept = self._place / f"{name}, as it begins"
        if not kept.exists():
            UNDERTAKINGS[name].begins(kept)
        folder = (self._small or self._place) / "now"
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(kept, folder)
        return folder

    def _done_whole(self, name: str) -> Whole:
        whole = self._noted(name)
        whole.leave(self._noted(name))
        # once more, without a look at the states in between, for its moments
        folder = self.begun(name)
        self._disk.arm(folder, Fault.NOTHING, 0)
        _steps(name, folder, lambda: None)
        whole.moments.update({fault: self._disk.count(fault) for fault in self._disk.faults})
        return whole

    def _noted(self, name: str) -> Whole:
        """Its states, and which of them stood after each step."""
        whole, world = Whole(), World(self.begun(name))
        whole.add(state_of(world.store))
        whole.after.append(0)
        for step in UNDERTAKINGS[name].steps():
            with _noting(whole):
                step(world)
            whole.add(state_of(world.store))
            whole.after.append(len(whole.states) - 1)
        world.store.close()
        return whole

    def cut(self, name: str, fault: Fault, moment: int) -> Cut:
        """Does it again with that fault at that moment, and looks at what is left."""
        whole = self.whole(name)
        folder = self.begun(name)
        with filled(folder.parent, moment) if fault is Fault.FULL else nullcontext():
            acknowledged, told = self._forked(name, folder, fault, moment)
            crashed = _opened_while_full(folder) if fault is Fault.FULL else ""
        wrong = crashed if told in ("cut", "done") or told.startswith("told ") else f"crashed: {told}"
        wrong = wrong or left_wrong(folder, whole, acknowledged, UNDERTAKINGS[name])
        return Cut(name, fault.words, moment, acknowledged, told, wrong)

    def _forked(self, name: str, folder: Path, fault: Fault, moment: int) -> tuple[int, str]:
        """How many steps were acknowledged, and how it ended."""
        self._disk.arm(Path("/nowhere"), Fault.NOTHING, 0)
        hears, says = os.pipe()
        child = os.fork()
        if child == 0:
            self._disk.arm(folder, fault, moment)
            _end_child(name, folder, says)
        os.close(says)
        with os.fdopen(hears) as lines:
            said = lines.read().splitlines()
        status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
        told = "cut" if status == ENDED else said[-1] if said and said[-1] != "step" else f"exit {status}"
        return said.count("step"), told


def _opened_while_full(folder: Path) -> str:
    """What is wrong with opening it before there is room again: it may be refused in a sentence."""
    try:
        open_store(folder).close()
    except AppError:
        return ""
    except Exception as error:
        return f"opened on a full disk: {type(error).__name__} {error}"
    return ""


def left_wrong(folder: Path, whole: Whole, acknowledged: int, undertaking: Undertaking) -> str:
    """What is wrong with what was left; empty: nothing."""
    try:
        store = open_store(folder)
    except AppError as error:
        return f"it does not open: {type(error).__name__}"
    found = whole.seen(state_of(store))
    store.close()
    with closing(sqlite3.connect(folder / "evenload.db")) as db:
        if db.execute("PRAGMA integrity_check").fetchone()[0] != "ok" or db.execute(
                "PRAGMA foreign_key_check").fetchall():
            return "it is not sound"
    last = min(acknowledged + 1, len(whole.after) - 1)
    if found not in whole.states[whole.after[acknowledged]:whole.after[last] + 1]:
        return "what was acknowledged is not there" if found in whole.states else "something half is there"
    return _wrong_beside(folder, undertaking.erases and found == whole.states[-1])



def _wrong_beside(folder: Path, erased: bool) -> str:
    """Of the files beside the store."""
    for path in folder.rglob("*"):
        if not path.is_file():
            continue
        if re.search(r"(\.copy-\w+-\d+|\.db)$", path.name) and path.name[0] != "." and not is_whole(path):
            return f"{path.name} is not whole"
        if erased and HERS in path.read_bytes():
            return f"{path.name} holds what was erased"
    return ""


@contextmanager
def _noting(whole: Whole) -> Iterator[None]:
    """Within it, every transaction that writes is followed by a look at what then is kept."""
    begin = Store.begin

    @contextmanager
    def noted(store: Store) -> Iterator[Connection]:
        with begin(store) as db:
            yield db
        whole.add(state_of(store))
    Store.begin = noted  # type: ignore[method-assign]
    try:
        yield
    finally:
        Store.begin = begin  # type: ignore[method-assign]


def _steps(name: str, folder: Path, acknowledge: Callable[[], None]) -> None:
    world = World(folder)
    for step in UNDERTAKINGS[name].steps():
        step(world)
        acknowledge()
    world.store.close()


def _end_child(name: str, folder: Path, says: int) -> None:
    """Does it all, says so, and ends without anything that Python does at an end."""
    try:
        _steps(name, folder, lambda: _say(says, "step"))
        _say(says, "done")
    except AppError as error:
        _say(says, f"told {type(error).__name__}")
    except BaseException as error:
        frame = error.__traceback__
        while frame and frame.tb_next:
            frame = frame.tb_next
        place = f"{Path(frame.tb_frame.f_code.co_filename).name}:{frame.tb_lineno}" if frame else ""
        _say(says, f"{type(error).__name__} {error} at {place}".replace("\n", " "))
    finally:
        os._exit(0)


def _say(says: int, words: str) -> None:
    os.write(says, f"{words}\n".encode())


def cuts(count: int, seed: int, only: str, place: Path, small: Path | None = None) -> list[Cut]:
    """So many cuts at chosen moments, each undertaking and each fault in turn."""
    disk, rng, found = Disk(is_small=small is not None), random.Random(seed), []
    cutter = Cutter(place, disk, small)
    names = [name for name in UNDERTAKINGS if only in name]
    begun = rng.randrange(len(names) or 1)
    for number in range(count if names else 0):
        name = names[(begun + number) % len(names)]
        faults = [fault for fault in disk.faults if cutter.whole(name).moments.get(fault, 0)]
        if not faults:
            continue
        fault = rng.choice(faults)
        found.append(cutter.cut(name, fault, rng.randint(1, cutter.whole(name).moments[fault])))
    return found


def main() -> int:
    """Prints each cut as JSON; 1 where something was lost."""
    asked = argparse.ArgumentParser(prog="python -m tests.trust.cutting")
    asked.add_argument("count", type=int)
    asked.add_argument("seed", type=int, nargs="?", default=1)
    asked.add_argument("--only", default="")
    asked.add_argument("--small-disk", action="store_true", help="on a real small disk, which is full now and then")
    args = asked.parse_args()
    in_memory = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None  # what is kept there outlives a process too
    with (tempfile.TemporaryDirectory(prefix="evenload-cuts-", dir=in_memory) as place,
          small_disk(Path(place)) if args.small_disk else nullcontext() as small):
        if args.small_disk and small is None:
            print("No small disk: this machine or this user cannot mount one.", file=sys.stderr)
        found = cuts(args.count, args.seed, args.only, Path(place), small)
    for one in found:
        print(json.dumps(asdict(one)), flush=True)
    return 1 if any(one.wrong for one in found) else 0


if __name__ == "__main__":
    sys.exit(main())
