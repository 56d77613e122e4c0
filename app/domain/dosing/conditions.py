"""What each condition caps, adds and asks, and when it is asked about again.

Everything here is a convention [P] to be agreed with the client's own clinician, built on the source named beside it.
"From memory" marks a figure whose paper was not read. Caps hold every day. `first` caps hold as well until a
clinician's yes is recorded: the calendar asks, and never lifts anything by itself.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta

from app.domain.model.body import Region
from app.domain.model.client import Client, Condition
from app.domain.model.exercise import Axis
from app.domain.model.references import (
    BHATTACHARYYA_2017,
    BILLINGER_2014,
    BO_NYGAARD_2020,
    BROOKE_WAVELL_2022,
    BURTON_2015,
    CAMPBELL_2022,
    CAPOVILLA_2016,
    EANNUCCI_2019,
    HOLLAND_2012,
    JASIEN_2015,
    JENKINS_2008,
    KORFITSEN_2023,
    MADERA_2017,
    MONTERO_ODASSO_2022,
    MULROY_2011,
    NARLOCH_1995,
    OSBORNE_2022,
    PALUCH_2024,
    PAUWELS_2023,
    RAMANAN_2014,
    SHERRINGTON_2020,
    SIMPSON_2016,
    SINAKI_1984,
    TAYLOR_2017,
    TRAN_2021,
    TURNER_2019,
    WILLIAMS_2007,
    WYLDE_2019,
    Reference,
)

Caps = Mapping[Axis, int]
NONE: Caps = {}
#: Longest hard hold with one of these, s. Custom, after `NARLOCH_1995` on straining and breath.
SHORT_HOLD_S = 10
#: One stand up from a chair and down again where pressure or balance is late, ms. [P]
SLOW_STAND_MS = 6_000


@dataclass(frozen=True)
class ConditionRule:
    """One condition. Every number is the most or the least that it allows."""

    sources: tuple[Reference, ...]
    note: str = ""
    """What is custom in it, or was not read."""
    caps: Caps = field(default_factory=dict, hash=False)
    """For good."""
    first: Caps = field(default_factory=dict, hash=False)
    """Until a clinician's yes."""
    first_weeks: int = 0
    """Weeks after which the first limits are asked about; 0: there are none."""
    acute: Caps = field(default_factory=dict, hash=False)
    """Until so many weeks after `since`; where no day is known, until a clinician's yes."""
    acute_weeks: int = 0
    is_one_handed_acute: bool = False
    """In those weeks nothing takes both arms."""
    is_up_first: bool = False
    """Until a clinician's yes nothing is done lying, and no thigh goes behind the body."""
    is_weightless_lying: bool = False
    """No weight is lifted while lying down, where it would be above the face."""
    is_weightless_first: bool = False
    """Until a clinician's yes no weight is lifted."""
    is_slow_up: bool = False
    """Chair stands no quicker than `SLOW_STAND_MS` and none brisk; a stand with a hand on something after a rise."""
    is_steady_up_first: bool = False
    """Until a clinician's yes the same of chair stands alone; no step up, and no bend with one foot ahead."""
    is_held: bool = False
    """Where balance is asked for, a hand stays on something."""
    is_seated: bool = False
    """Only what is done sitting in the chair."""
    is_short_hold: bool = False
    """Hard holds in parts of `SHORT_HOLD_S` at most."""
    rest: int = 100
    """Rest at least so many percent of what was written."""
    most_rpe: int | None = None
    """Effort aimed at, at most."""
    is_same_order: bool = False
    """Nothing stands in for anything: what cannot be done is left out."""


#: A hand on something, and no balance that takes two free hands.
HELD: Caps = {Axis.UNHELD_BALANCE: 0, Axis.SINGLE_LEG_BALANCE: 2}
#: After an operation, until the yes: no balance without a hand on something, and none that one leg has to carry.
ON_BOTH_FEET: Caps = {Axis.UNHELD_BALANCE: 0, Axis.SINGLE_LEG_BALANCE: 1}

#: What was operated on, and where it would hurt.
OPERATED: Mapping[Condition, Region] = {
    Condition.HIP_REPLACEMENT: Region.HIP, Condition.KNEE_REPLACEMENT: Region.KNEE,
    Condition.SHOULDER_REPLACEMENT: Region.SHOULDER, Condition.SPINAL_SURGERY: Region.BACK}
#: Bones that break by little: new pain may be a new break.
THIN_BONED = frozenset({Condition.OSTEOPOROSIS, Condition.SPINE_FRACTURE})

