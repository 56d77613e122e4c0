"""The pen as a state machine: undo leads back to the start, redo to the end, and the store holds what was kept."""
from __future__ import annotations

import tempfile
from datetime import UTC, datetime
from pathlib import Path
from shutil import rmtree
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from app.actions.bench import drafting
from app.actions.bench.pen import ONE_ACT_MS, Pen
from app.actions.bench.shelf_source import take_over, written_source
from app.device.clock import ManualClock
from app.domain.bench import sheet_edits as edits
from app.domain.errors import DraftChanged
from app.storage.bench import drafts
from app.storage.bench.shelf import ShelfKind
from app.storage.database import Store, open_store
from tests.actions.killed import PlugPulled, dying, pull
from tests.domain.bench.spoiling import STROKES
from tests.domain.shipped import shipped
from tests.sampling import examples

SOURCE, SESSION = shipped(), "dumbbell-circuit"
BEGAN = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)


class PassingClock(ManualClock):
    """A clock that goes on without a loop."""

    def pass_ms(self, ms: int) -> None:
        """So much time passes on both its faces."""
        self._move_to(self.monotonic_ms() + ms)


class Writing(RuleBasedStateMachine):
    """Somebody writes, takes back, does again, closes the window, opens it again, and pulls the plug."""

    @initialize()
    def begin(self) -> None:
        """The shipped source is on the shelf."""
        self.folder = Path(tempfile.mkdtemp())
        self.clock = PassingClock(BEGAN)
        self.store = open_store(self.folder / "data")
        take_over(self.store, self.clock, SOURCE)
        self.start = self.kept = drafting.open_session(self.store, self.clock, SOURCE.id, SESSION).text
        self.open()

    def open(self) -> None:
        """Opens what is kept."""
        self.pen = Pen(self.store, self.clock, drafting.open_session(self.store, self.clock, SOURCE.id, SESSION))

    @rule(data=st.data(), wait=st.integers(0, 3_000))
    def write(self, data: st.DataObject, wait: int) -> None:
        """One stroke."""
        self.clock.pass_ms(wait)
        self.pen.do(data.draw(st.sampled_from(STROKES))(data.draw, self.pen.sheet), "a stroke")

    @rule(number=st.integers(5, 60), wait=st.integers(0, 3_000))
    def type(self, number: int, wait: int) -> None:
        """A number into one field, letter by letter."""
        line = next(iter(self.pen.sheet.lines()), None)
        if line is not None:
            self.clock.pass_ms(wait)
            self.pen.do(edits.set_item(self.pen.sheet, line.number, rest_s=number), str(number), (line.number, "rest"))

    @rule()
    def undo(self) -> None:
        """One back."""
        self.pen.undo()

    @rule()
    def redo(self) -> None:
        """One on."""
        self.pen.redo()

    @rule()
    def keep(self) -> None:
        """The pen has rested."""
        self.pen.keep()
        self.kept = self.pen.draft.text

    @rule()
    def close_and_open(self) -> None:
        """The window is closed, by which everything is kept, and opened again: undo is whole."""
        self.keep()
        before = self.pen.draft.history
        self.store.close()
        self.store = open_store(self.folder / "data")
        self.open()
        assert self.pen.draft.history == before

    @rule(at=st.integers(1, 6))
    def pull_the_plug(self, at: int) -> None:
        """In the midst of keeping: all of it is there, or nothing, and the undo with it."""
        before = self.pen.draft.history
        try:
            with dying(self.store, at, pull):
                self.pen.keep()
        except PlugPulled:
            pass
        self.store.close()
        self.store = open_store(self.folder / "data")
        self.open()
        assert self.pen.draft.text in (self.kept, before.now)
        if self.pen.draft.text == before.now != self.kept:
            assert self.pen.draft.history == before
        self.kept = self.pen.draft.text

    @rule()
    def all_the_way(self) -> None:
        """Undo as far as it goes, then redo as far as it goes."""
        while self.pen.redo():
            pass
        end, acts = self.pen.draft.history, 0
        while self.pen.undo():
            acts += 1
        assert self.pen.draft.text == self.pen.draft.history.start == self.start
        assert acts == len(end.past)
        while self.pen.redo():
            pass
        assert self.pen.draft.history == end

    @invariant()
    def text_and_sheet_agree(self) -> None:
        """At each step; and what others read is what was kept."""
        assert drafting.sheet_text(self.pen.sheet) == self.pen.draft.text

    @invariant()
    def the_store_holds_what_was_kept(self) -> None:
        """The draft itself, and the source that is made of it."""
        with self.store.read() as db:
            kept = drafts.drafts(db, SOURCE.id).get((ShelfKind.SESSION, SESSION))
        assert kept in (None, self.kept) and (kept is not None or self.kept == self.start)

    def teardown(self) -> None:
        """Closes the store; the source can be read whatever stands in the draft."""
        if hasattr(self, "store"):
            written = written_source(self.store, SOURCE.id).session(SESSION)
            kept = drafting.sheet_in(self.kept).session()
            assert written == (kept if kept.blocks else SOURCE.session(SESSION))
            self.store.close()
            rmtree(self.folder)


