"""Each story is told twice: in the tree of the app's own controls, and in Chromium."""
from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

import pytest

from tests.browser.conftest import browser, playwright
from tests.browser.driver import Walker
from tests.browser.prepared import SOURCE
from tests.browser.server import ROOT, Server
from tests.stories.person import PHONE, PersonAt
from tests.tree.window import window

__all__ = ["browser", "playwright"]


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """All in the tree; in Chromium under `--all`, and under `test` those that are marked for it."""
    if "person_at" in metafunc.fixturenames:
        marks = [pytest.mark.browser]
        if not metafunc.definition.get_closest_marker("in_chromium"):
            marks.append(pytest.mark.whole(keep=0))
        told = [pytest.param("tree", id="tree"), pytest.param("browser", id="browser", marks=marks)]
        metafunc.parametrize("person_at", told, indirect=True)


@pytest.fixture
def person_at(request: pytest.FixtureRequest) -> PersonAt:
    """Somebody at a window of the app: one in this process, or one of a browser with a server behind it."""
    if request.param == "tree":
        return window
    chromium = request.getfixturevalue("browser")

    @contextmanager
    def served(data: Path, at: str = "/", *, began: datetime | None = None, rate: float = 1,
               size: tuple[int, int] = PHONE) -> Iterator[Walker]:
        data.mkdir(parents=True, exist_ok=True)
        more = [*(["--began", began.isoformat()] if began else []), *(["--rate", str(rate)] if rate != 1 else [])]
        server = Server(data, *more).start()
        try:
            with Walker(chromium, size=size) as walker:
                yield walker.open(server.at(at))
        finally:
            server.stop()
        assert not server.complaints()
    return served


@pytest.fixture(scope="session")
def pack(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo programme, signed by a coach elsewhere."""
    folder = tmp_path_factory.mktemp("coach")
    file = folder / "brackwater.evenload-pack"
    command = [sys.executable, "-m", "app.cli", "pack", str(SOURCE), "-o", str(file), "--data", str(folder / "data")]
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    return file
