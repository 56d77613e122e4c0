"""What must always hold between the diary and the session, over random diaries."""
from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from app.domain.dosing.dose import decide_dose
from app.domain.model.body import Spot, parse_spot
from app.domain.model.client import Client
from app.domain.model.diary import Diary
from app.domain.model.plan import Dose, Part, Step, StepSide, Substitution, Timeline
from app.words import reasons
from tests.domain import strategies as own
from tests.domain.shipped import SESSIONS, TODAY, WELL, compiled, efforts, library, sum_ms
from tests.sampling import examples

often = settings(max_examples=examples(80, 4_000))


def dose(diary: Diary, client: Client, rounds: int, *, strength: bool = True, today: date = TODAY) -> Dose:
    """Today's dose."""
    return decide_dose(diary, client, rounds, today, strength=strength)


def assert_no_more(worse: Dose, better: Dose) -> None:
    """Neither more rounds, work or load nor less rest. Without a session there is no rest to compare."""
    assert worse.level >= better.level
    assert (worse.rounds, worse.work, worse.load) <= (better.rounds, better.work, better.load)
    assert worse.rounds <= better.rounds and worse.work <= better.work and worse.load <= better.load
    assert worse.rest >= better.rest or not worse.allows_session


@often
@given(own.worsened(), own.bodies, st.integers(1, 8), st.booleans())
def test_a_worse_answer_never_gives_more(pair: tuple[Diary, Diary], client: Client, rounds: int, strength: bool
                                         ) -> None:
    """Each answer alone, including left out against its best; days on each arm alone."""
    better, worse = pair
    assert_no_more(dose(worse, client, rounds, strength=strength), dose(better, client, rounds, strength=strength))


@pytest.mark.parametrize("name", sorted(own.WORSENINGS))
@settings(max_examples=examples(25, 500))
@given(data=st.data())
def test_every_single_answer_made_worse_never_gives_more(name: str, data: st.DataObject) -> None:
    """The same for each answer by name, so that none is passed over by chance."""
    pair = data.draw(st.composite(lambda draw: own.WORSENINGS[name](draw, draw(own.diaries | own.mild_diaries)))())
    client, strength = data.draw(own.bodies), data.draw(st.booleans())
    assert_no_more(dose(pair[1], client, 4, strength=strength), dose(pair[0], client, 4, strength=strength))


@often
@given(own.diaries, own.bodies, st.integers(1, 8), st.booleans())
def test_the_dose_stays_between_nothing_and_the_prescription(diary: Diary, client: Client, rounds: int,
                                                             strength: bool) -> None:
    """And rest never under it; whole numbers throughout."""
    got = dose(diary, client, rounds, strength=strength)
    assert 0 <= got.level <= 8 and 0 <= got.carried <= got.level
    assert 0 <= got.rounds <= rounds and 0 <= got.work <= 100 and 0 <= got.load <= 100
    assert got.rest >= 100 or not got.allows_session
    assert all(type(n) is int for n in (got.level, got.rounds, got.work, got.rest, got.load))


@often
@given(own.diaries, own.bodies, st.booleans())
def test_every_change_carries_a_reason_that_can_be_said(diary: Diary, client: Client, strength: bool) -> None:
    """The level is that of its highest reason, and each reason is a plain sentence."""
    got = dose(diary, client, 3, strength=strength)
    assert got.level == max((r.level for r in got.reasons), default=0)
    for reason in got.reasons:
        assert 0 < reason.level <= 8
        said = reasons.reason_text(reason)
        assert said.endswith(".") and said[0].isupper() and len(said) > 10
        assert not any(sign in said for sign in "{}[]_'<>") or "'s" in said


def shuffled(draw: st.DrawFn, diary: Diary) -> Diary:
    """The same answers given in another order."""
    def mixed(told: dict[Spot, int] | None) -> dict[Spot, int] | None:
        return None if told is None else dict(draw(st.permutations(list(told.items()))))

    return replace(
        diary, pain=mixed(diary.pain), pain_rise=mixed(diary.pain_rise), soreness=mixed(diary.soreness),
        pain_hours=mixed(diary.pain_hours), soreness_hours=mixed(diary.soreness_hours),
        last=replace(diary.last, pain_at=mixed(diary.last.pain_at)),
    )


@settings(max_examples=examples(30, 1_500))
@given(st.data(), own.diaries, own.bodies, own.session_ids)
def test_the_order_of_answers_is_irrelevant_and_the_same_input_gives_the_same_plan(
    data: st.DataObject, diary: Diary, client: Client, session: str
) -> None:
    """Compiled twice, and compiled from shuffled answers, the plan is equal."""
    other = data.draw(st.composite(shuffled)(diary))
    first = compiled(session, client, diary=diary)
    assert first == compiled(session, client, diary=diary) == compiled(session, client, diary=other)


