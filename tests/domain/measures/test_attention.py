"""Who needs the coach: harm and silence, each with its evidence, at both edges of each threshold."""
from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.measures.attention import attention, flags_of
from app.domain.measures.attention_summary import HARM, AttentionReason, PersonSummary, RecordSummary
from tests.sampling import examples

TODAY = date(2026, 3, 30)


def told(days_ago: int, kind: str = "session", **numbers: Any) -> RecordSummary:
    """One record of so many days ago."""
    return RecordSummary(f"{kind}-{days_ago}", kind, TODAY - timedelta(days=days_ago), **numbers)


def line(*records: RecordSummary, heard: int | None = 0, name: str = "Ines", since: int | None = None) -> PersonSummary:
    """One person; `heard` days ago something came back."""
    back = None if heard is None else datetime(2026, 3, 30, 8, tzinfo=UTC) - timedelta(days=heard)
    first = None if since is None else TODAY - timedelta(days=since)
    return PersonSummary(name.lower(), name, tuple(sorted(records, key=lambda t: t.local)), back, first)


def why(*records: RecordSummary, **more: Any) -> list[AttentionReason]:
    """The reasons that such a person gives."""
    return [f.because for f in flags_of(line(*records, **more), TODAY)]


WELL = told(1, pain=0, rpe=5, target_rpe=5)


def test_somebody_who_is_well_gives_no_reason() -> None:
    """Nor does somebody of whom the coach knows nothing yet."""
    assert why(WELL) == []
    assert why(heard=None) == []


def test_a_stop_sign_is_named() -> None:
    """The latest, with its record and its day."""
    flag, = flags_of(line(told(9, sign="dizziness"), told(2, sign="fainting"), WELL), TODAY)
    assert (flag.because, flag.records, flag.words, flag.on) == (
        AttentionReason.SIGN, ("session-2",), ("fainting",), TODAY - timedelta(days=2))


@pytest.mark.parametrize(("pain", "flagged"), [(0, False), (3, False), (4, True), (10, True)])
@pytest.mark.parametrize("kind", ["session", "check_in"])
def test_pain_from_four_on(kind: str, pain: int, flagged: bool) -> None:
    """In the latest answer, from a check-in or a session."""
    assert (why(told(1, kind, pain=pain)) == [AttentionReason.PAIN]) is flagged


def test_the_worst_of_a_day_counts_and_not_its_last_word() -> None:
    """A morning of 6 is seen by the coach though the eased session after it went with 2; yesterday's is over."""
    found = flags_of(line(told(0, "check_in", pain=6), told(0, pain=2)), TODAY)
    assert [(f.because, f.records, f.numbers) for f in found] == [(AttentionReason.PAIN, ("check_in-0",), (6,))]
    assert why(told(1, "check_in", pain=6), told(0, pain=2)) == []


@pytest.mark.parametrize(("pains", "rising"), [
    ((0, 1, 3), True), ((1, 2, 3), True), ((1, 1, 3), False), ((0, 3), False), ((2, 2, 3), False), ((3, 1, 3), False),
    ((0, 1, 2), False), ((0, 0, 2, 3), True), ((1, 3, 3), True)])
def test_pain_that_rises(pains: tuple[int, ...], rising: bool) -> None:
    """By two points or more over three answers or more, and not in one leap alone."""
    records = [told(20 - n, "check_in", pain=p) for n, p in enumerate(pains)]
    assert (AttentionReason.RISING in why(*records)) is rising
    for flag in flags_of(line(*records), TODAY):
        assert flag.numbers == pains and len(flag.records) == len(pains)


@pytest.mark.parametrize(("efforts", "flagged"), [
    ((7, 7), True), ((8, 9), True), ((7, 6), False), ((6, 7), False), ((7,), False), ((9, 7, 5), False),
    ((5, 7, 7), True)])
def test_two_over_target_in_the_last_two_sessions(efforts: tuple[int, ...], flagged: bool) -> None:
    """Running."""
    records = [told(9 - n, rpe=e, target_rpe=5) for n, e in enumerate(efforts)]
    assert (AttentionReason.EFFORT in why(*records, told(0, "check_in"))) is flagged


