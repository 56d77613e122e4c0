"""What the desk says, and why: names, numbers and days, never a score."""
from __future__ import annotations

from datetime import date

import pytest

from app.domain.measures.attention_summary import AttentionReason, Course, Flag, PersonSummary, RecordSummary
from app.domain.measures.stall import Stall, StallKind
from app.domain.model.client import Condition
from app.domain.model.person import Person
from app.domain.model.record import Ending, FunctionalCheck, Hurt
from app.domain.model.rules import RuleId
from app.ui.coach.person.station_panel import changes_known
from app.words.client import progression
from app.words.client.checks import NAMES
from app.words.coach import attention, desk, person, publish
from tests.actions.afar import KNEE, check_in, gave_way, session

DAY = date(2026, 3, 1)


def flag(because: AttentionReason, numbers: tuple[int, ...] = (), words: tuple[str, ...] = (),
         record: str = "r4") -> Flag:
    return Flag("p", "Ada", because, DAY, (record,), numbers, words)


def test_pain_names_the_spot_and_what_came_before() -> None:
    """The highest spot of the record, and the three answers before it."""
    told = tuple(RecordSummary(f"r{at}", "check_in", DAY, pain) for at, pain in enumerate((0, 2, 3, 4, 5)))
    line = PersonSummary("p", "Ada", told)
    said = attention.flag_text(flag(AttentionReason.PAIN, (5,)), check_in("p", "r4", 0, 5), line)
    assert said == "Right knee 5 out of 10 on Sunday 1 March (before that 2, 3, 4)"
    assert attention.flag_text(flag(AttentionReason.PAIN, (5,))) == "Pain 5 out of 10 on Sunday 1 March"


@pytest.mark.parametrize(("one", "said"), [
    (flag(AttentionReason.EFFORT, (8, 9, 6)),
                                   "Sessions felt like 8 and 9 out of 10, and the plan was 6; the last on Sunday 1 "
                                   "March"),
    (flag(AttentionReason.EFFORT, (8, 8, 6)),
                                   "Sessions felt like 8 and 8 out of 10, and the plan was 6; the last on Sunday 1 "
                                   "March"),
    (flag(AttentionReason.RISING, (0, 1, 2, 3)), "Pain 0, 1, 2, then 3 out of 10 on Sunday 1 March"),
    (flag(AttentionReason.SWAPPED, (3,), ("push-up", "wall-push")),
     "“wall push” instead of “push up”, 3 times; the last on Sunday 1 March"),
    (flag(AttentionReason.FORTNIGHT, (15,)), "Last session Sunday 1 March, 15 days ago"),
    (flag(AttentionReason.NOTHING_BACK, (21,)), "Last diary Sunday 1 March, 21 days ago"),
])
def test_each_reason_tells_its_numbers_and_day(one: Flag, said: str) -> None:
    """Without the record too, as the command prints it."""
    assert attention.flag_text(one) == said


def test_stops_are_told_in_words() -> None:
    """A sign, a joint that gave way, and a rule that stopped them at the check-in."""
    stopped = session("p", "r4", ending=Ending.SIGN, sign="chest_pressure")
    assert attention.flag_text(flag(AttentionReason.SIGN, words=("chest_pressure",)),
                          stopped).startswith("Stopped: pressure")
    said = attention.flag_text(flag(AttentionReason.SIGN, words=("gave_way",)), gave_way("p", "r4"))
    assert said == "Stopped: a joint that gave way (right knee), on Sunday 1 March"
    morning = check_in("p", "r4", level=7, stopped_by="soreness")
    assert "achy for days" in attention.flag_text(flag(AttentionReason.SIGN, words=("soreness",)), morning)


def test_what_was_dealt_with_in_one_go_is_one_line() -> None:
    """Each reason once, however many items gave it."""
    flags = [flag(one) for one in (AttentionReason.PAIN, AttentionReason.EFFORT, AttentionReason.EFFORT)]
    assert desk.dealt_line(flags, "seen", DAY, None) == "Pain and harder than planned; seen on Sunday 1 March"
    assert desk.dealt_line(flags[:1], "later", DAY, DAY) == "Pain; put off until Sunday 1 March"


def test_everything_has_words() -> None:
    """No reason, rule, ending or condition is without."""
    assert set(attention.REASON_WORDS) == set(AttentionReason)
    assert set(person.RULE_WORDS) == set(RuleId)
    assert set(person.ENDINGS) == set(Ending)
    assert set(person.CONDITION_WORDS) == set(Condition)


def test_what_is_not_sent_is_said() -> None:
    """So that nobody takes silence for health."""
    assert person.not_sent(Person("p", "Ada")) == ()
    assert person.not_sent(Person("p", "Ada", sends=frozenset({"sessions", "check_ins", "notes"}))) == (
        "They don’t share pain and achy muscles, so there may be some you can’t see here.",)


def test_a_hurt_in_a_session_says_where_when_and_in_what() -> None:
    """With the exercise by its name of that time."""
    hurt = Hurt(KNEE, 5, True, "chair-squat", 7 * 60_000 + 5)
    said = person.hurt_line(hurt, {"chair-squat": "Stand up from a chair"})
    assert said == "“That hurts” at minute 7: right knee 5 out of 10 in “Stand up from a chair”, and it gave way"