# ------------------------------------------------------------------ mirrors

def _mirror_spots(told: dict[Spot, int] | None) -> dict[Spot, int] | None:
    return None if told is None else {spot.mirrored(): value for spot, value in told.items()}


def mirrored_diary(diary: Diary) -> Diary:
    """Left for right."""
    light = diary.last_light
    return replace(
        diary, pain=_mirror_spots(diary.pain), pain_rise=_mirror_spots(diary.pain_rise),
        pain_hours=_mirror_spots(diary.pain_hours), soreness=_mirror_spots(diary.soreness),
        soreness_hours=_mirror_spots(diary.soreness_hours),
        last=replace(diary.last, pain_at=_mirror_spots(diary.last.pain_at)),
        last_light=light and replace(light, pain_at=_mirror_spots(light.pain_at)),
    )


def mirrored_client(client: Client) -> Client:
    """Left for right."""
    return replace(
        client, spare=_mirror_spots(client.spare), usual_pain=_mirror_spots(client.usual_pain),
        rest_side={"left": "right", "right": "left"}.get(client.rest_side, ""),
    )


OPPOSITE = {"left": "right", "right": "left", "": ""}


def mirrored_steps(plan: Timeline) -> list[Step]:
    """Left for right; but where both sides of one exercise follow one another, left comes first in either plan."""
    swap = {StepSide.LEFT: StepSide.RIGHT, StepSide.RIGHT: StepSide.LEFT}
    both = {(s.part, s.exercise, s.round, s.written) for s in efforts(plan) if s.side is StepSide.LEFT} & {
        (s.part, s.exercise, s.round, s.written) for s in efforts(plan) if s.side is StepSide.RIGHT}
    done = {(part, exercise, round_) for part, exercise, round_, _ in both}
    alone = [(s.part, s.exercise, s.round) not in done for s in plan.steps]
    return [replace(s, side=swap.get(s.side, s.side)) if one and s.side else s
            for s, one in zip(plan.steps, alone, strict=True)]


def row(step: Step) -> Step:
    """A step; the side that a rest leads to is told by the work after it."""
    return step if step.is_effort else replace(step, side=None)


def mirrored_swap(swap: Substitution) -> Substitution:
    """The same for the other side."""
    return replace(swap, side=OPPOSITE[swap.side])


def told(got: Dose) -> Counter[tuple[object, ...]]:
    """Reasons without order, with their spots mirrored by the caller."""
    return Counter((r.rule, r.level, tuple(sorted(
        (k, str(parse_spot(v).mirrored()) if k == "spot" and v else v) for k, v in r.data))) for r in got.reasons)


def untouched(got: Dose) -> Counter[tuple[object, ...]]:
    """Reasons without order."""
    return Counter((r.rule, r.level, r.data) for r in got.reasons)


@settings(max_examples=examples(30, 1_500))
@given(own.diaries, own.bodies, own.session_ids)
def test_mirrored_sides_give_the_mirrored_plan(diary: Diary, client: Client, session: str) -> None:
    """The dose alike, its reasons mirrored, every step mirrored."""
    plan = compiled(session, client, diary=diary)
    other = compiled(session, mirrored_client(client), diary=mirrored_diary(diary))
    assert untouched(plan.dose) == told(other.dose)
    assert replace(plan.dose, reasons=()) == replace(other.dose, reasons=())
    assert [row(s) for s in mirrored_steps(plan)] == [row(s) for s in other.steps]
    assert [mirrored_swap(s) for s in plan.substitutions] == list(other.substitutions)
    assert plan.left_out == other.left_out
    assert [replace(one, spared=OPPOSITE[one.spared]) for one in plan.one_sided] == list(other.one_sided)


# ------------------------------------------------------------------ the whole way to the steps

def rounds_done(timeline: Timeline) -> int:
    """The highest round of the main part that is done."""
    return max((s.round or 0 for s in efforts(timeline, Part.MAIN)), default=0)


def station_work(timeline: Timeline) -> Counter[str]:
    """Milliseconds of work by the exercise that was written."""
    counted: Counter[str] = Counter()
    for step in efforts(timeline):
        counted[step.written or step.exercise or ""] += step.length_ms
    return counted


def exercises_for(timeline: Timeline) -> dict[str, set[str | None]]:
    """What is done for each exercise that was written."""
    done: defaultdict[str, set[str | None]] = defaultdict(set)
    for step in efforts(timeline):
        done[step.written or step.exercise or ""].add(step.exercise)
    return done


