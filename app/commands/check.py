"""`evenload check`: proofreads a source, verifies a pack, a return or a reply."""
from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from app.commands.files import read_file
from app.commands.shapes import source_shape
from app.domain.proofreading import proofread
from app.exchange.armour import unwrapped
from app.exchange.keys import matching_words
from app.exchange.kinds import Kind, kind_of
from app.exchange.pack import read_pack
from app.exchange.source import read_source

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
    return source_shape("source", source, proofread(source))


async def _file(path: Path, args: argparse.Namespace) -> dict[str, Any]:
    data = unwrapped(read_file(path), path.name)
    kind = kind_of(data, path.name)
    if kind is Kind.PACK:
        pack = await read_pack(data, path.name)
        shape = source_shape("pack", pack.source, proofread(pack.source))
        return shape | {"words": list(matching_words(pack.signing_key)), "sha256": pack.sha256}
    return await _sealed(data, path.name, kind, args)
