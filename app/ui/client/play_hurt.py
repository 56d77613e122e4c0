""" "That hurts": sit down first, then where and how much; and what changes because of it."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

from app import text_player as says
from app.domain import player as events
from app.domain.body import Spot
from app.domain.record import Ending, Hurt
from app.ui import theme as t
from app.ui.client.play_live import Live, Panel
from app.ui.parts.body_list import BodyPicker
from app.ui.shell import Shell


@ft.component
def HurtPage(shell: Shell, live: Live) -> ft.Control:
    """Everything stands still. The questions come once the person sits."""
    seated, sit = ft.use_state(False)
    levels, set_levels = ft.use_state(dict[Spot, int]())
    gave_way, set_gave_way = ft.use_state(_unknown())
    c = shell.card()
    mistaken = c.link(says.BY_MISTAKE, live.press(live.do, events.NothingHurts()))
    signs = c.harm_button(says.STOP_SIGNS, live.press(live.open, Panel.SIGNS))
    head: list[ft.Control] = [c.title(says.SIT_DOWN), c.lead(says.SIT_DOWN_HOW)]
    if not seated:
        return c.page([*head, signs, mistaken], [c.main_button(says.I_SIT, live.press(sit, True))])
    body = [
        *head, c.head(says.GAVE_WAY), c.yes_no(says.GAVE_WAY, gave_way, set_gave_way), c.head(says.WHERE),
        BodyPicker(c, levels, _only_newest(levels, set_levels), says.HOW_ENDS), signs, mistaken,
    ]
    return c.page(body, [c.main_button(says.TELL, _teller(live, levels, gave_way))])


def _unknown() -> bool | None:
    return None


def _only_newest(levels: dict[Spot, int], keep: Callable[[Any], None]) -> Callable[[dict[Spot, int]], None]:
    """One spot at a time: the one told last. A second one can be told when that is dealt with."""
    def changed(new: dict[Spot, int]) -> None:
        fresh = {spot: level for spot, level in new.items() if levels.get(spot) != level}
        keep(fresh or (new if len(new) < len(levels) else levels))
    return changed


def _teller(live: Live, levels: dict[Spot, int], gave_way: bool | None) -> Callable[[Any], Any] | None:
    if not levels or gave_way is None:
        return None
    spot, level = next(iter(levels.items()))
    return live.press(live.tell, Hurt(spot, level, gave_way))


def changed_page(shell: Shell, live: Live) -> ft.Control:
    """What is spared, replaced and left out from here on; it goes on by a tap."""
    c = shell.card()
    names = {i: e.name for i, e in live.now.library.items()}
    where = str(live.hurt.spot) if live.hurt else ""
    swaps = [c.text(says.becomes(names[old], names[new]), t.T_LEAD) for old, new in live.changes.swaps]
    out = [c.text(says.left_out([names[i] for i in live.changes.left_out]), t.T_LEAD)] if live.changes.left_out else []
    lead = says.spared(where) if live.changes else says.noted(where)
    ahead = live.now.state.next_effort() or (live.now.state.step if live.now.state.step.is_effort else None)
    nothing = [] if ahead else [c.notice(says.NOTHING_LEFT)]
    body = [c.title(says.CHANGED), c.lead(lead), c.rows([*swaps, *out]), *nothing, c.note(says.IF_IT_GROWS),
            c.harm_button(says.STOP_SIGNS, live.press(live.open, Panel.SIGNS))]
    foot = [c.main_button(says.GO_ON, live.press(live.go_on), ft.Icons.PLAY_ARROW_SHARP),
            c.button(says.END, live.press(live.end, Ending.PAIN))]
    return c.page(body, foot)
