"""The coach's keys under a passphrase: locked, opened until the program ends, and taken out again."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from enum import Enum
from typing import Any

import flet as ft

from app.actions.backup import suggested_passphrase
from app.actions.desk import key_locks as acting
from app.ui.coach.stable_field import Typed, use_typed
from app.ui.parts import Card, Look, bind
from app.ui.parts import theme as t
from app.ui.parts.secret_field import SecretField
from app.ui.shell.complaints import SecretAct, complaint_of
from app.ui.shell.shell import Shell, safe
from app.words.coach import key_lock as words


class _Unfolded(Enum):
    """A line alone; its form, to lock or to take the lock away; or what the computer is to remember."""

    SHORT = 0
    LONG = 1
    REMEMBER = 2


@ft.component
def KeyLockPart(shell: Shell, on_done: Callable[[], object]) -> ft.Control:
    """Where the keys were made and their sheet is on paper."""
    c = shell.card()
    page, turn_to = ft.use_state(_Unfolded.SHORT)
    (wrong, turn), put = ft.use_state(("", 0))
    first, again = use_typed(), use_typed()

    def press(act: SecretAct) -> Callable[[Any], None]:
        async def acted() -> None:
            if complaint := await complaint_of(act):
                put((complaint, turn))
                return
            first.words = again.words = ""
            put(("", turn + 1))
            turn_to(_Unfolded.SHORT)
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

    async def remember() -> str:
        kept = await acting.remember_passphrase(shell.store, first.words)
        return "" if kept else words.REMEMBER_REFUSED

    async def unlock_here() -> str:
        return "" if await acting.unlock_remembered(shell.store) else words.UNLOCK_HERE_REFUSED

    async def forget() -> str:
        await acting.forget_remembered(shell.store)
        return ""

    async def shut() -> str:
        acting.shut_keys(shell.store)
        return ""

    told = [c.notice(wrong)] if wrong else []
    one = _secret(c, words.PASSPHRASE, first, f"first {turn}")
    back = c.button(words.NOT_NOW, bind(turn_to, _Unfolded.SHORT))
    remembered = acting.is_remembered(shell.store)
    if acting.is_shut(shell.store):
        with_store = c.button(words.UNLOCK_HERE, press(unlock_here), look=Look.SOLID)
        here = [c.side_by_side([with_store])] if remembered else []
        typed = c.button(words.UNLOCK, press(unlock), look=Look.BOX if remembered else Look.SOLID)
        return c.stack([c.head(words.LOCKED_HEAD), c.body(words.LOCKED), *here, one, *told,
                        c.side_by_side([typed])], 12)
    if acting.is_locked(shell.store) and page is _Unfolded.REMEMBER:
        return c.stack([c.head(words.REMEMBER), c.body(words.REMEMBER_WHY), one, *told, c.side_by_side([
            c.button(words.REMEMBER, press(remember), look=Look.SOLID), back])], 12)
    if acting.is_locked(shell.store) and page is _Unfolded.LONG:
        return c.stack([c.head(words.REMOVE_HEAD), c.body(words.REMOVE_WHY), one, *told,
                        c.side_by_side([c.button(words.REMOVE, press(remove)), back])], 12)
    if acting.is_locked(shell.store):
        acts = [c.small_button(words.LOCK_NOW, press(shut)),
                c.small_button(words.REMOVE_OPEN, bind(turn_to, _Unfolded.LONG))]
        if remembered:
            acts.append(c.small_button(words.FORGET, press(forget)))
        elif acting.can_remember():
            acts.append(c.small_button(words.REMEMBER, bind(turn_to, _Unfolded.REMEMBER)))
        said = f"{words.UNLOCKED} {words.REMEMBERED}" if remembered else words.UNLOCKED
        return c.stack([c.head(words.UNLOCKED_HEAD), c.soft(said), *told, c.side_by_side(acts)], t.GAP_S)
    if page is _Unfolded.SHORT:
        return c.link(words.LOCK_OPEN, bind(turn_to, _Unfolded.LONG))
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
    def note(said: str) -> None:
        typed.words = said
    return SecretField(c, label, typed.words, note, key=key)
