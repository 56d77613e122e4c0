"""A small store with something in every table: two people, a coach, a pack and a session that is still running."""
from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from sqlalchemy import Connection

from app.domain.bench.history import History, LogEntry
from app.domain.model.body import Region, Spot
from app.domain.model.client import STARTER_PLACES, Client, Condition, UsualPain
from app.domain.model.diary import Symptom
from app.domain.model.exercise import Axis, Cues, Exercise, Mode, Option, Pattern, Position, Sides
from app.domain.model.person import Person
from app.domain.model.plan import Dose, Part, Reason, Step, StepKind, StepSide, Timeline
from app.domain.model.programme import Programme, Week
from app.domain.model.record import CheckIn, Clearance, DoneStep, Ending, How, Hurt, SessionDone, Stamp
from app.domain.model.rules import RuleId
from app.domain.model.session import Block, BlockKind, Item, Session
from app.domain.model.source import RuleChoice, Source
from app.storage import attention_marks, journal, keys, packs, people, records, replies, settings
from app.storage.bench import drafts, published, shelf
from app.storage.database import Store
from app.storage.export import logical_dump
from app.storage.journal import SavedPosition

T0 = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)
KNEE = Spot(Region.KNEE, "left")
SHA = "ab" * 32

SQUAT = Exercise(
    id="chair-squat", name="Stand up from a chair", pattern=Pattern.SQUAT, position=Position.STANDING,
    equipment=("chair",), sides=Sides.BOTH, mode=Mode.REPS, rep_ms=4_000, hold_s=0, set_up_s=8, muscles=("thighs",),
    demand={Axis.DEEP_KNEE_FLEXION: 2}, cues=Cues(set_up=("Chair against the wall",), breath="Breathe out going up"),
    easier=(Option("half-squat", (Axis.DEEP_KNEE_FLEXION,)),),
)
SESSION = Session("short", "Short one", (Block(BlockKind.CIRCUIT, (Item("chair-squat", work_s=30),), rounds=2),))
SOURCE = Source(
    "harbour", "Marit Voss", 3, (SQUAT,), (SESSION,), (Programme("six", "Six weeks", (Week(("short",)),)),),
    title="By the harbour", rules=RuleChoice("careful", {RuleId.PAIN: 1}),
)
PLAN = Timeline(
    "short",
    (
        Step(StepKind.SETUP, Part.MAIN, 0, 8_000, "chair-squat"),
        Step(StepKind.WORK, Part.MAIN, 8_000, 30_000, "chair-squat", StepSide.BOTH, 1),
        Step(StepKind.REST, Part.MAIN, 38_000, 20_000, "chair-squat"),
        Step(StepKind.WORK, Part.MAIN, 58_000, 30_000, "chair-squat", StepSide.BOTH, 2),
    ),
    Dose(2, 2, 90, 110, 100, (Reason(RuleId.PAIN, 2, (("spot", "left knee"), ("level", 4))),)),
)
#: As the stores of every version hold them: the first ones were asked for no bed, and say nothing of one.
PLACES = tuple(replace(place, bed=True) for place in STARTER_PLACES)
INES = Person(
    "p-ines", "Ines", places=PLACES, birth_year=1951, coach_key="c0", programme="six", started=date(2026, 2, 23),
    body=Client(
        spare={KNEE: 1}, conditions=frozenset({Condition.FALLS, Condition.OSTEOPOROSIS}), alone=True,
        usual_pain={KNEE: UsualPain(3, "physiotherapist", date(2026, 9, 1))}, weights_g=(1_000, 2_000),
    ),
)
TOMAS = Person("p-tomas", "Tomás", places=PLACES, led_by="Rosa")
COACH = packs.StoredCoach("c0", "Marit Voss", "c1", ("c2", "c3"), T0)
MARK = attention_marks.Mark("p-tomas", "pain", "s2", attention_marks.MarkState.LATER, T0, date(2026, 3, 9))
REPLY = replies.Reply("p-tomas", replies.Direction.SENT, 1, {"message": "Go easy on the knee"}, T0)
KEYS = keys.StoredKeyPair("p-ines", "signing", b"\x01" * 32, b"\x02" * 32, T0)
SHELVED = shelf.Shelved("harbour", shelf.ShelfKind.SESSION, "short", '{"id":"short","name":"Short one"}', T0, place=1)
VERSION = published.PublishedVersion(SOURCE, SHA, T0, "A shorter rest")


