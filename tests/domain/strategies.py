"""Random diaries, bodies, rooms and small libraries, and single answers made worse."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import timedelta
from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import SearchStrategy

from app.domain.model.body import Spot
from app.domain.model.client import Client, Condition, ConditionTerms, Place, UsualPain
from app.domain.model.diary import AnsweredBy, Diary, Fall, Last, Symptom
from app.domain.model.exercise import Axis, Exercise, Limb, Mode, Option, Pattern, Position, Sides, Space, Support
from app.domain.model.session import Block, BlockKind, Item, Session
from tests import generators
from tests.domain.shipped import SESSIONS, TODAY, library

diaries = generators.diaries
body_spots = generators.body_spots
session_ids = st.sampled_from(SESSIONS)
IDS = tuple(sorted(library()))
KIT = ("chair", "worktop", "dumbbell", "mat", "band", "step")

# ------------------------------------------------------------------ one answer made worse


def _raised(told: Mapping[Spot, int], spot: Spot, by: int, most: int) -> dict[Spot, int]:
    return {**told, spot: min(most, told.get(spot, 0) + by)}


def _worse_spots(name: str, most: int) -> Callable[[st.DrawFn, Diary], tuple[Diary, Diary]]:
    def worse(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
        told = getattr(diary, name)
        if told is None:
            return replace(diary, **{name: {}}), diary
        spot = draw(st.sampled_from(sorted(told)) | body_spots) if told else draw(body_spots)
        return diary, replace(diary, **{name: _raised(told, spot, draw(st.integers(1, 5)), most)})
    return worse


def _worse_item(name: str) -> Callable[[st.DrawFn, Diary], tuple[Diary, Diary]]:
    def worse(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
        value = getattr(diary, name)
        if value is None:
            return replace(diary, **{name: 5}), diary
        return diary, replace(diary, **{name: draw(st.integers(1, value))})
    return worse


def _last(diary: Diary, **changes: Any) -> Diary:
    return replace(diary, last=replace(diary.last, **changes))


def _worse_symptoms(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    if diary.symptoms is None:
        return replace(diary, symptoms=frozenset()), diary
    return diary, replace(diary, symptoms=diary.symptoms | {draw(st.sampled_from(Symptom))})


def _worse_rpe(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    rpe, target = diary.last.rpe, diary.last.target_rpe
    if rpe is None or target is None:
        return _last(diary, rpe=min(8, target or 5), target_rpe=target or 5), diary
    return diary, _last(diary, rpe=draw(st.integers(rpe, 10)), target_rpe=draw(st.integers(1, target)))


def _worse_completed(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    done = diary.last.completed
    if done is None:
        return _last(diary, completed=100), diary
    return diary, _last(diary, completed=draw(st.integers(0, done)))


def _less_of_an_excuse(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    return _last(diary, interrupted=True), _last(diary, interrupted=False)


def _worse_light(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    """The last session without strength work was harder, done less of, or hurt more."""
    light = diary.last_light or Last(0, 5, 5, 100)
    rpe, target = light.rpe if light.rpe is not None else 5, light.target_rpe or 5
    done, pain = light.completed if light.completed is not None else 100, light.pain or 0
    light = replace(light, rpe=rpe, target_rpe=target, completed=done, pain_at={}, pain=pain)
    worse = draw(st.sampled_from((
        replace(light, rpe=draw(st.integers(rpe, 10))), replace(light, completed=draw(st.integers(0, done))),
        replace(light, pain=draw(st.integers(pain, 10))))))
    return replace(diary, last_light=light), replace(diary, last_light=worse)


def _fallen(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    return replace(diary, fall=None), replace(diary, fall=Fall(draw(st.integers(0, 90)), draw(st.booleans())))


def _flared(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    before, days = draw(st.booleans()), draw(st.none() | st.integers(1, 3))
    worse = replace(diary, flare_days=days, flare_unsaid=days is None or draw(st.booleans()))
    return replace(diary, flare_days=None, flare_unsaid=before and worse.flare_days is not None), worse


def _too_soon(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    """The arm towards the same day; which session came later is another question."""
    days, diary = draw(st.integers(0, 7)), replace(diary, last_light=None)
    return _last(diary, days_ago=days), _last(diary, days_ago=draw(st.integers(0, days)))


def _too_long(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    """The arm towards a long break."""
    days, diary = draw(st.integers(2, 60)), replace(diary, last_light=None)
    return _last(diary, days_ago=days), _last(diary, days_ago=draw(st.integers(days, 90)))


def _days_left_out(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    diary = replace(diary, last_light=None)
    return _last(diary, days_ago=draw(st.integers(2, 7))), _last(diary, days_ago=None)


def _worse_last_pain(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    at = diary.last.pain_at
    if at:
        return diary, _last(diary, pain_at=_raised(at, draw(st.sampled_from(sorted(at))), draw(st.integers(1, 5)), 10))
    return diary, _last(diary, pain=draw(st.integers(diary.last.pain or 0, 10)))


def _worse_past(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    """The level carried over: up to 6 on one arm; a stop with its yes starts at 4, so it stands beside 5, not 6."""
    level = draw(st.integers(0, 6))
    worse = [*range(level, 7), *((7, 8) if level <= 5 else ())]
    return replace(diary, previous_level=level), replace(diary, previous_level=draw(st.sampled_from(worse)))


def _no_yes(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    return replace(diary, cleared=True), replace(diary, cleared=False)


def _fewer_clean(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    return diary, replace(diary, clean_sessions=draw(st.integers(0, diary.clean_sessions)))


def _guessed(draw: st.DrawFn, diary: Diary) -> tuple[Diary, Diary]:
    return replace(diary, answered_by=AnsweredBy.SELF), replace(diary, answered_by=AnsweredBy.LEADER)


WORSENINGS: Mapping[str, Callable[[st.DrawFn, Diary], tuple[Diary, Diary]]] = {
    "symptoms": _worse_symptoms, "pain": _worse_spots("pain", 10), "pain_rise": _worse_spots("pain_rise", 10),
    "pain_hours": _worse_spots("pain_hours", 200), "soreness": _worse_spots("soreness", 10),
    "soreness_hours": _worse_spots("soreness_hours", 200), "slept": _worse_item("slept"),
    "energy": _worse_item("energy"), "calm": _worse_item("calm"), "rpe": _worse_rpe, "completed": _worse_completed,
    "interrupted": _less_of_an_excuse, "too_soon": _too_soon, "too_long": _too_long, "days": _days_left_out,
    "last_pain": _worse_last_pain, "previous": _worse_past, "cleared": _no_yes, "clean": _fewer_clean,
    "leader": _guessed, "light": _worse_light, "fall": _fallen, "flare": _flared,
}


@st.composite
def worsened(draw: st.DrawFn) -> tuple[Diary, Diary]:
    """(a diary, the same with one answer worse or left out)."""
    diary = draw(diaries | mild_diaries)
    return WORSENINGS[draw(st.sampled_from(sorted(WORSENINGS)))](draw, diary)


#: Mostly well, so that one answer decides.
mild_diaries = st.builds(
    Diary, symptoms=st.just(frozenset()), pain=st.dictionaries(body_spots, st.integers(0, 7), max_size=2),
    pain_rise=st.dictionaries(body_spots, st.integers(-2, 1), max_size=2),
    soreness=st.dictionaries(body_spots, st.integers(0, 7), max_size=2), slept=st.integers(3, 5),
    energy=st.integers(3, 5), calm=st.integers(3, 5),
    last=st.builds(generators.Last, st.integers(2, 9), st.integers(3, 7), st.integers(4, 6), st.integers(70, 100),
                   st.none() | st.integers(0, 4)),
)

# ------------------------------------------------------------------ bodies and rooms for the shipped library

usual_pains = st.builds(UsualPain, st.integers(0, 5), st.just("physiotherapist"),
                        st.integers(-3, 3).map(lambda n: TODAY + timedelta(days=n)))
#: When it began, and whose yes there is on which day; half a yes is none.
terms = st.dictionaries(st.sampled_from(Condition), st.builds(
    ConditionTerms, since=st.none() | st.integers(0, 400).map(lambda n: TODAY - timedelta(days=n)),
    cleared_by=st.sampled_from(("", "Ms Field, physiotherapist")), cleared=st.sampled_from((None, TODAY))), max_size=2)
bodies = st.builds(
    Client,
    spare=st.dictionaries(generators.spots, st.integers(0, 3), max_size=2),
    conditions=st.frozensets(st.sampled_from(sorted(set(Condition) - {Condition.ONE_SIDE})), max_size=2),
    limits=st.dictionaries(st.sampled_from(Axis), st.integers(0, 3), max_size=2),
    usual_pain=st.dictionaries(body_spots, usual_pains, max_size=2),
    alone=st.booleans(), rises_unaided=st.sampled_from((True, True, False)),
    shown=st.frozensets(st.sampled_from(IDS), max_size=8),
    same_as_always=st.sampled_from((False, False, False, True)),
    kit=st.none() | st.frozensets(st.sampled_from(KIT)),
    weights_g=st.none() | st.lists(st.sampled_from((500, 1000, 1500, 2000, 3000, 4000, 5000, 8000)),
                                   max_size=3).map(tuple),
    chosen=st.dictionaries(st.sampled_from(IDS), st.sampled_from(IDS), max_size=2),
    rest_side=st.sampled_from(("", "", "", "left", "right")),
    rest_side_because=st.just("plaster"), rest_limb=st.sampled_from(("", "arm", "leg")),
    terms=terms,
)
rooms = st.builds(Place, st.just(""), st.none() | st.frozensets(st.sampled_from(KIT)), st.booleans(), st.booleans(),
                  st.sampled_from(Space), bed=st.booleans())

# ------------------------------------------------------------------ small libraries

limbs = st.lists(st.sampled_from(Limb), max_size=3, unique=True).map(tuple)
MUSCLES = ("quadriceps", "glutes", "pectorals", "lats")


@st.composite
def exercises(draw: st.DrawFn, one: str, ids: tuple[str, ...]) -> Exercise:
    """An exercise that a coach might write; on the floor only with the demand that this is."""
    mode, position = draw(st.sampled_from(Mode)), draw(st.sampled_from(Position))
    demand = dict.fromkeys(Axis, 0) | draw(st.dictionaries(st.sampled_from(Axis), st.integers(1, 3), max_size=4))
    others = st.sampled_from([i for i in ids if i != one])
    loaded = draw(st.booleans())
    return Exercise(
        one, one, draw(st.sampled_from(Pattern)), position,
        (*draw(st.sampled_from(((), ("chair",), ("mat",)))), *(("dumbbell",) if loaded else ())),
        draw(st.sampled_from(Sides)), mode, draw(st.sampled_from((1500, 2000, 3000, 4500))) if mode is Mode.REPS else 0,
        20 if mode is Mode.HOLD else 0, draw(st.sampled_from((0, 5, 10, 25))), (draw(st.sampled_from(MUSCLES)),),
        demand=demand, support=draw(st.sampled_from(Support)), space=draw(st.sampled_from(Space)),
        self_explanatory=draw(st.booleans()), loaded=loaded,
        easier=tuple(Option(to) for to in draw(st.lists(others, max_size=2, unique=True))),
        swaps=tuple(Option(to) for to in draw(st.lists(others, max_size=1))),
        loads=draw(st.none() | limbs), leans_on=draw(st.none() | limbs),
    )


@st.composite
def items(draw: st.DrawFn, exercise: Exercise) -> Item:
    """A station, in seconds, repetitions or as a hold."""
    amounts = [{"work_s": draw(st.integers(5, 90))}, {"hold_s": draw(st.integers(5, 60))}]
    if exercise.mode is Mode.REPS:
        amounts.append({"reps": draw(st.integers(1, 15))})
    return Item(
        exercise.id, **draw(st.sampled_from(amounts)), rest_s=draw(st.none() | st.integers(0, 120)),
        load_g=draw(st.sampled_from((0, 500, 2000, 4000))) if exercise.loaded else 0,
        accessory=draw(st.sampled_from((False, False, True))),
    )


def _blocks(library: Mapping[str, Exercise], kinds: tuple[BlockKind, ...]) -> SearchStrategy[Block]:
    stations = st.lists(st.sampled_from(sorted(library)).flatmap(lambda i: items(library[i])), min_size=1, max_size=4)
    rests = st.integers(0, 100)
    return st.builds(Block, st.sampled_from(kinds), stations.map(tuple), st.integers(1, 4), rests, rests)


@st.composite
def small_sessions(draw: st.DrawFn) -> tuple[Session, dict[str, Exercise]]:
    """(a session of a warm-up, one or two main blocks and a cool-down, its library)."""
    ids = ("a", "b", "c", "d", "e")
    library = {one: draw(exercises(one, ids)) for one in ids}
    main = (BlockKind.CIRCUIT, BlockKind.STRAIGHT_SETS, BlockKind.HOLDS)
    blocks = (draw(_blocks(library, (BlockKind.WARM_UP,))),
              *draw(st.lists(_blocks(library, main), min_size=1, max_size=2)),
              draw(_blocks(library, (BlockKind.COOL_DOWN,))))
    return Session("s", "S", blocks), library
