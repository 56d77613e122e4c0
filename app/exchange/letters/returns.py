"""A return: a client's records, sealed to the coach, the coach's recovery key and the client. Format: `RETURN.md`."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Annotated

from pydantic import Field

from app.domain.errors import DamagedFile, WrongValue
from app.domain.model.person import Person
from app.domain.model.record import Record
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import ClientKeys, KeyPair
from app.exchange.forms.field_types import Form, Hash, Instant, becomes, whole
from app.exchange.forms.person_form import PersonForm, person_table
from app.exchange.forms.record_form import RecordValue, record_table
from app.exchange.forms.to_json import plain
from app.exchange.letters.agreed_records import agreed_person, agreed_records
from app.exchange.letters.letter import read_content, read_letter, write_letter
from app.exchange.packs.manifest import Key, key_text

#: Highest number of a message that a return tells of, far above any that a coach reaches.
MOST_TOLD = 1_000_000
MOST_RECORDS = 50_000


@dataclass(frozen=True)
class ReturnContent:
    """What a return says. The client's keys are theirs in every return: pin them with the first one."""

    person: Person
    records: tuple[Record, ...]
    packs: tuple[str, ...]
    """SHA-256 of the packs that were used, hex."""
    made_utc: datetime
    number: int
    """Counts the returns of this device, from 1."""
    reply_number: int = 0
    """The highest number among the coach's messages that are here, so that a coach with new keys counts on; 0: none."""
    client_signing_public: bytes = b""
    client_sealing_public: bytes = b""
    """Replies are sealed to it."""
    unread: int = 0
    """Records of a kind that came after this version; they were left where they are."""


class ReturnForm(Form):
    """The JSON of a return."""

    person: Annotated[PersonForm, becomes(Person)]
    records: Annotated[tuple[RecordValue, ...], Field(max_length=MOST_RECORDS)]
    packs: Annotated[tuple[Hash, ...], Field(max_length=1000)]
    made_utc: Instant
    number: Annotated[int, whole(1, 10_000_000)]
    sealing_key: Key
    reply_number: Annotated[int, whole(0, MOST_TOLD)] = 0


async def write_return(content: ReturnContent, *, client: ClientKeys, readers: Sequence[bytes]) -> bytes:
    """A sealed return with what the person agreed to send, and no more (`agreed_records.py`).

    Raises:
        WrongValue: a value that a reader would refuse; it names which.
        TooLarge: more than a return may hold.
    """
    if why := _fault(content.person, content.records):
        raise WrongValue(where="records", value=why, expected="the records of one person, each once")
    table = {
        "person": person_table(agreed_person(content.person)),
        "records": [record_table(one) for one in agreed_records(content.person, content.records)],
        "packs": list(content.packs), "made_utc": plain(content.made_utc), "number": content.number,
        "sealing_key": key_text(client.sealing.public),
    } | ({"reply_number": content.reply_number} if content.reply_number else {})
    return await write_letter(table, Kind.RETURN, ReturnForm, client.signing, readers)


async def read_return(data: bytes, name: str, *, private_keys: Sequence[KeyPair]) -> ReturnContent:
    """The return, once seal, signature and every value hold. Whether its signer is the one pinned: the caller.

    Raises:
        NotOurFile, NewerFormat, TooLarge, DamagedFile: refused as a whole.
        WrongRecipient: none of the keys is a reader's.
    """
    letter = await read_letter(data, name, Kind.RETURN, private_keys)
    stated = read_content(ReturnForm, letter, name, {"records": MOST_RECORDS}).stated()
    listed, sealing_key = stated.pop("records"), stated.pop("sealing_key")
    records: tuple[Record, ...] = tuple(record for record in listed if record is not None)
    content = ReturnContent(records=records, unread=len(listed) - len(records), client_signing_public=letter.signer,
                            client_sealing_public=sealing_key, **stated)
    if why := _fault(content.person, content.records):
        raise DamagedFile(name=name, why=why)
    return content


def _fault(person: Person, records: Sequence[Record]) -> str:
    """Empty if every record is this person's and each revision of each is there once."""
    stamps = [record.stamp for record in records]
    if any(stamp.person != person.id for stamp in stamps):
        return "a record of another person"
    return "a record twice" if len({(stamp.id, stamp.revision) for stamp in stamps}) < len(stamps) else ""
