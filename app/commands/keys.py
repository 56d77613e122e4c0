"""`evenload keys`: the coach's key as clients get it, and its matching words."""
from __future__ import annotations

import argparse
import json

from app.actions.desk import publishing
from app.commands.data_directory import store_of
from app.domain.branding.brand import CoachKey
from app.exchange.crypto.key_text import key_line
from app.words.machine import commands as words

DONE, NO = 0, 1


def run(args: argparse.Namespace) -> int:
    """Prints the public key. Private keys and the words of the sheet are never printed. Exit 1 before there is one."""
    with store_of(args) as store:
        known, name = publishing.coach_keys(store), publishing.coach_name(store)
        matching, waits = publishing.matching_words(store), publishing.recovery_sheet(store) is not None
    if known is None:
        print(json.dumps({"coach": name, "key": "", "words": [], "sheet_waits": False}) if args.json else words.NO_KEYS)
        return NO
    line = key_line(CoachKey(name, known.signing.public.hex()))
    if args.json:
        print(json.dumps({"coach": name, "key": line, "words": list(matching), "sheet_waits": waits},
                         ensure_ascii=False))
    else:
        print(words.coach_key(line, " ".join(matching), waits))
    return DONE
