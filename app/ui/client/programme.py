"""The coach's programme: opening a file, comparing the five words, and choosing which one is followed."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

from app import text, text_client
from app.actions import people, programmes
from app.actions.programmes import Followable, Opened, Standing
from app.domain.errors import AppError
from app.domain.record import Person
from app.ui import theme as t
from app.ui.client.nav import client_nav
from app.ui.parts import Card, Look, Option, bind
from app.ui.shell import Shell, safe


@ft.component
def ProgrammeScreen(shell: Shell) -> ft.Control:
    """The programmes that are here, and a way to open another."""
    c = shell.card()
    state: tuple[Opened | None, Callable[[Opened | None], None]] = ft.use_state(None)
    opened, set_opened = state
    told, tell = ft.use_state("")
    person = people.current_person(shell.store)
    if person is None:
        return c.page([c.title(text_client.PROGRAMME_TITLE)])

    def keep(file: Opened) -> None:
        programmes.accept_pack(shell.store, shell.clock, person.id, file)
        older = file.version_here is not None and file.source.version < file.version_here
        said = text_client.older_line(file.source.version, file.version_here or 0) if older else ""
        renewed = text_client.CHANGED_KEYS if file.standing is Standing.RENEWED else ""
        tell(" ".join(filter(None, [text_client.kept_line(file.source.coach), renewed, said])))
        set_opened(None)

    async def pick(_: Any) -> None:
        tell("")
        picked = await shell.device.files.pick_files()
        if not picked:
            tell(text_client.NOT_PICKED)
            return
        try:
            file = await programmes.open_pack(shell.store, shell.clock, picked[0].name, picked[0].data)
        except AppError as error:
            tell(text.error_text(error))
            return
        if file.standing is Standing.COMPARE:
            set_opened(file)
        else:
            keep(file)

    def refuse(_: Any) -> None:
        set_opened(None)
        tell(text_client.NOT_SAME_SAID)

    if opened is not None:
        return _compare(c, opened, safe(shell, bind(keep, opened)), safe(shell, refuse))
    return _shelf(c, shell, person, told, safe(shell, pick), tell)


def _compare(c: Card, opened: Opened, same: Any, other: Any) -> ft.Control:
    """The five words, one a line, large enough to read out."""
    source = opened.source
    words: list[ft.Control] = [c.text(word, t.T_TITLE, t.EXTRA, height=1.15) for word in opened.words]
    body = [
        c.title(text_client.MATCH_HEAD),
        c.body(text_client.opened_line(source.coach, source.title or source.id, source.version)),
        c.body(text_client.match_words(source.coach)),
        c.box(c.rows(words, 8)),
    ]
    foot = [ft.Row([
        c.button(text_client.NOT_SAME, other, expand=True),
        c.button(text_client.SAME, same, look=Look.SOLID, expand=True),
    ], spacing=8)]
    page = c.page(body, foot)
    page.key = "compare"
    return page


def _shelf(c: Card, shell: Shell, person: Person, told: str, pick: Any, tell: Any) -> ft.Control:
    found = programmes.followables(shell.store)
    size = t.T_HEAD if c.scale > t.LARGE_PRINT else t.T_TITLE
    body: list[ft.Control] = [c.title(text_client.PROGRAMME_TITLE, size)]
    body += [c.notice(told, icon=ft.Icons.INFO_SHARP)] if told else []
    if not found:
        body.append(c.empty(text_client.NO_PROGRAMME_HEAD, text_client.NO_PROGRAMME))
    several = len(found) > 1
    for one in found:
        body.append(_coach(c, shell, person, one, several, tell))
    body += [c.button(text_client.PICK_FILE, pick, look=Look.SOLID if not found else Look.BOX,
                      icon=ft.Icons.FOLDER_OPEN_SHARP), c.soft(text_client.PICK_HINT)]
    foot = [c.button(text_client.TO_TODAY, safe(shell, lambda _: shell.go("/today")),
                     look=Look.SOLID if found else Look.BOX)]
    page = c.page(body, foot, client_nav(shell, "") if c.is_wide else None)
    page.key = "shelf"
    return page


def _coach(c: Card, shell: Shell, person: Person, one: Followable, several: bool, tell: Any) -> ft.Control:
    """One coach's work, and which of its programmes is followed."""
    source, followed = one.source, person.coach_key == one.coach_key

    def follow(programme: str) -> None:
        programmes.follow(shell.store, shell.clock, person.id, one.coach_key, programme)
        tell("")
        shell.refresh()

    pieces: list[ft.Control] = [
        c.head(text_client.programme_of(one.coach)),
        c.body(text_client.opened_line(one.coach, source.title or source.id, source.version)),
    ]
    pieces += [c.soft(source.about)] if source.about else []
    if followed and several:
        pieces.append(c.strong(text_client.FOLLOWED))
    if len(source.programmes) > 1 and followed:
        among = [Option(p.id, p.name, p.about) for p in source.programmes]
        pieces += [c.subhead(text_client.WHICH_PROGRAMME),
                   c.one_of_list(among, person.programme, safe(shell, follow))]
    if not followed:
        pieces.append(c.button(text_client.FOLLOW, safe(shell, lambda _: follow("")),
                               name=f"{text_client.FOLLOW}: {one.coach}"))
    return c.stack(pieces)
