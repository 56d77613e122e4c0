"""A newer version of the offline web app on its host: how it is fetched, when it is used, and what may never happen."""
from __future__ import annotations

import base64
import json
import re
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext

from app import __version__
from app.storage.copies import keep_copy
from app.storage.schema import LINEAGE
from app.words import parts
from app.words.client import diary, player, today, welcome
from app.words.machine import web
from tests.browser.lab import BrokeThere, Lab
from tests.browser.offline import Visitor
from tests.browser.static_site import StaticSite
from tests.browser.versions import (
    ASKED,
    CHANGED,
    GREETING,
    HEAD,
    NEW,
    PROBES,
    SERVED,
    STATE,
    UNASKED,
    Host,
    Versions,
    assert_served,
    hashes,
    kept,
    make_versions,
    wait_until,
)

pytestmark = pytest.mark.browser

MOUNT = """
    from app.device.private_files import mount
    where = await mount("evenload", wait_s=10.0)
    path = where / "evenload.db"
"""
PUT = MOUNT + """
    import base64
    path.write_bytes(base64.b64decode(data))
"""
#: The records as they are, as they were put aside before the upgrade, and which version of the tables they have.
READ = MOUNT + """
    import sqlite3
    from app.storage.copies import copies
    def rows(place):
        db = sqlite3.connect(place)
        told = [db.execute(words).fetchall() for words in (
            "select id, name, payload from person order by id", "select * from record order by person_id, id",
            "select version_num from alembic_version", "pragma integrity_check")]
        db.close()
        return told
    answer = json.dumps([rows(path), [[one.name, rows(one)] for one in copies(path)]], default=str)
"""
HASHES = MOUNT + """
    import hashlib, os
    answer = json.dumps({name: hashlib.sha256((where / name).read_bytes()).hexdigest() for name in os.listdir(where)})
"""


@pytest.fixture(scope="module")
def versions(tmp_path_factory: pytest.TempPathFactory) -> Versions:
    """Made once."""
    return make_versions(tmp_path_factory.mktemp("versions"))


def put_store(context: BrowserContext, host: Host, store: Path) -> None:
    """Lays a store into the browser, as if it had been written there."""
    copy = keep_copy(store / "evenload.db", LINEAGE.head)
    lab = Lab(context, host.address)
    lab.run(PUT, data=base64.b64encode(copy.read_bytes()).decode())
    lab.close()


def in_lab(context: BrowserContext, host: Host, code: str) -> Any:
    """What code says of the store once the app is closed."""
    lab = Lab(context, host.address)
    told = lab.run(code)
    lab.close()
    return told


@pytest.mark.whole(keep=0)
def test_it_comes_while_a_session_runs_and_is_used_from_the_next_start(
    browser: Browser, versions: Versions, ready: Path,
) -> None:
    """Only what differs is fetched; the session goes on to its end; then the store is upgraded and nothing missing."""
    with Host(versions.old) as host, Visitor(browser, host.address) as visitor:
        put_store(visitor.context, host, ready)
        visitor.visit().keep().page.evaluate(SERVED, ASKED)
        host.publish(versions.new, held=CHANGED[0])
        visitor.start_anew().sees_button(today.START)
        wait_until(visitor.page, "coming")  # a browser may put it off while sound is played
        visitor.press(today.START).sees(re.compile("left$")).page.evaluate("window.mark = 'the same page'")
        before = time_left(visitor)
        host.let_go()
        wait_until(visitor.page, "waits")
        assert_served(visitor.page, versions.old)
        visitor.page.wait_for_timeout(1_500)
        assert "/play" in visitor.page.url and time_left(visitor) != before
        visitor.press(player.PAUSE, player.END).press(re.compile(f"^{player.END_REASONS[0][1]}"))
        visitor.sees(diary.HOW_HARD).choose(parts.of(diary.HOW_HARD_SHORT, 5, 10),
                                                 diary.NOTHING_HURTS)
        visitor.press(diary.SAVE).sees_heading(diary.KEPT)
        visitor.go("#/settings").sees(web.version_line(__version__), web.NEWER_WAITS)
        assert visitor.page.evaluate("window.mark") == "the same page"
        assert set(host.asked) == PROBES | {f"/{name}" for name in CHANGED}
        visitor.start_anew().sees_heading(today.DONE_HEAD)
        assert_served(visitor.page, versions.new)
        visitor.go("#/settings").sees(web.version_line(NEW))
        assert web.NEWER_WAITS not in visitor.spoken()
        wait_until(visitor.page, "activated")
        assert kept(visitor.page)["app.bin"] == {hashes(versions.new)["app.bin"]}
        visitor.page.goto("about:blank")
        assert_upgraded(ready, in_lab(visitor.context, host, READ))