@pytest.mark.parametrize(("times", "flagged"), [(2, False), (3, True), (5, True)])
def test_the_same_change_by_hand_three_times(times: int, flagged: bool) -> None:
    """Different changes do not add up, nor the same one twice in a session."""
    change = ("squat", "chair")
    records = [told(n + 1, by_hand=(change, change)) for n in range(times)]
    flags = [f for f in flags_of(line(*records), TODAY) if f.because is AttentionReason.SWAPPED]
    assert bool(flags) is flagged
    assert all(f.words == change and f.numbers == (times,) for f in flags)
    assert why(*[told(n + 1, by_hand=((f"e{n}", "x"),)) for n in range(5)]) == []


@pytest.mark.parametrize(("days", "expected"), [(13, []), (14, [AttentionReason.FORTNIGHT]),
                                                (20, [AttentionReason.FORTNIGHT])])
def test_a_missed_fortnight(days: int, expected: list[AttentionReason]) -> None:
    """Returns come and tell of no session."""
    assert why(told(days)) == expected


@pytest.mark.parametrize(("heard", "expected"), [(20, []), (21, [AttentionReason.NOTHING_BACK]),
                                                 (90, [AttentionReason.NOTHING_BACK])])
def test_nothing_returned(heard: int, expected: list[AttentionReason]) -> None:
    """Three weeks; then the missed fortnight is not told as well, since nobody knows."""
    assert why(told(heard - 10 if heard < 21 else heard), heard=heard) == expected
    assert why(heard=None, since=heard) == expected


@pytest.mark.parametrize(("days", "seen"), [(27, True), (28, False)])
def test_harm_is_looked_for_in_four_weeks(days: int, seen: bool) -> None:
    """What is older has been."""
    assert (AttentionReason.PAIN in why(told(days, pain=9))) is seen


def test_harm_and_silence_never_mix_and_the_heaviest_comes_first() -> None:
    """Signs, pain by its height, effort, changes; then silence by its length."""
    lines = [
        line(told(20), name="Ada"), line(told(16), name="Bo"), line(told(1, pain=5), name="Cy"),
        line(told(1, pain=8), name="Di"), line(told(1, sign="fainting"), name="Ed"),
        line(told(2, rpe=8, target_rpe=5), told(1, rpe=8, target_rpe=5), name="Fay"), line(WELL, name="Gil"),
        line(told(1, pain=5), name="Bea"),
    ]
    harm, _, silence = attention(lines, TODAY)
    assert [f.name for f in harm] == ["Ed", "Di", "Bea", "Cy", "Fay"]
    assert [(f.name, f.numbers) for f in silence] == [("Ada", (20,)), ("Bo", (16,))]


def test_what_was_seen_is_known_by_its_evidence() -> None:
    """The same evidence has the same key on another day; new evidence another."""
    one, = flags_of(line(told(1, pain=5)), TODAY)
    later, = flags_of(line(told(1, pain=5)), TODAY + timedelta(days=2))
    worse, = flags_of(line(told(3, pain=5), told(1, pain=6)), TODAY)
    assert one.key == later.key
    assert flags_of(line(told(3, pain=5)), TODAY)[0].key != worse.key


numbers = st.none() | st.integers(0, 10)
records = st.builds(
    lambda day, kind, pain, rpe, sign, hand: told(day, kind, pain=pain, rpe=rpe, target_rpe=5, sign=sign, by_hand=hand),
    st.integers(0, 60), st.sampled_from(("session", "check_in")), numbers, numbers,
    st.sampled_from(("", "", "fainting")), st.sampled_from(((), (("a", "b"),))))


@settings(max_examples=examples(150, 5_000))
@given(st.lists(st.lists(records, max_size=6), max_size=4))
def test_every_flag_carries_evidence_and_stands_in_its_own_part(people: list[list[RecordSummary]]) -> None:
    """Each record named is the person's own; parts do not mix; the order of people is irrelevant."""
    lines = [line(*told_of, name=f"P{n}") for n, told_of in enumerate(people)]
    parts = harm, progress, silence = attention(lines, TODAY)
    assert all(f.because in HARM for f in harm) and not any(f.because in HARM for f in (*progress, *silence))
    assert not {f.because for f in progress} & {f.because for f in silence}
    for flag in (*harm, *progress, *silence):
        own = {t.record for t in next(entry for entry in lines if entry.person == flag.person).told}
        assert set(flag.records) <= own and (flag.records or flag.numbers)
    assert attention(list(reversed(lines)), TODAY) == parts
