"""What the player's count and its spoken line said, and when: the page itself notes every change."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from playwright.sync_api import Page

from app.words import positions
from app.words.client import player as says

KINDS = "|".join([*sorted(set(says._KINDS.values())), says.PAUSED, positions.UP, positions.DOWN, says.CHANGE_SIDES])
WATCH = """kinds => { if (window.sights) return; window.sights = [];
  const spoken = new RegExp(`^(${kinds})(, |$)`);
  const look = () => { let left = null, said = '';
    for (const e of document.querySelectorAll('flt-semantics-host *')) {
      if (e.children.length) continue;
      const words = e.getAttribute('aria-label') || e.textContent;
      const told = /^(?:(\\d+):)?(\\d+) left$/.exec(words);
      if (told) left = 60 * (told[1] || 0) + Number(told[2]);
      else if (!said && spoken.test(words)) said = words; }
    const last = window.sights[window.sights.length - 1];
    if (left !== null && said && (!last || last[1] !== left || last[2] !== said))
      window.sights.push([Date.now(), left, said]); };
  new MutationObserver(look).observe(document.body, {subtree: true, childList: true, attributes: true,
                                                     characterData: true});
  look(); }"""


@dataclass(frozen=True)
class Sight:
    """From that instant on, ms since 1970, the count stood at so many seconds, and this was said: "Work, Wall push"."""

    at_ms: int
    left_s: int
    said: str

    @property
    def kind(self) -> str:
        """Work, rest …"""
        return self.said.partition(", ")[0]

    @property
    def about(self) -> str:
        """What is being done, whatever the kind."""
        return self.said.partition(", ")[2]

    def leaps_from(self, other: Sight) -> bool:
        """Whether something else than a second's passing lies between."""
        return self.said != other.said or self.left_s not in (other.left_s, other.left_s - 1)


PRESSED = """() => { window.pressed = 0;
  addEventListener('click', () => { window.pressed = Date.now(); }, {capture: true, once: true}); }"""


def note_press(page: Page) -> Callable[[], float]:
    """Notes the next press where it happens; what gives its instant, ms since 1970, once it has been."""
    page.evaluate(PRESSED)
    return lambda: float(page.evaluate("window.pressed"))


def watch(page: Page) -> None:
    """Begins to note."""
    page.evaluate(WATCH, KINDS)


def sights(page: Page, since_ms: float = 0) -> list[Sight]:
    """What was seen from an instant on."""
    return [Sight(*one) for one in page.evaluate("window.sights || []") if one[0] >= since_ms]