CONDITION_RULES: Mapping[Condition, ConditionRule] = {
    Condition.OSTEOPOROSIS: ConditionRule(
        (BROOKE_WAVELL_2022, SINAKI_1984),
        caps={Axis.SPINAL_ROUNDING: 1, Axis.LOADED_SPINAL_FLEXION: 2, Axis.LOADED_TWIST: 1, Axis.IMPACT: 1},
        first={Axis.LOADED_SPINAL_FLEXION: 1, Axis.LOADED_TWIST: 0}, first_weeks=12),
    Condition.VERTIGO: ConditionRule(
        (BHATTACHARYYA_2017, PAUWELS_2023),
        caps={Axis.HEAD_BELOW_HEART: 0, Axis.FLOOR_TRANSFER: 1, Axis.SINGLE_LEG_BALANCE: 2, Axis.UNHELD_BALANCE: 0,
              Axis.TURNING_ROUND: 1},
        first={Axis.HEAD_TURNING: 0, Axis.SINGLE_LEG_BALANCE: 1}, first_weeks=4, is_held=True, is_slow_up=True),
    Condition.PELVIC_FLOOR: ConditionRule(
        (BO_NYGAARD_2020, SIMPSON_2016),
        caps={Axis.IMPACT: 1, Axis.BEARING_DOWN: 1}),
    Condition.HIP_REPLACEMENT: ConditionRule(
        (EANNUCCI_2019, KORFITSEN_2023),
        caps={Axis.DEEP_HIP_FLEXION: 2, Axis.LEG_CROSSING: 1, Axis.LOADED_TWIST: 1, Axis.IMPACT: 1},
        first={Axis.LOADED_TWIST: 0, Axis.FLOOR_TRANSFER: 1, Axis.DEEP_HIP_FLEXION: 1, Axis.LOADED_SPINAL_FLEXION: 1,
               Axis.LEG_CROSSING: 0, Axis.TURNING_ROUND: 1, Axis.BEARING_DOWN: 1, **ON_BOTH_FEET},
        first_weeks=12, is_up_first=True, is_steady_up_first=True),
    Condition.KNEE_REPLACEMENT: ConditionRule(
        (WYLDE_2019, JENKINS_2008), "nothing heavy on it at first is custom",
        caps={Axis.KNEELING: 1, Axis.IMPACT: 1},
        first={Axis.DEEP_KNEE_FLEXION: 1, Axis.KNEELING: 0, Axis.FLOOR_TRANSFER: 1, Axis.BEARING_DOWN: 1,
               Axis.LEG_CROSSING: 1, **ON_BOTH_FEET}, first_weeks=12, is_steady_up_first=True),
    Condition.FALLS: ConditionRule(
        (SHERRINGTON_2020, MONTERO_ODASSO_2022),
        caps=HELD, is_held=True),
    Condition.CANNOT_RISE: ConditionRule(
        (), "the project’s table; a hand on something is custom: after a fall they stay down",
        caps={**HELD, Axis.FLOOR_TRANSFER: 1}, is_held=True),
    Condition.HIGH_BLOOD_PRESSURE: ConditionRule(
        (PALUCH_2024, NARLOCH_1995), "short hard holds are custom", caps={Axis.HEAD_BELOW_HEART: 1},
        is_short_hold=True),
    Condition.HEART_CONDITION: ConditionRule(
        (WILLIAMS_2007,), "effort and rest from memory",
        caps={Axis.HEAD_BELOW_HEART: 1}, is_short_hold=True, rest=125, most_rpe=4),
    Condition.BETA_BLOCKER: ConditionRule((), "custom of cardiac rehabilitation, from memory"),
    Condition.PACEMAKER: ConditionRule(
        (), "limits for new leads are custom",
        acute={Axis.OVERHEAD_SHOULDER: 1, Axis.SHOULDER_LOAD: 0, Axis.WRIST_WEIGHT_BEARING: 0, Axis.FLOOR_TRANSFER: 1,
               Axis.GRIP: 1},
        acute_weeks=6),
    Condition.INSULIN: ConditionRule((TURNER_2019,)),
    Condition.ONE_SIDE: ConditionRule((BILLINGER_2014,)),
    Condition.COPD: ConditionRule(
        (HOLLAND_2012,), "rest and effort are custom",
        first={Axis.OVERHEAD_SHOULDER: 1}, first_weeks=4, rest=150, most_rpe=4),
    Condition.PARKINSONS: ConditionRule(
        (OSBORNE_2022,), "turns in steps are custom",
        caps={**HELD, Axis.TURNING_ROUND: 1}, is_held=True, is_slow_up=True),
    Condition.NEUROPATHY: ConditionRule(
        (), "a hand on something is custom", caps={**HELD, Axis.IMPACT: 1, Axis.ANKLE_LOAD: 2}, is_held=True),
    Condition.CANCER_TREATMENT: ConditionRule(
        (CAMPBELL_2022,), "limits differ by clinic", caps={Axis.IMPACT: 1},
        first={Axis.OVERHEAD_SHOULDER: 1, Axis.BEARING_DOWN: 1, Axis.LOADED_SPINAL_FLEXION: 1}, first_weeks=12,
        rest=125, most_rpe=4),
    Condition.HERNIA: ConditionRule(
        (RAMANAN_2014,), caps={Axis.BEARING_DOWN: 1, Axis.LOADED_SPINAL_FLEXION: 1}),
    Condition.MEMORY_LOSS: ConditionRule(
        (TAYLOR_2017, BURTON_2015), is_same_order=True),
    Condition.WALKING_AID: ConditionRule(
        (), "custom: both hands are needed to stand", caps={**HELD, Axis.IMPACT: 1}, is_held=True),
    Condition.WHEELCHAIR: ConditionRule(
        (MULROY_2011,), "push less than pull: guideline, from memory",
        caps={Axis.SINGLE_LEG_BALANCE: 0, Axis.UNHELD_BALANCE: 0, Axis.FLOOR_TRANSFER: 0, Axis.KNEELING: 0,
              Axis.IMPACT: 0, Axis.TURNING_ROUND: 0, Axis.OVERHEAD_SHOULDER: 2, Axis.SHOULDER_LOAD: 2,
              Axis.WRIST_WEIGHT_BEARING: 1, Axis.DEEP_HIP_FLEXION: 1, Axis.SPINAL_EXTENSION: 1},
        is_seated=True),
    Condition.POSTURAL_DIZZINESS: ConditionRule(
        (TRAN_2021,),
        caps={**HELD, Axis.HEAD_BELOW_HEART: 1}, is_held=True, is_slow_up=True),
    Condition.BLOOD_THINNER: ConditionRule((), "consensus on head knocks", caps=HELD, is_held=True),
    Condition.SHOULDER_REPLACEMENT: ConditionRule(
        (), "a table of protocols, which differ",
        caps={Axis.SHOULDER_LOAD: 2, Axis.OVERHEAD_SHOULDER: 2, Axis.WRIST_WEIGHT_BEARING: 1},
        first={Axis.SHOULDER_LOAD: 0, Axis.OVERHEAD_SHOULDER: 1, Axis.WRIST_WEIGHT_BEARING: 0, Axis.FLOOR_TRANSFER: 1,
               Axis.GRIP: 1, Axis.ELBOW_LOAD: 1, **ON_BOTH_FEET}, first_weeks=12, is_steady_up_first=True,
        acute={Axis.OVERHEAD_SHOULDER: 0, Axis.GRIP: 0, Axis.ELBOW_LOAD: 0}, acute_weeks=6,
        is_one_handed_acute=True),
    Condition.SPINAL_SURGERY: ConditionRule(
        (MADERA_2017,), "weeks are custom",
        caps={Axis.SPINAL_ROUNDING: 1, Axis.LOADED_TWIST: 1, Axis.LOADED_SPINAL_FLEXION: 2, Axis.IMPACT: 1,
              Axis.SPINAL_EXTENSION: 2},
        first={Axis.SPINAL_ROUNDING: 0, Axis.LOADED_TWIST: 0, Axis.LOADED_SPINAL_FLEXION: 1, Axis.FLOOR_TRANSFER: 1,
               Axis.BEARING_DOWN: 1, Axis.SPINAL_EXTENSION: 1, **ON_BOTH_FEET}, first_weeks=12,
        acute={Axis.BEARING_DOWN: 0, Axis.LOADED_SPINAL_FLEXION: 0, Axis.DEEP_HIP_FLEXION: 1, Axis.HEAD_TURNING: 0,
               Axis.NECK_LOAD: 0, Axis.ANKLE_LOAD: 1, Axis.OVERHEAD_SHOULDER: 1}, acute_weeks=6,
        is_steady_up_first=True),
    Condition.GLAUCOMA: ConditionRule(
        (JASIEN_2015,), "head low is studied; holds and straining are custom",
        caps={Axis.HEAD_BELOW_HEART: 1, Axis.BEARING_DOWN: 1, Axis.OVERHEAD_SHOULDER: 2}, is_short_hold=True),
    Condition.EPILEPSY: ConditionRule(
        (CAPOVILLA_2016,), "a hand on something, and no weight above the face, are custom", caps=HELD, is_held=True,
        is_weightless_lying=True),
    Condition.SPINE_FRACTURE: ConditionRule(
        (BROOKE_WAVELL_2022, SINAKI_1984), "weeks, and nothing lifted in them, are custom",
        caps={Axis.SPINAL_ROUNDING: 1, Axis.LOADED_SPINAL_FLEXION: 1, Axis.LOADED_TWIST: 1, Axis.IMPACT: 1},
        first={Axis.SPINAL_ROUNDING: 0, Axis.LOADED_SPINAL_FLEXION: 0, Axis.LOADED_TWIST: 0, Axis.FLOOR_TRANSFER: 1,
               Axis.BEARING_DOWN: 1, Axis.SPINAL_EXTENSION: 1, Axis.HEAD_TURNING: 0, Axis.NECK_LOAD: 0, **ON_BOTH_FEET},
        first_weeks=12, is_steady_up_first=True, is_weightless_first=True),
}


