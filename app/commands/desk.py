"""`evenload intake` and `evenload review`: returns in, and who needs attention."""
from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from app.actions.desk import attention_list, intake
from app.commands.data_directory import store_of
from app.commands.files import is_standard, name_of, read_file
from app.commands.progress import Progress
from app.device.clock import SystemClock
from app.domain.errors import AppError
from app.words import errors
from app.words.coach import attention as attention_words
from app.words.coach import desk as desk_words
from app.words.machine import commands

DONE, NO, BAD = 0, 1, 2


def _paths(given: list[Path]) -> Iterator[Path]:
    for path in given:
        if path.is_dir() and not is_standard(path):
            yield from sorted(path.glob("*.evenload-return"))
        else:
            yield path


async def run_intake(args: argparse.Namespace) -> int:
    """Takes returns in, each on its own: bad ones are listed, good ones kept. Exit 1 if one was bad."""
    found, lost = [], []
    for path in _paths(args.paths):
        try:
            found.append((name_of(path), read_file(path)))
        except AppError as error:
            lost.append((name_of(path), error))
    taken: list[intake.Taken] = []
    with store_of(args) as store, Progress() as progress:
        async for one in intake.taking(store, SystemClock(), found):
            taken.append(one)
            progress.step(commands.returns_read(len(taken), len(found)))
    bad = [*lost, *((t.name, t.error) for t in taken if t.error)]
    shapes: list[dict[str, Any]] = [
        {"file": t.name, "person": t.person.name, "new": t.new, "newer": t.newer, "same": t.same, "older": t.older}
        for t in taken if t.person
    ]
    if args.json:
        refused = [{"file": name, "error": errors.error_text(why)} for name, why in bad]
        odd = ("misdated", "clock_is_wrong", "resembles")
        told = [shape | {key: getattr(t, key) for key in odd}
                for shape, t in zip(shapes, (t for t in taken if t.person), strict=True)]
        print(json.dumps({"taken": told, "refused": refused}, ensure_ascii=False))
    else:
        for shape in shapes:
            print(commands.taken_in(**shape))
        for t in taken:
            print(*(f"{t.name}: {line}" for line in desk_words.odd_lines(t.misdated, t.resembles, t.clock_is_wrong)),
                  sep="\n", end="\n" if t.misdated or t.resembles or t.clock_is_wrong else "", file=sys.stderr)
    for name, why in bad:
        print(commands.refused(name, errors.error_text(why)), file=sys.stderr)
    return BAD if bad and not shapes else NO if bad else DONE


async def run_review(args: argparse.Namespace) -> int:
    """Prints who needs attention: harm first, then progress, then silence."""
    with store_of(args) as store:
        seen = attention_list.attention_list(store, SystemClock())
    parts = {"harm": seen.harm, "progress": seen.progress, "silence": seen.silence}
    if args.json:
        print(json.dumps({part: [
            {"person": f.name, "id": f.person, "because": f.because.value, "on": f.on.isoformat(),
             "text": attention_words.flag_text(f, None, seen.lines.get(f.person)),
             "evidence": {"records": list(f.records), "numbers": list(f.numbers), "words": list(f.words)}}
            for f in flags] for part, flags in parts.items()} | {"people": seen.people}, ensure_ascii=False, indent=1))
        return DONE
    for part, flags in parts.items():
        print(f"{part.capitalize()}, {len(flags)}")
        told = (f"  {f.name}: {attention_words.flag_text(f, None, seen.lines.get(f.person))}" for f in flags)
        print("\n".join(told) or f"  {desk_words.NOBODY}")
    return DONE
