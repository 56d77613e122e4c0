"""The coach's keys: the words to read out, and the recovery sheet until it is on paper."""
from __future__ import annotations

from collections.abc import Callable

import flet as ft

from app.actions.desk import publishing
from app.actions.desk.key_locks import is_shut
from app.actions.desk.recovering import recover_keys
from app.ui.coach.key_lock_part import KeyLockPart
from app.ui.coach.publish.code_page import CodePart
from app.ui.coach.stable_field import typed_field, use_typed
from app.ui.parts import Card, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach import publish as words

PER_LINE = 5


@ft.component
def KeysPanel(shell: Shell) -> ft.Control:
    """Made on first use, here or with the first programme."""
    c = shell.card()
    turn, set_turn = ft.use_state(0)
    is_shown, show = ft.use_state(False)
    is_sure, ask = ft.use_state(False)
    matching = publishing.matching_words(shell.store)
    sheet = publishing.recovery_sheet(shell.store)

    async def make(_: object) -> None:
        await publishing.ensure_coach_keys(shell.store, shell.clock)
        set_turn(turn + 1)

    async def save(_: object) -> None:
        made = words.sheet_text(sheet or (), publishing.coach_name(shell.store), shell.brand.name)
        if not await shell.device.files.save_bytes(words.SHEET_NAME, made.encode()):
            shell.say(words.not_saved())

    def confirm() -> None:
        publishing.confirm_sheet(shell.store)
        ask(False)
        show(False)
        set_turn(turn + 1)

    if not matching:
        return c.stack([c.head(words.MATCHING_HEAD), c.body(words.NO_KEYS),
                        c.side_by_side([c.button(words.MAKE_KEYS, safe(shell, make))]),
                        RecoverPart(shell, lambda: set_turn(turn + 1))], t.GAP_S)
    pieces: list[ft.Control] = [
        c.head(words.MATCHING_HEAD), c.box(c.text("   ".join(matching), t.T_HEAD, t.EXTRA)), c.soft(words.MATCHING_WHY),
        CodePart(shell), c.head(words.SHEET_HEAD),
    ]
    if sheet is None:
        def done() -> None:
            set_turn(turn + 1)
        forgotten = [RecoverPart(shell, done)] if is_shut(shell.store) else []
        return c.stack([*pieces, c.soft(words.SHEET_GONE), KeyLockPart(shell, done), *forgotten])
    acts = [
        c.small_button(words.SHEET_HIDE if is_shown else words.SHEET_SHOW, bind(show, not is_shown)),
        c.small_button(words.SHEET_SAVE, safe(shell, save)),
        c.small_button(words.SHEET_DONE, bind(ask, True)),
    ]
    pieces += [c.body(words.SHEET_WHY), c.side_by_side(acts)]
    if is_shown:
        pieces.append(_words(c, sheet))
    if is_sure:
        sure = [c.small_button(words.SHEET_YES, safe(shell, bind(confirm))),
                c.small_button(words.SHEET_NO, bind(ask, False))]
        pieces.append(c.notice(words.SHEET_SURE, acts=sure))
    return c.stack(pieces, 12)


@ft.component
def RecoverPart(shell: Shell, on_done: Callable[[], object]) -> ft.Control:
    """For a coach whose computer is lost: the words of the sheet, typed."""
    c = shell.card()
    is_open, set_open = ft.use_state(False)
    typed = use_typed()

    async def recover(_: object) -> None:
        await recover_keys(shell.store, shell.clock, typed.words)
        typed.words = ""
        shell.say(words.RECOVERED)
        on_done()

    if not is_open:
        return c.link(words.RECOVER_OPEN, bind(set_open, True))
    acts = [c.button(words.RECOVER, safe(shell, recover)), c.button(words.RECOVER_NOT, bind(set_open, False))]
    return c.stack([c.head(words.RECOVER_HEAD), c.body(words.RECOVER_WHY),
                    typed_field(shell, words.RECOVER_FIELD, typed, lines=4), c.side_by_side(acts)], 12)


def _words(c: Card, sheet: tuple[str, ...]) -> ft.Control:
    """Numbered, in lines of five; on a phone and in large print one under the other."""
    numbered = [f"{at}  {word}" for at, word in enumerate(sheet, 1)]
    per_line = PER_LINE if c.is_wide and c.scale <= t.LARGE_PRINT else 2 if c.scale <= t.LARGE_PRINT else 1
    lines = [numbered[at:at + per_line] for at in range(0, len(numbered), per_line)]
    rows: list[ft.Control] = [
        ft.Row([c.text(word, t.T_BODY, t.SEMI, expand=True) for word in line]
               + [ft.Container(expand=True) for _ in range(per_line - len(line))]) for line in lines
    ]
    return c.box(c.rows(rows))
