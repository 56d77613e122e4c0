"""Whatever comes in from outside is read or refused: in time, in little memory, with an error of ours, and unkept."""
from __future__ import annotations

from collections.abc import Iterator

import pytest

from app.domain.errors import DamagedFile
from tests.sampling import examples
from tests.trust import inputs
from tests.trust.hunting import hunt
from tests.trust.inputs import INPUTS, Input
from tests.trust.mutation import some_bytes


@pytest.fixture(autouse=True, scope="module")
def _tidied() -> Iterator[None]:
    yield
    inputs.tidy()


@pytest.mark.parametrize("name", INPUTS)
def test_changed_inputs_are_read_or_refused(name: str) -> None:
    """A few of each kind here; `python -m tests.trust --inputs N` tries as many as one likes."""
    found = hunt(name, examples(25, 2_000))
    assert found.crashed == {}
    assert found.tried == found.refused + found.taken > 0


def _broken(monkeypatch: pytest.MonkeyPatch, one: Input) -> dict[str, bytes]:
    monkeypatch.setitem(INPUTS, "broken", one)
    return hunt("broken", 200).crashed


def test_the_hunt_finds_a_reader_that_crashes(monkeypatch: pytest.MonkeyPatch) -> None:
    """It would say so: an error that is not ours is none to be raised."""
    def read(data: bytes) -> object:
        return data.decode("ascii")
    assert any("UnicodeDecodeError" in seen for seen in _broken(monkeypatch, Input(read, lambda: [b"a b"],
                                                                                     (some_bytes,))))


def test_the_hunt_finds_what_is_kept_of_a_refused_input(monkeypatch: pytest.MonkeyPatch) -> None:
    """Also where the error is one of ours."""
    kept: list[bytes] = []

    def read(data: bytes) -> object:
        kept.append(data)
        if data != b"a b":
            raise DamagedFile(name="file", why="changed")
        return data
    one = Input(read, lambda: [b"a b"], (some_bytes,), kept=lambda: str(len(kept)))
    assert any("was kept" in seen for seen in _broken(monkeypatch, one))


def test_the_hunt_finds_what_takes_too_long(monkeypatch: pytest.MonkeyPatch) -> None:
    """By the processor's own time, so that a busy machine blames nobody."""
    monkeypatch.setattr("tests.trust.hunting.MOST_S", 0.0)
    found = _broken(monkeypatch, Input(lambda data: sum(range(10_000)), lambda: [b"a b"], (some_bytes,)))
    assert any(seen.startswith("slow") for seen in found)
