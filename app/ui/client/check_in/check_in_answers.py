"""A check-in being answered: what is known from before, what was said so far, and the record it becomes."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from app.actions.training.check_in import with_signs
from app.actions.training.today import Today
from app.domain.dosing.events import asks_flare
from app.domain.dosing.screening import SIGNS
from app.domain.dosing.way_back import check_ins_of, sessions_of
from app.domain.model.body import Spot
from app.domain.model.diary import AnsweredBy, Symptom
from app.domain.model.record import CheckIn, SessionDone, Stamp
from app.domain.model.thresholds import FLARE_DAYS

Levels = Mapping[Spot, int]
SIGNS_PAGE = "signs"
#: Page → what of the answers it asks about.
ASKED_ON: Mapping[str, tuple[str, ...]] = {
    SIGNS_PAGE: ("new", "signs"), "pain": ("pain",), "morning": ("morning",), "soreness": ("soreness",),
    "flare": ("flare",), "feel": ("slept", "energy", "calm"),
}
STOPPING = frozenset({Symptom.EMERGENCY, Symptom.STOP_AND_ASK, Symptom.FEVER})


@dataclass(frozen=True)
class Earlier:
    """What is known from the days before."""

    pain: Levels
    """Where a joint hurt last, for asking about again."""
    soreness: Levels
    session: SessionDone | None
    """The last session before today, whose morning after counts."""
    before: Levels
    """Where it hurt before or in that session."""
    morning: Levels | None
    """That morning, if it was told in an earlier check-in."""
    asks_flare: bool = False
    """Whether it is asked if they felt worse after it: it matters to them, and was not told yet."""

    def morning_day(self) -> date | None:
        """The morning after that session."""
        return self.session.stamp.local + timedelta(days=1) if self.session else None


@dataclass(frozen=True)
class Answers:
    """What was said so far. None is "not answered"."""

    new: bool | None = None
    signs: frozenset[str] = frozenset()
    pain: Levels | None = None
    morning: Levels | None = None
    soreness: Levels | None = None
    slept: int | None = None
    energy: int | None = None
    calm: int | None = None
    flare: int | None = None
    """So many days after the last session they felt clearly worse; 0: they did not."""
    by_them: bool | None = None
    """Whether whoever is led answered for themselves."""
    unsaid: frozenset[str] = frozenset()
    """Pages that were passed by with "I'd rather not say"."""
    asking: Spot | None = None
    """A part of the body that was pressed; its number may still be missing."""
    complaint: str = ""

    def stops(self) -> bool:
        """Whether the questions end here: a sign is ticked that stops, or it was not said whether there is any."""
        return SIGNS_PAGE in self.unsaid or (bool(self.new) and any(SIGNS[s] in STOPPING for s in self.signs))

    def spots(self, page: str) -> Levels | None:
        """What was told of the body on that page."""
        return {"pain": self.pain, "morning": self.morning, "soreness": self.soreness}[page]

    def emergencies(self) -> list[str]:
        """Ticked signs that may be an emergency."""
        return [s for s in SIGNS if self.new and s in self.signs and SIGNS[s] is Symptom.EMERGENCY]


def _hurting(levels: Levels | None) -> dict[Spot, int]:
    return {spot: level for spot, level in (levels or {}).items() if level > 0}


def session_pain(done: SessionDone) -> dict[Spot, int]:
    """Where it hurt in a session, the worst of each."""
    at = _hurting(done.pain)
    for hurt in done.hurts:
        at[hurt.spot] = max(hurt.level, at.get(hurt.spot, 0))
    return at


def earlier_of(card: Today) -> Earlier:
    """What the records say, up to this morning."""
    mine = card.check_in.stamp.id if card.check_in else ""
    check_ins = [c for c in check_ins_of(card.records) if c.stamp.id != mine]
    sessions = sessions_of(card.records)
    told = [c for c in check_ins if c.pain is not None]
    pain = _hurting(told[-1].pain) if told else {}
    if sessions and (not told or sessions[-1].stamp.utc > told[-1].stamp.utc):
        pain = {**pain, **session_pain(sessions[-1])}
    ached = [c for c in check_ins if c.soreness is not None]
    past = [s for s in sessions if s.stamp.local < card.day]
    latest = past[-1] if past and past[-1] is sessions[-1] else None
    soreness = _hurting(ached[-1].soreness) if ached else {}
    if latest is None:
        return Earlier(pain, soreness, None, {}, None)
    led = [c for c in told if c.stamp.utc <= latest.stamp.utc]
    before = {**(_hurting(led[-1].pain) if led else {}), **session_pain(latest)}
    since = [c for c in check_ins if c.stamp.utc > latest.stamp.utc and c.morning_after is not None]
    told_flare = any(c.stamp.utc > latest.stamp.utc and c.flare_days is not None for c in check_ins)
    flares = not told_flare and asks_flare(card.person.body, card.records, card.day)
    return Earlier(pain, soreness, latest, before, since[-1].morning_after if since else None, flares)


def answers_of(check_in: CheckIn) -> Answers:
    """A check-in that is answered again; what was not said then stands as not said."""
    told = Answers(
        None if check_in.symptoms is None else bool(check_in.signs), frozenset(check_in.signs), check_in.pain,
        check_in.morning_after, check_in.soreness, check_in.slept, check_in.energy, check_in.calm, check_in.flare_days,
        check_in.answered_by is AnsweredBy.SELF,
    )
    return replace(told, unsaid=frozenset(missing(told, list(ASKED_ON))))


def passed_by(answers: Answers, page: str) -> Answers:
    """With "I'd rather not say" on that page, or without it again; what was said on it before is gone."""
    blank = {name: getattr(Answers(), name) for name in ASKED_ON[page]}
    if page in answers.unsaid:
        return replace(answers, unsaid=answers.unsaid - {page})
    return replace(answers, unsaid=answers.unsaid | {page}, asking=None, complaint="", **blank)


def said_on(answers: Answers, page: str, **values: object) -> Answers:
    """With something said on that page, which then is no longer passed by."""
    return replace(answers, complaint="", unsaid=answers.unsaid - {page}, **values)  # type: ignore[arg-type]


def asks_morning(earlier: Earlier, day: date) -> bool:
    """Whether the morning after is a question of its own: not where it is this morning, or was told already."""
    return earlier.session is not None and earlier.morning is None and earlier.morning_day() != day


def pages_of(earlier: Earlier, day: date) -> list[str]:
    """The pages, in order."""
    morning = ["morning"] if asks_morning(earlier, day) else []
    return ["signs", "pain", *morning, *(["flare"] if earlier.asks_flare else []), "soreness", "feel"]


def flare_choices(earlier: Earlier, day: date) -> list[int]:
    """Days after the last session that have come since: 0 for "no", then 1 and 2."""
    gone = (day - earlier.session.stamp.local).days if earlier.session else 0
    return list(range(min(gone, FLARE_DAYS) + 1))


def morning_spots(earlier: Earlier, answers: Answers) -> list[Spot]:
    """Where the morning after is asked about: where it hurt before or since."""
    return sorted({**earlier.before, **_hurting(answers.pain)})


def left_open(told: Levels | None, earlier: Levels) -> list[Spot]:
    """Spots from last time that were not asked about again, where something was told."""
    return [] if told is None else sorted(spot for spot in earlier if spot not in told)


def missing(answers: Answers, pages: list[str]) -> list[str]:
    """Pages that are not answered."""
    unanswered = {
        "signs": answers.new is None or (answers.new and not answers.signs), "pain": answers.pain is None,
        "morning": answers.morning is None, "soreness": answers.soreness is None,
        "flare": answers.flare is None, "feel": None in (answers.slept, answers.energy, answers.calm),
    }
    return [page for page in pages if unanswered[page]]


def still_open(answers: Answers, page: str, earlier: Earlier) -> Spot | None:
    """The first part of the body on that page that needs a number before one goes on; None: none."""
    told = answers.spots(page)
    if answers.asking is not None and answers.asking not in (told or {}):
        return answers.asking
    before = {"pain": earlier.pain, "soreness": earlier.soreness}.get(page)
    if before is None:
        before = dict.fromkeys(morning_spots(earlier, answers), 0)
    return next(iter(left_open(told, before)), None)


def _with_open(told: Levels | None, earlier: Levels) -> dict[Spot, int] | None:
    """A spot that was passed over counts as last time: leaving it out must not make it better."""
    return None if told is None else {**{spot: earlier[spot] for spot in left_open(told, earlier)}, **told}


def _morning(answers: Answers, earlier: Earlier, pain: Levels | None, day: date) -> Levels | None:
    if earlier.session is None:
        return None
    if earlier.morning is not None:
        return earlier.morning
    if asks_morning(earlier, day):
        return answers.morning
    spots = morning_spots(earlier, replace(answers, pain=pain))
    return None if pain is None else {spot: pain.get(spot, 0) for spot in spots}


def check_in_of(answers: Answers, earlier: Earlier, stamp: Stamp, day: date, *, led: bool) -> CheckIn:
    """The record. Where the morning after is this morning, today's pain is that answer too."""
    pain = _with_open(answers.pain, earlier.pain)
    by = AnsweredBy.LEADER if led and not answers.by_them else AnsweredBy.SELF
    record = CheckIn(
        stamp, pain=pain, morning_after=_morning(answers, earlier, pain, day),
        soreness=_with_open(answers.soreness, earlier.soreness), slept=answers.slept, energy=answers.energy,
        calm=answers.calm, answered_by=by, flare_days=answers.flare if earlier.asks_flare else None,
    )
    if answers.new is None or (answers.new and not answers.signs):
        return record
    signs = tuple(s for s in SIGNS if s in answers.signs) if answers.new else ()
    return with_signs(record, signs)