def rules_of(client: Client) -> Iterator[ConditionRule]:
    """The rules of everything that was ticked."""
    return (CONDITION_RULES[condition] for condition in sorted(client.conditions))


def has_first_limits(condition: Condition) -> bool:
    """Whether some of its limits end with a clinician's yes."""
    rule = CONDITION_RULES[condition]
    return bool(rule.first or rule.acute)


def is_cleared(client: Client, condition: Condition) -> bool:
    """Whether a clinician said that its first limits may go."""
    terms = client.terms.get(condition)
    return terms is not None and bool(terms.cleared_by) and terms.cleared is not None


def is_acute(client: Client, condition: Condition, today: date) -> bool:
    """Whether its first weeks still count: no clinician's word, and no day known or too few weeks since."""
    terms = client.terms.get(condition)
    since = None if terms is None else terms.since
    weeks = timedelta(weeks=CONDITION_RULES[condition].acute_weeks)
    return not is_cleared(client, condition) and (since is None or today < since + weeks)


def is_one_handed(client: Client, today: date) -> bool:
    """Whether nothing may take both arms."""
    return any(CONDITION_RULES[c].is_one_handed_acute and is_acute(client, c, today) for c in client.conditions)


def uncleared(client: Client) -> frozenset[Condition]:
    """What was ticked and has no clinician's yes."""
    return frozenset(c for c in client.conditions if not is_cleared(client, c))


