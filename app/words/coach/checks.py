"""Words of the functional checks for the coach: the error of each, published figures, what is worth a talk."""
from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import date

from app.domain.checks import functional_checks as c
from app.domain.checks import published_figures as f
from app.domain.checks.functional_checks import Change
from app.domain.checks.published_figures import BandPlace, ReferenceBand, TalkingPoint
from app.domain.model.client import Condition
from app.domain.model.record import CheckDone, FunctionalCheck
from app.domain.model.references import (
    ARAUJO_2022,
    BARRY_2014,
    CESARI_2005,
    DONOGHUE_2019,
    GILL_2022,
    GOLDBERG_2011,
    HUANG_2011,
    PETERSEN_2017,
)
from app.words.client.checks import result_words
from app.words.client.today import day_words

COACH_HEAD = "Checks"
COACH_NONE = "No checks received yet."
COACH_CAUTION = (
    "A single check predicts falls poorly, and a band describes a group, not a person. It is not a diagnosis. Results "
    "come from home, after one practice, timed by hand."
)
_WALK_S, _PARKINSONS_S = c.LEAST_CHANGE[FunctionalCheck.WALK] / 1000, c.PARKINSONS_WALK_MS / 1000
_STANDS = (f"A change of fewer than {c.LEAST_CHANGE[FunctionalCheck.CHAIR_STAND]} stands is within its own error "
           f"({GILL_2022.short}, {PETERSEN_2017.short}). ")
COACH_ERROR: Mapping[FunctionalCheck, str] = {
    FunctionalCheck.CHAIR_STAND: f"{_STANDS}Seats more than {c.SEATS_ALIKE_CM} cm apart are not compared.",
    FunctionalCheck.CHAIR_STAND_HIGH: f"{_STANDS}Kept as a separate series, with no published figures.",
    FunctionalCheck.ONE_LEG: f"Varies too much to show a change ({GOLDBERG_2011.short}).",
    FunctionalCheck.ONE_LEG_HELD: "Varies too much to show a change. Kept as a separate series, with no published "
                                  "figures.",
    FunctionalCheck.WALK:
        f"A change of less than {_WALK_S:.1f} s is within its own error ({DONOGHUE_2019.short}); with Parkinson’s "
                          f"less than {_PARKINSONS_S:.1f} s or {c.PARKINSONS_WALK_PERCENT}%, whichever is more "
                          f"({HUANG_2011.short}).",
    FunctionalCheck.WALK_4M:
        f"A change of less than {c.LEAST_CHANGE[FunctionalCheck.WALK_4M] / 1000:.1f} m/s is within its "
                             f"own error ({DONOGHUE_2019.short}).",
}
TALKING_POINTS: Mapping[TalkingPoint, str] = {
    TalkingPoint.ONE_LEG_SHORT:
        f"Worth a conversation, not a diagnosis: under {f.ONE_LEG_SHORT_MS // 1000} s on one leg, as "
                                f"with 18 to 54% of people from 61 to 75 ({ARAUJO_2022.short}, from a summary).",
    TalkingPoint.ONE_LEG_VERY_SHORT: f"Worth a conversation about falls, not a diagnosis: under "
                                     f"{f.ONE_LEG_VERY_SHORT_MS // 1000} s on one leg [P].",
    TalkingPoint.WALK_LONG:
        f"Worth a conversation about falls and walking, not a diagnosis: {f.WALK_LONG_MS // 1000} s or "
                            f"more [P]. Such times predict falls poorly ({BARRY_2014.short}).",
    TalkingPoint.PACE_SLOW:
        f"Worth a conversation, not a diagnosis: an everyday pace under {f.PACE_SLOW_MM_S / 1000:.1f} m/s "
                            f"({CESARI_2005.short}).",
}
COACH_CHANGE: Mapping[Change, str] = {
    Change.NOT_ALIKE: "not comparable: done differently", Change.NO_CALL: "varies too much to show a change",
    Change.WITHIN: "within its own error", Change.MORE: "changed: better", Change.LESS: "changed: worse",
}
NO_BIRTH_YEAR = "No band: we don’t know the year of birth."
NO_BAND = "No band was published for the age of about {age}."
SEX_WORDS: Mapping[str, str] = {"woman": "women", "man": "men", "": "both"}
PLACES: Mapping[BandPlace, str] = {
    BandPlace.BELOW: "below the band", BandPlace.WITHIN: "within the band", BandPlace.ABOVE: "above the band",
}


def _figure(check: FunctionalCheck, value: int) -> str:
    return str(value) if check in c.CHAIR_STANDS else f"{value / 1000:.1f}"


def band_line(band: ReferenceBand) -> str:
    """`Women of 70–74: 10–15 stands (source)`."""
    who = f"{SEX_WORDS[band.sex].capitalize()} of {band.first_age}–{band.last_age}" if band.sex else \
        f"At {band.first_age}–{band.last_age}"
    unit = "stands" if band.check in c.CHAIR_STANDS else "s"
    spread = "" if band.low is None or band.high is None else \
        f"{_figure(band.check, band.low)}–{_figure(band.check, band.high)}"
    mean = "" if band.mean is None else f"mean {_figure(band.check, band.mean)}"
    figures = f"{mean} ({spread})" if mean and spread else mean or spread
    return f"{who}: {figures} {unit} ({band.source})"


def placed_line(band: ReferenceBand, done: CheckDone) -> str:
    """The band, and where a result lies in it; a slow walk lies above."""
    result = c.counted(done)
    place = None if result is None else f.place_in(band, result, done.seat_cm)
    if place:
        return f"{band_line(band)}: {PLACES[place]}"
    other = band.low is not None and done.seat_cm is not None and result is not None
    return f"{band_line(band)}; not placed, because the seat was {done.seat_cm} cm" if other else band_line(band)


def coach_result(done: CheckDone, before: CheckDone | None, conditions: Collection[Condition] = ()) -> str:
    """One result with its day, its seat or pace, and what may be said beside the one before."""
    said = f"{day_words(done.stamp.local)}: {result_words(done)}"
    said += f", seat {done.seat_cm} cm" if done.seat_cm is not None else ""
    if done.check is FunctionalCheck.WALK_4M and done.time_ms:
        said += f", {c.pace_mm_s(done.time_ms) / 1000:.2f} m/s"
    by = "" if done.answered_by.value == "self" else ", reported by their helper"
    return f"{said}{by}" if before is None else f"{said}{by}; {COACH_CHANGE[c.change(before, done, conditions)]}"


def age_at(day: date, birth_year: int) -> int:
    """About how old, in whole years: the birthday is not known."""
    return day.year - birth_year
