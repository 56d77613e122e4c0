"""What the coach asks somebody to go easy on: a list of spots, and a form for one more."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import flet as ft

from app.domain.model.body import PAIRED_REGIONS, Region, Spot
from app.ui.parts import AnswerOption, Card, bind, options
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell
from app.words import parts
from app.words.coach import reply as words

REGIONS = options(*((region, parts.REGIONS[region]) for region in Region))


@ft.component
def LimitPanel(shell: Shell, spare: Mapping[Spot, int], on_change: Callable[[dict[Spot, int]], object]) -> ft.Control:
    """Region, side, how much; each limit can be taken away."""
    c = shell.card()
    chosen: tuple[Any, Callable[[Any], None]] = ft.use_state(None)
    region, set_region = chosen
    side, set_side = ft.use_state("")
    cap, set_cap = ft.use_state(1)

    def choose(a_region: Region, a_side: str, a_cap: int) -> None:
        """What is chosen counts at once, so that no limit is lost for want of one more press."""
        before = [Spot(region, side)] if region is not None else []
        others = {s: n for s, n in spare.items() if s not in before}
        one = Spot(a_region, a_side if a_region in PAIRED_REGIONS else "")
        set_region(a_region)
        set_side(one.side)
        set_cap(a_cap)
        on_change({**others, one: a_cap})

    def another(a_region: Region) -> None:
        """Another region: the one before stays as it was chosen."""
        set_region(a_region)
        set_side("")
        set_cap(1)
        on_change({**spare, Spot(a_region, ""): 1})

    rows = [_limit(c, spot, level, bind(on_change, {s: n for s, n in spare.items() if s != spot}))
            for spot, level in sorted(spare.items())]
    pieces: list[ft.Control] = [c.subhead(words.LIMITS_HEAD), c.soft(words.LIMITS_WHY)]
    pieces += [c.rows(rows)] if rows else [c.soft(words.NO_LIMITS)]
    pieces.append(c.one_of(REGIONS, region, another))
    if region is not None:
        caps = [AnswerOption(level, name) for level, name in words.CAPS.items()]
        now = region
        sides = [c.one_of(options(*words.SIDES.items()), side, lambda s: choose(now, s, cap))] \
            if region in PAIRED_REGIONS else []
        pieces.append(c.aside(c.stack([*sides, c.one_of(caps, cap, lambda n: choose(now, side, n))], 12)))
    return c.stack(pieces, t.GAP_S)


def _limit(c: Card, spot: Spot, level: int, take_away: Callable[..., object]) -> ft.Control:
    says = c.text(words.limit_line(str(spot), level), weight=t.SEMI, expand=True)
    return ft.Row([says, c.small_button(words.TAKE_AWAY, take_away, name=f"{words.TAKE_AWAY}: {spot}")], spacing=t.GAP)
