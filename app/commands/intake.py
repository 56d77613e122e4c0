"""`evenload intake`: returns in, each on its own."""
from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from app.actions.desk import intake
from app.commands.data_directory import store_of
from app.commands.files import is_standard, name_of, read_file
from app.commands.passphrases import open_keys_with
from app.commands.progress import Progress
from app.device.clock import SystemClock
from app.domain.errors import AppError
from app.domain.model.person import Person
from app.words import errors
from app.words.coach import desk as desk_words
from app.words.machine import commands

DONE, NO, BAD = 0, 1, 2
#: What is said of a return beside its numbers, where it is so.
ODD = ("misdated", "clock_is_wrong", "resembles")


def _paths(given: list[Path]) -> Iterator[Path]:
    for path in given:
        if path.is_dir() and not is_standard(path):
            yield from sorted(path.glob("*.evenload-return"))
        else:
            yield path


async def run(args: argparse.Namespace) -> int:
    """Takes returns in, each on its own: bad ones are listed, good ones kept. Exit 1 if one was bad."""
    found, lost = [], []
    for path in _paths(args.paths):
        try:
            found.append((name_of(path), read_file(path)))
        except AppError as error:
            lost.append((name_of(path), error))
    taken: list[intake.Taken] = []
    with store_of(args) as store, Progress() as progress:
        await open_keys_with(args, store)
        async for one in intake.taking(store, SystemClock(), found):
            taken.append(one)
            progress.step(commands.returns_read(len(taken), len(found)))
    bad = [*lost, *((t.name, t.error) for t in taken if t.error)]
    good = [(t, t.person) for t in taken if t.person]
    if args.json:
        refused = [{"file": name, "error": errors.error_text(why)} for name, why in bad]
        shapes = [_shape(t, person) | {key: getattr(t, key) for key in ODD} for t, person in good]
        print(json.dumps({"taken": shapes, "refused": refused}, ensure_ascii=False))
    else:
        for t, person in good:
            print(commands.taken_in(**_shape(t, person)))
        for t in taken:
            for line in desk_words.odd_lines(t.misdated, t.resembles, t.clock_is_wrong, t.is_unreadable):
                print(f"{t.name}: {line}", file=sys.stderr)
    for name, why in bad:
        print(commands.refused(name, errors.error_text(why)), file=sys.stderr)
    return BAD if bad and not good else NO if bad else DONE


def _shape(taken: intake.Taken, person: Person) -> dict[str, Any]:
    return {"file": taken.name, "person": person.name, "new": taken.new, "newer": taken.newer, "same": taken.same,
            "older": taken.older}
