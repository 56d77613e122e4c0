"""The kinds of client: who they are, what each of their days is like, and what is expected of sixteen weeks."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

from app.domain.model.body import Spot, parse_spot
from app.domain.model.client import Client, Condition, Place, UsualPain
from app.domain.model.record import Ending

WEEKS = 16
DUMBBELLS = Client(kit=frozenset({"chair", "worktop", "mat", "dumbbell", "step", "towel", "band"}),
                   weights_g=(2000, 3000, 4000, 5000, 6000, 8000))
SEATED = replace(DUMBBELLS, rises_unaided=False)
BARE = Client(kit=frozenset({"chair", "worktop", "mat", "towel"}), weights_g=())


@dataclass(frozen=True)
class Day:
    """One day's answers. `rpe` None: what the body says; `share` of the session is done, percent."""

    pain: Mapping[str, int] = field(default_factory=dict)
    after: Mapping[str, int] | None = None
    soreness: Mapping[str, int] = field(default_factory=dict)
    feel: tuple[int | None, int | None, int | None] = (4, 4, 4)
    rpe: int | None = None
    over: int | None = None
    """So much above what was meant, in place of what the body says."""
    share: int = 100
    ending: Ending = Ending.FINISHED
    signs: tuple[str, ...] = ()
    answers: bool = True
    trains: bool = True


GOOD = Day()
HOME = Place("Home")
#: What somebody's day is like: the number of the week from 0 and of the session within it from 0.
Lives = Callable[[int, int], Day]


@dataclass(frozen=True)
class Kind:
    """One kind of client. `days` are weekdays of training, Monday 0."""

    name: str
    body: Client = DUMBBELLS
    programme: str = "twelve-weeks-dumbbells"
    days: tuple[int, ...] = (0, 2, 4)
    lives: Lives = lambda week, session: GOOD
    place: Place = HOME
    bias: float = 0.0
    ceiling: float = 0.30
    led_by: str = ""
    moves: bool | None = None
    """Whether anything is to move on; None: either."""
    heavier: bool = False
    """Whether a heavier weight than at first is to be lifted by the twelfth week."""
    told: frozenset[str] = frozenset()
    """Reasons of which at least one must be on the coach's list at some time."""
    quiet: bool = False
    """Nothing but silence may ever be on the list."""


def always(day: Day) -> Lives:
    """The same each time."""
    return lambda week, session: day


def in_weeks(first: int, last: int, day: Day, other: Day = GOOD) -> Lives:
    """From one week to another, both counted from 0 and included."""
    return lambda week, session: day if first <= week <= last else other


def aching(spot: str, level: int, after: int | None = None) -> Day:
    """A spot that hurts before and after."""
    return Day(pain={spot: level}, after={spot: level if after is None else after})


def usual(spot: str, level: int) -> dict[Spot, UsualPain]:
    """Agreed with a physiotherapist, for a year."""
    return {parse_spot(spot): UsualPain(level, "physiotherapist", date(2027, 12, 31))}


def flare(spot: str) -> Lives:
    """0, then 4, 3, 2 and 0 again, from the fifth week on."""
    levels = {4: 4, 5: 3, 6: 2}
    return lambda week, session: aching(spot, levels[week]) if week in levels else GOOD


def missing(*weeks: int) -> Lives:
    """Weeks without any session."""
    return lambda week, session: replace(GOOD, trains=week not in weeks)


def has(*conditions: Condition, body: Client = DUMBBELLS) -> Client:
    """Somebody with these."""
    return replace(body, conditions=frozenset(conditions))


