"""`evenload timeline`: the session of a pack, compiled for a client, a place and a diary."""
from __future__ import annotations

import argparse
import json
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from app.commands.files import STANDARD, is_standard, name_of, read_file, read_text
from app.commands.json_shapes import timeline_shape
from app.domain.compile.stations import Order
from app.domain.compile.timeline import compile_timeline
from app.domain.errors import UnknownName
from app.domain.model.client import Client, Place
from app.domain.model.plan import ChangeStage, Step, StepKind, Timeline
from app.domain.model.source import Source
from app.exchange.crypto.text_form import unwrapped
from app.exchange.forms import command_inputs as inputs
from app.exchange.forms.source import read_source
from app.exchange.packs.pack import read_pack
from app.words import text
from app.words.amounts import amount_sentence
from app.words.client.today import NOTHING_LEFT, NOTHING_LEFT_HEAD
from app.words.reasons import reason_text

DONE, NO = 0, 1
KINDS = {
    StepKind.SETUP: "set up", StepKind.WORK: "work", StepKind.REST: "rest", StepKind.ROUND_REST: "rest",
    StepKind.CHANGE: "change position", StepKind.HOLD: "hold",
}
STAGES = {
    ChangeStage.SIT: "sit up, sit", ChangeStage.STAND: "stand, holding", ChangeStage.UP: "stand up",
    ChangeStage.RISE: "stand up", ChangeStage.TURN: "to the knees", ChangeStage.LIE: "lie down",
}


@dataclass(frozen=True)
class OpenedSource:
    """The source of a pack, or of a folder of TOML; `pack` are the bytes of the one, `folder` is the other."""

    source: Source
    pack: bytes = field(default=b"", repr=False)
    folder: Path | None = None


async def source_at(path: Path) -> OpenedSource:
    """What stands there, read once: it may be standard input.

    Raises:
        ContentError, FileError: it is no source, or refused.
    """
    if path.is_dir() and not is_standard(path):
        return OpenedSource(read_source(path), folder=path)
    data = unwrapped(read_file(path), name_of(path))
    return OpenedSource((await read_pack(data, name_of(path))).source, data)


def place_at(words: str | None, minutes: int | None) -> Place:
    """A place by name or from its file; `minutes` beats the file's."""
    place = Place()
    if words:
        path = Path(words)
        is_file = words == STANDARD or path.is_file() or path.suffix == ".json"
        place = inputs.place_from_json(read_text(path), name_of(path)) if is_file else inputs.place_named(words)
    return replace(place, minutes=minutes) if minutes is not None else place


def order_at(args: argparse.Namespace, source: Source, today: date) -> Order:
    """What was asked for on the command line.

    Raises:
        ContentError: one of the files, or the session's name.
    """
    session = source.session(args.session)
    if session is None:
        raise UnknownName(kind="session", name=args.session, known=tuple(s.id for s in source.sessions))
    client = inputs.client_from_json(read_text(args.client), name_of(args.client)) if args.client else Client()
    diary = inputs.diary_from_json(read_text(args.diary), name_of(args.diary)) if args.diary else None
    table = source.rules.table()
    return Order(session, source.library(), client, place_at(args.place, args.minutes), today, diary, table,
                 source.whole_library)


async def run(args: argparse.Namespace) -> int:
    """Prints the compiled session. Exit 1 where today gives none, or where nothing of it is left."""
    source = (await source_at(args.pack)).source
    timeline = compile_timeline(order_at(args, source, date.today()))
    if args.json:
        print(json.dumps(timeline_shape(timeline, source), ensure_ascii=False, indent=1))
    else:
        print("\n".join(_lines(timeline, source)))
    return DONE if timeline.steps else NO


def _kind(step: Step) -> str:
    return STAGES[step.stage] if step.stage else KINDS[step.kind]


def _lines(timeline: Timeline, source: Source) -> list[str]:
    names = {e.id: e.name for e in source.exercises}
    session = source.session(timeline.session)
    lines = [session.name if session else timeline.session]
    dose, gone = timeline.dose, len(timeline.left_out)
    amount = amount_sentence(dose, session, gone) if session else text.dose_sentence(dose)
    lines.append(f"{text.duration(timeline.total_ms // 1000)}. {amount}" if timeline.steps else amount)
    if timeline.dose.allows_session and not timeline.steps:
        lines.append(f"{NOTHING_LEFT_HEAD}. {NOTHING_LEFT}")
    lines += [f"  because: {reason_text(r)}" for r in timeline.dose.reasons]
    lines += [f"  {names[s.to]}: {text.substitution_text(s, names)}" for s in timeline.substitutions]
    lines += [f"  {names[o.exercise]}: {text.left_out_text(o)}" for o in timeline.left_out]
    lines += [f"  {names[o.exercise]}: {text.one_sided_text(o)}" for o in timeline.one_sided]
    for step in timeline.steps:
        minutes, seconds = divmod(step.start_ms // 1000, 60)
        side = f", {step.side}" if step.side in ("left", "right") else ""
        name = names.get(step.exercise or "", "")
        load = f", {step.load_g / 1000:g} kg" if step.load_g else ""
        reps = f", {step.reps} times" if step.reps else ""
        lines.append(f"{minutes:3}:{seconds:02}  {step.length_ms / 1000:4g} s  {_kind(step):15} "
                     f"{name}{side}{reps}{load}")
    return lines
