"""Hypothesis strategies that can produce every valid value that travels or is kept.

`sources()`, `people()`, `records(person)`, `diaries()` and their parts; ids of a source answer to one another.
"""
from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import SearchStrategy

from app.domain.model.body import BODY_REGIONS, PAIRED_REGIONS, Region, Spot
from app.domain.model.client import Client, Condition, Place, UsualPain
from app.domain.model.diary import AnsweredBy, Diary, Fall, Last, Symptom
from app.domain.model.exercise import Axis, Cues, Exercise, Limb, Mode, Option, Pattern, Position, Sides, Space, Support
from app.domain.model.figure_body import FigureBody
from app.domain.model.names import can_be_seen
from app.domain.model.person import Person
from app.domain.model.plan import (
    ChangeStage,
    Dose,
    LeftOut,
    Move,
    MoveKind,
    OneSided,
    Part,
    Reason,
    Step,
    StepKind,
    StepReason,
    StepSide,
    Substitution,
    Timeline,
)
from app.domain.model.programme import Programme, Week
from app.domain.model.proofreading_limits import ProofreadingLimits, limit_bounds
from app.domain.model.record import (
    CheckDone,
    CheckIn,
    Clearance,
    DoneStep,
    Ending,
    Event,
    EventKind,
    FunctionalCheck,
    How,
    Hurt,
    HurtKind,
    Record,
    SessionDone,
    Stamp,
)
from app.domain.model.rules import MOST_SHIFT, MOVABLE, PRESETS, SOFTENABLE, RuleId
from app.domain.model.session import MOST_STEPS, Block, BlockKind, Item, Session
from app.domain.model.source import RuleChoice, Source

EQUIPMENT = ("chair", "worktop", "wall", "doorway", "step", "mat", "band", "door_anchor", "dumbbell", "towel", "none")
MUSCLES = ("quadriceps", "glutes", "hamstrings", "calves", "pectorals", "lats", "abdominals", "hip_flexors")
SENDS = ("sessions", "pain", "check_ins", "notes")

_letters = st.characters(exclude_categories=("Cs", "Cc"), include_characters="\n\t")
slugs = st.text("abcdefghijklmnopqrstuvwxyz0123456789-", min_size=1, max_size=12)
hashes = st.integers(0, 2**256 - 1).map(lambda n: f"{n:064x}")
days = st.dates(date(2020, 1, 1), date(2040, 1, 1))
instants = st.datetimes(datetime(2020, 1, 1), datetime(2040, 1, 1), timezones=st.just(UTC))
axes = st.sampled_from(Axis)
spots = st.builds(Spot, st.sampled_from(Region), st.sampled_from(("", "left", "right")))
body_spots = st.sampled_from(BODY_REGIONS).flatmap(
    lambda region: st.builds(Spot, st.just(region), st.sampled_from(("", "left", "right") if region in PAIRED_REGIONS
                                                                    else ("",))))
pains = st.dictionaries(body_spots, st.integers(0, 10), max_size=3)


def texts(most: int = 40, least: int = 0) -> SearchStrategy[str]:
    """Text in any script, with line breaks and tabs and without other control characters."""
    return st.text(_letters, min_size=least, max_size=most)


def listed(parts: SearchStrategy[Any], most: int = 3, least: int = 0) -> SearchStrategy[Any]:
    """A tuple of so many."""
    return st.lists(parts, min_size=least, max_size=most).map(tuple)


limbs = st.none() | listed(st.sampled_from(Limb))
cues = st.builds(Cues, listed(texts()), listed(texts()), texts(), listed(texts()))
demands = st.fixed_dictionaries({axis: st.integers(0, 3) for axis in Axis})


def _options(one: str, ids: tuple[str, ...]) -> SearchStrategy[tuple[Option, ...]]:
    others = [other for other in ids if other != one]
    return listed(st.builds(Option, st.sampled_from(others), listed(axes, 4)), 2) if others else st.just(())


