"""What a coach looks at over weeks."""
from __future__ import annotations

from datetime import date, timedelta

from app.domain.measures.symptom_series import STRETCH_DAYS, WEEKS, effort, pain_by_spot, soreness_by_spot
from app.domain.model.body import Region, Spot
from app.domain.model.record import Hurt
from tests.actions.afar import KNEE, NOW, check_in, session

TODAY = NOW.date()
HIP = Spot(Region.HIP, "left")


def test_the_worst_of_each_stretch_counts() -> None:
    """Check-in, morning after, session and "that hurts" are one line; the last stretch ends today."""
    told = [check_in("p", "a", 0, 2), check_in("p", "b", 1, 1, morning_after={KNEE: 4}),
            session("p", "s", STRETCH_DAYS, hurts=(Hurt(KNEE, 6),))]
    [knee] = pain_by_spot(told, TODAY)
    assert (knee.spot, knee.values[-2:], knee.last, knee.worst) == (KNEE, (6, 4), 4, 6)
    assert len(knee.values) == WEEKS * 7 // STRETCH_DAYS


def test_unanswered_is_a_gap_and_nothing_hurts_is_zero() -> None:
    """A line is never drawn over what nobody was asked."""
    told = [check_in("p", "a", 0, 3), check_in("p", "b", 3, 0), check_in("p", "c", 6, None)]
    [knee] = pain_by_spot(told, TODAY)
    assert knee.values[-3:] == (None, 0, 3)


def test_a_hurt_says_nothing_of_other_spots() -> None:
    """The hip was not asked about when only the knee was named in a session that was not answered afterwards."""
    told = [check_in("p", "a", 0, pain=None, soreness={}), session("p", "s", 3, pain=None, hurts=(Hurt(KNEE, 5),)),
            session("p", "t", 6, pain={HIP: 2})]
    hip = next(s for s in pain_by_spot(told, TODAY) if s.spot == HIP)
    assert hip.values[-3:] == (2, None, None)


def test_what_is_older_than_six_weeks_or_never_hurt_is_not_drawn() -> None:
    """No empty charts."""
    told = [check_in("p", "a", WEEKS * 7, 5), check_in("p", "b", 0, 0, soreness={})]
    assert pain_by_spot(told, TODAY) == ()
    assert soreness_by_spot(told, TODAY) == ()


def test_effort_is_a_pair_for_each_session() -> None:
    """Told and meant, oldest first; not told stays a gap."""
    told = [session("p", "a", 1, rpe=7), session("p", "b", 2, rpe=None)]  # type: ignore[arg-type]
    assert effort(told, TODAY) == ((None, 5), (7, 5))
    assert effort(told, TODAY + timedelta(days=WEEKS * 7)) == ()
    assert effort(told, date(2020, 1, 1)) == ()