def time_left(visitor: Visitor) -> list[str]:
    """What the player says of the time."""
    return [line for line in visitor.spoken() if line.endswith(" left")]


def assert_upgraded(ready: Path, told: Any) -> None:
    """The tables are new, the rows are those of before, among them what was there first and one session more."""
    now, aside = told
    (name, before), = [(name, rows) for name, rows in aside if rows[2] == [[LINEAGE.head]]][-1:]
    assert name.startswith(f"evenload.db.copy-{LINEAGE.head}-")
    assert now[:2] == before[:2] and now[2:] == [[[HEAD]], [["ok"]]]
    with closing(sqlite3.connect(ready / "evenload.db")) as db:
        first = {row[0] for row in db.execute("select id from record")}
    more = [row for row in now[1] if row[1] not in first]
    assert first and {row[1] for row in now[1]} >= first and [row[2] for row in more].count("session") == 1


@pytest.mark.whole(keep=0)
def test_broken_off_or_damaged_it_leaves_the_older_one_whole_and_is_completed_later(
    browser: Browser, versions: Versions,
) -> None:
    """What is fetched is kept and not fetched again; what does not match its hash is never kept; no start is lost."""
    new, last = hashes(versions.new), CHANGED[-1]
    with Host(versions.old) as host, Visitor(browser, host.address) as visitor:
        visitor.visit().sees_heading(welcome.TITLE).keep().page.evaluate(SERVED, ASKED)
        host.publish(versions.new)
        host.dies_at = last
        visitor.start_anew().sees_heading(welcome.TITLE)
        host.wait_for(f"/{last}", visitor.page)
        assert_old_is_whole(visitor, versions)

        host.dies_at, host.is_dead, host.wrong = "", False, {last: b"another host's page"}
        host.asked.clear()
        visitor.forgive().start_anew().sees_heading(welcome.TITLE)
        host.wait_for(f"/{last}", visitor.page)
        assert_old_is_whole(visitor, versions)
        assert set(host.asked) == PROBES | {f"/{last}"}

        host.publish(versions.new, held=last)  # a browser asks by itself at times, and may have it before a start
        host.wrong.clear()
        visitor.forgive().start_anew().sees_heading(welcome.TITLE)
        host.let_go()
        wait_until(visitor.page, "waits")
        assert_served(visitor.page, versions.old)
        asked = PROBES | {f"/{last}"}
        assert visitor.until(lambda: set(host.asked), asked) == asked
        visitor.page.reload()
        visitor.listen().sees_heading(GREETING)
        assert_served(visitor.page, versions.new)
        assert kept(visitor.page)[last] == {new[last]} and UNASKED not in kept(visitor.page)


def assert_old_is_whole(visitor: Visitor, versions: Versions) -> None:
    """The older version is served and kept whole; of the newer one only what matches its hash."""
    wait_until(visitor.page, "activated")
    assert_served(visitor.page, versions.old)
    old, new, found = hashes(versions.old), hashes(versions.new), kept(visitor.page)
    assert all(old[name] in sums <= {old[name], new[name]} for name, sums in found.items())
    assert {name for name, sums in found.items() if len(sums) == 2} == set(CHANGED[:-1])