@st.composite
def exercises(draw: st.DrawFn, one: str = "march", ids: tuple[str, ...] = ()) -> Exercise:
    """An exercise of that id, whose neighbours are among `ids`."""
    mode = draw(st.sampled_from(Mode))
    return Exercise(
        id=one, name=draw(texts(least=1)), pattern=draw(st.sampled_from(Pattern)),
        position=draw(st.sampled_from(Position)), equipment=draw(listed(st.sampled_from(EQUIPMENT))),
        sides=draw(st.sampled_from(Sides)), mode=mode,
        rep_ms=draw(st.integers(300, 30_000)) if mode is Mode.REPS else 0,
        hold_s=draw(st.integers(5, 120)) if mode is Mode.HOLD else 0,
        set_up_s=draw(st.integers(0, 120)), muscles=draw(listed(st.sampled_from(MUSCLES))),
        muscles_too=draw(listed(st.sampled_from(MUSCLES))), demand=draw(demands),
        support=draw(st.sampled_from(Support)), space=draw(st.sampled_from(Space)),
        self_explanatory=draw(st.booleans()), cues=draw(cues), easier=draw(_options(one, ids)),
        harder=draw(_options(one, ids)), swaps=draw(_options(one, ids)), loaded=draw(st.booleans()),
        figure=draw(st.just("") | slugs), loads=draw(limbs), leans_on=draw(limbs),
    )


@st.composite
def items(draw: st.DrawFn, library: tuple[Exercise, ...]) -> Item:
    """A station with one of these exercises."""
    exercise = draw(st.sampled_from(library))
    amounts = [{"work_s": draw(st.integers(5, 600))}, {"hold_s": draw(st.integers(5, 120))}]
    if exercise.mode is Mode.REPS:
        amounts.append({"reps": draw(st.integers(1, 60))})
    return Item(
        exercise.id, **draw(st.sampled_from(amounts)), rest_s=draw(st.none() | st.integers(0, 600)),
        load_g=draw(st.just(0) | st.integers(1, 60_000)), accessory=draw(st.booleans()),
        one_side_because=draw(st.just("") | texts(least=1)), steps=draw(st.integers(0, MOST_STEPS)),
    )


def blocks(library: tuple[Exercise, ...]) -> SearchStrategy[Block]:
    """A block of such stations."""
    rests = st.integers(0, 600)
    return st.builds(Block, st.sampled_from(BlockKind), listed(items(library), 3, 1), st.integers(1, 10), rests, rests)


def sessions(one: str, library: tuple[Exercise, ...]) -> SearchStrategy[Session]:
    """A session of that id with these exercises."""
    return st.builds(Session, st.just(one), texts(least=1), listed(blocks(library), 3, 1), st.integers(1, 10), texts())


def programmes(one: str, session_ids: tuple[str, ...]) -> SearchStrategy[Programme]:
    """A programme of that id with these sessions."""
    ids = listed(st.sampled_from(session_ids), 4) if session_ids else st.just(())
    weeks = st.builds(Week, ids, st.booleans(), texts())
    return st.builds(Programme, st.just(one), texts(least=1), listed(weeks, 3, 1), texts())


@st.composite
def rule_choices(draw: st.DrawFn) -> RuleChoice:
    """A preset and shifts within the coach's hand."""
    ids = draw(st.lists(st.sampled_from(sorted(MOVABLE)), max_size=3, unique=True))
    shift = {rule: draw(st.integers(-MOST_SHIFT if rule in SOFTENABLE else 0, MOST_SHIFT)) for rule in ids}
    return RuleChoice(draw(st.sampled_from(tuple(PRESETS))), shift)


proofreading_limits = st.builds(
    ProofreadingLimits, **{name: st.integers(least, most) for name, (least, most, _) in limit_bounds().items()})


@st.composite
def sources(draw: st.DrawFn) -> Source:
    """A source whose every name is answered to."""
    ids = tuple(draw(st.lists(slugs, max_size=4, unique=True)))
    library = tuple(draw(exercises(one, ids)) for one in ids)
    session_ids = tuple(draw(st.lists(slugs, max_size=2, unique=True))) if library else ()
    return Source(
        id=draw(slugs), coach=draw(texts(least=1).filter(can_be_seen)), version=draw(st.integers(1, 1_000_000)),
        exercises=library,
        sessions=tuple(draw(sessions(one, library)) for one in session_ids),
        programmes=tuple(draw(programmes(one, session_ids)) for one in draw(st.lists(slugs, max_size=2, unique=True))),
        title=draw(texts()), about=draw(texts()), language=draw(st.sampled_from(("en", "de", "en-GB", "nds"))),
        contact=draw(texts()), rules=draw(rule_choices()), whole_library=draw(st.booleans()),
        body=draw(st.sampled_from(FigureBody)),
        proofreading=draw(proofreading_limits),
    )


