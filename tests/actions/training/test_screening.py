"""Start opens with "none of these" or with a clinician's yes, and with nothing else."""
from __future__ import annotations

import pytest

from app.actions import erasing, output_settings, people
from app.actions.output_settings import Sense
from app.actions.training import check_in, screening
from app.actions.training.today import today
from app.device.clock import ManualClock
from app.device.recording import RecordingDevice
from app.domain.dosing.screening import ASK_FIRST, DO_NOT_START, LIST_NOW
from app.domain.dosing.way_back import Stop, way_back
from app.domain.model.client import Condition
from app.domain.model.person import Person
from app.domain.model.record import Clearance
from app.storage import records, settings
from app.storage.database import Store
from app.storage.export import logical_dump


@pytest.fixture
def ada(store: Store, clock: ManualClock) -> Person:
    """Who was never asked."""
    return people.register(store, clock, Person("", "Ada"))


def test_none_of_these_is_kept_with_its_day(store: Store, clock: ManualClock, ada: Person) -> None:
    """And nothing waits."""
    answered = screening.answer_stop_questions(store, clock, ada.id, ())
    assert (answered.screened, answered.waiting) == (clock.now().date(), frozenset())
    assert not today(store, clock, ada.id).ask_again


@pytest.mark.parametrize("stop", [*DO_NOT_START, *ASK_FIRST])
def test_any_tick_waits_for_a_yes(store: Store, clock: ManualClock, ada: Person, stop: str) -> None:
    """Also where they had been answered with "none" before."""
    screening.answer_stop_questions(store, clock, ada.id, ())
    answered = screening.answer_stop_questions(store, clock, ada.id, {stop})
    assert (answered.screened, answered.waiting) == (None, {stop})
    assert today(store, clock, ada.id).ask_again


def test_going_with_settings_sets_them_and_waits_for_nobody(store: Store, clock: ManualClock, ada: Person) -> None:
    """Start is open; the condition is there, and stays when the questions are answered again without it."""
    answered = screening.answer_stop_questions(store, clock, ada.id, {"blood_thinner", "numb_feet"})
    assert (answered.screened, answered.waiting) == (clock.now().date(), frozenset())
    assert answered.body.conditions == {Condition.BLOOD_THINNER, Condition.NEUROPATHY}
    assert not today(store, clock, ada.id).ask_again
    again = screening.answer_stop_questions(store, clock, ada.id, ())
    assert again.body.conditions == answered.body.conditions


def test_a_stop_leaves_its_setting_for_after_the_yes(store: Store, clock: ManualClock, ada: Person) -> None:
    """Two falls wait for a yes, and balance stays held afterwards."""
    answered = screening.answer_stop_questions(store, clock, ada.id, {"repeated_falls", "memory"})
    assert answered.waiting == {"repeated_falls"}
    cleared = screening.record_starting_yes(store, clock, ada.id, "Dr Moss", "doctor")
    assert cleared.body.conditions == {Condition.FALLS, Condition.MEMORY_LOSS} and not cleared.waiting


def test_who_was_screened_before_is_not_locked_out(store: Store, clock: ManualClock) -> None:
    """The older answers hold until the new questions are answered, and their day is not renewed by these."""
    day = clock.now().date()
    bo = people.register(store, clock, Person("", "Bo", screened=day, answered_list=1))
    assert not today(store, clock, bo.id).ask_again
    answered = screening.answer_new_questions(store, bo.id, {"glaucoma"})
    assert (answered.answered_list, answered.screened, answered.waiting) == (LIST_NOW, day, frozenset())
    assert answered.body.conditions == {Condition.GLAUCOMA}


def test_a_sign_among_the_new_questions_waits_for_a_yes(store: Store, clock: ManualClock) -> None:
    """Beside what waited already."""
    bo = people.register(store, clock, Person("", "Bo", waiting=frozenset({"aneurysm"})))
    answered = screening.answer_new_questions(store, bo.id, {"fainted"})
    assert (answered.screened, answered.waiting) == (None, {"aneurysm", "fainted"})
    with pytest.raises(KeyError):
        screening.answer_new_questions(store, "nobody", ())


