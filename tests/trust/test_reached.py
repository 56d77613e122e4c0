"""The hunt follows what is new: it finds behind several doors what chance alone does not."""
from __future__ import annotations

import random
from collections.abc import Callable

import pytest

from tests.trust.hunting import hunt
from tests.trust.inputs import INPUTS, Input
from tests.trust.reached import Reached

KEY, LETTERS = b"quays", b"abcdeilnoqrstuvy"
DOORS = "def read(data):\n" + "".join(
    f"{'    ' * at}    if data[{at}] == {letter}:\n" for at, letter in enumerate(KEY)) + (
    "    " * len(KEY) + "    raise KeyError('behind the last door')\n")
START, TRIES = b"." * len(KEY), 10_000


def _doors() -> Callable[[bytes], object]:
    """A reader as if it were the program's own."""
    found: dict[str, Callable[[bytes], object]] = {}
    exec(compile(DOORS, "/app/doors.py", "exec"), found)
    return found["read"]


def _a_letter(rng: random.Random, data: bytes) -> bytes:
    at = rng.randrange(len(KEY))
    return data[:at] + bytes([rng.choice(LETTERS)]) + data[at + 1:]


def test_a_turn_is_new_once() -> None:
    """And what follows the program's own code alone is not seen in the code of a test."""
    read, reached = _doors(), Reached()
    for data, is_new in ((START, True), (START, False), (b"q...e", True), (b"q...e", False), (b"qu..e", True)):
        with reached.watched():
            read(data)
        assert reached.is_new is is_new, data
    turns = reached.turns
    with reached.watched():
        _a_letter(random.Random(1), START)
    assert reached.turns == turns


@pytest.mark.parametrize("seed", [1, 2])
def test_the_hunt_gets_behind_doors_that_chance_does_not_open(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Five letters at once are guessed once in a million tries; one after another in some thousands."""
    monkeypatch.setitem(INPUTS, "doors", Input(_doors(), lambda: [START], (_a_letter,)))
    assert any("last door" in seen for seen in hunt("doors", TRIES, seed).crashed)


def test_chance_alone_does_not_open_them() -> None:
    """So the test above says something: changes heaped on one another, with nobody who looks at what they did."""
    rng, data = random.Random(1), START
    for _ in range(TRIES):
        data = _a_letter(rng, data)
        assert not data.startswith(KEY)
