"""An exercise as a coach writes it, in TOML or in a pack's `content.json`; times in seconds with decimals."""
from __future__ import annotations

from typing import Annotated, Any

from pydantic import AfterValidator, Field, model_validator

from app.domain.model.exercise import (
    FIRST_AXES,
    Axis,
    Cues,
    Exercise,
    Limb,
    Mode,
    Option,
    Pattern,
    Position,
    Sides,
    Space,
    Support,
)
from app.exchange.forms.field_types import (
    Demand,
    Form,
    Line,
    Name,
    Slug,
    Word,
    becomes,
    number,
    refuse,
    whole,
)
from app.exchange.forms.to_json import plain


class DemandForm(Form):
    """The first sixteen axes, each of which must be stated, and those that came later, which may be left out."""

    wrist_weight_bearing: Demand
    overhead_shoulder: Demand
    shoulder_load: Demand
    elbow_load: Demand
    grip: Demand
    neck_load: Demand
    loaded_spinal_flexion: Demand
    loaded_twist: Demand
    deep_hip_flexion: Demand
    deep_knee_flexion: Demand
    kneeling: Demand
    ankle_load: Demand
    single_leg_balance: Demand
    impact: Demand
    floor_transfer: Demand
    head_below_heart: Demand
    spinal_rounding: Demand | None = None
    spinal_extension: Demand | None = None
    head_turning: Demand | None = None
    turning_round: Demand | None = None
    bearing_down: Demand | None = None
    hard_hold: Demand | None = None
    unheld_balance: Demand | None = None
    leg_crossing: Demand | None = None


def _rated(form: DemandForm) -> dict[Axis, int]:
    """Every axis that was rated; one that was left out is estimated where it is asked for."""
    return {Axis(key): level for key, level in form.stated().items() if level is not None}


class OptionForm(Form):
    """A neighbour and what it spares."""

    to: Slug
    relieves: tuple[Axis, ...] = ()


class CuesForm(Form):
    """What one is told."""

    set_up: tuple[Line, ...] = ()
    action: tuple[Line, ...] = ()
    breath: Line = ""
    safety: tuple[Line, ...] = ()


Options = Annotated[tuple[Annotated[OptionForm, becomes(Option)], ...], Field(max_length=20)]


Limbs = Annotated[tuple[Limb, ...], Field(max_length=4)]
#: Said even where there is none: nothing said and none are two things.
SAID = frozenset({"loads", "leans_on"})


class ExerciseForm(Form):
    """One [[exercise]]. Counted ones state `seconds_per_rep`, held ones `hold_s`."""

    id: Slug
    name: Name
    pattern: Pattern
    position: Position
    equipment: tuple[Word, ...] = ()
    sides: Sides = Sides.BOTH
    mode: Mode = Mode.REPS
    seconds_per_rep: Annotated[float, number(0.3, 30)] | None = None
    hold_s: Annotated[int, whole(5, 120)] | None = None
    set_up_s: Annotated[int, whole(0, 120)] = 0
    muscles: tuple[Word, ...] = ()
    muscles_too: tuple[Word, ...] = ()
    demand: Annotated[DemandForm, AfterValidator(_rated)]
    support: Support = Support.NONE
    space: Space = Space.SMALL
    self_explanatory: bool = False
    loaded: bool = False
    figure: Line = ""
    cues: Annotated[CuesForm, becomes(Cues)] = Field(default=Cues())  # type: ignore[assignment]
    easier: Options = ()
    harder: Options = ()
    swaps: Options = ()
    loads: Limbs | None = None
    leans_on: Limbs | None = None
    sits_forward: bool = False
    rises_briskly: bool = False
    stretches_hip_front: bool = False

    @model_validator(mode="after")
    def _one_measure(self) -> ExerciseForm:
        counted = self.mode is Mode.REPS
        if (self.seconds_per_rep is None) is counted or (self.hold_s is None) is not counted:
            refuse("seconds_per_rep for a counted exercise and hold_s for a held one, not both")
        return self


def exercise_of(form: ExerciseForm) -> Exercise:
    """The exercise, with its tempo in whole milliseconds."""
    stated = form.stated()
    tempo = stated.pop("seconds_per_rep")
    stated["hold_s"] = stated["hold_s"] or 0
    return Exercise(rep_ms=round((tempo or 0) * 1000), **stated)


def exercise_table(exercise: Exercise) -> dict[str, Any]:
    """The keys that give this exercise back, without those that say nothing."""
    table: dict[str, Any] = plain(exercise)
    rep_ms, hold_s = table.pop("rep_ms"), table.pop("hold_s")
    if exercise.mode is Mode.REPS:
        table["seconds_per_rep"] = rep_ms / 1000
    else:
        table["hold_s"] = hold_s
    rated = {axis: exercise.demand.get(axis, 0) for axis in FIRST_AXES} | dict(exercise.demand)
    table["demand"] = {axis.value: rated[axis] for axis in Axis if axis in rated}
    table["cues"] = {key: said for key, said in table["cues"].items() if said}
    silent: tuple[Any, ...] = ("", [], {}, False)
    return {key: table[key] for key in _ORDER if key in table and (key in SAID or table[key] not in silent)}


_ORDER = tuple(ExerciseForm.model_fields)
