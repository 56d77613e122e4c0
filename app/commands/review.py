"""`evenload review`: who needs attention."""
from __future__ import annotations

import argparse
import json

from app.actions.desk import attention_list
from app.commands.data_directory import store_of
from app.device.clock import SystemClock
from app.words.coach import attention as attention_words
from app.words.coach import desk as desk_words


def run(args: argparse.Namespace) -> int:
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
        return 0
    for part, flags in parts.items():
        print(f"{part.capitalize()}, {len(flags)}")
        told = (f"  {f.name}: {attention_words.flag_text(f, None, seen.lines.get(f.person))}" for f in flags)
        print("\n".join(told) or f"  {desk_words.NOBODY}")
    return 0
