"""The offline web app beside a bare one of the same making, by turns in one browser: python -m tests.bench.web [TIMES]

Prints start times, sizes, memory, and the error of the cues of a session that the browser laid. Some minutes; needs a
Chromium, Node.js and, once, the package registry. Nothing in the tests asserts a time.
"""
from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing
from pathlib import Path
from statistics import median

from playwright.sync_api import Browser, sync_playwright

from app.words.client import today as client
from app.words.client import welcome
from tests.bench.web_cues import CueError, cue_error
from tests.bench.web_sites import BARE_WORDS, make_bare_app, sizes
from tests.bench.web_visits import Memory, Visit, memory, times, watched
from tests.browser.driver import PHONE
from tests.browser.offline import SETTLED, Visitor
from tests.browser.static_site import StaticSite
from tests.browser.web_app import make_web_app
from tests.browser.window import launch
from tests.stories import steps
from tests.stories.test_loop import build_pack

TIMES = 7
FORGET = """async () => { for (const name of await caches.keys()) { const store = await caches.open(name);
  for (const one of await store.keys()) if (one.url.includes('memory.bin')) await store.delete(one); } }"""
AIM_WARM, AIM_MB = 1.5, 22.0
CHROMIUM = os.environ.get("EVENLOAD_CHROMIUM", "/usr/bin/chromium")


def by_turns(times_each: int, ours: Callable[[], Visit], bare: Callable[[], Visit]) -> tuple[list[Visit], list[Visit]]:
    """Both measured one after the other, so that what else the machine does falls on both."""
    found: tuple[list[Visit], list[Visit]] = ([], [])
    for _ in range(times_each):
        found[0].append(ours())
        found[1].append(bare())
    return found


def first_visit(browser: Browser, address: str, words: str) -> Visit:
    """With nothing kept, from a host on this machine."""
    with closing(browser.new_context(viewport={"width": PHONE[0], "height": PHONE[1]})) as context:
        return times(watched(context, address, words))


def later_visit(visitor: Visitor, words: str) -> Visit:
    """With everything kept."""
    with closing(watched(visitor.context, visitor.address, words)) as page:
        return times(page)


def forgetful_visit(visitor: Visitor, words: str) -> Visit:
    """With every part kept, and afterwards without Python's memory, so that the next one has to load it all."""
    with closing(watched(visitor.context, visitor.address, words)) as page:
        page.evaluate(FORGET)
        return times(page)


def memory_of(visitor: Visitor, words: str) -> Memory:
    """Of the only page that is open."""
    with closing(watched(visitor.context, visitor.address, words)) as page:
        return memory(page)


def settle_in(visitor: Visitor, pack: Path, words: str) -> None:
    """Somebody with a programme."""
    visitor.visit().sees_heading(welcome.TITLE)
    steps.be_welcomed(visitor.keep(), "Nora Lind")
    steps.open_programme(visitor, pack, words)
    visitor.sees_button(client.START)
    # its window stays, as the bare app's does: opening a window costs the browser some 500 ms of its own
    visitor.keep_memory().page.goto("about:blank")


def look_in(visitor: Visitor) -> None:
    """The bare app, kept."""
    with closing(watched(visitor.context, visitor.address, BARE_WORDS)) as page:
        page.evaluate(SETTLED)


def timed_rows(name: str, ours: Sequence[Visit], bare: Sequence[Visit], aim: str = "") -> Iterator[str]:
    """Medians of both, lowest in brackets, and the ratio of the medians."""
    mine, its = [one.drawn for one in ours], [one.drawn for one in bare]
    ratio = median(mine) / median(its)
    pairs = [a / b for a, b in zip(mine, its, strict=True)]
    yield row(name, f"{median(mine):.0f} ({min(mine):.0f}) ms", f"{median(its):.0f} ({min(its):.0f}) ms",
              f"{ratio:.2f} (by turns {median(pairs):.2f}, of the lowest {min(mine) / min(its):.2f}){aim}")
    frames = [median(one.first_frame for one in visits) for visits in (ours, bare)]
    yield row("… of it to the client's first frame", f"{frames[0]:.0f} ms", f"{frames[1]:.0f} ms",
              f"{frames[0] / frames[1]:.2f}")


def size_rows(ours: Path, bare: Path) -> Iterator[str]:
    """What a browser of each engine keeps."""
    both = sizes(ours), sizes(bare)
    for engine in both[0]:
        a, b = (one[engine] for one in both)
        yield row(f"kept by {engine}, brotli", f"{a['brotli'] / 1e6:.1f} MB", f"{b['brotli'] / 1e6:.1f} MB",
                  f"{a['brotli'] / b['brotli']:.2f}, aim: {AIM_MB:.0f} MB")
        yield row("… as it is", f"{a['raw'] / 1e6:.1f} MB", f"{b['raw'] / 1e6:.1f} MB", f"{a['raw'] / b['raw']:.2f}")


def memory_rows(ours: Memory, bare: Memory) -> Iterator[str]:
    """After three quiet seconds."""
    names = ("Python's memory (WebAssembly)", "the page's scripts: heap and buffers", "the page's process (PSS)")
    for name, a, b in zip(names, ours, bare, strict=True):
        yield row(name, f"{a:.0f} MiB", f"{b:.0f} MiB", f"{a / b:.2f}" if b else "–")


def cue_row(found: CueError) -> str:
    """The aim is none."""
    told = "others are heard than were planned" if found.most is None else f"{found.most} samples at most"
    return row("cues off their computed sample", told, "", f"{found.heard} tones heard, aim: 0")


def row(*cells: str) -> str:
    """A line of the table."""
    return f"| {' | '.join(cells)} |"


def measure(browser: Browser, folder: Path, times_each: int) -> Iterator[str]:
    """The table, line by line."""
    pack = folder / "six weeks.evenload-pack"
    words = build_pack(folder / "coach", pack)
    ours, bare = make_web_app(folder / "ours"), make_bare_app(folder / "bare")
    with StaticSite({"/": ours}) as our_site, StaticSite({"/": bare}) as bare_site, \
            Visitor(browser, our_site.address) as visitor, Visitor(browser, bare_site.address) as other:
        yield row("", "ours", "bare", "ratio")
        yield row("---", "---", "---", "---")
        settle_in(visitor, pack, words)
        look_in(other)
        warm = by_turns(times_each, lambda: later_visit(visitor, client.START), lambda: later_visit(other, BARE_WORDS))
        yield from timed_rows("later visits, to Today", *warm, f", aim: {AIM_WARM}")
        forgetful_visit(visitor, client.START)
        anew = by_turns(times_each, lambda: forgetful_visit(visitor, client.START),
                        lambda: later_visit(other, BARE_WORDS))
        yield from timed_rows("… while no memory of Python is kept", *anew)
        cold = by_turns(times_each, lambda: first_visit(browser, visitor.address, welcome.TITLE),
                        lambda: first_visit(browser, other.address, BARE_WORDS))
        yield from timed_rows("first visit, to the welcome", *cold)
        yield from size_rows(ours, bare)
        yield from memory_rows(memory_of(visitor, client.START), memory_of(other, BARE_WORDS))
        yield cue_row(cue_error(visitor.start_anew()))


def main(arguments: list[str]) -> None:
    """Prints the table as it grows."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright, \
            closing(launch(playwright, CHROMIUM)) as browser:
        for line in measure(browser, Path(folder), int(arguments[0]) if arguments else TIMES):
            print(line, flush=True)
        print(f"Load of the machine: {', '.join(f'{one:.1f}' for one in os.getloadavg())}")


if __name__ == "__main__":
    main(sys.argv[1:])