def _waiting(client: Client) -> Iterator[ConditionRule]:
    return (CONDITION_RULES[condition] for condition in uncleared(client))


def stays_up(client: Client) -> bool:
    """Whether nothing may be done lying, for want of a clinician's yes: on the way up a new hip turns inwards."""
    return any(rule.is_up_first for rule in _waiting(client))


def lifts_nothing(client: Client) -> bool:
    """Whether no weight is lifted, for want of a clinician's yes."""
    return any(rule.is_weightless_first for rule in _waiting(client))


def stays_level(client: Client) -> bool:
    """Whether nothing is stepped up on to: with a walking aid, or for want of a clinician's yes."""
    return Condition.WALKING_AID in client.conditions or any(rule.is_steady_up_first for rule in _waiting(client))


def rises_steadily(client: Client) -> bool:
    """Whether chair stands are slow and never brisk: for good, or for want of a clinician's yes."""
    return any(rule.is_slow_up for rule in rules_of(client)) or any(
        rule.is_steady_up_first for rule in _waiting(client))


def condition_caps(client: Client, condition: Condition, today: date) -> Caps:
    """The highest demand that a condition allows today, by axis."""
    rule = CONDITION_RULES[condition]
    caps, holding = dict(rule.caps), [] if is_cleared(client, condition) else [rule.first]
    if is_acute(client, condition, today):
        holding.append(rule.acute)
    for more in holding:
        for axis, cap in more.items():
            caps[axis] = min(cap, caps.get(axis, cap))
    return caps


def ask_from(client: Client, condition: Condition) -> date | None:
    """The day from which its limits are to be asked about; None: there is nothing to ask, or no day is known."""
    rule, terms = CONDITION_RULES[condition], client.terms.get(condition)
    if terms is None:
        return None
    if terms.until is not None:
        return terms.until
    if terms.since is None or is_cleared(client, condition) or not rule.first_weeks:
        return None
    return terms.since + timedelta(weeks=rule.first_weeks)


def to_ask(client: Client, today: date) -> tuple[Condition, ...]:
    """Conditions whose limits are to be asked about by now. They hold until the answer is entered."""
    due = ((c, ask_from(client, c)) for c in sorted(client.conditions))
    return tuple(c for c, day in due if day is not None and day <= today)