def assert_work_no_more(worse: Timeline, better: Timeline) -> None:
    """Each station's work. Shared bouts of a stand-in end on whole seconds: another may differ by under 1 s a bout."""
    had, now = station_work(better), station_work(worse)
    bouts = Counter(s.written for s in efforts(better) if s.written)
    before, after = exercises_for(better), exercises_for(worse)
    for written, work_ms in now.items():
        another = before[written] != after[written]
        assert work_ms <= had[written] + another * 999 * bouts[written], written


def counts(timeline: Timeline) -> dict[tuple[str | None, str | None], int]:
    """The most repetitions in one bout, by what was written and what is done."""
    most: dict[tuple[str | None, str | None], int] = {}
    for step in efforts(timeline):
        key = (step.written, step.exercise)
        most[key] = max(most.get(key, 0), step.reps or 0)
    return most


def loads(timeline: Timeline) -> Counter[str]:
    """The heaviest load by the exercise that was written, grams."""
    most: Counter[str] = Counter()
    for step in efforts(timeline):
        key = step.written or step.exercise or ""
        most[key] = max(most[key], step.load_g or 0)
    return most


def assert_session_no_more(worse: Timeline, better: Timeline) -> None:
    """Station by station."""
    assert rounds_done(worse) <= rounds_done(better)
    assert_work_no_more(worse, better)
    assert loads(worse) <= loads(better)
    before = counts(better)
    for key, reps in counts(worse).items():
        assert reps <= before.get(key, reps)
    if worse.substitutions == better.substitutions and worse.left_out == better.left_out and worse.steps:
        assert_gaps_no_shorter(worse, better)


def gaps_before(timeline: Timeline) -> dict[tuple[object, ...], int]:
    """Everything that is not work, by the work that it leads to."""
    gaps, at_ms, seen = {}, 0, Counter()
    for step in timeline.steps:
        if step.is_effort:
            key = (step.part, step.exercise, step.side, step.round)
            seen[key] += 1
            gaps[*key, seen[key]] = step.start_ms - at_ms
            at_ms = step.end_ms
    return gaps


def assert_gaps_no_shorter(worse: Timeline, better: Timeline) -> None:
    """What leads to the same work from the same neighbour takes as long or longer."""
    if [s.exercise for s in efforts(worse)] == [s.exercise for s in efforts(better)]:
        gaps = gaps_before(better)
        assert all(gap >= gaps[key] for key, gap in gaps_before(worse).items())


@often
@given(own.worsened(), own.bodies, own.rooms, own.session_ids)
def test_a_worse_answer_never_gives_more_of_a_session(pair: tuple[Diary, Diary], client: Client, room: object,
                                                      session: str) -> None:
    """Less or the same of each station's work, repetitions, load and rounds, and no less rest between."""
    worse, better = (compiled(session, client, room, d) for d in (pair[1], pair[0]))
    assert_no_more(worse.dose, better.dose)
    assert_session_no_more(worse, better)


@settings(max_examples=examples(100, 3_000))
@given(own.diaries | own.mild_diaries, own.bodies, own.rooms, own.session_ids)
def test_no_diary_gives_more_than_was_written(diary: Diary, client: Client, room: object, session: str) -> None:
    """Against the same person on the best of days."""
    assume(not client.chosen)
    got, full = compiled(session, client, room, diary), compiled(session, client, room)
    assert_session_no_more(got, full)
    changed = [s for s in got.steps if s.is_effort] != [s for s in full.steps if s.is_effort]
    assert not changed or got.dose.reasons or got.substitutions or got.left_out


@pytest.mark.parametrize("session", SESSIONS)
def test_all_clear_gives_the_session_as_written(session: str) -> None:
    """Every station, every second, every weight."""
    plan = compiled(session)
    written = next(s for s in own_sessions() if s.id == session)
    assert (plan.substitutions, plan.left_out, plan.dose.reasons) == ((), (), ())
    expected = 0
    for block, item in written.items():
        exercise = library()[item.exercise]
        bout = item.work_s * 1000 or item.hold_s * 1000 or item.reps * exercise.rep_ms
        expected += bout * block.rounds * (2 if exercise.sides == "each" else 1)
    assert sum_ms(efforts(plan)) == expected


def own_sessions() -> tuple[object, ...]:
    """The shipped sessions."""
    from tests.domain.shipped import shipped

    return shipped().sessions


@example(pain=4)
@example(pain=6)
@given(pain=st.integers(0, 7))
def test_pain_without_a_change_of_level_still_has_a_cause(pain: int) -> None:
    """A stand-in names the axes that the sore joint forbids."""
    plan = compiled("dumbbell-circuit", diary=replace(WELL, pain={parse_spot("left knee"): pain}))
    for change in (*plan.substitutions, *plan.left_out):
        assert change.because