C = Condition
KINDS: tuple[Kind, ...] = (
    Kind("perfect, with dumbbells", moves=True, heavier=True, quiet=True),
    Kind("perfect, twice a week", days=(1, 4), moves=True, quiet=True),
    Kind("perfect, six weeks", programme="six-weeks", moves=True),
    Kind("perfect, without weights", BARE, "travelling-light", moves=True),
    Kind("perfect, seated", SEATED, "first-steps-seated", moves=True),
    Kind("perfect, two short sessions", programme="two-short-sessions", days=(1, 4), moves=True),
    Kind("strong and bored", lives=always(Day(rpe=2)), moves=True),
    Kind("weak and slow", ceiling=0.1, bias=1.0),
    Kind("nine every time", lives=always(Day(rpe=9)), moves=False, told=frozenset({"effort", "very_hard"})),
    Kind("always one over", lives=always(Day(over=1)), moves=False),
    Kind("always two over", lives=always(Day(over=2)), moves=False, told=frozenset({"effort"})),
    Kind("too much each strength day", lives=always(Day(over=2, share=75, ending=Ending.TOO_MUCH)), moves=False,
         told=frozenset({"effort", "too_much"})),
    Kind("half each time", lives=always(Day(share=50)), moves=False, told=frozenset({"stops_early"})),
    Kind("knee 3, not agreed", lives=always(aching("left knee", 3)), told=frozenset({"pain", "rising", "stalled"})),
    Kind("knee 3, agreed", replace(DUMBBELLS, usual_pain=usual("left knee", 3)), lives=always(aching("left knee", 3)),
         moves=True),
    Kind("knee 5", lives=always(aching("left knee", 5)), told=frozenset({"pain"})),
    Kind("hip flare in week five", lives=flare("right hip"), told=frozenset({"pain"})),
    Kind("hip 7 in week three", lives=in_weeks(2, 2, aching("left hip", 7)), told=frozenset({"pain"})),
    Kind("back 5 for a month", lives=in_weeks(3, 6, aching("back", 5)), told=frozenset({"pain"})),
    Kind("shoulder 4, one side", lives=always(aching("right shoulder", 4)), told=frozenset({"pain"})),
    Kind("wrist 5 from week two", lives=in_weeks(1, 15, aching("left wrist", 5)), told=frozenset({"pain"})),
    Kind("pain 8 once", lives=in_weeks(2, 2, aching("left knee", 8)), told=frozenset({"sign", "pain"})),
    Kind("sore twice a week", lives=lambda week, session: Day(soreness={"hip": 8}) if session else GOOD,
         told=frozenset({"soreness"})),
    Kind("sleeps badly for six weeks", lives=in_weeks(4, 9, Day(feel=(1, 1, 1))), told=frozenset({"wellbeing"})),
    Kind("leaves answers out", lives=always(Day(feel=(None, None, None)))),
    Kind("never checks in", lives=always(Day(answers=False))),
    Kind("one session of ten", lives=lambda week, session: Day(rpe=10) if (week, session) == (3, 0) else GOOD,
         told=frozenset({"very_hard"})),
    Kind("a journey of three weeks", lives=missing(5, 6, 7), told=frozenset({"fortnight", "nothing_back"})),
    Kind("five weeks off", lives=missing(5, 6, 7, 8, 9), told=frozenset({"fortnight", "nothing_back"})),
    Kind("from three to one", lives=lambda week, session: replace(GOOD, trains=week < 8 or session == 0),
         told=frozenset({"halved"})),
    Kind("every other session", lives=lambda week, session: replace(GOOD, trains=(week + session) % 2 == 0)),
    Kind("a fever in week four", lives=lambda week, session: Day(signs=("fever",)) if (week, session) == (3, 0) else (
        replace(GOOD, trains=week != 3)), told=frozenset({"sign", "illness"})),
    Kind("led by a daughter", SEATED, "first-steps-seated", led_by="Ines", moves=False),
    Kind("osteoporosis", has(C.OSTEOPOROSIS)),
    Kind("vertigo", has(C.VERTIGO)),
    Kind("high blood pressure", has(C.HIGH_BLOOD_PRESSURE, C.BETA_BLOCKER)),
    Kind("new hip", has(C.HIP_REPLACEMENT)),
    Kind("new knee", has(C.KNEE_REPLACEMENT)),
    Kind("falls", has(C.FALLS, body=SEATED), "first-steps-seated"),
    Kind("breathless", has(C.COPD)),
    Kind("Parkinson’s", has(C.PARKINSONS)),
    Kind("numb feet", has(C.NEUROPATHY)),
    Kind("memory loss", has(C.MEMORY_LOSS, body=SEATED), "first-steps-seated", led_by="Ines", moves=False),
    Kind("wheelchair", has(C.WHEELCHAIR, body=SEATED), "first-steps-seated"),
    Kind("left arm rests", replace(DUMBBELLS, rest_side="left", rest_side_because="plaster")),
    Kind("same as always", replace(DUMBBELLS, same_as_always=True)),
    Kind("hotel rooms only", BARE, "travelling-light",
         place=Place("Hotel room", kit=frozenset({"chair"}), floor=False)),
)
DAYS_BACK = timedelta(weeks=WEEKS)
