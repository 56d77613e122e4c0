"""`evenload pack`: builds and signs a pack from a folder of TOML."""
from __future__ import annotations

import argparse
import json
from dataclasses import dataclass

from app.actions.desk import publishing
from app.commands.data_directory import store_of
from app.commands.files import require_place, said_beside, write_file, written_name
from app.commands.json_shapes import problem_shape
from app.commands.passphrases import open_keys_with
from app.commands.progress import Progress
from app.device.clock import SystemClock
from app.device.speech_engine import Engine, find_engine
from app.exchange.crypto.keys import matching_words
from app.words.machine import commands

DONE, NO = 0, 1


@dataclass
class HeardEngine:
    """A speech engine that says at which line it is."""

    engine: Engine
    progress: Progress
    lines: int = 0

    async def say(self, words: str, language: str) -> bytes | None:
        """As the engine does."""
        self.lines += 1
        self.progress.step(commands.spoken(self.lines))
        return await self.engine.say(words, language)


async def run(args: argparse.Namespace) -> int:
    """Writes the pack. Exit 1, and nothing written, where a problem blocks publishing."""
    require_place(args.output)
    out = said_beside(args.output)
    with store_of(args) as store, Progress() as progress:
        await open_keys_with(args, store)
        clock, engine = SystemClock(), None if args.no_voice else find_engine()
        built = await publishing.build(store, clock, args.source, engine and HeardEngine(engine, progress),
                                       lambda stage: progress.stage(commands.BUILDING[stage]))
        keys = await publishing.ensure_coach_keys(store, clock)
    for problem in built.problems:
        shape = problem_shape(problem)
        if not args.json:
            said = f"{shape['where']}: {shape['text']} {shape['value']} against {shape['limit']}. {shape['mend']}"
            print(said, file=out)
    if built.data is None:
        print(json.dumps({"problems": [problem_shape(p) for p in built.problems]})
              if args.json else commands.NOT_PUBLISHED, file=out)
        return NO
    write_file(args.output, built.data)
    words = " ".join(matching_words(keys.signing.public))
    if args.json:
        print(json.dumps({"file": str(args.output), "coach": built.source.coach, "version": built.source.version,
                          "words": words.split(), "problems": [problem_shape(p) for p in built.problems]}), file=out)
    else:
        print(commands.packed(written_name(args.output), built.source.coach, words), file=out)
    return DONE
