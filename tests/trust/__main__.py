"""The reliability table: `python -m tests.trust [--inputs N] [--kills N] [--soak HOURS] [--crowd N] [--seed N]`.

Exit 1: something is amiss.
N inputs of each kind (fewer of those that take long), N cuts in all, simulated hours of use, N windows at once and two
browsers (the one that EVENLOAD_BROWSER names, or the machine's own; Linux); `--only WORDS` takes those whose name holds
the words. Whatever crashed is kept under dist/trust.
"""
from __future__ import annotations

import argparse
import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from tests.exchange import other_reader
from tests.exchange.make_vectors import FOLDER
from tests.trust import inputs
from tests.trust.crowd_load import load
from tests.trust.disk import built
from tests.trust.hunting import HEAD, Hunted, bound_memory, hunt
from tests.trust.inputs import INPUTS
from tests.trust.soak import amiss, soak

ROOT = Path(__file__).parents[2]
CRASHED = ROOT / "dist" / "trust"
WAVES = 4
"""Of a crowd: memory is compared from the second to the last."""


def hunts(tries: int, seed: int, only: str) -> list[Hunted]:
    """Every kind of input, one line each as it is done."""
    print(" | ".join(HEAD), flush=True)
    found = []
    for name in (name for name in INPUTS if only in name):
        one = hunt(name, tries, seed)
        print(" | ".join(one.row()), flush=True)
        for seen, data in one.crashed.items():
            CRASHED.mkdir(parents=True, exist_ok=True)
            kept = CRASHED / hashlib.sha256(data).hexdigest()[:16]
            kept.write_bytes(data)
            print(f"    AMISS: {seen} ({kept.relative_to(ROOT)})", flush=True)
        found.append(one)
    inputs.tidy()
    return found


def kills(count: int, seed: int, only: str) -> list[dict[str, str]]:
    """Cuts, in a process whose disk can fail; one line for each kind of fault."""
    with tempfile.TemporaryDirectory() as folder:
        library = built(Path(folder))
        env = os.environ | ({"LD_PRELOAD": str(library)} if library else {})
        command = [sys.executable, "-m", "tests.trust.cutting", str(count), str(seed), "--only", only, "--small-disk"]
        done = subprocess.run(command, cwd=ROOT, env=env, stdout=subprocess.PIPE, text=True)
    found = [json.loads(line) for line in done.stdout.splitlines()]
    if not library:
        print("No C compiler: processes were ended at SQL statements alone, and no disk failed.")
    if done.returncode != int(any(one["wrong"] for one in found)):
        found.append({"fault": "the harness", "wrong": f"ended with {done.returncode}", "told": "", "undertaking": ""})
    print("fault | tried | survived | lost | ended or told")
    for fault, tried in Counter(one["fault"] for one in found).items():
        lost = [one for one in found if one["fault"] == fault and one["wrong"]]
        met = sum(one["fault"] == fault and one["told"] != "done" for one in found)
        print(f"{fault} | {tried} | {tried - len(lost)} | {len(lost)} | {met}")
        for one in lost:
            print(f"    AMISS: {one}")
    return found


def soaked(hours: int) -> str:
    """Hours of use, drawn one a line; gives what grew that should not have."""
    found = soak(hours)
    most = max((one.memory_mib for one in found), default=1) or 1
    print("hour | sessions | memory | store | journal")
    for number, one in enumerate(found, 1):
        print(f"{number} | {one.sessions} | {one.memory_mib:.1f} MiB {'#' * round(40 * one.memory_mib / most)} | "
              f"{one.store_bytes // 1024} KiB | {one.journal_bytes // 1024} KiB")
    grown = amiss(found)
    print(f"soak: {len(found)} h, " + (f"AMISS: {grown}" if grown else "flat"))
    return grown


def crowded(clients: int) -> list[str]:
    """Waves of so many windows at once, one a line; gives what was amiss."""
    if sys.platform != "linux":
        print("crowd: not tried, it needs Linux")
        return []
    browser = os.environ.get("EVENLOAD_BROWSER") or shutil.which("chromium") or shutil.which("google-chrome") or ""
    if not browser:
        print("No Chromium: the crowd comes without the two browsers.")
    found = load(clients, WAVES, browser)
    print(*found.rows(), sep="\n", flush=True)
    return found.amiss()


def vectors() -> tuple[int, list[str]]:
    """How many there are, and those of which something else came than they say."""
    whole = {path.stem: path.read_bytes() for path in sorted(FOLDER.glob("*.vector"))}
    said = {name: re.search(rb"^expect: (.*)$", data, re.MULTILINE) for name, data in whole.items()}
    return len(whole), [name for name, data in whole.items()
                        if said[name] is None or other_reader.outcome(data)[0].encode() != said[name][1]]


def main() -> int:
    """Hunts, cuts, and adds up."""
    asked = argparse.ArgumentParser(prog="python -m tests.trust", description=__doc__)
    asked.add_argument("--inputs", type=int, default=200, help="of each kind")
    asked.add_argument("--kills", type=int, default=40)
    asked.add_argument("--soak", type=int, default=1, help="simulated hours; memory at the end of each is drawn")
    asked.add_argument("--crowd", type=int, default=50, help="scripted windows at once, in each of some waves")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--only", default="", help="kinds of input and undertakings whose name holds these words")
    args = asked.parse_args()
    began = time.monotonic()
    # before memory is bounded: a limit would be handed on
    cut = kills(args.kills, args.seed, args.only) if args.kills else []
    crowd = crowded(args.crowd) if args.crowd and not args.only else []
    bound_memory()
    hunted = hunts(args.inputs, args.seed, args.only) if args.inputs else []
    crashed, lost = sum(len(one.crashed) for one in hunted), sum(bool(one["wrong"]) for one in cut)
    print(f"bad inputs: {sum(one.tried for one in hunted)} tried, {sum(one.refused for one in hunted)} refused, "
          f"{sum(one.taken for one in hunted)} taken in, {crashed} crashed; slowest "
          f"{max((one.slowest_s for one in hunted), default=0):.2f} s, largest "
          f"{max((one.largest_mib for one in hunted), default=0):.0f} MiB")
    print(f"faults: {len(cut)} tried, {len(cut) - lost} survived, {lost} lost, of which kills "
          f"{sum(one['told'] == 'cut' for one in cut)}")
    grown = soaked(args.soak) if args.soak and not args.only else ""
    tried, wrong = vectors()
    print(f"vectors: {tried} read by a reader without code of the program, {tried - len(wrong)} as they say")
    for name in wrong:
        print(f"    AMISS: {name}")
    print(f"{time.monotonic() - began:.0f} s", file=sys.stderr)
    return 1 if crashed or lost or wrong or grown or crowd else 0


if __name__ == "__main__":
    sys.exit(main())
