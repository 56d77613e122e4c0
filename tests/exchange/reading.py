"""A vector read as its head says, and what came of it as text: the same for the native and for the browser's cipher.

It imports the program alone, so that a browser can run it.
"""
from __future__ import annotations

import hashlib
import json

from app.domain.errors import FileError
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import sealing_pair
from app.exchange.crypto.text_form import unwrapped
from app.exchange.forms.content import source_to_json
from app.exchange.forms.record_form import record_table
from app.exchange.forms.to_json import plain, to_json
from app.exchange.letters.replies import read_reply
from app.exchange.letters.returns import read_return
from app.exchange.packs.pack import read_pack


async def read_vector(whole: bytes) -> str:
    """The name of the error, or a hash of everything that was read."""
    lines, _, data = whole.partition(b"\n\n")
    head = dict(line.split(": ", 1) for line in lines.decode().splitlines())
    try:
        return hashlib.sha256(await _read(head, data)).hexdigest()
    except FileError as error:
        return type(error).__name__


async def _read(head: dict[str, str], data: bytes) -> bytes:
    kind = Kind(head["kind"])
    if kind is Kind.PACK:
        return source_to_json((await read_pack(data, "vector")).source)
    mine = (await sealing_pair(bytes.fromhex(head["opens-with"])),)
    file = unwrapped(data, "vector")
    if kind is Kind.RETURN:
        got = await read_return(file, "vector", private_keys=mine)
        return json.dumps([plain(got.person), *(record_table(one) for one in got.records)], sort_keys=True).encode()
    reply = await read_reply(file, "vector", private_keys=mine, coach_keys=(bytes.fromhex(head["coach"]),))
    return to_json({**plain(reply), "coach_signing_public": reply.coach_signing_public.hex()})
