"""Before a session that nobody has pressed Start for on today's card: a look around, what comes, and Start."""
from __future__ import annotations

from collections.abc import Mapping, Sequence

import flet as ft

from app.domain.model.exercise import Exercise
from app.domain.model.person import Person
from app.domain.model.plan import Step
from app.ui.client.before_start import look_around, what_comes
from app.ui.client.player.live_session import Live
from app.ui.client.player.player_buttons import under_signs
from app.ui.client.sound_check import before_first
from app.ui.helper.before_leading import LeadBefore
from app.ui.shell.shell import Shell
from app.words.client import player as says


def before_page(shell: Shell, live: Live) -> ft.Control:
    """For who leads somebody, first whose session it is and how they are. Where Start was pressed, it begins then."""
    person = about(live)[0]
    if person.led_by:
        return LeadBefore(shell, live, person, _look_around)
    return ft.Container() if live.is_wanted else _look_around(shell, live)


def _look_around(shell: Shell, live: Live) -> ft.Control:
    """What today's card says too, for whoever came here by the address."""
    c = shell.card()
    person, name, kit, steps, library = about(live)
    pack = live.playing.pack if live.playing else live.card.pack.sha256 if live.card and live.card.pack else ""
    plan = live.playing.plan if live.playing else live.card.timeline if live.card else None
    day = live.card.day if live.card else None
    body: list[ft.Control] = [
        c.title(says.BEFORE), c.lead(says.before_lead(name)), *look_around(c, person, kit, plan, day),
        *before_first(shell, pack, steps, library), what_comes(shell, person, pack, steps, library),
        c.link(says.NOT_NOW, live.press(shell.go, "/today")),
    ]
    if person.led_by:
        body.insert(0, c.soft(says.whose(person.name)))
    page = c.page(body, [c.main_button(says.START, live.press(live.start), ft.Icons.PLAY_ARROW_SHARP)])
    return under_signs(c, live, page) if live.playing else page


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
