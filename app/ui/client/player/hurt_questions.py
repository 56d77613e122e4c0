""" "That hurts": sit down first, then where, how much and what it is like; and what changes because of it."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

import flet as ft

from app.actions.training.playing import sore_spots
from app.domain.model.body import Spot
from app.domain.model.diary import AnsweredBy
from app.domain.model.plan import StepKind
from app.domain.model.record import Ending, Hurt, HurtKind
from app.domain.model.thresholds import PAIN_ENDS, PAIN_RESTS
from app.domain.player import player as events
from app.ui.client.player.live_session import Live
from app.ui.client.player.player_buttons import under_signs
from app.ui.helper.observed import seen_lines, who_says
from app.ui.parts import Card, options
from app.ui.parts import theme as t
from app.ui.parts.body_list import BodyPicker
from app.ui.shell.shell import Shell
from app.words import parts
from app.words.client import hurts as asks
from app.words.client import lead
from app.words.client import player as says
from app.words.client.today import said


@dataclass(frozen=True)
class HurtAnswers:
    """The answers so far."""

    seated: bool = False
    gave_way: bool | None = None
    spot: Spot | None = None
    level: int | None = None
    kind: HurtKind = HurtKind.UNSAID
    other: bool = False
    """Another spot than the known ones is looked for."""
    by: AnsweredBy = AnsweredBy.SELF

    def hurt(self) -> Hurt | None:
        """What was told, once it is enough."""
        if self.spot is None or self.level is None or self.gave_way is None:
            return None
        return Hurt(self.spot, self.level, self.gave_way, kind=self.kind, answered_by=self.by)

    def missing(self) -> tuple[str, ...]:
        """What is still to be said, in words."""
        asked = ((self.gave_way is None, asks.GAVE_WAY_OPEN), (self.spot is None, asks.WHERE_OPEN),
                 (self.level is None, asks.LEVEL_OPEN))
        return tuple(words for is_open, words in asked if is_open)


@ft.component
def HurtPage(shell: Shell, live: Live) -> ft.Control:
    """Everything stands still. The questions come once the person sits, or rests where they lie."""
    led = live.now.led
    told, change = ft.use_state(HurtAnswers(by=AnsweredBy.LEADER if led else AnsweredBy.SELF))
    known = ft.use_memo(lambda: sore_spots(shell.store, live.now), [])
    c = shell.card()

    def put(**values: object) -> None:
        change(lambda before: replace(before, **values))

    mistaken = c.link(says.BY_MISTAKE, live.press(live.do, events.NothingHurts()))
    if not told.seated:
        return under_signs(c, live, _sit_down(c, live, mistaken, live.press(lambda: put(seated=True))))
    body = [*_questions(c, live, told, known, put), mistaken]
    hurt = told.hurt()
    tell = live.press(live.tell, hurt) if hurt else None
    still_open = [c.soft(asks.open_words(told.missing()))] if hurt is None else []
    return under_signs(c, live, c.page(body, [*still_open, c.main_button(says.TELL, tell)]))


def _sit_down(c: Card, live: Live, mistaken: ft.Control, sits: Any) -> ft.Control:
    name, led = live.now.person.name, live.now.led
    if _is_down(live):  # nobody gets up to be asked
        title, how = (lead.REST_THEM_THERE, lead.rested_first(name)) if led else (says.REST_THERE, says.REST_THERE_HOW)
        button = lead.they_rest(name) if led else says.I_REST
    else:
        title, how = (lead.SIT_THEM_DOWN, lead.seated_first(name)) if led else (says.SIT_DOWN, says.SIT_DOWN_HOW)
        button = lead.they_sit(name) if led else says.I_SIT
    return c.page([c.title(title), c.lead(how), mistaken], [c.main_button(button, sits)])


def _is_down(live: Live) -> bool:
    """Whether what is being done is done lying, or on the floor."""
    step = live.now.state.step
    is_there = step.is_effort or step.kind is StepKind.SETUP
    exercise = live.now.library.get(step.exercise or "") if is_there else None
    return exercise is not None and (exercise.on_floor or exercise.lies)


def _questions(c: Card, live: Live, told: HurtAnswers, known: tuple[Spot, ...], put: Callable[..., None]
               ) -> list[ft.Control]:
    """Did it give way, where, how much, what is it like; for who leads also what they see, and who says so."""
    led = live.now.led
    pieces = [c.head(says.GAVE_WAY), c.yes_no(says.GAVE_WAY, told.gave_way, lambda yes: put(gave_way=yes)),
              c.head(says.WHERE), *_where(c, told, known, put)]
    if told.spot is not None and told.level is not None:
        among = options(*asks.KINDS.items())
        pieces += [c.head(asks.KIND), c.one_of(among, told.kind, lambda kind: put(kind=kind))]
        pieces += [c.note(asks.NUMB_STOPS)] if told.kind is HurtKind.NUMB else []
        looked_at = live.now.limits.looked_at.get(told.spot, PAIN_ENDS)
        pieces += [c.note(asks.LEVEL_STOPS)] if told.level >= PAIN_ENDS else [
            c.note(asks.LOOK_STOPS)] if told.level >= looked_at else []
    if led:
        grey = live.press(live.end, Ending.SIGN, lead.GREY_SIGN)
        pieces += [*seen_lines(c, grey), *who_says(c, live.now.person.name, told.by, lambda by: put(by=by))]
    return pieces


def _where(c: Card, told: HurtAnswers, known: tuple[Spot, ...], put: Callable[..., None]) -> list[ft.Control]:
    """The spots that are known to be sore first; the whole list where it is none of them."""
    levels = {told.spot: told.level} if told.spot is not None and told.level is not None else {}
    if not known or told.other:
        back = [c.link(asks.ANOTHER_SPOT, lambda _: put(other=False, spot=None, level=None))] if known else []
        return [BodyPicker(c, levels, _only_newest(levels, put), says.HOW_ENDS), *back]
    cells = [c.choice(parts.spot(s), parts.spot(s), told.spot == s, _asking(s, put)) for s in known]
    pieces: list[ft.Control] = [
        c.subhead(asks.KNOWN, level=2), c.side_by_side(cells),
        c.button(asks.ELSEWHERE, lambda _: put(other=True, spot=None, level=None), size=t.T_BODY),
    ]
    if told.spot is not None:
        name = parts.spot(told.spot)
        scale = c.scale_0_10(name, told.level, lambda level: put(level=level), says.HOW_ENDS)
        pieces.insert(2, c.aside(c.stack([c.subhead(parts.how_much(name), level=2), scale])))
    return pieces


def _asking(spot: Spot, put: Callable[..., None]) -> Callable[[Any], None]:
    return lambda _: put(spot=spot, level=None)


def _only_newest(levels: Mapping[Spot, int], put: Callable[..., None]) -> Callable[[dict[Spot, int]], None]:
    """One spot at a time: the one told last. A second one can be told when that is dealt with."""
    def changed(new: dict[Spot, int]) -> None:
        fresh = {spot: level for spot, level in new.items() if levels.get(spot) != level}
        kept = fresh or (new if len(new) < len(levels) else levels)
        spot, level = next(iter(kept.items()), (None, None))
        put(spot=spot, level=level)
    return changed


def changed_page(shell: Shell, live: Live) -> ft.Control:
    """What is spared, replaced and left out from here on; it goes on, or ends, by a tap."""
    c = shell.card()
    names = {i: e.name for i, e in live.now.library.items()}
    where, asked = str(live.hurt.spot) if live.hurt else "", live.now.person.asked
    swaps = [c.text(says.becomes(names[old], names[new]), t.T_LEAD) for old, new in live.changes.swaps]
    out = [c.text(says.left_out([names[i] for i in live.changes.left_out]), t.T_LEAD)] if live.changes.left_out else []
    lead_words = says.spared(where, asked) if live.changes else says.noted(where, asked)
    ahead = live.now.state.next_effort() or (live.now.state.step if live.now.state.step.is_effort else None)
    nothing = [] if ahead else [c.notice(says.NOTHING_LEFT)]
    body = [c.title(says.CHANGED), *_a_lot(c, live), c.lead(lead_words), c.rows([*swaps, *out]), *nothing,
            c.note(says.IF_IT_GROWS)]
    go_on, end = live.press(live.go_on), live.press(live.end, Ending.PAIN)
    foot = [c.main_button(says.END, end), c.button(says.GO_ON, go_on)] if _is_a_lot(live) else [
        c.main_button(says.GO_ON, go_on, ft.Icons.PLAY_ARROW_SHARP), c.button(says.END, end)]
    return under_signs(c, live, c.page(body, foot))


def _is_a_lot(live: Live) -> bool:
    """Pain of 6 or 7: ending the session comes before going on with it."""
    return live.hurt is not None and live.hurt.level >= PAIN_RESTS


def _a_lot(c: Card, live: Live) -> list[ft.Control]:
    """Rest, and let somebody know."""
    if not _is_a_lot(live):
        return []
    person = live.now.person
    ring = asks.ring_words(person.emergency_contact, person.emergency_number)
    why = said(asks.CALL_WHY, person.asked)
    box = c.harm_box(c.stack([c.subhead(asks.CALL_SOMEBODY, level=2), c.body(why), c.strong(ring)]))
    return [ft.Semantics(content=box, live_region=True)]
