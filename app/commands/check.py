"""`evenload check`: proofreads a source, verifies a pack, a return or a reply."""
from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from app.actions.desk.publishing import figures_of
from app.commands.data_directory import known_coaches, sealing_keys
from app.commands.files import name_of, read_file
from app.commands.json_shapes import source_shape
from app.domain.proofreading.proofread import proofread
from app.exchange.crypto.file_kinds import Kind, kind_of
from app.exchange.crypto.keys import matching_words
from app.exchange.crypto.text_form import unwrapped
from app.exchange.forms.source import read_source
from app.exchange.letters.replies import read_reply
from app.exchange.letters.returns import read_return
from app.exchange.packs.pack import read_pack

DONE, NO = 0, 1


async def run(args: argparse.Namespace) -> int:
    """Prints what a file or folder holds and what is wrong with it. Exit 1 where something blocks publishing."""
    shape = await _source(args.path) if args.path.is_dir() else await _file(args.path, args)
    if args.json:
        print(json.dumps(shape, ensure_ascii=False, indent=1))
    else:
        print("\n".join(_lines(shape)))
    return NO if any(p["blocks"] for p in shape["problems"]) else DONE


async def _source(path: Path) -> dict[str, Any]:
    source = read_source(path)
    figures_of(source, path)
    return source_shape("source", source, proofread(source))


async def _file(path: Path, args: argparse.Namespace) -> dict[str, Any]:
    name = name_of(path)
    data = unwrapped(read_file(path), name)
    kind = kind_of(data, name)
    if kind is Kind.PACK:
        pack = await read_pack(data, name)
        shape = source_shape("pack", pack.source, proofread(pack.source))
        return shape | {"words": list(matching_words(pack.signing_key)), "sha256": pack.sha256}
    keys = sealing_keys(args)
    if kind is Kind.RETURN:
        content = await read_return(data, name, private_keys=keys)
        return {"kind": "return", "person": content.person.name, "number": content.number,
                "made": content.made_utc.isoformat(), "records": len(content.records), "problems": []}
    reply = await read_reply(data, name, private_keys=keys, coach_keys=known_coaches(args))
    return {"kind": "reply", "coach": reply.coach, "number": reply.number, "made": reply.made_utc.isoformat(),
            "problems": []}


def _lines(shape: dict[str, Any]) -> Iterator[str]:
    heads = {"source": "A source", "pack": "A programme", "return": "A diary", "reply": "A message"}
    whose = f" by {shape['coach']}" if shape.get("coach") else f" of {shape['person']}" if "person" in shape else ""
    version = f", version {shape['version']}" if "version" in shape else f", number {shape.get('number')}"
    yield f"{heads[shape['kind']]}{whose}{version}. It is whole."
    for what in ("sessions", "programmes"):
        if shape.get(what):
            yield f"{what.capitalize()}: {', '.join(shape[what])}"
    if "exercises" in shape:
        yield f"{len(shape['exercises'])} exercises"
    if "words" in shape:
        yield f"Matching words: {' '.join(shape['words'])}"
    for problem in shape["problems"]:
        blocks = " This blocks publishing." if problem["blocks"] else ""
        yield (f"{problem['where']}: {problem['text']} {problem['value']} against {problem['limit']}. "
               f"{problem['mend']}{blocks}")
    if "exercises" in shape and not shape["problems"]:
        yield "Nothing to mend."
