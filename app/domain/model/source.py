"""What a coach wrote: exercises, sessions, programmes and rules, the same value in TOML, in a pack and in the store."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from app.domain.model.exercise import Exercise
from app.domain.model.figure_body import FigureBody
from app.domain.model.omit_defaults import LATE
from app.domain.model.programme import Programme
from app.domain.model.proofreading_limits import DEFAULT_LIMITS, ProofreadingLimits
from app.domain.model.rules import RuleId, RuleTable, rule_table
from app.domain.model.session import Session


@dataclass(frozen=True)
class RuleChoice:
    """A preset (`careful`, `usual` or `steady`) and levels moved by hand: raised or, where allowed, lowered."""

    preset: str = "usual"
    shift: Mapping[RuleId, int] = field(default_factory=dict, hash=False)
    spare_both_sides: bool = field(default=False, metadata=LATE)
    """Whether a sore limb takes the other side's work too."""

    def table(self) -> RuleTable:
        """The rule table so chosen.

        Raises:
            UnknownName, WrongValue: as `rule_table`.
        """
        return replace(rule_table(self.preset, self.shift), spare_both_sides=self.spare_both_sides)


@dataclass(frozen=True)
class Source:
    """A coach's work as a whole."""

    id: str
    coach: str
    version: int
    exercises: tuple[Exercise, ...]
    sessions: tuple[Session, ...]
    programmes: tuple[Programme, ...]
    title: str = ""
    about: str = ""
    language: str = "en"
    contact: str = ""
    rules: RuleChoice = RuleChoice()
    whole_library: bool = False
    """Whether any exercise of the library may stand in where the ladder and the approved swaps have none."""
    body: FigureBody = field(default=FigureBody.SILVER, metadata=LATE)
    """Who moves in the pictures, where a client has not chosen."""
    proofreading: ProofreadingLimits = DEFAULT_LIMITS
    """From where on the proofreader objects."""

    def library(self) -> dict[str, Exercise]:
        """Exercises by id."""
        return {e.id: e for e in self.exercises}

    def session(self, session_id: str) -> Session | None:
        """The session of that id, or None."""
        return next((s for s in self.sessions if s.id == session_id), None)