def test_a_clinician_s_yes_opens_start(store: Store, clock: ManualClock, ada: Person) -> None:
    """It is kept with who said it and of what kind."""
    screening.answer_stop_questions(store, clock, ada.id, {"aneurysm"})
    cleared = screening.record_starting_yes(store, clock, ada.id, " Dr Moss ", "doctor")
    assert (cleared.screened, cleared.waiting) == (clock.now().date(), frozenset())
    with store.read() as db:
        (kept,) = records.records(db, ada.id, Clearance)
    assert (kept.answers, kept.who, kept.kind) == (screening.SCREENING, "Dr Moss", "doctor")


@pytest.mark.parametrize(("who", "kind"), [("", "doctor"), ("  ", "nurse"), ("Ada", "self"), ("Nell", "coach"),
                                           ("Nell", "")])
def test_nobody_else_s_yes_does(store: Store, clock: ManualClock, ada: Person, who: str, kind: str) -> None:
    """Nothing is kept of it."""
    screening.answer_stop_questions(store, clock, ada.id, {"aneurysm"})
    with store.read() as db:
        before = logical_dump(db)
    with pytest.raises(ValueError, match="clinician"):
        screening.record_starting_yes(store, clock, ada.id, who, kind)
    with store.read() as db:
        assert logical_dump(db) == before


def test_after_a_clinician_s_yes_to_a_stop_the_questions_are_due(
        store: Store, clock: ManualClock, ada: Person) -> None:
    """A stop may have changed the answers."""
    screening.answer_stop_questions(store, clock, ada.id, ())
    ticked = check_in.with_signs(check_in.blank_check_in(clock, ada.id), ("fainting",))
    stop = Stop(ticked.stamp.id, 8, ticked.stamp.utc, "emergency", "clinician")
    screening.record_stop_yes(store, clock, ada.id, stop, "Dr Moss", "doctor")
    assert today(store, clock, ada.id).ask_again
    assert way_back(today(store, clock, ada.id).records).stop is None


def test_after_a_fever_one_s_own_word_leaves_them_answered(store: Store, clock: ManualClock, ada: Person) -> None:
    """A cold is no reason to ask about a heart."""
    screening.answer_stop_questions(store, clock, ada.id, ())
    stop = Stop("c", 7, clock.now(), "fever", "self")
    screening.record_stop_yes(store, clock, ada.id, stop, "Ada", "self")
    assert not today(store, clock, ada.id).ask_again


def test_erasing_leaves_nothing_of_a_person(store: Store, clock: ManualClock, ada: Person) -> None:
    """Not a setting, not a record; others stay."""
    bo = people.register(store, clock, Person("", "Bo"))
    check_in.save_check_in(store, clock, check_in.blank_check_in(clock, ada.id))
    with store.begin() as db:
        settings.save_setting(db, f"returns:{ada.id}", 3)
    people.choose_person(store, ada.id)
    erasing.erase(store, ada.id)
    with store.read() as db:
        kept = logical_dump(db)
    assert ada.id not in kept and bo.id in kept
    assert people.current_person(store) is None


def test_erasing_the_device_leaves_an_empty_store(store: Store, clock: ManualClock) -> None:
    """As it was before anybody came."""
    with store.read() as db:
        fresh = logical_dump(db)
    people.register(store, clock, Person("", "Ada"))
    erasing.erase_device(store)
    with store.read() as db:
        assert logical_dump(db) == fresh


def test_senses_are_kept_and_applied(store: Store) -> None:
    """On this machine now, and on the next at start."""
    one, next_one = RecordingDevice(), RecordingDevice()
    assert output_settings.senses(store) == output_settings.USUAL
    output_settings.switch_off(store, one, Sense.SOUND)
    output_settings.switch_on(store, one, Sense.SPEECH)
    output_settings.apply_senses(store, next_one)
    for device in (one, next_one):
        assert (device.sounds.on, device.haptics.on, device.speech.on) == (False, True, True)