@pytest.mark.whole(keep=0)
def test_no_other_window_is_changed_under_somebody(browser: Browser, versions: Versions) -> None:
    """While one window shows the older version a second one is given it too; the newer comes once they are closed."""
    with Host(versions.old) as host, Visitor(browser, host.address) as visitor:
        visitor.visit().sees_heading(welcome.TITLE).keep()
        first = visitor.page
        first.evaluate("window.mark = 'the same page'")
        host.publish(versions.new)
        visitor.new_tab()
        visitor.visit().sees_heading(web.BUSY_TITLE)
        wait_until(visitor.page, "waits")
        visitor.page.reload()
        visitor.listen().sees_heading(web.BUSY_TITLE)
        assert visitor.page.evaluate(STATE) == "waits"
        assert_served(first, versions.old)
        assert first.evaluate("window.mark") == "the same page"
        first.close()
        visitor.sees_heading(welcome.TITLE)
        visitor.page.reload()
        visitor.listen().sees_heading(GREETING)


@pytest.mark.whole(keep=0)
def test_an_older_version_leaves_newer_records_alone_says_so_and_goes_on_once_it_can(
    browser: Browser, versions: Versions, ready: Path, tmp_path: Path,
) -> None:
    """Plain words and not one byte; then the newer version is fetched, and the page goes on by itself."""
    with Host(versions.new) as host, Visitor(browser, host.address) as visitor:
        put_store(visitor.context, host, ready)
        visitor.visit().sees_button(today.START).keep()
        host.publish(versions.old)
        visitor.start_anew().sees_button(today.START)
        wait_until(visitor.page, "waits")
        visitor.page.goto("about:blank")
        before = in_lab(visitor.context, host, HASHES)
        visitor.visit()
        either = re.compile(f"^({re.escape(today.START)}|{re.escape(web.NEWER_TITLE)})$")
        for _ in range(20):  # the browser puts the waiting version in its place once the page before is gone
            if not visitor.sees(either).shows_button(today.START):
                break
            visitor.page.goto("about:blank")
            visitor.wait(1).visit()
        visitor.sees_heading(web.NEWER_TITLE).sees(re.compile("nothing was changed"))
        assert_served(visitor.page, versions.old)
        visitor.page.goto("about:blank")
        assert in_lab(visitor.context, host, HASHES) == before
        host.publish(versions.new, held=CHANGED[0])
        visitor.visit().sees_heading(web.NEWER_TITLE)
        host.let_go()
        visitor.page.wait_for_event("load")
        visitor.listen().sees_button(today.START)
        assert_served(visitor.page, versions.new)


def test_files_that_a_newer_version_laid_otherwise_are_not_taken_for_free_ones(
    browser: Browser, lab_site: StaticSite,
) -> None:
    """The refusal is the same, and what lies there stays."""
    context = browser.new_context()
    lab = Lab(context, lab_site.address)
    line = json.dumps(["evenload slot 2", "evenload.db", 7, 0])
    lab.page.evaluate(WRITE, [f"{line}\n{checksum(line)}\n"])
    with pytest.raises(BrokeThere, match="NewerDatabase"):
        lab.run("from app.device.private_files import mount\nawait mount('later', wait_s=0.5)")
    assert lab.page.evaluate(LOOK) == {"slot-1": f"{line}\n{checksum(line)}\n"}
    context.close()


WRITE = """async ([words]) => { const top = await navigator.storage.getDirectory();
  const folder = await top.getDirectoryHandle("later", { create: true });
  const file = await (await folder.getFileHandle("slot-1", { create: true })).createWritable();
  await file.write(words); await file.close(); }"""
LOOK = """async () => { const top = await navigator.storage.getDirectory(), found = {};
  for await (const [name, file] of (await top.getDirectoryHandle("later")).entries())
    found[name] = await (await file.getFile()).text();
  return found; }"""


def checksum(line: str) -> int:
    """FNV-1a, as heads of files in the browser's store have it."""
    total = 0x811c9dc5
    for byte in line.encode():
        total = ((total ^ byte) * 0x01000193) & 0xFFFFFFFF
    return total
