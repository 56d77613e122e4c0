"""A browser test that hangs, or whose browser draws no more, is ended, repeated once, and told of in the summary.

Some waits of a browser driver have no limit of their own: asking a page something, opening and closing windows. After
the limit every process that the tests have started is ended, but for the driver itself, which then reports what it was
waiting for; should the driver be what hangs, it is ended too. Where the system has no `/proc`, nothing is ended, and
`faulthandler_timeout` alone says where it hangs.
"""
from __future__ import annotations

import faulthandler
import os
import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from itertools import chain
from pathlib import Path

import pytest
from _pytest.runner import runtestprotocol

LIMIT = "EVENLOAD_BROWSER_LIMIT_S"
LIMIT_S = 300.0
DRIVER_S = 20.0
"""So much later the driver is ended too."""
FROZEN = "The browser has drawn nothing for"
"""So begins what a test fails with when its browser has ceased to draw: seen of Chromium after a change of size."""
DRIVER = b"playwright"
HUNG = "hung"
"""The name under which a report carries its line, from whichever process ran the test."""


def limit_s() -> float:
    """Seconds that one browser test may take, with what it sets up."""
    return float(os.environ.get(LIMIT, LIMIT_S))


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_protocol(item: pytest.Item, nextitem: pytest.Item | None) -> bool | None:
    """Runs a browser test within its limit; only one that was ended by it, or drew no more, is repeated."""
    if item.get_closest_marker("browser") is None:
        return None
    item.ihook.pytest_runtest_logstart(nodeid=item.nodeid, location=item.location)
    with limited(limit_s()) as ended:
        reports = runtestprotocol(item, nextitem=nextitem, log=False)
    failed = [report.longreprtext for report in reports if report.failed]
    frozen = any(FROZEN in text for text in failed)
    if failed and (ended.is_set() or frozen):
        item.session._setupstate.teardown_exact(None)  # another browser, other servers
        item._initrequest()  # type: ignore[attr-defined]
        with limited(limit_s()):
            reports = runtestprotocol(item, nextitem=nextitem, log=False)
        how = "failed" if any(report.failed for report in reports) else "passed"
        what = "drew no more" if frozen else f"hung for {limit_s():.0f} s"
        line = f"{item.nodeid} {what} and was repeated: {how}"
        reports[-1].user_properties.append((HUNG, line))
    for report in reports:
        item.ihook.pytest_runtest_logreport(report=report)
    item.ihook.pytest_runtest_logfinish(nodeid=item.nodeid, location=item.location)
    return True


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """A line for each test that hung."""
    for report in chain.from_iterable(terminalreporter.stats.values()):
        for name, line in getattr(report, "user_properties", ()):
            if name == HUNG:
                terminalreporter.write_line(f"HUNG: {line}", yellow=True)


@contextmanager
def limited(seconds: float) -> Iterator[threading.Event]:
    """What is started within is ended after so many seconds; the event says whether that happened."""
    ended, done = threading.Event(), threading.Event()

    def watch() -> None:
        if done.wait(seconds):
            return
        ended.set()
        faulthandler.dump_traceback(all_threads=True)
        end_all(but=DRIVER)
        if not done.wait(DRIVER_S):
            end_all(but=b"")

    watching = threading.Thread(target=watch, daemon=True)
    watching.start()
    try:
        yield ended
    finally:
        done.set()
        watching.join()


def end_all(*, but: bytes) -> None:
    """Ends every process that this one has started, directly or not, whose command does not hold those words."""
    for pid in descendants(os.getpid()):
        with suppress(OSError):
            if not but or but not in Path(f"/proc/{pid}/cmdline").read_bytes().split(b"\0--")[0]:
                os.kill(pid, signal.SIGKILL)


def descendants(pid: int) -> list[int]:
    """All children, and theirs."""
    parents: dict[int, list[int]] = {}
    for stat in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            child, after = stat.read_text("utf-8", "replace").split(" ", 1)
            parents.setdefault(int(after.rpartition(")")[2].split()[1]), []).append(int(child))
    found, ahead = [], [pid]
    while ahead:
        more = parents.get(ahead.pop(), [])
        found += more
        ahead += more
    return found
