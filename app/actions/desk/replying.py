"""What a coach answers: a message, limits, a recorded yes; sealed to the person's own key and numbered."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from app.actions.desk.intake import told_number
from app.actions.desk.publishing import coach_name, ensure_coach_keys
from app.device.clock import Clock
from app.domain.dosing.way_back import Stop, answers_stop, way_back
from app.domain.errors import UnknownName, WrongValue
from app.domain.model.body import Spot
from app.domain.model.client import AxisLimit
from app.domain.model.exercise import Axis
from app.domain.model.misdated import AHEAD
from app.domain.model.record import Clearance, Stamp
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.text_form import to_text
from app.exchange.forms.to_json import plain
from app.exchange.letters.file_names import reply_name
from app.exchange.letters.replies import ReplyContent, Yes, write_reply
from app.storage import people, records, replies, settings
from app.storage.codec import parse_utc, utc_text
from app.storage.database import Store
from app.storage.replies import Direction, Reply


@dataclass(frozen=True)
class Written:
    """A reply as a file and as lines for any messenger."""

    name: str
    data: bytes
    text: str
    number: int


@dataclass(frozen=True)
class ReplyDraft:
    """What is to be said. `spare` and `limits`: None leaves the coach's earlier ones, a mapping replaces them."""

    message: str = ""
    spare: Mapping[Spot, int] | None = None
    limits: Mapping[Axis, int] | None = None
    limits_told: tuple[AxisLimit, ...] = ()
    """Limits on single axes with who said so and until when; they count among `limits`."""
    swaps: tuple[tuple[str, str], ...] = ()
    """Exercises that stand in from now on: (written, instead)."""
    held: frozenset[str] | None = None
    """Exercises, as written, that move no step on; None leaves the earlier ones, a set replaces them."""
    yes_who: str = ""
    """Who said yes to the open stop; empty: nobody yet."""
    yes_kind: str = ""
    """`coach`, or the clinician's profession."""

    @property
    def says_something(self) -> bool:
        """Whether there is anything to send."""
        changes = (self.spare, self.limits, self.limits_told or None, self.held)
        return bool(self.message.strip() or self.yes_who.strip() or self.swaps or any(c is not None for c in changes))


async def write(store: Store, clock: Clock, person_id: str, answer: ReplyDraft) -> Written:
    """Writes the next reply to a person and keeps what it says.

    Raises:
        UnknownName: nobody of that id, or nothing came back from them yet, so there is no key to seal to.
        WrongValue: nothing said, no stop is open, or the yes is not of the kind that the stop needs.
    """
    with store.read() as db:
        person, pinned = people.person(db, person_id), people.pinned_keys(db, person_id)
        stop = way_back(records.all_records(db, person_id), clock.local(clock.now()).day + AHEAD).stop
        number = replies.next_number(db, person_id, settings.setting(db, told_number(person_id), 0))
    if person is None or pinned is None:
        raise UnknownName(kind="person who has sent a diary", name=person.name if person else person_id)
    if not answer.says_something:
        raise WrongValue(where="message", value="", expected="a message, a limit, a change or a yes")
    keys, now = await ensure_coach_keys(store, clock), clock.now()
    limits = _all_limits(answer)
    content = ReplyContent(person_id, number, now, answer.message.strip(), answer.spare, limits,
                           answer.swaps, _yes(answer, stop, person_id, now), coach_name(store), held=answer.held,
                           limits_told=answer.limits_told if limits is not None else None)
    data = await write_reply(content, coach=keys.signing, readers=[bytes.fromhex(pinned.sealing)])
    with store.begin() as db:
        kept = replies.keep_reply(db, Reply(
            person_id, Direction.SENT, number, _table(content), now, keys.signing.public.hex()))
    if kept.utc != now:
        # another window wrote one meanwhile: take the next number
        return await write(store, clock, person_id, answer)
    return Written(reply_name(person_id, number), data, to_text(data, Kind.REPLY), number)


def _all_limits(answer: ReplyDraft) -> dict[Axis, int] | None:
    """Every limit on an axis, the lower one where two are said; None: the earlier ones stay."""
    if answer.limits is None and not answer.limits_told:
        return None
    limits = dict(answer.limits or {})
    for told in answer.limits_told:
        limits[told.axis] = min(told.at_most, limits.get(told.axis, told.at_most))
    return limits


def _yes(answer: ReplyDraft, stop: Stop | None, person_id: str, now: datetime) -> Yes | None:
    who, kind = answer.yes_who.strip(), answer.yes_kind.strip().lower()
    if not who:
        return None
    if stop is None:
        raise WrongValue(where="yes", value=who, expected="a stop that still waits for one")
    stamp = Stamp("", person_id, now, now.date(), 0)
    if not answers_stop(Clearance(stamp, stop.id, who, kind), stop):
        expected = "a clinician, with their profession" if stop.yes_from == "clinician" else "who said it"
        raise WrongValue(where="yes", value=kind or "no profession", expected=expected)
    return Yes(stop.id, who, kind)


def _table(content: ReplyContent) -> dict[str, object]:
    """What the desk keeps of a reply, as JSON data."""
    table: dict[str, object] = {"message": content.message}
    if content.spare is not None:
        table["spare"] = {str(spot): cap for spot, cap in content.spare.items()}
    if content.limits is not None:
        table["limits"] = {axis.value: cap for axis, cap in content.limits.items()}
        table["limits_told"] = plain(content.limits_told or ())
    if content.swaps:
        table["swaps"] = [list(pair) for pair in content.swaps]
    if content.held is not None:
        table["held"] = sorted(content.held)
    if content.clearance is not None:
        table["clearance"] = {"answers": content.clearance.answers, "who": content.clearance.who,
                              "kind": content.clearance.kind}
    return table


def confirm_reply_sent(store: Store, clock: Clock, person_id: str, number: int) -> None:
    """The coach says that this message went out. The first time said stands."""
    with store.begin() as db:
        known = settings.setting(db, _name(person_id), {})
        settings.save_setting(db, _name(person_id), {str(number): utc_text(clock.now()), **known})


def replies_sent(store: Store, person_id: str) -> dict[int, datetime]:
    """When each message was said to be sent, by its number."""
    with store.read() as db:
        known = settings.setting(db, _name(person_id), {})
    return {int(number): parse_utc(utc) for number, utc in known.items()}


def _name(person_id: str) -> str:
    """Erased with the person, as every setting that ends so."""
    return f"replies_sent:{person_id}"
