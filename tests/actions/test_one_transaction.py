"""An action is done or not done, wherever the plug is pulled: each writes in one transaction."""
from __future__ import annotations

import ast
import asyncio
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from app.actions.desk import intake, publishing, recovering, replying
from app.actions.files import messages, sending
from app.actions.training import playing
from app.actions.training.helper_stop import stop_today
from app.actions.training.planning import take_block
from app.actions.training.today import today
from app.domain.model.body import Region, Spot
from app.domain.model.exercise import Axis
from app.domain.model.record import CheckIn, Hurt
from app.exchange.crypto.recovery_words import recovery_words
from app.storage import journal, records
from app.storage.database import Store, open_store
from app.storage.export import logical_dump
from tests.actions import killed
from tests.actions.afar import Client, new_keys
from tests.actions.at_home import HOME, Home

ROOT = Path(__file__).resolve().parent.parent.parent
KNEE = Spot(Region.KNEE, "left")
Act = Callable[[], object]


def dump(store: Store) -> str:
    """Every row."""
    with store.read() as db:
        return logical_dump(db)


def assert_all_or_nothing(store: Store, act: Act) -> None:
    """Pulls the plug at the first point, the second and so on, until the act comes to its end."""
    before, at = dump(store), 0
    while True:
        at += 1
        with killed.dying(store, at, killed.pull) as passed:
            try:
                act()
            except killed.PlugPulled:
                assert dump(store) == before, f"something was kept after {passed}"
                continue
        break
    assert passed.count("commit") == 1
    assert at > 3, "one statement alone could not have been parted"
    assert dump(store) != before


# ------------------------------------------------------------------ what a client or a helper does

def a_check_in(home: Home) -> Act:
    """With a sign that stops them."""
    return lambda: killed.answer_with_a_sign(home.store, home.clock, home.person.id)


def a_yes(home: Home) -> Act:
    """A clinician's, after which the stop questions are due again."""
    killed.answer_with_a_sign(home.store, home.clock, home.person.id)
    return lambda: killed.say_yes(home.store, home.clock, home.person.id)


def what_a_helper_sees(home: Home) -> Act:
    """Added to the answers of the morning."""
    home.answer()
    return lambda: stop_today(home.store, home.clock, home.person, "fainting", "Seen")


def an_easier_option(home: Home) -> Act:
    """Taken in the middle of a bout, with a pause where the position changes."""
    home.answer()
    run = home.begin()
    return lambda: playing.take_easier(home.store, home.clock, run)


def an_easier_option_undone(home: Home) -> Act:
    """As if it had not been taken."""
    home.answer()
    run = home.begin()
    was, now = run.library[str(run.state.step.exercise)], run.easier()
    assert now is not None
    taken = playing.take_easier(home.store, home.clock, run)
    return lambda: playing.undo_easier(home.store, home.clock, taken, was, now)


def what_hurts(home: Home) -> Act:
    """Told, and everything that loads it changed."""
    home.answer()
    run = home.begin()
    return lambda: playing.tell_hurt(home.store, home.clock, run, Hurt(KNEE, 4))


def another_programme(home: Home) -> Act:
    """On a day with a session: it begins tomorrow."""
    home.answer()
    home.done()
    card = today(home.store, home.clock, home.person.id)
    assert card.source is not None
    return lambda: take_block(home.store, home.clock, card, card.source.programmes[-1].id)  # type: ignore[union-attr]


def a_message(home: Home) -> Act:
    """With limits and a change: kept, and put into effect."""
    made = asyncio.run(sending.make_return(home.store, home.clock, home.person.id))
    asyncio.run(intake.take_in(home.desk, home.clock, [(made.name, made.data)]))
    draft = replying.ReplyDraft("Go easy", spare={KNEE: 1}, limits={Axis.GRIP: 1})
    told = asyncio.run(replying.write(home.desk, home.clock, home.person.id, draft))
    return lambda: asyncio.run(messages.receive(home.store, home.clock, home.person.id, told.data, "a file"))


def what_was_sent(home: Home) -> Act:
    """Said afterwards of a file that was saved."""
    made = asyncio.run(sending.make_return(home.store, home.clock, home.person.id))
    sending.note_waiting(home.store, home.clock, home.person.id, made, sending.HandedOn.SAVED)
    return lambda: sending.confirm_sent(home.store, home.clock, home.person.id)


@pytest.mark.parametrize("prepared", [
    a_check_in, a_yes, what_a_helper_sees, an_easier_option, an_easier_option_undone, what_hurts, another_programme,
    a_message, what_was_sent,
])
def test_a_plug_pulled_at_home_leaves_all_or_nothing(prepared: Callable[[Home], Act], at_home: Home) -> None:
    """Before each statement that writes, and before the commit."""
    assert_all_or_nothing(at_home.store, prepared(at_home))


def test_what_hurts_changes_more_than_one_thing(at_home: Home) -> None:
    """Or else the test above would show nothing for it: the pain and each swap are events of their own."""
    what_hurts(at_home)()
    with at_home.store.read() as db:
        run = journal.running(db, at_home.person.id)
    assert run is not None and len(run.entries) > 2, "the start, the pain and a swap"


# ------------------------------------------------------------------ what a coach does