TestWriting: Any = Writing.TestCase
TestWriting.settings = settings(max_examples=examples(4, 100), stateful_step_count=examples(15, 40), deadline=None)


@pytest.fixture
def clock() -> PassingClock:
    """It stands still until a test lets time pass."""
    return PassingClock(BEGAN)


@pytest.fixture
def pen(store: Store, clock: PassingClock) -> Pen:
    """A session of the shipped source under the pen."""
    take_over(store, clock, SOURCE)
    return _opened(store, clock)


def _opened(store: Store, clock: PassingClock) -> Pen:
    return Pen(store, clock, drafting.open_session(store, clock, SOURCE.id, SESSION))


def _rested(pen: Pen, seconds: int) -> None:
    line = next(pen.sheet.lines())
    pen.do(edits.set_item(pen.sheet, line.number, rest_s=seconds), f"rest {seconds}", (line.number, "rest"))


def test_letters_within_two_seconds_are_one_act(pen: Pen, clock: PassingClock) -> None:
    """And after a pause another."""
    _rested(pen, 4)
    clock.pass_ms(ONE_ACT_MS)
    _rested(pen, 40)
    clock.pass_ms(ONE_ACT_MS + 1)
    _rested(pen, 45)
    assert [act.words for act in pen.draft.history.past] == ["rest 40", "rest 45"]


def test_two_windows_never_overwrite_one_another(pen: Pen, store: Store, clock: PassingClock) -> None:
    """The second to keep is told; what it wrote can be kept as a session of its own."""
    other = _opened(store, clock)
    _rested(pen, 15)
    _rested(other, 25)
    pen.keep()
    with pytest.raises(DraftChanged):
        other.keep()
    assert other.unkept and _opened(store, clock).draft.text == pen.draft.text
    second = drafting.as_second(store, clock, other.draft, "Mine")
    kept = drafting.open_session(store, clock, SOURCE.id, second)
    assert next(drafting.sheet_in(kept.text).lines()).item.rest_s == 25


def test_a_long_log_is_shortened_and_undo_stays_whole(
    pen: Pen, store: Store, clock: PassingClock, monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Letters are merged; no act goes."""
    for seconds in (1, 15, 2, 25):
        _rested(pen, seconds)
        clock.pass_ms(ONE_ACT_MS * (seconds > 9) + 1)
    pen.undo()
    pen.keep()
    monkeypatch.setattr(drafts, "MANY_BYTES", 0)
    drafting.tidy(store, pen.draft)
    with store.read() as db:
        assert len(drafts._entries(db, SOURCE.id, ShelfKind.SESSION, SESSION)) == 3
    assert _opened(store, clock).draft.history == pen.draft.history
