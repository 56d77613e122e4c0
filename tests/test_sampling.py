"""`test` samples long suites and `test --all` runs them whole."""
from __future__ import annotations

import pytest

from tests.conftest import TREE, together
from tests.sampling import SWITCH, examples, is_whole, spread


def test_a_sample_is_spread_from_the_first_to_the_last() -> None:
    """Evenly, and never more than there is."""
    assert spread(range(10), 4) == [0, 3, 6, 9]
    assert spread(range(10), 1) == [0]
    assert spread(range(3), 5) == [0, 1, 2]
    assert len(set(spread(range(100), 37))) == 37


@pytest.mark.parametrize(("switch", "many"), [("1", 10_000), ("", 200)])
def test_the_switch_says_how_many_examples(switch: str, many: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """A property is tried far more often in a whole run."""
    monkeypatch.setenv(SWITCH, switch)
    assert examples(200, 10_000) == many


@pytest.mark.whole(keep=4)
@pytest.mark.parametrize("number", range(40))
def test_a_long_suite_is_really_sampled(number: int, request: pytest.FixtureRequest) -> None:
    """This very one: four of its forty are here, unless the whole is."""
    here = [item for item in request.session.items if item.name.startswith("test_a_long_suite_is_really_sampled[")]
    assert is_whole() or len(here) <= 4


def test_what_belongs_together_runs_in_one_process() -> None:
    """Stories of the tree with what they have reached; a file of browser tests; anything else alone."""
    assert together("tests/stories/test_led.py::test_a[tree]") == together("tests/tree/test_reached.py::test_b") == TREE
    assert together("tests/stories/test_led.py::test_a[browser]") != TREE
    assert together("tests/browser/test_kill.py::test_a[3]") == "tests/browser/test_kill.py"
    assert together("tests/test_names.py::test_a") == "tests/test_names.py::test_a"