kits = st.none() | st.frozensets(st.sampled_from(EQUIPMENT), max_size=4)
usual_pains = st.builds(UsualPain, st.integers(0, 5), texts(), days)
places = st.builds(Place, texts(), kits, st.booleans(), st.booleans(), st.sampled_from(Space),
                   st.none() | st.integers(1, 600), st.booleans())
clients = st.builds(
    Client,
    spare=st.dictionaries(spots, st.integers(0, 3), max_size=3),
    conditions=st.frozensets(st.sampled_from(Condition), max_size=4),
    limits=st.dictionaries(axes, st.integers(0, 3), max_size=3),
    usual_pain=st.dictionaries(body_spots, usual_pains, max_size=2),
    alone=st.booleans(), rises_unaided=st.booleans(), shown=st.frozensets(slugs, max_size=3),
    same_as_always=st.booleans(), kit=kits, weights_g=st.none() | listed(st.integers(1, 60_000)),
    chosen=st.dictionaries(slugs, slugs, max_size=2), rest_side=st.sampled_from(("", "left", "right")),
    rest_side_because=texts(), rest_limb=st.sampled_from(("", "arm", "leg")), held=st.frozensets(slugs, max_size=2),
)


def people(sends: SearchStrategy[frozenset[str]] | None = None) -> SearchStrategy[Person]:
    """Somebody who trains; `sends` says what they agreed to send."""
    return st.builds(
        Person, id=slugs, name=texts(), body=clients, places=listed(places), place=texts(),
        birth_year=st.none() | st.integers(1900, 2100), country=texts(4), pounds=st.booleans(), goals=texts(),
        led_by=texts(), emergency_contact=texts(), emergency_number=texts(),
        sends=sends if sends is not None else st.frozensets(st.sampled_from(SENDS)),
        screened=st.none() | days, waiting=st.frozensets(slugs, max_size=2),
        answered_list=st.integers(1, 2),
        told_by=texts(), coach_key=hashes, programme=st.just("") | slugs, started=st.none() | days,
        sex=st.sampled_from(("", "woman", "man")),
    )


lasts = st.builds(Last, st.none() | st.integers(0, 60), st.none() | st.integers(0, 10),
                  st.none() | st.integers(1, 10), st.none() | st.integers(0, 100), st.none() | st.integers(0, 10),
                  pains, st.booleans())
diaries = st.builds(
    Diary,
    symptoms=st.none() | st.frozensets(st.sampled_from(Symptom)), pain=st.none() | pains,
    pain_rise=st.none() | st.dictionaries(body_spots, st.integers(-10, 10), max_size=3),
    pain_hours=st.dictionaries(body_spots, st.integers(0, 200), max_size=2), soreness=st.none() | pains,
    soreness_hours=st.dictionaries(body_spots, st.integers(0, 200), max_size=2),
    slept=st.none() | st.integers(1, 5), energy=st.none() | st.integers(1, 5), calm=st.none() | st.integers(1, 5),
    last=lasts, last_light=st.none() | lasts, first_session=st.booleans(), previous_level=st.integers(0, 8),
    cleared=st.booleans(),
    clean_sessions=st.integers(0, 3), answered_by=st.sampled_from(AnsweredBy),
    fall=st.none() | st.builds(Fall, st.integers(0, 90), st.booleans()), flare_days=st.none() | st.integers(1, 3),
    flare_unsaid=st.booleans(),
)

reasons = st.builds(Reason, st.sampled_from(RuleId), st.integers(0, 8),
                    listed(st.tuples(slugs, slugs | st.integers(0, 100))))
doses = st.builds(Dose, st.integers(0, 8), st.integers(0, 10), st.integers(0, 100), st.integers(0, 200),
                  st.integers(0, 100), listed(reasons), st.just(1), st.integers(0, 8))
moves = st.builds(Move, slugs, st.integers(0, MOST_STEPS), st.sampled_from(MoveKind), st.sampled_from(StepReason),
                  st.integers(0, 600), st.integers(0, 60_000), st.just("") | slugs)
_maybe = st.none() | st.integers(0, 60)


