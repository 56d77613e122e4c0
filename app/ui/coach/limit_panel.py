"""What the coach asks somebody to go easy on: a list of spots, and a form for one more."""
from __future__ import annotations

from collections.abc import Callable, Mapping

import flet as ft

from app import text_parts
from app import text_person as words
from app.domain.body import PAIRED_REGIONS, Region, Spot
from app.ui import theme as t
from app.ui.parts import Card, Option, bind, options
from app.ui.shell import Shell

REGIONS = options(*((region, text_parts.REGIONS[region]) for region in Region))


@ft.component
def LimitPanel(shell: Shell, spare: Mapping[Spot, int], on_change: Callable[[dict[Spot, int]], object]) -> ft.Control:
    """Region, side, how much; each limit can be taken away."""
    c = shell.card()
    region, set_region = ft.use_state(None)
    side, set_side = ft.use_state("")
    cap, set_cap = ft.use_state(1)

    def add() -> None:
        if region is not None:
            on_change({**spare, Spot(region, side if region in PAIRED_REGIONS else ""): cap})
            set_region(None)

    rows = [_limit(c, spot, level, bind(on_change, {s: n for s, n in spare.items() if s != spot}))
            for spot, level in sorted(spare.items())]
    pieces: list[ft.Control] = [c.subhead(words.LIMITS_HEAD), c.soft(words.LIMITS_WHY)]
    pieces += [c.rows(rows)] if rows else [c.soft(words.NO_LIMITS)]
    pieces.append(c.one_of(REGIONS, region, set_region))
    if region is not None:
        caps = [Option(level, name) for level, name in words.CAPS.items()]
        sides = [c.one_of(options(*words.SIDES.items()), side, set_side)] if region in PAIRED_REGIONS else []
        pieces.append(c.aside(c.stack([
            *sides, c.one_of(caps, cap, set_cap), c.side_by_side([c.small_button(words.ADD_LIMIT, bind(add))])], 12)))
    return c.stack(pieces, t.GAP_S)


def _limit(c: Card, spot: Spot, level: int, take_away: Callable[..., object]) -> ft.Control:
    says = c.text(words.limit_line(str(spot), level), weight=t.SEMI, expand=True)
    return ft.Row([says, c.small_button(words.TAKE_AWAY, take_away, name=f"{words.TAKE_AWAY}: {spot}")], spacing=t.GAP)
