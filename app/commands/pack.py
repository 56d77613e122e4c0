"""`evenload pack`: builds and signs a pack from a folder of TOML."""
from __future__ import annotations

import argparse
import json

from app.actions.desk import publishing
from app.commands.data_directory import store_of
from app.commands.files import write_file
from app.commands.json_shapes import problem_shape
from app.device.clock import SystemClock
from app.device.speech_engine import find_engine
from app.exchange.crypto.keys import matching_words
from app.words.machine import commands

DONE, NO = 0, 1


async def run(args: argparse.Namespace) -> int:
    """Writes the pack. Exit 1, and nothing written, where a problem blocks publishing."""
    with store_of(args) as store:
        clock = SystemClock()
        built = await publishing.build(store, clock, args.source, None if args.no_voice else find_engine())
        keys = await publishing.ensure_coach_keys(store, clock)
    for problem in built.problems:
        shape = problem_shape(problem)
        if not args.json:
            print(f"{shape['where']}: {shape['text']} {shape['value']} against {shape['limit']}. {shape['mend']}")
    if built.data is None:
        print(json.dumps({"problems": [problem_shape(p) for p in built.problems]})
              if args.json else commands.NOT_PUBLISHED)
        return NO
    write_file(args.output, built.data)
    words = " ".join(matching_words(keys.signing.public))
    if args.json:
        print(json.dumps({"file": str(args.output), "coach": built.source.coach, "version": built.source.version,
                          "words": words.split(), "problems": [problem_shape(p) for p in built.problems]}))
    else:
        print(commands.packed(args.output.name, built.source.coach, words))
    return DONE
