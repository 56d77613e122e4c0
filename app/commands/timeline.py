"""`evenload timeline`: the session of a pack, compiled for a client, a place and a diary."""
from __future__ import annotations

import argparse
import json
from dataclasses import replace
from datetime import date
from pathlib import Path

from app.commands.files import read_file
from app.commands.json_shapes import timeline_shape
from app.domain.compile.stations import Order
from app.domain.compile.timeline import compile_timeline
from app.domain.errors import UnknownName
from app.domain.model.client import Client, Place
from app.domain.model.plan import StepKind, Timeline
from app.domain.model.rules import rule_table
from app.domain.model.source import Source
from app.exchange.forms import command_inputs as inputs
from app.exchange.forms.source import read_source
from app.exchange.packs.pack import read_pack
from app.words import text
from app.words.amounts import amount_sentence
from app.words.client.today import NOTHING_LEFT, NOTHING_LEFT_HEAD

DONE, NO = 0, 1
KINDS = {
    StepKind.SETUP: "set up", StepKind.WORK: "work", StepKind.REST: "rest", StepKind.ROUND_REST: "rest",
    StepKind.CHANGE: "change position", StepKind.HOLD: "hold",
}


async def source_at(path: Path) -> Source:
    """The source of a pack, or of a folder of TOML.

    Raises:
        ContentError, FileError: it is neither, or refused.
    """
    if path.is_dir():
        return read_source(path)
    return (await read_pack(read_file(path), path.name)).source


def place_at(words: str | None, minutes: int | None) -> Place:
    """A place by name or from its file; `minutes` beats the file's."""
    place = Place()
    if words:
        path = Path(words)
        place = inputs.place_from_json(inputs.read_text(path), path.name) if path.is_file() or path.suffix == ".json" \
            else inputs.place_named(words)
    return replace(place, minutes=minutes) if minutes is not None else place


def order_at(args: argparse.Namespace, source: Source, today: date) -> Order:
    """What was asked for on the command line.

    Raises:
        ContentError: one of the files, or the session's name.
    """
    session = source.session(args.session)
    if session is None:
        raise UnknownName(kind="session", name=args.session, known=tuple(s.id for s in source.sessions))
    client = inputs.client_from_json(inputs.read_text(args.client), args.client.name) if args.client else Client()
    diary = inputs.diary_from_json(inputs.read_text(args.diary), args.diary.name) if args.diary else None
    table = rule_table(source.rules.preset, source.rules.shift)
    return Order(session, source.library(), client, place_at(args.place, args.minutes), today, diary, table,
                 source.whole_library)


async def run(args: argparse.Namespace) -> int:
    """Prints the compiled session. Exit 1 where today gives none, or where nothing of it is left."""
    source = await source_at(args.pack)
    timeline = compile_timeline(order_at(args, source, date.today()))
    if args.json:
        print(json.dumps(timeline_shape(timeline, source), ensure_ascii=False, indent=1))
    else:
        print("\n".join(_lines(timeline, source)))
    return DONE if timeline.steps else NO


def _lines(timeline: Timeline, source: Source) -> list[str]:
    names = {e.id: e.name for e in source.exercises}
    session = source.session(timeline.session)
    lines = [session.name if session else timeline.session]
    amount = amount_sentence(timeline.dose, session) if session else text.dose_sentence(timeline.dose)
    lines.append(f"{text.duration(timeline.total_ms // 1000)}. {amount}" if timeline.steps else amount)
    if timeline.dose.allows_session and not timeline.steps:
        lines.append(f"{NOTHING_LEFT_HEAD}. {NOTHING_LEFT}")
    lines += [f"  because: {text.reason_text(r)}" for r in timeline.dose.reasons]
    lines += [f"  {names[s.to]}: {text.substitution_text(s, names)}" for s in timeline.substitutions]
    lines += [f"  {names[o.exercise]}: {text.left_out_text(o)}" for o in timeline.left_out]
    for step in timeline.steps:
        minutes, seconds = divmod(step.start_ms // 1000, 60)
        side = f", {step.side}" if step.side in ("left", "right") else ""
        name = names.get(step.exercise or "", "")
        load = f", {step.load_g / 1000:g} kg" if step.load_g else ""
        reps = f", {step.reps} times" if step.reps else ""
        lines.append(f"{minutes:3}:{seconds:02}  {step.length_ms / 1000:4g} s  {KINDS[step.kind]:15} "
                     f"{name}{side}{reps}{load}")
    return lines