def test_the_desk_says_of_whom_harm_cannot_show() -> None:
    """By name while they are few."""
    assert desk.withheld(("Ada",)).startswith("Ada does not share all of their pain and check-ins,")
    assert desk.withheld(("Ada", "Bo")).startswith("Ada and Bo do not share")
    assert desk.withheld(("Ada", "Bo", "Cy", "Di")).startswith("4 people do not share")


def test_a_change_that_led_to_what_hurt_is_not_offered_for_good() -> None:
    """The other one of the same session is."""
    to_seated, to_wall = ("march", "seated-march"), ("push-up", "wall-push")
    done = session("p", "r", by_hand=(to_seated, to_wall), hurts=(Hurt(KNEE, 6, exercise="seated-march"),))
    assert list(changes_known([done])) == [to_wall]


def test_the_sheet_holds_every_word_in_order() -> None:
    """In lines of five, numbered."""
    words = [f"word{at}" for at in range(25)]
    page = publish.sheet_text(words, "Odile Marsh", "Evenload")
    assert [w for w in page.split() if w.startswith("word") and w[4:].isdigit()] == words
    assert "21-25" in page and "Odile Marsh" in page


# ------------------------------------------------------------------ evidence in one line

def test_a_pain_is_told_with_its_joint_its_course_and_the_session_that_ended() -> None:
    """From what to what over how long, how the last session ended, how hard the last ones were."""
    course = Course("left knee", 1, date(2026, 2, 1), "too_much", 75, (7, 8, 8), 5)
    one = Flag("p", "Ada", AttentionReason.PAIN, DAY, ("r4",), (5,), ("left knee",), course=course)
    assert attention.flag_text(one) == (
        "Left knee 5 out of 10 on Sunday 1 March, up from 1 on Sunday 1 February, 28 days earlier; the last session "
        "was too much, 75% done; the last sessions felt like 7, 8 and 8 out of 10, and the plan was 5")
    rising = Flag("p", "Ada", AttentionReason.RISING, DAY, ("r4",), (1, 3, 5), ("left knee",), course=course)
    assert attention.flag_text(rising).startswith("Left knee 1, 3, then 5 out of 10 on Sunday 1 March, up from 1 on")


@pytest.mark.parametrize(("one", "said"), [
    (flag(AttentionReason.VERY_HARD, (10, 5)),
                                      "A session on Sunday 1 March felt like 10 out of 10, and the plan was 5"),
    (flag(AttentionReason.TOO_MUCH, (2, 4, 6, 4), ("strength",)),
     "2 of the last 4 strength sessions were too much; on average the last 4 felt 1.5 points harder than planned; the "
     "last on Sunday 1 March"),
    (flag(AttentionReason.TOO_MUCH, (0, 4, 4, 4), ("light",)),
     "On average the last 4 felt 1 point harder than planned; the last on Sunday 1 March"),
    (flag(AttentionReason.SORENESS, (8, 7)),
     "Achy muscles 8 and 7 out of 10 at check-ins, the last on Sunday 1 March"),
    (flag(AttentionReason.WELLBEING, (3, 5), ("lowest",)),
     "Sleep, energy or feeling settled at its lowest in 3 of the last 5 check-ins, the last on Sunday 1 March"),
    (flag(AttentionReason.STOPS_EARLY, (50, 40, 55, 100), ("strength",)),
     "50, 40, 55 and 100% of the plan done in the last 4 strength sessions; the last on Sunday 1 March"),
    (flag(AttentionReason.WEEK_AGAIN, (2,)),
     "The same week repeated 2 times, because its sessions were much harder than planned; the last on Sunday 1 March. "
     "Write something easier"),
    (flag(AttentionReason.STALLED, (5, 24), ("cut_short",)),
     "No exercise has got harder since at least Sunday 1 March, over 5 sessions in 3 weeks: most ended early. A "
     "shorter session that gets finished counts"),
    (flag(AttentionReason.TOO_EASY, (3, 3, 2, 3, 5)),
     "Sessions felt like 3, 3, 2 and 3 out of 10, and the plan was 5; all done, nothing hurting, the last on Sunday "
     "1 March. "
     "There is room for more"),
    (flag(AttentionReason.HALVED, (2, 18)),
     "2 sessions in the last two weeks, 18 in the 6 weeks before; the last on Sunday 1 March"),
    (flag(AttentionReason.CHECK_FELL, (12, 0), ("chair_stand", "hands")),
     f"{NAMES[FunctionalCheck.CHAIR_STAND]}: needed their hands on Sunday 1 March, but not the time before"),
])
def test_each_reason_over_weeks_tells_its_numbers_and_day(one: Flag, said: str) -> None:
    """In one line, plainly, and without reproach."""
    assert attention.flag_text(one) == said


def test_every_stall_has_words_for_coach_and_client() -> None:
    """With what could be changed."""
    assert set(attention.STALL) == set(progression.STALLED) == set(StallKind)
    said = progression.stalled_line(Stall(StallKind.CUT_SHORT, DAY, 5))
    assert said == ("The exercises have stayed the same since Sunday 1 March, because most of the sessions ended "
                    "early. Try choosing fewer minutes: a short session that is finished counts.")
