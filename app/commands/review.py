"""`evenload review`: who needs attention."""
from __future__ import annotations

import argparse
import json

from app.actions.desk import attention_list
from app.commands.data_directory import store_of
from app.device.clock import SystemClock
from app.domain.measures.told_together import lines_of
from app.words.coach import attention as attention_words
from app.words.coach import desk as desk_words

HEADS = {"harm": desk_words.HARM, "progress": desk_words.PROGRESS, "silence": desk_words.SILENCE}


def run(args: argparse.Namespace) -> int:
    """Prints who needs attention: who needs a call, then programmes to review, then who was not heard from."""
    with store_of(args) as store:
        seen = attention_list.attention_list(store, SystemClock())
    parts = {"harm": seen.harm, "progress": seen.progress, "silence": seen.silence}
    if args.json:
        print(json.dumps({part: [
            {"person": f.name, "id": f.person, "because": f.because.value, "on": f.on.isoformat(),
             "text": attention_words.flag_text(f, None, seen.lines.get(f.person)),
             "evidence": {"records": list(f.records), "numbers": list(f.numbers), "words": list(f.words)}}
            for f in flags] for part, flags in parts.items()} | {"people": seen.people}, ensure_ascii=False, indent=1))
        return 0
    for part, flags in parts.items():
        lines = lines_of(flags)
        print(desk_words.part_head(HEADS[part], len(lines)))
        told = (f"  {f.name}: {attention_words.flag_text(f, None, seen.lines.get(f.person))}" for f, _ in lines)
        print("\n".join(told) or f"  {desk_words.NOBODY}")
    return 0
