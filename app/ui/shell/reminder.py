"""Reminds of a session that is due while a window is open, once on the day."""
from __future__ import annotations

from app.actions.training.reminding import take_due
from app.domain.errors import StorageError
from app.ui.shell.shell import Tools
from app.words import sound as words

LOOK_EACH_S = 60.0


async def keep_reminding(tools: Tools) -> None:
    """Looks once a minute until the page is closed. Where the machine takes no notice, Today says it all the same."""
    while True:
        await tools.clock.sleep(LOOK_EACH_S)
        try:
            name = take_due(tools.store, tools.clock)
        except StorageError:  # the screens say it; a notice can wait a minute
            continue
        if name:
            await tools.device.notices.show(tools.brand.name, words.due_words(name))