@st.composite
def timelines(draw: st.DrawFn) -> Timeline:
    """A plan whose steps touch."""
    at, steps = 0, []
    for length in draw(st.lists(st.integers(0, 600_000), max_size=5)):
        steps.append(Step(
            draw(st.sampled_from(StepKind)), draw(st.sampled_from(Part)), at, length, draw(st.none() | slugs),
            draw(st.none() | st.sampled_from(StepSide)), draw(_maybe), draw(_maybe), draw(_maybe),
            draw(st.none() | slugs), draw(st.none() | st.booleans()), draw(st.none() | st.sampled_from(ChangeStage))))
        at += length
    because, one_side = listed(slugs), st.sampled_from(("left", "right"))
    swaps = st.builds(Substitution, slugs, slugs, because, listed(slugs), st.just("") | one_side)
    return Timeline(
        draw(slugs), tuple(steps), draw(doses), draw(listed(swaps)),
        draw(listed(st.builds(LeftOut, slugs, because, listed(slugs)))), draw(st.integers(0, 10)), draw(st.booleans()),
        draw(listed(moves, 2)), draw(listed(st.builds(OneSided, slugs, one_side, because, listed(slugs)))))


def stamps(person: str, one: SearchStrategy[str] = slugs) -> SearchStrategy[Stamp]:
    """A stamp of that person's."""
    return st.builds(Stamp, one, st.just(person), instants, days, st.integers(-840, 840), st.integers(1, 9),
                     st.booleans())


_fives = st.none() | st.integers(1, 5)
_told = st.none() | pains


def check_ins(person: str) -> SearchStrategy[CheckIn]:
    """A morning's answers."""
    return st.builds(
        CheckIn, stamps(person), symptoms=st.none() | st.frozensets(st.sampled_from(Symptom)),
        signs=listed(slugs), pain=_told, morning_after=_told, soreness=_told, slept=_fives, energy=_fives,
        calm=_fives, flare_days=st.none() | st.integers(0, 3), answered_by=st.sampled_from(AnsweredBy), note=texts(),
        level=st.none() | st.integers(0, 8),
        carried=st.integers(0, 8), stopped_by=st.sampled_from(("", "pain", "fever")))


def sessions_done(person: str) -> SearchStrategy[SessionDone]:
    """A session as planned and as done."""
    done = st.builds(DoneStep, st.integers(0, 60), slugs, st.integers(0, 600_000), st.sampled_from(How))
    hurts = st.builds(Hurt, body_spots, st.integers(0, 10), st.booleans(), st.none() | slugs, st.integers(0, 600_000),
                      st.sampled_from(HurtKind), st.sampled_from(AnsweredBy))
    return st.builds(
        SessionDone, stamps(person), texts(), timelines(), hashes, st.sampled_from(Ending), listed(done),
        st.integers(0, 7200), rpe=st.none() | st.integers(0, 10), pain=_told, hurts=listed(hurts),
        sign=st.just("") | slugs, note=texts(), names=st.dictionaries(slugs, texts(), max_size=3),
        by_hand=listed(st.tuples(slugs, slugs)), answered_by=st.sampled_from(AnsweredBy))


def clearances(person: str) -> SearchStrategy[Clearance]:
    """A recorded yes."""
    return st.builds(Clearance, stamps(person), slugs, texts(), st.sampled_from(("self", "coach", "physiotherapist")))


def checks_done(person: str) -> SearchStrategy[CheckDone]:
    """A functional check."""
    return st.builds(
        CheckDone, stamps(person), st.sampled_from(FunctionalCheck), stands=st.none() | st.integers(0, 60),
        time_ms=st.none() | st.integers(0, 120_000), side=st.sampled_from(("", "left", "right")),
        hands_used=st.booleans(), aid=st.booleans(), answered_by=st.sampled_from(AnsweredBy), note=texts(),
        seat_cm=st.none() | st.integers(10, 150))


def events(person: str) -> SearchStrategy[Event]:
    """Something that happened around the sessions."""
    return st.builds(
        Event, stamps(person), st.sampled_from(EventKind), what=st.just("") | slugs,
        minutes=st.none() | st.integers(1, 600), since=st.none() | days, until=st.none() | days,
        answers=st.dictionaries(st.sampled_from(("head", "thinners", "hurts", "fever")), st.booleans(), max_size=3),
        stopped_by=st.sampled_from(("", "fall", "fall_head", "fever")), answered_by=st.sampled_from(AnsweredBy),
        note=texts())


def records(person: str, most: int = 5) -> SearchStrategy[tuple[Record, ...]]:
    """Records of that person, each revision of each once."""
    one = st.one_of(check_ins(person), sessions_done(person), clearances(person), checks_done(person), events(person))
    return st.lists(one, max_size=most, unique_by=lambda r: (r.stamp.id, r.stamp.revision)).map(tuple)
