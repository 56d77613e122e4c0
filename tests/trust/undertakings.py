"""What people do with the app, as steps that are each acknowledged: what a power cut may come into."""
from __future__ import annotations

import gzip
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import cache
from pathlib import Path

from app.actions import backup, erasing, people
from app.actions.desk import intake, recovering, replying
from app.actions.files import messages, programmes, sending
from app.actions.training import check_in, diary, playing
from app.actions.training.today import today
from app.commands.files import OWNER_ALONE, write_file
from app.demo.clock import StoryClock
from app.domain.errors import UntrustedSigner
from app.domain.model.body import Spot
from app.domain.model.record import Ending
from app.domain.player.player import Started
from app.exchange.crypto.keys import ClientKeys, KeyPair
from app.exchange.crypto.recovery_words import recovery_words
from app.exchange.letters.replies import write_reply
from app.exchange.letters.returns import write_return
from app.exchange.packs import manifest
from app.exchange.packs.pack import build_pack
from app.storage import keys
from app.storage import people as rows
from app.storage.copies import keep_copy
from app.storage.database import Connection, Store, copy_of_the_day, open_store
from app.storage.keys import COACH as COACHES
from app.storage.people import Trains
from app.storage.schema import LINEAGE
from tests.exchange.fixed import (
    ADA,
    CHECK_IN,
    CLIENT,
    COACH,
    DONE,
    KNEE,
    NOW,
    OTHER_CLIENT,
    READERS,
    RECOVERY_SEALING,
    RECOVERY_SIGNING,
    REPLY,
    RETURN,
    SOURCE,
    STRANGER,
    run,
)

OLDEST = Path(__file__).parents[1] / "storage" / "versions" / "0001.db.gz"
#: Stands in Ada's diary and nowhere else.
HERS = b"reach the top shelf"


class World:
    """A data directory with its store and a clock of its own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.clock = StoryClock(NOW + timedelta(days=1))
        self.store: Store = open_store(folder)

    def opened_again(self) -> None:
        """Its store closed and opened, as at the next start."""
        self.store.close()
        self.store = open_store(self.folder)


Step = Callable[[World], object]


@dataclass(frozen=True)
class Undertaking:
    """How its data directory begins, and its steps. `begins` gets a folder that is empty."""

    begins: Callable[[Path], None]
    steps: Callable[[], Sequence[Step]]
    erases: bool = False
    """Afterwards nothing of Ada may be left in any file."""


# ------------------------------------------------------------------ how it begins

@cache
def _pack(version: int, renewed: bool = False) -> bytes:
    source = replace(SOURCE, version=version)
    if not renewed:
        return run(build_pack(source, coach=COACH))
    new = replace(STRANGER, recovery_signing=COACH.recovery_signing, recovery_sealing=COACH.recovery_sealing)
    change = run(manifest.signed_key_change(manifest.public_keys(new), RECOVERY_SIGNING, int(NOW.timestamp())))
    return run(build_pack(source, coach=new, key_change=change))


@cache
def _return(number: int, client: ClientKeys = CLIENT) -> bytes:
    records = (CHECK_IN, DONE) if number > 1 else (CHECK_IN,)
    return run(write_return(replace(RETURN, records=records, number=number), client=client, readers=READERS))


@cache
def _reply() -> bytes:
    return run(write_reply(REPLY, coach=COACH.signing, readers=(CLIENT.sealing.public,)))


def _keep(db: Connection, owner: str, kind: str, pair: KeyPair) -> None:
    keys.keep_keys(db, keys.StoredKeyPair(owner, kind, pair.private, pair.public, NOW))


def phone(folder: Path) -> None:
    """Ada's: she follows a programme, answered this morning, and has a diary."""
    world = World(folder)
    with world.store.begin() as db:
        rows.add_person(db, replace(ADA, screened=NOW.date()), Trains.HERE, NOW)
        _keep(db, ADA.id, "signing", CLIENT.signing)
        _keep(db, ADA.id, "sealing", CLIENT.sealing)
    people.choose_person(world.store, ADA.id)
    _accept(world, _pack(3))
    _answer(world, 0)
    world.store.close()


def desk(folder: Path) -> None:
    """A coach's, with keys, one return from Ada, and a copy of the day before."""
    world = World(folder)
    with world.store.begin() as db:
        for kind, pair in (("signing", COACH.signing), ("sealing", COACH.sealing),
                           ("recovery_signing", RECOVERY_SIGNING), ("recovery_sealing", RECOVERY_SEALING)):
            _keep(db, COACHES, kind, pair)
    _take(world, _return(1))
    if world.store.path:
        keep_copy(world.store.path, LINEAGE.head)
    world.store.close()


def bare(folder: Path) -> None:
    """A store with nothing in it."""
    open_store(folder).close()


