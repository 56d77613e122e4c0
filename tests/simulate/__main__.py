"""A table of the simulated weeks: `python -m tests.simulate [--weeks N] [--only WORDS]`. Exit 1: something is amiss."""
from __future__ import annotations

import argparse
import sys
import time

from tests.simulate.expectations import amiss, heaviest, steps_of
from tests.simulate.kinds import KINDS, WEEKS
from tests.simulate.life import Story, coached, live

HEAD = ("kind", "done", "none", "level", "work", "load kg", "steps at the end", "the coach was told (week)")


def row(story: Story) -> tuple[str, ...]:
    """One line of the table."""
    levels = [done.plan.dose.level for done in story.done]
    work = [sum(d.done_ms for d in done.done) // 60_000 for done in story.done if done.plan.strength]
    last: dict[str, int] = {}
    for done in story.done:
        last |= steps_of(done.plan)
    told = " ".join(f"{one.reason}({one.week + 1})" for one in story.told)
    mean = f"{sum(levels) / len(levels):.1f}" if levels else "–"
    lifted = f"{heaviest(story, 0, 1) / 1000:g}→{heaviest(story, 9, 15) / 1000:g}" if story.done else "–"
    return (story.kind.name, str(len(story.done)), str(len(story.refused)), mean,
            f"{work[0]}→{work[-1]} min" if work else "–", lifted,
            " ".join(str(step) for _, step in sorted(last.items())) or "–", told or "nothing")


def main() -> int:
    """Lives all kinds, prints what became of each, then what is amiss."""
    asked = argparse.ArgumentParser(prog="python -m tests.simulate", description=__doc__)
    asked.add_argument("--weeks", type=int, default=WEEKS)
    asked.add_argument("--only", default="", help="kinds whose name holds these words")
    args = asked.parse_args()
    began, wrong = time.monotonic(), 0
    print(" | ".join(HEAD))
    with coached() as (desk, pack):
        for kind in (k for k in KINDS if args.only in k.name):
            story = live(kind, pack, desk, args.weeks)
            print(" | ".join(row(story)), flush=True)
            for said in amiss(story):
                wrong += 1
                print(f"    AMISS: {said}", flush=True)
    print(f"{wrong} amiss; {time.monotonic() - began:.0f} s", file=sys.stderr)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
