"""The hunt: inputs changed again and again from those that took a turn in the code that none took before.

Each one is bounded in time and memory.
"""
from __future__ import annotations

import random
import re
import signal
import sys
import time
import traceback
import zlib
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from tests.trust.inputs import INPUTS, Input
from tests.trust.reached import Reached

#: Processor seconds, and MiB beyond what the program takes before it reads, that any one input may take.
MOST_S, MOST_MIB = 1.0, 200
#: Nothing waits longer than this for an input to end, by the clock on the wall.
GIVEN_UP_S = 60
#: Inputs that are kept to begin from again; the newest stay.
CORPUS = 400
LONGEST, LARGE = 2_000_000, 200_000
"""Bytes of an input; and from which on none is kept to begin from."""

_VM_HWM = re.compile(rb"VmHWM:\s*(\d+)")


class GaveUp(BaseException):
    """An input was not read to its end in time."""


@dataclass
class Hunted:
    """What became of the inputs of one kind. `crashed`: what was seen, with the input, each signature once."""

    name: str
    tried: int = 0
    refused: int = 0
    taken: int = 0
    slowest_s: float = 0.0
    largest_mib: float = 0.0
    crashed: dict[str, bytes] = field(default_factory=dict)
    signatures: set[str] = field(default_factory=set)
    turns: int = 0
    """Of the program's code that some input has taken, see `reached.py`."""

    def row(self) -> tuple[str, ...]:
        """One line of the table."""
        return (self.name, str(self.tried), str(self.refused), str(self.taken), str(len(self.crashed)),
                f"{self.slowest_s:.2f} s", f"{self.largest_mib:.0f} MiB", str(len(self.signatures)), str(self.turns))


HEAD = ("input", "tried", "refused", "taken in", "crashed", "slowest", "largest", "outcomes", "turns")


def hunt(name: str, tries: int, seed: int = 1) -> Hunted:
    """So many changed inputs of a kind. The same numbers give the same inputs, as far as the program is the same."""
    one, found = INPUTS[name], Hunted(name)
    rng = random.Random(zlib.crc32(f"{name} {seed}".encode()))
    whole, corpus, reached = list(one.seeds()), list[bytes](), Reached()
    for data in whole:  # a whole one is taken in, and what is loaded for it counts as nobody's
        with reached.watched():
            one.read(data)
    kept, base = one.kept(), _most_mib()
    for _ in range(max(1, round(tries * one.share)) if tries else 0):
        data = rng.choice(one.ways)(rng, _one_of(rng, whole, corpus))[:LONGEST]
        signature = _try(one, data, found, reached)
        found.largest_mib = max(found.largest_mib, _most_mib() - base)
        if found.largest_mib > MOST_MIB:
            found.crashed.setdefault(f"memory: {found.largest_mib:.0f} MiB", data)
        now = one.kept()
        if signature != "taken" and now != kept:
            found.crashed.setdefault(f"something of a refused input was kept: {signature}", data)
        kept = now
        is_new = reached.is_new or signature not in found.signatures
        found.signatures.add(signature)
        if is_new and len(data) < LARGE:
            corpus = [*corpus, data][-CORPUS:]
    found.turns = reached.turns
    return found


def _one_of(rng: random.Random, whole: list[bytes], corpus: list[bytes]) -> bytes:
    """What is changed next: a whole one, one of the last few that were new, or any that was."""
    match rng.randrange(4):
        case 0:
            return rng.choice(whole)
        case 1:
            return corpus[-1 - int(rng.expovariate(0.5)) % len(corpus)] if corpus else rng.choice(whole)
    return rng.choice(corpus or whole)


def _try(one: Input, data: bytes, found: Hunted, reached: Reached) -> str:
    """Reads it; gives what came of it and where, the same for inputs that did the same."""
    found.tried += 1
    began = time.process_time()
    try:
        with _given_up(), reached.watched():
            one.read(data)
        found.taken += 1
        signature = "taken"
    except one.errors as error:
        found.refused += 1
        signature = _signature(error)
    except (Exception, GaveUp) as error:
        signature = _signature(error)
        found.crashed.setdefault(f"{signature}: {str(error)[:120]}", data)
    took = time.process_time() - began
    if took > MOST_S:  # being watched takes time of its own
        took = min(took, _alone(one, data))
    found.slowest_s = max(found.slowest_s, took)
    if took > MOST_S:
        found.crashed.setdefault(f"slow: {signature}", data)
    return signature


def _alone(one: Input, data: bytes) -> float:
    """Processor seconds that it takes when nobody watches."""
    began = time.process_time()
    with suppress(Exception, GaveUp), _given_up():
        one.read(data)
    return time.process_time() - began


def _signature(error: BaseException) -> str:
    frames = [f for f in traceback.extract_tb(error.__traceback__) if "/app/" in f.filename]
    place = f" at {Path(frames[-1].filename).name}:{frames[-1].lineno}" if frames else ""
    said = getattr(error, "what", {})
    why = re.sub(r"\d+", "0", str(said.get("why") or said.get("expected") or ""))[:60]
    return f"{type(error).__name__}{place} {why}".strip()


@contextmanager
def _given_up() -> Iterator[None]:
    """Ends whatever takes too long, where the machine can."""
    if not hasattr(signal, "SIGALRM"):
        yield
        return

    def stop(*_: object) -> None:
        raise GaveUp

    before = signal.signal(signal.SIGALRM, stop)
    signal.alarm(GIVEN_UP_S)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def bound_memory(gib: int = 3) -> None:
    """From here on an input that asks for gigabytes ends with an error instead of ending the machine."""
    with suppress(ImportError, ValueError, OSError):
        import resource
        resource.setrlimit(resource.RLIMIT_AS, (gib << 30, resource.getrlimit(resource.RLIMIT_AS)[1]))


def _most_mib() -> float:
    """The most memory that this process has had."""
    status = Path("/proc/self/status")
    if status.exists():
        return int(_VM_HWM.search(status.read_bytes())[1]) / 1024  # type: ignore[index]
    if sys.platform == "win32":
        return 0.0  # nobody can say
    import resource
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1024**2 if sys.platform == "darwin" else 1024)
