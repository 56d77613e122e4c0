"""What the dose takes, told in whole amounts, and the words for it."""
from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from app.domain.compile.dose_diff import AmountEased, CountedAmount, eased_amounts
from app.domain.compile.prescription import eased_work_s, longer_rest_s
from app.domain.compile.stations import main_rounds
from app.domain.dosing.dose import AMOUNTS
from app.domain.model.plan import Dose, LeftOut, Part, Step, StepKind, StepSide, Substitution, Timeline
from app.domain.model.session import Block, BlockKind, Item, Session
from app.words.amounts import amount_sentence, day_sentence, eased_words


def _session(*items: Item, rounds: int = 3, rest_s: int = 20) -> Session:
    return Session("s", "S", (
        Block(BlockKind.WARM_UP, (Item("march", work_s=60),)),
        Block(BlockKind.CIRCUIT, items, rounds, rest_s),
    ))


def test_each_amount_is_told_once_with_what_was_written_and_what_is_left() -> None:
    """Two stations alike are one pair; the warm-up, which is never cut, is not among them."""
    session = _session(Item("squat", work_s=40), Item("row", work_s=40), Item("press", reps=10))
    told = eased_amounts(session, Dose(3, 2, 75, 150, 100))
    assert told == (
        AmountEased(CountedAmount.ROUNDS, ((3, 2),)), AmountEased(CountedAmount.WORK, ((40, 30),)),
        AmountEased(CountedAmount.REPS, ((10, 7),)),
        AmountEased(CountedAmount.REST, ((20, 30),)),
    )


def test_a_short_block_before_the_circuit_hides_no_round_that_was_cut() -> None:
    """Balance once, then three rounds: the rounds of a session are those of the block that has most."""
    main = _session(Item("squat", work_s=40))
    session = Session("s", "S", (Block(BlockKind.HOLDS, (Item("stand", hold_s=20),)), *main.blocks))
    assert main_rounds(session) == 3
    told = {e.what: e.pairs for e in eased_amounts(session, Dose(0, 1, 100, 100, 100))}
    assert told == {CountedAmount.ROUNDS: ((3, 1),)}


def test_the_whole_dose_takes_nothing() -> None:
    """Nothing is told where nothing was taken."""
    assert eased_amounts(_session(Item("squat", work_s=40)), Dose(0, 3, 100, 100, 100)) == ()
    assert amount_sentence(Dose(0, 3, 100, 100, 100), _session(Item("squat", work_s=40))) == "The whole session."


def test_the_sentence_is_in_seconds_and_rounds() -> None:
    """No percent where seconds can be told; weights, which differ by hand, are told as a share."""
    session = _session(Item("squat", work_s=40, load_g=4000))
    assert amount_sentence(Dose(3, 2, 75, 150, 70), session) == (
        "Easier today: 2 rounds instead of 3, 30 seconds of work instead of 40, 30 seconds of rest instead of 20 and "
        "weights up to 70% of the plan.")


def test_a_lighter_week_is_told_in_rounds_too() -> None:
    """The dose is whole, the week is not."""
    session = _session(Item("squat", work_s=40), rounds=4)
    assert amount_sentence(Dose(0, 2, 100, 100, 100), session) == "Shorter today: 2 rounds instead of 4."


def test_stations_that_differ_are_told_by_how_much() -> None:
    """From the least to the most that any of them changed."""
    assert eased_words(AmountEased(CountedAmount.WORK, ((30, 25),
                                                        (40, 30)))) == "each work interval 5 to 10 seconds shorter"
    assert eased_words(AmountEased(CountedAmount.REPS, ((8, 7), (9, 8)))) == "1 repetition fewer each time"


@given(work_s=st.integers(5, 120), rest_s=st.integers(0, 90), level=st.sampled_from(sorted(AMOUNTS)))
def test_what_is_told_is_what_is_compiled(work_s: int, rest_s: int, level: int) -> None:
    """Never more work or less rest than was written, and the same numbers as the prescription."""
    amount = AMOUNTS[level]
    session = _session(Item("squat", work_s=work_s), rest_s=rest_s)
    told = {e.what: e.pairs for e in eased_amounts(session, Dose(level, 3, amount.work, amount.rest, amount.load))}
    for written, now in told.get(CountedAmount.WORK, ()):
        assert (written, now) == (work_s, eased_work_s(work_s, amount.work)) and now < written
    for written, now in told.get(CountedAmount.REST, ()):
        assert (written, now) == (rest_s, longer_rest_s(rest_s, amount.rest)) and now > written


# ------------------------------------------------------------------ the day in a sentence

def _timeline(dose: Dose, minutes: int, **more: object) -> Timeline:
    step = Step(StepKind.WORK, Part.MAIN, 0, minutes * 60_000, "squat", StepSide.BOTH, 1)
    return Timeline("s", (step,), dose, **more)  # type: ignore[arg-type]


def test_an_eased_session_never_reads_as_less_while_every_round_is_done() -> None:
    """Shorter work and longer rests may well take longer than what was written."""
    session = _session(Item("squat", work_s=40), rounds=3)
    gentler = Dose(2, 3, 90, 110, 100)
    assert day_sentence(_timeline(gentler, 31), session) == (
        "Same session, gentler: shorter work, longer rests (31 min).")
    assert "less" not in amount_sentence(gentler, session)


def test_the_day_s_sentence_counts_what_is_swapped_and_left_out() -> None:
    """Beside fewer rounds, or the whole session."""
    session = _session(Item("squat", work_s=40), rounds=3)
    swapped = (Substitution("squat", "sit", ("knee",)),)
    assert day_sentence(_timeline(Dose(0, 3, 100, 100, 100), 30, substitutions=swapped), session) == (
        "The whole session (30 min), 1 swapped.")
    assert day_sentence(_timeline(Dose(0, 2, 100, 100, 100), 20, left_out=(LeftOut("a", ("side",)),)), session) == (
        "Shorter today: fewer rounds (20 min), 1 left out.")
    assert day_sentence(_timeline(Dose(3, 2, 75, 150, 100), 25), session).startswith("Easier today: fewer rounds, ")


def test_a_session_without_some_of_its_exercises_is_never_called_whole() -> None:
    """Nothing was eased, and two were left out."""
    session, full = _session(Item("squat", work_s=40)), Dose(0, 3, 100, 100, 100)
    assert amount_sentence(full, session, 2) == "What suits today, without 2 exercises."
    gone = (LeftOut("a", ("side",)), LeftOut("b", ("kit",)))
    assert day_sentence(_timeline(full, 16, left_out=gone), session) == "What suits today (16 min), 2 left out."
