"""Before which pages a PIN stands. None stands before a session under way: whoever wants to stop, stops."""
from __future__ import annotations

from app.actions.people import Role, current_role
from app.actions.pin_locks import DESK, has_pin, is_training, locked_person
from app.ui.shell.shell import LINKS, Shell

#: Asks for a PIN; no address leads to it.
LOCKED = "unlock"
#: Says nothing of anybody.
FREE = frozenset({"who", "why"})
DESKS = frozenset({"desk", "people", "person", "publish"})


def pin_owner(shell: Shell, shown: str) -> str:
    """Whose PIN this page has to ask for before it shows that screen; empty where none stands before it."""
    if shown in FREE or (shown == "welcome" and not shell.route_id()):
        return ""
    if shown in DESKS or (shown in LINKS | {"settings"} and current_role(shell.store) is Role.COACH):
        owner = DESK if has_pin(shell.store, DESK) else ""
    else:
        owner = locked_person(shell.store)
        if owner and shown == "play" and is_training(shell.store, owner):
            return ""
    return "" if owner in shell.tools.opened else owner