def oldest(folder: Path) -> None:
    """A store as the first version wrote it."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "evenload.db").write_bytes(gzip.decompress(OLDEST.read_bytes()))


# ------------------------------------------------------------------ steps

def _answer(world: World, pain: int) -> object:
    blank = check_in.with_signs(check_in.blank_check_in(world.clock, ADA.id), ())
    told = replace(blank, pain={KNEE: pain} if pain else {}, slept=4, energy=4, calm=4)
    return check_in.save_check_in(world.store, world.clock, told)


def _accept(world: World, data: bytes) -> None:
    opened = run(programmes.open_pack(world.store, world.clock, "file", data))
    programmes.accept_pack(world.store, world.clock, ADA.id, opened)


def _take(world: World, data: bytes) -> None:
    taken = run(intake.take_in(world.store, world.clock, [("file", data)]))[0]
    if taken.error is not None:
        raise taken.error


def _session() -> Sequence[Step]:
    """Begun, walked through second by second, stopped, kept, and told of."""
    under_way: list[playing.Playing] = []
    done = []

    def begin(w: World) -> None:
        under_way[:] = [playing.start_session(w.store, w.clock, today(w.store, w.clock, ADA.id))]

    def press(w: World) -> None:
        under_way[0] = playing.do(w.store, w.clock, under_way[0], Started())

    def second(w: World) -> None:
        w.clock.forward(1_000)
        under_way[0] = playing.go_on(w.store, w.clock, under_way[0])

    def stop(w: World) -> None:
        under_way[0] = playing.end_session(w.store, w.clock, under_way[0], Ending.TOO_MUCH)

    def keep(w: World) -> None:
        done[:] = [playing.keep_session(w.store, w.clock, under_way[0])]

    def tell(w: World) -> None:
        hurt: dict[Spot, int] = {KNEE: 2}
        diary.save_afterwards(w.store, done[0], rpe=5, pain=hurt, note="the kitchen chair")
    return (begin, press, *[second] * 6, stop, keep, tell)


def _mornings() -> Sequence[Step]:
    def morning(pain: int) -> Step:
        def answer(w: World) -> None:
            w.clock.forward(86_400_000)
            _answer(w, pain)
        return answer
    return [morning(pain) for pain in (2, 5, 3, 0)]


def _send() -> Sequence[Step]:
    made: list[sending.Prepared] = []
    return (lambda w: made.append(run(sending.make_return(w.store, w.clock, ADA.id))),
            lambda w: sending.note_waiting(w.store, w.clock, ADA.id, made[-1], sending.HandedOn.SAVED),
            lambda w: sending.confirm_sent(w.store, w.clock, ADA.id))


def _back_up(w: World) -> None:
    _, data = backup.backup_of(w.store, w.clock)
    write_file(w.folder / "mine.evenload.db", data, OWNER_ALONE)


def _put_back(w: World) -> None:
    copy = next(w.folder.glob("*.copy-*"))
    backup.put_back(w.store, copy.name, copy.read_bytes())


def _new_phone(w: World) -> None:
    taken = run(intake.accept_new_phone(w.store, w.clock, "file", _return(1, OTHER_CLIENT)))
    if taken.error is not None:
        raise taken.error


def _strange_key(w: World) -> None:
    """Refused: nobody has said yet that the phone is new."""
    try:
        _take(w, _return(1, OTHER_CLIENT))
    except UntrustedSigner:
        return
    raise AssertionError("a strange key was taken")


def _recover(w: World) -> None:
    run(recovering.recover_keys(w.store, w.clock, " ".join(recovery_words(bytes(32)))))


def _answer_back(w: World) -> None:
    run(replying.write(w.store, w.clock, ADA.id, replying.ReplyDraft("Go easy on it.", spare={KNEE: 1})))


UNDERTAKINGS: dict[str, Undertaking] = {
    "session": Undertaking(phone, _session),
    "check-in": Undertaking(phone, _mornings),
    "import": Undertaking(phone, lambda: (lambda w: _accept(w, _pack(4)), lambda w: _accept(w, _pack(5)))),
    "send": Undertaking(phone, _send),
    "a message": Undertaking(phone, lambda: (
        lambda w: run(messages.receive(w.store, w.clock, ADA.id, _reply(), "file")),)),
    "intake": Undertaking(desk, lambda: (lambda w: _take(w, _return(2)), lambda w: _take(w, _return(1)))),
    "a reply": Undertaking(desk, lambda: (_answer_back, _answer_back)),
    "new phone": Undertaking(desk, lambda: (_strange_key, _new_phone)),
    "the coach's new keys": Undertaking(phone, lambda: (lambda w: _accept(w, _pack(4, renewed=True)),)),
    "keys from the sheet": Undertaking(bare, lambda: (_recover,)),
    "migration": Undertaking(oldest, lambda: (lambda w: w.opened_again(),)),
    "copy of the day": Undertaking(phone, lambda: (
        lambda w: copy_of_the_day(w.store, (NOW + timedelta(days=9)).date()), lambda w: _answer(w, 1))),
    "backup": Undertaking(phone, lambda: (_back_up, _back_up)),
    "restore": Undertaking(desk, lambda: (lambda w: _take(w, _return(2)), _put_back)),
    "erase a person": Undertaking(phone, lambda: (lambda w: erasing.erase(w.store, ADA.id),), erases=True),
    "erase everything": Undertaking(desk, lambda: (lambda w: erasing.erase_device(w.store),), erases=True),
}
