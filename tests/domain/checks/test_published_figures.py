"""Published figures as data, where a result lies in them, and what is worth a talk."""
from __future__ import annotations

from typing import Any

import pytest

from app.domain.checks.published_figures import (
    BANDS,
    BandPlace,
    ReferenceBand,
    TalkingPoint,
    bands_for,
    place_in,
    talking_point,
)
from app.domain.model.record import CheckDone, FunctionalCheck
from tests.domain.past import stamp


@pytest.mark.parametrize(("age", "sex", "figures"), [
    (60, "woman", (12, 17)), (64, "man", (14, 19)), (72, "woman", (10, 15)), (72, "man", (12, 17)),
    (87, "woman", (8, 13)), (94, "man", (7, 12))])
def test_the_bands_of_the_chair_stand_are_the_published_ones(age: int, sex: str, figures: tuple[int, int]) -> None:
    """By age and sex."""
    band, = bands_for(FunctionalCheck.CHAIR_STAND, age, sex)
    assert (band.low, band.high, band.mean) == (*figures, None) and "Rikli" in band.source


@pytest.mark.parametrize(("check", "age", "figures"), [
    (FunctionalCheck.WALK, 60, (8_100, None, None)), (FunctionalCheck.WALK, 70, (9_200, None, None)),
    (FunctionalCheck.ONE_LEG, 69, (27_000, None, None)),
    (FunctionalCheck.ONE_LEG, 70, (17_200, None, None)), (FunctionalCheck.ONE_LEG, 85, (8_500, None, None))])
def test_the_bands_of_the_other_two_are_the_published_ones(check: FunctionalCheck, age: int,
                                                           figures: tuple[Any, ...]) -> None:
    """By decade, the same for everybody."""
    band, = bands_for(check, age, "man")
    assert (band.mean, band.low, band.high) == figures and "Bohannon" in band.source


def test_without_the_sex_both_bands_are_given_and_without_figures_none() -> None:
    """Nobody is put into a group that they did not name."""
    assert {b.sex for b in bands_for(FunctionalCheck.CHAIR_STAND, 70)} == {"woman", "man"}
    assert bands_for(FunctionalCheck.CHAIR_STAND, 59) == () == bands_for(FunctionalCheck.CHAIR_STAND, 95)


@pytest.mark.parametrize(("age", "mean", "middle"), [
    (71, 9_500, (7_800, 11_200)), (80, 9_900, (7_900, 11_900)), (85, 11_200, (8_800, 13_600)),
    (99, 12_000, (9_400, 14_600))])
def test_f2_the_usual_range_of_the_walk_is_no_interval_of_a_mean(age: int, mean: int, middle: tuple[int, int]) -> None:
    """The middle half of people, worked out from mean and spread; the other source gives its mean and no range."""
    of_mean, of_people = bands_for(FunctionalCheck.WALK, age)
    assert (of_mean.low, of_mean.high) == (None, None) and "no usual range" in of_mean.source
    assert (of_people.mean, of_people.low, of_people.high) == (mean, *middle) and "Pondal" in of_people.source
    assert sum(middle) == 2 * mean


@pytest.mark.parametrize(("check", "source", "first"), [
    (FunctionalCheck.CHAIR_STAND, "Rikli", 60), (FunctionalCheck.ONE_LEG, "Bohannon", 60),
    (FunctionalCheck.WALK, "Bohannon", 60), (FunctionalCheck.WALK, "Pondal", 71)])
def test_ages_lie_in_one_band_of_a_source_each(check: FunctionalCheck, source: str, first: int) -> None:
    """Without a gap or an overlap."""
    for sex in ("woman", "man"):
        ages = [age for b in BANDS if b.check is check and source in b.source and b.sex in ("", sex)
                for age in range(b.first_age, b.last_age + 1)]
        assert ages == list(range(first, first + len(ages)))


@pytest.mark.parametrize("check", [FunctionalCheck.CHAIR_STAND_HIGH, FunctionalCheck.ONE_LEG_HELD])
def test_a_stand_in_is_measured_against_no_published_figure(check: FunctionalCheck) -> None:
    """It is a series of its own."""
    assert not bands_for(check, 70)


def test_a_seat_of_another_height_is_not_placed() -> None:
    """The figures are from 43 cm; unknown is taken as it was."""
    band = bands_for(FunctionalCheck.CHAIR_STAND, 70, "woman")[0]
    assert [place_in(band, 12, seat) for seat in (None, 43, 45, 46, 40)] == [
        BandPlace.WITHIN, BandPlace.WITHIN, BandPlace.WITHIN, None, None]


@pytest.mark.parametrize(("check", "told", "point"), [
    (FunctionalCheck.ONE_LEG, 10_000, None), (FunctionalCheck.ONE_LEG, 9_999, TalkingPoint.ONE_LEG_SHORT),
    (FunctionalCheck.ONE_LEG, 5_000, TalkingPoint.ONE_LEG_SHORT),
    (FunctionalCheck.ONE_LEG, 4_999, TalkingPoint.ONE_LEG_VERY_SHORT), (FunctionalCheck.ONE_LEG_HELD, 2_000, None),
    (FunctionalCheck.WALK, 11_999, None), (FunctionalCheck.WALK, 12_000, TalkingPoint.WALK_LONG),
    (FunctionalCheck.WALK_4M, 4_000, None), (FunctionalCheck.WALK_4M, 4_010, TalkingPoint.PACE_SLOW),
    (FunctionalCheck.WALK, None, None)])
def test_f5_what_is_worth_a_talk_is_marked_for_the_coach(check: FunctionalCheck, told: int | None,
                                                      point: TalkingPoint | None) -> None:
    """At each edge; a hold makes it another thing."""
    assert talking_point(CheckDone(stamp("k"), check, time_ms=told)) is point


def test_a_result_is_placed_by_number() -> None:
    """At both edges; where only a mean was published, nowhere."""
    band: ReferenceBand = bands_for(FunctionalCheck.CHAIR_STAND, 70, "woman")[0]
    assert [place_in(band, n) for n in (9, 10, 15, 16)] == [BandPlace.BELOW, BandPlace.WITHIN, BandPlace.WITHIN,
                                                            BandPlace.ABOVE]
    assert place_in(bands_for(FunctionalCheck.ONE_LEG, 70)[0], 5_000) is None
