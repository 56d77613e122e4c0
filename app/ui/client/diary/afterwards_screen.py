"""After a session: what to do first if it was stopped, how hard it was, what hurts, and what that means."""
from __future__ import annotations

from dataclasses import dataclass, replace

import flet as ft

from app.actions.people import current_person
from app.actions.training.afterwards import undo_sign
from app.actions.training.diary import save_afterwards
from app.domain.model.body import Spot
from app.domain.model.person import Person
from app.domain.model.record import Ending, SessionDone
from app.domain.model.thresholds import WHOLE_FROM
from app.storage import records
from app.ui.client.diary.afterwards_parts import asked_pain, effort_scale, meaning, stop_box
from app.ui.parts import AnswerOption, Card
from app.ui.parts.time_strip import review_strip
from app.ui.shell.shell import Shell, safe
from app.words.client import diary as says


@dataclass(frozen=True)
class AfterwardsAnswers:
    """The answers so far. `hurts` is None until it is said whether anything does."""

    rpe: int | None = None
    hurts: bool | None = None
    pain: tuple[tuple[Spot, int], ...] = ()
    ending: Ending | None = None
    note: str = ""

    def told(self) -> dict[Spot, int] | None:
        """Pain as the record keeps it: None where nothing was said."""
        if self.hurts is None:
            return None
        return dict(self.pain) if self.hurts else {}


def draft_of(done: SessionDone) -> AfterwardsAnswers:
    """What was answered before."""
    pain = {spot: level for spot, level in (done.pain or {}).items() if level}
    return AfterwardsAnswers(done.rpe, None if done.pain is None else bool(pain), tuple(sorted(pain.items())), None,
                             done.note)


def session_of(shell: Shell) -> SessionDone | None:
    """The session that the address names, if it is this person's and was not taken back."""
    person = current_person(shell.store)
    if person is None:
        return None
    with shell.store.read() as db:
        found = records.record(db, person.id, shell.route_id())
    return found if isinstance(found, SessionDone) and not found.stamp.deleted else None


@ft.component
def AfterwardsScreen(shell: Shell) -> ft.Control:
    """The questions, and once they are saved, what they mean."""
    done = session_of(shell)
    draft, change = ft.use_state(draft_of(done) if done else AfterwardsAnswers())
    saved, set_saved = ft.use_state(False)
    c, person = shell.card(), current_person(shell.store)
    if done is None or person is None:
        return c.page([c.notice(says.GONE)], [c.main_button(says.TO_TODAY, safe(shell, lambda _: shell.go("/today")))])

    def save(_: object) -> None:
        save_afterwards(shell.store, done, rpe=draft.rpe, pain=draft.told(), note=draft.note, ending=draft.ending)
        set_saved(True)

    def mistaken(_: object) -> None:
        changed = undo_sign(shell.store, done, says.mistake_mark(done.sign))
        change(replace(draft, note=changed.note))
        shell.refresh()

    if saved:
        return c.page(*meaning(c, shell, person, done))
    body: list[ft.Control] = [*stop_box(c, shell, person, done, safe(shell, mistaken)), c.title(done.name),
                              *_done(c, done), *_questions(c, person, done, draft, change)]
    foot = [c.main_button(says.SAVE, safe(shell, save))]
    return c.page([*body, c.link(says.LATER, safe(shell, lambda _: shell.go("/today")))], foot)


def _done(c: Card, done: SessionDone) -> list[ft.Control]:
    strip = [review_strip(c, done.plan, done.done, c.room()), c.caption(says.STRIP_KEY)] if done.plan.steps else []
    return [c.lead(says.short_sentence(done)), *strip]


def _questions(c: Card, person: Person, done: SessionDone, draft: AfterwardsAnswers,
               change: object) -> list[ft.Control]:
    def put(**values: object) -> None:
        change(lambda before: replace(before, **values))  # type: ignore[operator]

    led = person.led_by != ""
    hard = says.HOW_HARD_LED.format(name=person.name) if led else says.HOW_HARD
    note = says.HOW_HARD_NOTE_LED.format(name=person.name) if led else says.HOW_HARD_NOTE
    return [
        c.head(hard), c.soft(note), *effort_scale(c, draft.rpe, lambda level: put(rpe=level)),
        c.head(says.HURTS_NOW),
        *asked_pain(c, draft.hurts, dict(draft.pain), lambda yes: put(hurts=yes),
                    lambda levels: put(pain=tuple(sorted(levels.items())))),
        *_why(c, done, draft, lambda ending: put(ending=ending)),
        c.field(says.NOTE, draft.note, lambda e: put(note=e.control.value or ""), lines=2, hint=says.NOTE_HINT),
    ]


def _why(c: Card, done: SessionDone, draft: AfterwardsAnswers, choose: object) -> list[ft.Control]:
    """Only asked where it was cut short and the reason is not pain or a sign."""
    if done.ending not in says.WHY or (done.ending is Ending.FINISHED and done.completed >= WHOLE_FROM):
        return []
    among = tuple(AnswerOption(ending, words) for ending, words in says.WHY.items())
    return [c.head(says.WHY_SHORT), c.one_of(among, draft.ending or done.ending, choose)]  # type: ignore[arg-type]
