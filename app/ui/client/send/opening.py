"""How a coach's programme or key comes in: from a file, from pasted text, by a link. All ways ask the same question."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import flet as ft

from app.actions.files import pasted_or_linked, programmes
from app.actions.files.pasted_or_linked import NamedFile, OfferedKey
from app.actions.files.programmes import OpenedProgramme, TrustStep
from app.domain.errors import AppError
from app.domain.model.person import Person
from app.ui.parts import Card, Look, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words import errors
from app.words.client import hand_over as words
from app.words.client import today


@dataclass(frozen=True)
class Opening:
    """What was said last, and what waits for the five words to be compared."""

    told: str = ""
    busy: bool = False
    waiting: OpenedProgramme | OfferedKey | None = None


Put = Callable[[Opening], object]


@dataclass(frozen=True)
class Door:
    """The one way in. Everything that comes is verified whole; of a coach who is new the words are asked."""

    shell: Shell
    person: Person
    put: Put

    async def pick(self, _: object = None) -> None:
        """A file that the person chooses."""
        self.put(Opening())
        picked = await self.shell.device.files.pick_files()
        if len(picked) != 1:
            self.put(Opening(words.ONE_AT_A_TIME if picked else today.NOT_PICKED))
            return
        await self._open(NamedFile(picked[0].name, picked[0].data))

    async def paste(self, text: str) -> None:
        """A text or a link that the person pasted."""
        await self._told(self._paste(text))

    async def follow(self, name: str) -> None:
        """The file that a link names."""
        self.put(Opening(words.fetching(name), busy=True))
        await self._told(self._follow(name))

    async def compare(self, text: str) -> None:
        """A key that a link holds."""
        await self._told(self._compare(text))

    def keep(self, what: OpenedProgramme | OfferedKey) -> None:
        """After the words were found the same."""
        if isinstance(what, OfferedKey):
            pasted_or_linked.expect_coach(self.shell.store, what.coach)
            self.put(Opening(words.key_kept(what.coach.name)))
        else:
            self._keep(what)

    async def _told(self, work: Any) -> None:
        """Whatever was wrong with it stands on the page, where it can be read again."""
        try:
            await work
        except AppError as error:
            self.put(Opening(errors.error_text(error)))

    async def _follow(self, name: str) -> None:
        await self._open(await pasted_or_linked.linked(self.shell.device, name))

    async def _paste(self, text: str) -> None:
        shell = self.shell
        found = await pasted_or_linked.pasted(shell.store, shell.brand, shell.device, text, words.THIS_TEXT)
        if isinstance(found, OfferedKey):
            self._offer(found)
        else:
            await self._open(found)

    async def _compare(self, text: str) -> None:
        self._offer(pasted_or_linked.offered_key(self.shell.store, self.shell.brand, text, words.THIS_KEY))

    def _offer(self, key: OfferedKey) -> None:
        self.put(Opening(words.key_known(key.coach.name)) if key.known else Opening(waiting=key))

    async def _open(self, file: NamedFile) -> None:
        shell = self.shell
        expected = pasted_or_linked.expected_coaches(shell.store, shell.brand)
        try:
            opened = await programmes.open_pack(shell.store, shell.clock, file.name, file.data, expected)
        except AppError as error:
            self.put(Opening(errors.error_text(error)))
            return
        if opened.standing in programmes.MUST_COMPARE:
            self.put(Opening(waiting=opened))
        else:
            self._keep(opened)

    def _keep(self, file: OpenedProgramme) -> None:
        programmes.accept_pack(self.shell.store, self.shell.clock, self.person.id, file)
        older = file.version_here is not None and file.source.version < file.version_here
        said = today.older_line(file.source.version, file.version_here or 0) if older else ""
        renewed = words.KEYS_TAKEN_OVER if file.standing is TrustStep.RENEWED else ""
        first = words.here_already(file.source.coach) if file.is_here else today.kept_line(file.source.coach)
        self.put(Opening(" ".join(filter(None, [first, renewed, said]))))


def compare_page(c: Card, door: Door, waiting: OpenedProgramme | OfferedKey) -> ft.Control:
    """The five words, one a line, large enough to read out."""
    def refuse(_: Any) -> None:
        door.put(Opening(today.NOT_SAME_SAID))

    listed: list[ft.Control] = [c.text(word, t.T_TITLE, t.EXTRA, height=1.15) for word in waiting.words]
    body = [c.title(today.MATCH_HEAD), *_whose(c, waiting), c.box(c.rows(listed, 8))]
    foot = [ft.Row([
        c.button(today.NOT_SAME, safe(door.shell, refuse), expand=True),
        c.button(today.SAME, safe(door.shell, bind(door.keep, waiting)), look=Look.SOLID, expand=True),
    ], spacing=8)]
    page = c.page(body, foot)
    page.key = "compare"
    return page


def _whose(c: Card, waiting: OpenedProgramme | OfferedKey) -> list[ft.Control]:
    if isinstance(waiting, OfferedKey):
        name = waiting.coach.name
        return [c.body(words.key_line(name)), c.body(words.match_key(name))]
    source = waiting.source
    if waiting.standing is TrustStep.RENEWED:
        known = waiting.known_as or source.coach
        return [c.harm_box(c.stack([c.strong(words.new_keys_head(known)), c.body(words.new_keys_why(known))], 8)),
                c.body(words.match_new_keys(known))]
    return [c.body(today.opened_line(source.coach, source.title or source.id, source.version)),
            c.body(today.match_words(source.coach))]


def key_link_text(shell: Shell) -> str:
    """The link that this page was opened by, as `handing.offered_key` reads it."""
    return f"#/key?{(shell.tools.page.route or '').partition('?')[2]}"
