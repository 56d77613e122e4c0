"""The pages of questions, in the order of the welcome; each stands by itself in the settings too."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import flet as ft

from app.ui.client.profile import asking_body, asking_person, asking_room, asking_stops
from app.ui.client.profile.profile_draft import Held, ProfileDraft
from app.ui.parts import Card, Look
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.client import stop_questions, today, welcome
from app.words.client.today import Pair, said

Ask = Callable[[Card, Shell, Held[ProfileDraft]], list[ft.Control]]
Lacks = Callable[[ProfileDraft, int], str]


def nothing_lacks(draft: ProfileDraft, this_year: int) -> str:
    """A page that may be left empty."""
    return ""


@dataclass(frozen=True)
class Questions:
    """One page: its head, what it asks, and what keeps it from going on."""

    key: str
    head: Pair
    ask: Ask
    lacks: Lacks = nothing_lacks


def _same(words: str) -> Pair:
    return words, words


NAMES = Questions("names", welcome.NAMES_HEAD, asking_person.ask_names, asking_person.names_lack)
EMERGENCY = Questions("emergency", _same(welcome.EMERGENCY_HEAD), asking_person.ask_emergency,
                      asking_person.emergency_lacks)
CONDITIONS = Questions("conditions", welcome.CONDITIONS_HEAD, asking_body.ask_conditions,
                       asking_body.conditions_lack)
SPARE = Questions("spare", welcome.SPARE_HEAD, asking_body.ask_spare)
KIT = Questions("kit", _same(welcome.KIT_HEAD), asking_room.ask_kit, asking_room.kit_lacks)
AROUND = Questions("around", welcome.AROUND_HEAD, asking_room.ask_around, asking_room.around_lacks)
STOPS = Questions("stops", stop_questions.STOPS_HEAD, asking_stops.ask_stops, asking_stops.stops_lack)
#: What an older list of stop questions lacked.
NEW_STOPS = Questions("new-stops", stop_questions.NEW_HEAD, asking_stops.ask_stops, asking_stops.stops_lack)
SENDS = Questions("sends", _same(welcome.SENDS_HEAD), asking_person.ask_sends)

#: In the order of the welcome. The emergency number comes early, since the stop questions name it.
WELCOME: tuple[Questions, ...] = (NAMES, EMERGENCY, CONDITIONS, SPARE, KIT, AROUND, STOPS, SENDS)
#: What the settings offer to change. The stop questions are answered on a page of their own.
CHANGEABLE: tuple[Questions, ...] = (NAMES, CONDITIONS, SPARE, KIT, AROUND, EMERGENCY, SENDS)


def head_of(questions: Questions, draft: ProfileDraft) -> str:
    """The head of a page, for the person or for whoever leads them."""
    if questions is NAMES:
        return questions.head[draft.leads]
    return said(questions.head, draft.asked)


def asked_page(
    c: Card, shell: Shell, held: Held[ProfileDraft], questions: Questions, *,
    aside: str, back: Callable[[], Any], onward: Callable[[], Any], onward_words: str,
) -> ft.Control:
    """One page with a way back and a way on; going on is refused while something is missing, and says what."""
    draft = held.value

    def go_back(_: Any) -> None:
        held.note(replace(held.value, complaint=""))
        back()

    def go_on(_: Any) -> None:
        lack = questions.lacks(held.value, shell.clock.now().year)
        if lack:
            held.set(replace(held.value, complaint=lack))
            return
        held.note(replace(held.value, complaint=""))
        onward()

    pieces: list[ft.Control] = [c.caption(aside)] if aside else []
    pieces += [c.title(head_of(questions, draft)), c.rule(), *questions.ask(c, shell, held)]
    complaint: list[ft.Control] = [c.notice(draft.complaint)] if draft.complaint else []
    foot = both_ways(c, today.BACK, safe(shell, go_back), onward_words, safe(shell, go_on))
    page = c.page(pieces, [*complaint, foot])
    page.key = f"page-{questions.key}"
    return page


def both_ways(c: Card, back: str, on_back: Any, onward: str, on_onward: Any) -> ft.Control:
    """Back at the left, on at the right, wider unless the print is so large that both need the room."""
    wide = 1 if c.scale > t.LARGE_PRINT else 2
    return ft.Row([
        c.button(back, on_back, expand=1), c.button(onward, on_onward, look=Look.SOLID, expand=wide),
    ], spacing=8)