def draft() -> tuple[drafts.Draft, tuple[LogEntry, ...]]:
    """The session under another name, and what was done to it."""
    start = History(SHELVED.content)
    entry = start.entry("another name", '{"id":"short","name":"Shorter"}')
    return drafts.Draft("harbour", shelf.ShelfKind.SESSION, "short", start.after(entry), 1, 0, T0), (entry,)


def stamp(record_id: str, person_id: str, day: int = 0) -> Stamp:
    """A first revision, so many days after the start, made at 08:30 in a zone one hour east."""
    utc = T0 + timedelta(days=day)
    return Stamp(record_id, person_id, utc, utc.date(), 60)


def check_in(record_id: str, person_id: str, day: int = 0, pain: int = 4) -> CheckIn:
    """A morning with a sore knee."""
    return CheckIn(
        stamp(record_id, person_id, day), symptoms=frozenset({Symptom.HEAD_COLD}), pain={KNEE: pain}, slept=4, energy=3
    )


def session_done(record_id: str, person_id: str, day: int = 0, pain: int = 4) -> SessionDone:
    """The plan above, stopped in its second round."""
    return SessionDone(
        stamp(record_id, person_id, day), "Short one", PLAN, SHA, Ending.PAIN,
        (DoneStep(1, "chair-squat", 30_000, How.FULL), DoneStep(3, "half-squat", 15_000, How.STOPPED)), 80,
        rpe=6, pain={KNEE: pain}, hurts=(Hurt(KNEE, 5, exercise="chair-squat", at_ms=73_000),), note="ouch – à bientôt",
        names={"chair-squat": "Stand up from a chair"}, by_hand=(("chair-squat", "half-squat"),),
    )


def tell(db: Connection) -> None:
    """Fills an empty store."""
    people.add_person(db, INES, people.Trains.HERE, T0)
    people.add_person(db, TOMAS, people.Trains.ELSEWHERE, T0)
    people.pin_keys(db, "p-tomas", "k1", "k2")
    people.note_return(db, "p-tomas", 1, T0)
    people.count_choice(db, "p-ines", "chair-squat", "half-squat", T0)
    for record in (check_in("i1", "p-ines"), session_done("s1", "p-ines")):
        records.save_record(db, record)
    records.save_record(db, Clearance(stamp("y1", "p-ines", 1), "s1", "Dr Lind", "physiotherapist"))
    records.merge_records(db, [check_in("i2", "p-tomas"), session_done("s2", "p-tomas")])
    journal.start_run(db, "r1", "p-ines", PLAN, SHA, {"place": "Home"}, SavedPosition(0, T0, 5_000))
    journal.append_event(db, "r1", {"kind": "pause"}, SavedPosition(9_500, T0 + timedelta(seconds=10), 15_000))
    packs.keep_pack(db, packs.KeptPack(SHA, "c0", SOURCE, T0), b"evenload-pack 1\n...")
    packs.save_coach(db, COACH)
    packs.retire_coach(db, "c-before", "c0", T0)
    keys.keep_keys(db, KEYS)
    settings.save_setting(db, "theme", {"dark": True})
    attention_marks.save_mark(db, MARK)
    replies.keep_reply(db, REPLY)
    shelf.put_on_shelf(db, SHELVED)
    shelf.keep_files(db, "harbour", {"media/stand.png": b"\x89PNG"})
    drafts.keep_draft(db, *draft(), T0)
    published.keep_published(db, VERSION)


def dump(store: Store) -> str:
    """Everything in it."""
    with store.read() as db:
        return logical_dump(db)


def file_of(store: Store) -> Path:
    """Where it lies."""
    assert store.path is not None
    return store.path


def half(data: bytes) -> bytes:
    """What is left of a file that was cut off."""
    return data[: len(data) // 2]
