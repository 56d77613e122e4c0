"""What is said where something with a secret was refused."""
from __future__ import annotations

from collections.abc import Awaitable, Callable

from app.domain.errors import SecretError
from app.words.errors import error_text

#: Does something with a secret and returns what is wrong; empty: nothing.
SecretAct = Callable[[], Awaitable[str]]


async def complaint_of(act: SecretAct) -> str:
    """What is wrong, by the act's own word or by its refusal; empty: it is done."""
    try:
        return await act()
    except SecretError as error:
        return error_text(error)
