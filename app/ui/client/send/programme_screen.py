"""The coach's programme: opening one, comparing the five words, and choosing which one is followed.

Also what a link opens: `/get?file=NAME` a file beside the app, `/key?key=…` a coach's key.
"""
from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import flet as ft

from app.actions import people
from app.actions.files import pasted_or_linked, programmes
from app.actions.files.programmes import Followable
from app.domain.model.person import Person
from app.ui.client.nav import client_nav
from app.ui.client.send.opening import Door, Opening, compare_page, key_link_text
from app.ui.client.today.locked_card import goes
from app.ui.parts import AnswerOption, Card, Look, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.client import hand_over as words
from app.words.client import today


class Pad(NamedTuple):
    """Where a text is pasted: whether it is open, how to open it, and what stands in it."""

    is_open: bool
    open: Callable[[bool], object]
    held: ft.MutableRef[str]


@ft.component
def ProgrammeScreen(shell: Shell) -> ft.Control:
    """The programmes that are here, and the ways to open another."""
    c = shell.card()
    now, put = ft.use_state(Opening())
    pad = Pad(*ft.use_state(False), ft.use_ref(""))
    person = people.current_person(shell.store)
    route = shell.tools.page.route or ""

    async def follow_link() -> None:
        if person is None:
            return
        door = Door(shell, person, put)
        if shell.link == "get":
            await safe(shell, door.follow)(shell.route_says("file"))
        elif shell.link == "key":
            await safe(shell, door.compare)(key_link_text(shell))

    ft.use_effect(follow_link, dependencies=[route], cleanup=lambda: None)
    if person is None:
        act = c.button(today.SETTINGS, goes(shell, "/settings"))
        return c.page([c.title(today.PROGRAMME_TITLE), c.empty(words.FOR_CLIENTS_HEAD, words.FOR_CLIENTS, [act])])
    door = Door(shell, person, put)
    if now.waiting is not None:
        return compare_page(c, door, now.waiting)
    return _shelf(c, shell, person, now, door, pad)


def _shelf(c: Card, shell: Shell, person: Person, now: Opening, door: Door, pad: Pad) -> ft.Control:
    found = programmes.followables(shell.store)
    size = t.T_HEAD if c.scale > t.LARGE_PRINT else t.T_TITLE
    body: list[ft.Control] = [c.title(today.PROGRAMME_TITLE, size)]
    icon = ft.Icons.DOWNLOADING_SHARP if now.busy else ft.Icons.INFO_SHARP
    body += [c.notice(now.told, icon=icon)] if now.told else []
    if not found:
        body.append(c.empty(today.NO_PROGRAMME_HEAD, today.NO_PROGRAMME))
    several = len(found) > 1
    for one in found:
        body.append(_coach(c, shell, person, one, several, door))
    pick = None if now.busy else safe(shell, door.pick)
    more = [c.button(today.PICK_FILE, pick, look=Look.SOLID if not found else Look.BOX,
                      icon=ft.Icons.FOLDER_OPEN_SHARP), c.soft(today.PICK_HINT),
             _paste(c, shell, door, pad, now.busy)]
    foot = [c.button(today.TO_TODAY, safe(shell, lambda _: shell.go("/today")),
                     look=Look.SOLID if found else Look.BOX)]
    nav = client_nav(shell, "") if c.is_wide else None
    page = c.page(body, foot, nav, beside=more) if found else c.page([*body, *more], foot, nav)
    page.key = f"shelf {now.told}"  # begins anew at its top, where what was said stands
    return page


def _paste(c: Card, shell: Shell, door: Door, pad: Pad, busy: bool) -> ft.Control:
    """A button, and the field that it opens. What is pasted may be long, so it is no state of the page."""
    def note(event: ft.Event[ft.TextField]) -> None:
        pad.held.current = event.control.value or ""

    async def take(_: object) -> None:
        text = pad.held.current or ""
        leave()
        await door.paste(text)

    def leave() -> None:
        pad.held.current = ""
        pad.open(False)

    hint = c.soft(words.OTHER_WAYS)
    if not pad.is_open:
        press = None if busy else bind(pad.open, True)
        return c.stack([hint, c.button(words.PASTE_OPEN, press, icon=ft.Icons.CONTENT_PASTE_SHARP)])
    field = c.field(words.PASTE_FIELD, pad.held.current or "", note, hint=words.PASTE_HINT, lines=3,
                    max_length=pasted_or_linked.MOST_CHARACTERS, autofocus=True)
    return c.stack([hint, field, c.side_by_side([
        c.button(words.TAKE, safe(shell, take), look=Look.SOLID), c.button(words.LEAVE, bind(leave)),
    ])])


def _coach(c: Card, shell: Shell, person: Person, one: Followable, several: bool, door: Door) -> ft.Control:
    """One coach's work, and which of its programmes is followed."""
    source, followed = one.source, person.coach_key == one.coach_key

    def follow(programme: str) -> None:
        programmes.follow(shell.store, shell.clock, person.id, one.coach_key, programme)
        door.put(Opening())
        shell.refresh()

    pieces: list[ft.Control] = [
        c.head(today.programme_of(one.coach)),
        c.body(today.opened_line(one.coach, source.title or source.id, source.version)),
    ]
    pieces += [c.soft(source.about)] if source.about else []
    if followed and several:
        pieces.append(c.strong(today.FOLLOWED))
    if len(source.programmes) > 1 and followed:
        among = [AnswerOption(p.id, p.name, p.about) for p in source.programmes]
        pieces += [c.subhead(today.WHICH_PROGRAMME),
                   c.one_of_list(among, person.programme, safe(shell, follow))]
    if not followed:
        pieces.append(c.button(today.FOLLOW, safe(shell, lambda _: follow("")),
                               name=f"{today.FOLLOW}: {one.coach}"))
    return c.stack(pieces)
