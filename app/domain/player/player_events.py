"""Everything that may happen to a running session, besides time going by."""
from __future__ import annotations

from dataclasses import dataclass

from app.domain.model.exercise import Mode, Sides
from app.domain.model.record import Ending, Hurt


@dataclass(frozen=True)
class Started:
    """The client pressed Start, or goes on after a pause, a wait or a question."""


@dataclass(frozen=True)
class Paused:
    """The client paused."""


@dataclass(frozen=True)
class Gap:
    """Time went by unseen; the player stands at the last heartbeat and asks."""


@dataclass(frozen=True)
class Skipped:
    """The bout that is under way or comes next is left out, with its other side; right after "back", forward again."""


@dataclass(frozen=True)
class WentBack:
    """To the start of this step, or of the work before it."""


@dataclass(frozen=True)
class Ready:
    """Before its time: down or up, or enough rest; on to the count before the work."""


@dataclass(frozen=True)
class Counted:
    """The movements that were to be counted are done."""


@dataclass(frozen=True)
class AllRight:
    """The answer to "all right?" in the rest before a round."""


@dataclass(frozen=True)
class LongerRest:
    """15 s more before the next work."""


@dataclass(frozen=True)
class Swapped:
    """`to` instead of `written` from here to the end; by hand, or to spare what hurts."""

    written: str
    to: str
    sides: Sides
    mode: Mode
    loaded: bool
    by_hand: bool = True


@dataclass(frozen=True)
class TakenBack:
    """The last change made by hand was a mistake: from here on as it was before."""


@dataclass(frozen=True)
class StoodStill:
    """"That hurts": one tap stops everything."""


@dataclass(frozen=True)
class NothingHurts:
    """"That hurts" was pressed by mistake: back to standing still, with nothing noted."""


@dataclass(frozen=True)
class HurtTold:
    """The answers, and what follows: exercises left out for the rest of it, or the end."""

    hurt: Hurt
    leave_out: tuple[str, ...] = ()
    ends: bool = False


@dataclass(frozen=True)
class Ended:
    """Stopped before the end; `sign` is the stop sign, if one was the reason."""

    ending: Ending
    sign: str = ""


PlayerEvent = (
    Started | Paused | Gap | Skipped | WentBack | Ready | Counted | AllRight | LongerRest | Swapped | TakenBack
    | StoodStill | NothingHurts | HurtTold | Ended
)
