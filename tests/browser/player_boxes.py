"""What a page of the player lacks, by where everything stands in the tree that a screen reader uses."""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from app.domain.player.player_state import Status
from app.ui.client.player.card_words import CardWords
from app.words.client import lead
from app.words.client import player as says
from tests.browser.driver import Walker
from tests.browser.page_scripts import LARGE_PRINT, SEEN
from tests.browser.window import WAIT_MS

DRAWN = """sign => [...document.querySelectorAll('flt-semantics-host *')].some(
  e => e.getAttribute('aria-label') === sign || (!e.children.length && e.textContent === sign))"""
MARK = "drawn "
MAIN_LEAST, LED_LEAST, LEAST, SLACK = 71.5, 59.5, 47.5, 3.0
"""Of what is pressed while moving; where six buttons share a low column, for somebody who leads; of the rest, px."""
LOW = 520
LARGE = 1.3


@dataclass(frozen=True)
class Placed:
    """A named thing, px. `whole`: nothing of it is cut away by the window or by what scrolls."""

    words: str
    role: str
    left: float
    top: float
    right: float
    bottom: float
    whole: bool
    in_sight: bool
    inner: bool

    @property
    def lesser(self) -> float:
        """Its lesser side."""
        return min(self.right - self.left, self.bottom - self.top)

    @property
    def size(self) -> str:
        """As it is told."""
        return f"{self.right - self.left:.0f} × {self.bottom - self.top:.0f}"

    def lies_on(self, other: Placed) -> bool:
        """Whether they share more of the page than an edge."""
        return (min(self.right, other.right) - max(self.left, other.left) > SLACK
                and min(self.bottom, other.bottom) - max(self.top, other.top) > SLACK)


def show(walker: Walker, name: str, theme: str, size: tuple[int, int], scale: float) -> None:
    """Another moment, window and size of text; waits until just that is drawn."""
    page = walker.page
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.evaluate(LARGE_PRINT, "" if scale == 1 else f"{16 * scale}px")
    page.evaluate("to => { history.pushState(null, '', to); dispatchEvent(new PopStateEvent('popstate')); }",
                  f"/{name}/{theme}")
    page.wait_for_function(DRAWN, arg=f"{MARK}{name} {theme} {size[0]}x{size[1]} {scale:.1f}", timeout=WAIT_MS)
    walker.settle()


def placed(walker: Walker, size: tuple[int, int]) -> list[Placed]:
    """Everything that is named on the page."""
    found = []
    for one in walker.page.evaluate(SEEN):
        if one["words"].startswith(MARK):
            continue
        box, (left, top, right, bottom) = one["box"], one["seen"]
        shown = (max(left, 0), max(top, 0), min(right, size[0]), min(bottom, size[1]))
        near = max(SLACK, 0.01 * size[0])  # boxes of what moves are rounded outwards
        whole = all(abs(a - b) < near for a, b in zip(shown, box, strict=True))
        sight = shown[2] - shown[0] > 2 and shown[3] - shown[1] > 2
        found.append(Placed(one["words"], one["role"], *box, whole, sight, one["inner"]))
    return found


class Page:
    """One page of the player, to be judged."""

    def __init__(self, boxes: list[Placed], now: CardWords, scale: float, size: tuple[int, int], *, led: str,
                 scrolls: bool) -> None:
        self.boxes, self.now, self.large, self.size, self.led = boxes, now, scale > LARGE, size, led
        self.scrolls = scrolls

    def faults(self) -> list[str]:
        """In words; none where all is as it must be."""
        return [*self._missing(), *self._targets(), *self._upon_one_another(), *self._beyond()]

    def _named(self, words: str, role: str = "") -> list[Placed]:
        return [box for box in self.boxes if box.words == words and (not role or box.role == role)]

    def _whole(self, what: str, found: list[Placed]) -> Iterator[str]:
        if not found:
            yield f"{what}: missing"
        elif not (found[0].whole and found[0].in_sight):
            b = found[0]
            yield f"{what}: cut, x {b.left:.0f} to {b.right:.0f}, y {b.top:.0f} to {b.bottom:.0f}"

    def _missing(self) -> Iterator[str]:
        now = self.now
        waits = now.state.status is Status.WAITING
        if not waits:
            yield from self._whole("seconds", [b for b in self.boxes if b.words.endswith(" left")])
        if now.side and not waits:
            yield from self._whole("side", self._named(now.side))
        yield from self._whole("name", self._named(now.name))
        yield from self._whole("pause", self._named(now.main, "button"))
        yield from self._whole("that hurts", self._named(says.HURTS, "button"))
        if now.easier:
            yield from self._whole("easier", self._named(says.easier_option(now.easier.name), "button"))
        if not self.large:
            yield from self._missing_in_usual_print()

    def _missing_in_usual_print(self) -> Iterator[str]:
        now = self.now
        yield from self._whole("stop signs", self._named(says.STOP_SIGNS, "button"))
        figures = [b for b in self.boxes if b.role == "img" and b.words.startswith("Figure")]
        wanted = 2 if now.easier else 1
        if len(figures) < wanted or not all(one.whole for one in figures):
            yield f"figures: {len(figures)} of {wanted}, whole {[one.whole for one in figures]}"
        if now.opened:
            yield from (f"cue missing: {cue}" for cue in now.cues if not self._named(cue))
        elif now.cues and not self.scrolls:
            yield from self._whole("cue", self._named(now.cues[now.cue]))
        for words in now.tap_words():
            spoken = {says.LONGER_REST_SHORT: says.LONGER_REST, says.END_SHORT: says.END}.get(words, words)
            yield from self._whole(words, self._named(spoken, "button"))
        if now.easier is None:
            yield from self._whole("no easier", self._named(says.NO_EASIER))
        if self.led:
            yield from self._whole("whose", self._named(says.whose(self.led)))
            yield from self._whole("the leader’s stop", self._named(lead.not_themselves("man"), "button"))

    def _targets(self) -> Iterator[str]:
        main = {self.now.main, says.HURTS}
        lying = self.size[0] > self.size[1] and self.size[1] < LOW
        for box in self.boxes:
            if box.role == "button" and box.whole and box.lesser > SLACK:  # else it is scrolled out of sight
                is_main = box.words in main or box.words.startswith(says.EASIER)
                least = LED_LEAST if self.led and lying and is_main else MAIN_LEAST if is_main else LEAST
                if box.lesser < least:
                    yield f"target “{box.words}”: {box.size}"

    def _upon_one_another(self) -> Iterator[str]:
        seen = [b for b in self.boxes if b.in_sight and not b.inner and b.right - b.left > 3]
        for a, b in combinations(seen, 2):
            figure = {a.role, b.role} == {"img", "button"} and any(x.words.startswith(says.EASIER) for x in (a, b))
            if a.lies_on(b) and not figure:
                yield f"“{a.words[:40]}” upon “{b.words[:40]}”"

    def _beyond(self) -> Iterator[str]:
        width = self.size[0]
        yield from (f"“{b.words}” beyond the edge" for b in self.boxes
                    if b.in_sight and (b.left < -0.5 or b.right > 1.01 * width))