def test_a_plug_pulled_while_a_new_phone_is_accepted_leaves_the_old_key(store: Store, at_home: Home) -> None:
    """The key is changed with the return that bears it, or not at all."""
    client = Client(at_home.person)
    first, second = client.sends(store, []), replace(client, keys=asyncio.run(new_keys())).sends(store, [])
    asyncio.run(intake.take_in(store, at_home.clock, [("first", first)]))
    assert_all_or_nothing(
        store, lambda: asyncio.run(intake.accept_new_phone(store, at_home.clock, "second", second)))


def test_a_plug_pulled_while_keys_are_recovered_leaves_none(store: Store, at_home: Home) -> None:
    """All four with the statement that clients believe, or nothing."""
    words = " ".join(recovery_words(bytes(range(32))))
    assert_all_or_nothing(store, lambda: asyncio.run(recovering.recover_keys(store, at_home.clock, words)))
    assert publishing.coach_keys(store) is not None


# ------------------------------------------------------------------ processes that are gone

def survivors(folder: Path, act: str) -> Iterator[Store]:
    """The store as each process left it that died at the first point, the second and so on; the last one ended."""
    for at in range(1, 30):
        command = [sys.executable, "-m", "tests.actions.killed", str(folder), act, str(at)]
        status = subprocess.run(command, cwd=ROOT, check=False, timeout=60).returncode
        assert status in (0, killed.GONE)
        store = open_store(folder)
        yield store
        store.close()
        if status == 0:
            return
    raise AssertionError("it never came to its end")


def test_a_process_killed_in_a_check_in_leaves_no_answers_without_their_stop(at_home: Home, tmp_path: Path) -> None:
    """Each time there is no check-in at all, or one whose stop waits for a yes."""
    at_home.store.close()
    found = []
    for store in survivors(tmp_path / HOME, "sign"):
        with store.read() as db:
            kept = records.records(db, at_home.person.id, CheckIn)
        card = today(store, at_home.clock, at_home.person.id)
        assert bool(kept) == (card.stop is not None)
        assert all((one.level or 0) >= 7 and one.stopped_by for one in kept)
        found.append(bool(kept))
    assert len(found) > 3
    assert found == [False] * (len(found) - 1) + [True]


def test_a_process_killed_in_a_yes_leaves_no_stop_answered_without_its_questions(
    at_home: Home, tmp_path: Path,
) -> None:
    """Each time the stop waits still, or it is answered and the stop questions are due."""
    killed.answer_with_a_sign(at_home.store, at_home.clock, at_home.person.id)
    at_home.store.close()
    found = []
    for store in survivors(tmp_path / HOME, "yes"):
        card = today(store, at_home.clock, at_home.person.id)
        assert (card.stop is None) == (card.person.screened is None)
        found.append(card.stop is None)
    assert len(found) > 3
    assert found == [False] * (len(found) - 1) + [True]


# ------------------------------------------------------------------ every action

#: Those that write twice, each with the reason why nothing is lost between.
TWICE = {
    "go_on": "a position and a heartbeat, each true without the other",
    "move_on": "one or the other",
    "make_return": "keys are made on first use and never replaced; a number that was taken and not used is a gap",
    "receive": "keys are made on first use and never replaced",
    "write": "keys are made on first use and never replaced; then, or again with the next number",
    "build": "keys are made on first use and never replaced; the note is of what was signed with them",
    "check_pin": "counted as wrong before it is tried, so that ending the program gives no further try",
    "remove_pin": "given first; where it was ended in between, the PIN stands",
    "_take": "a file is read, then taken in",
}


def test_no_action_writes_twice() -> None:
    """Neither in two transactions of its own nor by calling two functions that write; but for those said above."""
    trees = [ast.parse(path.read_text("utf-8")) for path in sorted((ROOT / "app/actions").rglob("*.py"))]
    assert set(writing_twice(trees)) <= set(TWICE)
    assert {"go_on", "make_return", "build"} <= set(writing_twice(trees)), "nothing is excused that is not there"


@pytest.mark.parametrize("planted", [
    "def two(store):\n    with store.begin() as db:\n        pass\n    with store.begin() as db:\n        pass",
    "def one(store):\n    with store.begin() as db:\n        pass\n\ndef two(store):\n    one(store)\n    one(store)",
    "def one(store):\n    with store.begin() as db:\n        pass\n\n"
    "def two(store):\n    a.one(store)\n    with store.begin() as db:\n        pass",
])
def test_an_action_that_writes_twice_is_found(planted: str) -> None:
    """However it is written."""
    assert writing_twice([ast.parse(planted)]) == ["two"]


def writing_twice(trees: list[ast.Module]) -> list[str]:
    """Names of functions with more than one place that begins a transaction, itself or by a function that does."""
    functions = [node for tree in trees for node in ast.walk(tree)
                 if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)]
    begins = {"begin"}
    while more := {f.name for f in functions if places(f, begins)} - begins:
        begins |= more
    return sorted(f.name for f in functions if places(f, begins) > 1)


def places(function: ast.AST, names: set[str]) -> int:
    """How many calls of these names stand in it, with the store or as a method of it."""
    return sum(_name(node) in names for node in ast.walk(function) if isinstance(node, ast.Call) and _with_store(node))


def _with_store(call: ast.Call) -> bool:
    return _name(call) == "begin" or (bool(call.args) and ast.unparse(call.args[0]) == "store")


def _name(call: ast.Call) -> str:
    if isinstance(call.func, ast.Attribute):
        return call.func.attr
    return call.func.id if isinstance(call.func, ast.Name) else ""
