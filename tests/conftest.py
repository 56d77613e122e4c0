"""What every test may ask for, and the switch between sampled and whole suites.

A test marked `@pytest.mark.whole(keep=3)` with many parameter sets runs three of them, evenly spread, and all of them
with `--all`. A property test takes its number of examples from `tests.sampling.examples`.
"""
from __future__ import annotations

import os
import shutil
from collections import defaultdict
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from app.device.clock import ManualClock
from app.device.recording import RecordingDevice
from tests.browser.prepared import prepare
from tests.hung import pytest_runtest_protocol, pytest_terminal_summary
from tests.sampling import SWITCH, is_whole, spread

__all__ = ["pytest_runtest_protocol", "pytest_terminal_summary"]

settings.register_profile("sampled", max_examples=30, deadline=None, derandomize=True,
                          suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("whole", max_examples=500, deadline=None, suppress_health_check=[HealthCheck.too_slow])


TREE = "the stories in the tree, and what they have reached"


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--all", action="store_true", dest="whole", help="run every long suite whole")


def pytest_configure(config: pytest.Config) -> None:
    if config.getoption("whole"):
        os.environ[SWITCH] = "1"
    settings.load_profile("whole" if is_whole() else "sampled")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if not is_whole():
        sample(config, items)
    # what takes one process long begins first
    items.sort(key=lambda item: together(item.nodeid) != TREE)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: object) -> object:
    """What several processes run: see `together`."""
    from xdist.scheduler import LoadScopeScheduling

    class Together(LoadScopeScheduling):
        def _split_scope(self, nodeid: str) -> str:
            return together(nodeid)

    return Together(config, log)


def together(nodeid: str) -> str:
    """The name of those that one process runs, one after the other.

    What all stories of the tree have drawn is looked at after them; a file of browser tests shares what it sets up;
    the rest goes one by one to whichever process is free.
    """
    file, _, name = nodeid.partition("::")
    folder = file.split("/")[1] if file.count("/") > 1 else ""
    if folder in ("stories", "tree") and "[browser" not in name:
        return TREE
    return file if folder in ("browser", "bench", "simulate", "serving") else nodeid


def sample(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leaves of each long suite only the tests that it keeps."""
    suites: defaultdict[tuple[Path, str], list[pytest.Item]] = defaultdict(list)
    for item in items:
        if item.get_closest_marker("whole"):
            suites[item.path, item.nodeid.partition("[")[0]].append(item)
    left_out: set[pytest.Item] = set()
    for suite in suites.values():
        mark = suite[0].get_closest_marker("whole")
        left_out.update(set(suite) - set(spread(suite, mark.kwargs.get("keep", 3) if mark else 3)))
    if left_out:
        config.hook.pytest_deselected(items=list(left_out))
        items[:] = [item for item in items if item not in left_out]


@pytest.fixture
def data_dir(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A fresh data directory that every command of this test uses."""
    folder = tmp_path / "data"
    folder.mkdir()
    monkeypatch.setenv("EVENLOAD_DATA", str(folder))
    return folder


@pytest.fixture(scope="session")
def demo_data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's story as it stands on one certain morning. To be copied, not to be changed."""
    return prepare("demo", tmp_path_factory.mktemp("story") / "data")


@pytest.fixture(scope="session")
def ready(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Somebody whose session is one press away. To be copied."""
    return prepare("ready", tmp_path_factory.mktemp("ready") / "data")


@pytest.fixture(scope="session")
def following(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Somebody who follows a programme and has answered nothing today. To be copied."""
    return prepare("following", tmp_path_factory.mktemp("following") / "data")


@pytest.fixture(scope="session")
def led(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Somebody whom a daughter leads, whose session is one press away. To be copied."""
    return prepare("led", tmp_path_factory.mktemp("led") / "data")


@pytest.fixture(scope="session")
def alone(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Somebody alone whose session is one press away. To be copied."""
    return prepare("alone", tmp_path_factory.mktemp("alone") / "data")


@pytest.fixture(scope="session")
def browser_path() -> str:
    """The Chromium that browser tests drive: `python3 build/dev.py test` finds or fetches one and names it."""
    named = os.environ.get("EVENLOAD_BROWSER") or shutil.which("chromium") or shutil.which("google-chrome")
    assert named, "name a Chromium in EVENLOAD_BROWSER, or leave browser tests out with -m 'not browser'"
    return named


@pytest.fixture
def clock() -> ManualClock:
    """A clock that stands still at 07:30 UTC on Monday, 2 March 2026 until a test moves it."""
    return ManualClock(datetime(2026, 3, 2, 7, 30, tzinfo=UTC))


@pytest.fixture
def device() -> RecordingDevice:
    """A machine that can do everything and writes down what it was asked."""
    return RecordingDevice()
