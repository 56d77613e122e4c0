"""Before a session: a look around that is ticked off, what comes, and Start."""
from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import flet as ft

from app.domain.model.exercise import Exercise
from app.domain.model.person import Person
from app.domain.model.plan import Step
from app.ui.client.player.live_session import Live
from app.ui.client.player.player_buttons import under_signs
from app.ui.client.player.session_list import exercise_list
from app.ui.client.player.sound_check import before_first
from app.ui.helper.before_leading import LeadBefore
from app.ui.parts import AnswerOption
from app.ui.shell.shell import Shell, safe
from app.words.client import player as says


def before_page(shell: Shell, live: Live) -> ft.Control:
    """For who leads somebody it begins with whose session it is."""
    person = about(live)[0]
    if person.led_by:
        return LeadBefore(shell, live, person, _LookAround)
    return _LookAround(shell, live)


@ft.component
def _LookAround(shell: Shell, live: Live) -> ft.Control:
    """Each line is ticked or read; Start waits for nobody's ticks."""
    seen, set_seen = ft.use_state(frozenset[str]())
    c = shell.card()
    person, name, kit, steps, library = about(live)
    among = [AnswerOption(line, line) for line in says.before_lines(person.body, kit)]
    pack = live.playing.pack if live.playing else live.card.pack.sha256 if live.card and live.card.pack else ""
    body: list[ft.Control] = [
        c.title(says.BEFORE), c.lead(says.before_lead(name)),
        c.several_of_list(among, seen, safe(shell, _toggling(seen, set_seen))),
        *before_first(shell, pack, steps, library),
        *exercise_list(c, shell, pack, steps, library, person.pounds),
        c.link(says.NOT_NOW, live.press(shell.go, "/today")),
    ]
    if person.led_by:
        body.insert(0, c.soft(says.whose(person.name)))
    page = c.page(body, [c.main_button(says.START, live.press(live.start), ft.Icons.PLAY_ARROW_SHARP)])
    return under_signs(c, live, page) if live.playing else page


def _toggling(seen: frozenset[str], set_seen: Callable[[Any], None]) -> Callable[[str], None]:
    def toggle(line: str) -> None:
        set_seen(seen ^ {line})
    return toggle


def about(live: Live) -> tuple[Person, str, list[str], Sequence[Step], Mapping[str, Exercise]]:
    """Who, which session, with what kit, its steps and the library, whether it was opened already or not."""
    if live.playing is None:
        card = live.card
        assert card is not None
        steps = card.timeline.steps if card.timeline else ()
        return card.person, card.session.name if card.session else "", card.kit(), steps, card.library
    playing = live.playing
    used = {s.exercise for s in playing.state.steps if s.is_effort and s.exercise}
    kit = sorted({k for i in used for k in playing.library[i].needs()})
    return playing.person, playing.name, kit, playing.state.steps, playing.library
