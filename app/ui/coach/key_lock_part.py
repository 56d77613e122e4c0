"""The coach's keys under a passphrase: locked, opened until the program ends, and taken out again."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import flet as ft

from app.actions.backup import suggested_passphrase
from app.actions.desk import key_locks as acting
from app.ui.coach.stable_field import Typed, use_typed
from app.ui.parts import Card, Look, bind
from app.ui.parts import theme as t
from app.ui.shell.complaints import SecretAct, complaint_of
from app.ui.shell.shell import Shell, safe
from app.words.coach import key_lock as words


@ft.component
def KeyLockPart(shell: Shell, on_done: Callable[[], object]) -> ft.Control:
    """Where the keys were made and their sheet is on paper."""
    c = shell.card()
    is_open, set_open = ft.use_state(False)
    (wrong, turn), put = ft.use_state(("", 0))
    first, again = use_typed(), use_typed()

    def press(act: SecretAct) -> Callable[[Any], None]:
        async def acted() -> None:
            if complaint := await complaint_of(act):
                put((complaint, turn))
                return
            first.words = again.words = ""
            put(("", turn + 1))
            set_open(False)
            on_done()
        return safe(shell, lambda _: shell.run(acted))

    async def lock() -> str:
        if first.words.strip() != again.words.strip():
            return words.NOT_THE_SAME
        await acting.lock_keys(shell.store, first.words)
        return ""

    async def unlock() -> str:
        await acting.unlock_keys(shell.store, first.words)
        return ""

    async def remove() -> str:
        await acting.remove_lock(shell.store, first.words)
        return ""

    async def shut() -> str:
        acting.shut_keys(shell.store)
        return ""

    told = [c.notice(wrong)] if wrong else []
    one = _secret(c, words.PASSPHRASE, first, f"first {turn}")
    back = c.button(words.NOT_NOW, bind(set_open, False))
    if acting.is_shut(shell.store):
        return c.stack([c.head(words.LOCKED_HEAD), c.body(words.LOCKED), one, *told,
                        c.side_by_side([c.button(words.UNLOCK, press(unlock), look=Look.SOLID)])], 12)
    if acting.is_locked(shell.store):
        acts = [c.small_button(words.LOCK_NOW, press(shut)), c.small_button(words.REMOVE_OPEN, bind(set_open, True))]
        if not is_open:
            return c.stack([c.head(words.UNLOCKED_HEAD), c.soft(words.UNLOCKED), c.side_by_side(acts)], t.GAP_S)
        return c.stack([c.head(words.REMOVE_HEAD), c.body(words.REMOVE_WHY), one, *told,
                        c.side_by_side([c.button(words.REMOVE, press(remove)), back])], 12)
    if not is_open:
        return c.link(words.LOCK_OPEN, bind(set_open, True))
    return c.stack([
        c.head(words.LOCK_HEAD), c.body(words.LOCK_WHY), _Suggested(shell), one,
        _secret(c, words.AGAIN, again, f"again {turn}"), *told, c.side_by_side([
            c.button(words.LOCK, press(lock), look=Look.SOLID), back])], 12)


@dataclass(frozen=True)
class _Phrase:
    words: str = field(default_factory=suggested_passphrase)


@ft.component
def _Suggested(shell: Shell) -> ft.Control:
    """Six words by chance, the same for as long as the page stands."""
    c = shell.card()
    found, _ = ft.use_state(_Phrase())
    return c.note(words.suggested(found.words))


def _secret(c: Card, label: str, typed: Typed, key: str) -> ft.Control:
    """No keyboard learns what is typed."""
    def note(event: Any) -> None:
        typed.words = event.control.value or ""
    return c.field(label, typed.words, note, password=True, can_reveal_password=True, autocorrect=False,
                   enable_suggestions=False, key=key)
