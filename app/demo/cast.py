"""Who is in the story, and what each of their days is like. All of them are invented."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from app.domain.model.body import Spot, parse_spot
from app.domain.model.client import STARTER_PLACES, Client, Condition, Place
from app.domain.model.person import Person
from app.domain.model.record import Ending

WEEKS = 6


@dataclass(frozen=True)
class StoryDay:
    """One training day, counted back from today. What is not said is as usual for them."""

    days_ago: int
    pain: Mapping[str, int] = field(default_factory=dict)
    after: Mapping[str, int] | None = None
    """Pain told after the session; None: as before it."""
    soreness: Mapping[str, int] = field(default_factory=dict)
    over: int = 0
    """How much harder it felt than it was meant to."""
    feel: tuple[int, int, int] = (4, 4, 4)
    """Slept, energy, settled."""
    signs: tuple[str, ...] = ()
    session: str = ""
    """Another session than the one that is due."""
    place: str = ""
    easier: tuple[str, ...] = ()
    """Exercises made easier by hand."""
    stops_at: int = 100
    """Percent of the session after which they stop."""
    ending: Ending = Ending.FINISHED
    sign: str = ""
    note: str = ""


@dataclass(frozen=True)
class Member:
    """A person and their days, oldest first."""

    person: Person
    days: tuple[StoryDay, ...]
    sent_days_ago: int = 0
    """When their last return was made."""


def spots(named: Mapping[str, int]) -> dict[Spot, int]:
    """`{"left knee": 3}` by spot."""
    return {parse_spot(words): level for words, level in named.items()}


HOTEL = Place("Hotel room", frozenset({"chair"}), floor=True, noise=False, space=STARTER_PLACES[1].space)
GARAGE = Place("Garage", frozenset({"chair", "dumbbell", "mat", "worktop"}), floor=True, noise=True)
HOME = Place("Home", frozenset({"chair", "worktop", "dumbbell", "mat"}), floor=True, noise=True)


def _ruben() -> Member:
    """Sells pump parts from hotel to hotel; trains well until he goes quiet."""
    person = Person(
        "", "Ruben Falk", programme="travelling-light", places=(HOTEL, HOME), place="Hotel room",
        birth_year=1961, country="NL",
        goals="Carry my sample case up the stairs without stopping.", emergency_contact="Tilde, 06 1234 5678",
        body=Client(kit=frozenset({"chair"}), weights_g=(), alone=True, shown=frozenset({"sit-to-stand"}),
                    spare={parse_spot("left shoulder"): 1}),
    )
    days = (
        StoryDay(41, session="hotel-room"), StoryDay(38, session="loosen-and-balance"),
        StoryDay(36, session="hotel-room", feel=(2, 3, 3)), StoryDay(33, session="hotel-room"),
        StoryDay(31, soreness={"hip": 4}, session="loosen-and-balance"), StoryDay(29, session="hotel-room"),
        StoryDay(26, session="hotel-room", stops_at=70, ending=Ending.INTERRUPTED, note="The phone rang, work."),
        StoryDay(24, session="loosen-and-balance"), StoryDay(22, session="hotel-room", feel=(3, 4, 5)),
        StoryDay(19, session="hotel-room", note="Room 412, quiet enough."),
        StoryDay(17, session="hotel-room"),
    )
    return Member(person, days, sent_days_ago=16)


def _maud() -> Member:
    """Trains in a cold garage; her right hip gets worse week by week."""
    person = Person(
        "", "Maud Ellery", programme="six-weeks", places=(GARAGE, HOME), place="Garage", birth_year=1955, country="GB",
        emergency_number="999", goals="Dig the allotment without a week of aches.",
        emergency_contact="Col next door",
        body=Client(kit=GARAGE.kit, weights_g=(2000, 3000, 5000), alone=True,
                    conditions=frozenset({Condition.HIGH_BLOOD_PRESSURE}),
                    shown=frozenset({"goblet-squat", "sit-to-stand", "glute-bridge", "dumbbell-rdl"})),
    )
    hip = "right hip"
    days = (
        StoryDay(40), StoryDay(38), StoryDay(36), StoryDay(33), StoryDay(31), StoryDay(29, {hip: 1}),
        StoryDay(26, {hip: 1}, {hip: 2}), StoryDay(24, {hip: 1}),
        StoryDay(22, {hip: 2}, {hip: 2}, over=1, feel=(3, 3, 4)),
        StoryDay(19, {hip: 2}, {hip: 3}, over=1, easier=("goblet-squat",)), StoryDay(17, {hip: 2}),
        StoryDay(15, {hip: 3}, {hip: 3}, {"hip": 4}, over=1, easier=("goblet-squat",)),
        StoryDay(12, {hip: 3}, {hip: 4}, over=2, easier=("goblet-squat",),
                 note="Stiff after the squats, garage was icy."),
        StoryDay(10, {hip: 3}), StoryDay(8, {hip: 3}, {hip: 4}, over=2),
        StoryDay(4, {hip: 4}, {hip: 5}, over=2, stops_at=80, ending=Ending.TOO_MUCH, note="Hip again on the way up."),
        StoryDay(2, {hip: 4}),
    )
    return Member(person, days)


def _kasimir() -> Member:
    """Eighty-one, led by his daughter; had to stop when he felt light-headed."""
    person = Person(
        "", "Kasimir Wolny", programme="first-steps-seated", places=(HOME,), place="Home",
        birth_year=1945, country="IE", led_by="Halina",
        goals="Get out of the low armchair by himself.", emergency_contact="Halina, daughter",
        body=Client(kit=frozenset({"chair", "worktop"}), weights_g=(), rises_unaided=False,
                    conditions=frozenset({Condition.FALLS, Condition.CANNOT_RISE, Condition.BETA_BLOCKER}),
                    same_as_always=False, shown=frozenset({"sit-to-stand", "seated-march"})),
    )
    chair = "in-the-chair"
    days = (
        StoryDay(41, session=chair), StoryDay(38, session=chair), StoryDay(34, session=chair),
        StoryDay(31, {"left knee": 2}, session=chair), StoryDay(27, {"left knee": 2}, session=chair),
        StoryDay(24, session=chair), StoryDay(20, session=chair, feel=(3, 3, 3)), StoryDay(17, session=chair),
        StoryDay(13, session=chair, note="He counted along today."), StoryDay(10, session=chair),
        StoryDay(6, session=chair),
        StoryDay(3, over=1, session=chair, stops_at=45, ending=Ending.SIGN, sign="dizziness",
            note="Grey for a moment, sat down, better after water."),
    )
    return Member(person, days, sent_days_ago=2)


def cast() -> tuple[Member, ...]:
    """Everybody, in the order in which they are shown."""
    return _maud(), _ruben(), _kasimir()
