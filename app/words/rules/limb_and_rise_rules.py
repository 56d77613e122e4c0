"""What rests with an arm or a leg, how a sore one is spared, and the time that getting up takes: in both wordings.

Every number comes from `app/domain/compile/posture.py`. Knows no Flet.
"""
from __future__ import annotations

from app.domain.compile import posture as p
from app.domain.compile.shortening import SMALLER
from app.domain.model.references import BOHANNON_LUSARDI_2004, FREEMAN_2011, TRAN_2021
from app.words.rules.section import Section

SLOW_WORDS = "after a fall, with high blood pressure, vertigo or dizziness on standing, or a beta-blocker"


def limbs_for_coach() -> Section:
    """Exact."""
    return Section("limbs", "Limbs, sides and stand-ins", (
        "Each exercise says which limbs it works (`loads`) and which it leans on (`leans_on`); standing, and getting "
        "down to the floor and up, use both legs. A side to rest names its limb, or both: whatever uses that limb in "
        "any way is out, and what does not goes on.",
        "Pain or sparing on one side holds for work that uses that limb. One-sided work of the other side stays as "
        "written; on the sore side an easier one-sided option stands in, or nothing, and the plan says that left and "
        "right are not equal. What jars, turns or goes to the floor is capped for both. spare_both_sides = true under "
        "[rules] makes the other side rest as well. [P]",
        "No limb ever works longer than was written: work with both sides in place of work with each is done once. A "
        "stand-in takes nobody further down than what was written, and no round gains a way to the floor by it.",
    ))


def rises_for_coach() -> Section:
    """Exact."""
    floor = f"{p.FLOOR_CHANGE_S} s, with a weight or for the slow {p.SLOW_FLOOR_CHANGE_S} s"
    rows = (
        ("to the floor, or up from it", floor, f"4.1 ± 1.1 s: {BOHANNON_LUSARDI_2004.short}; planned time [P]"),
        ("to a sit after lying", f"{p.SIT_UP_S} s, then sitting {p.SIT_S} s; for the slow {p.LONG_SIT_S} s",
         f"early drop in 29 % over 65: {TRAN_2021.short}; length [P]"),
        ("standing still after lying", f"{p.STAND_S} s, a hand on something; for the slow {p.LONG_STAND_S} s",
         f"deepest in the first 15 s: {FREEMAN_2011.short}; length for the slow [P]"),
        ("from a seat or a bed’s edge to a stand", f"{p.STAND_UP_S} s", "[P]"),
        ("from lying to the knees, on the floor", f"{p.SIT_UP_S} s", "[P]"),
        ("down on a bed", f"{p.LIE_DOWN_S} s", "[P]"),
    )
    main, end, warm = SMALLER[-1]
    return Section("rises", "Getting up, and short sessions", (
        f"Slow: {SLOW_WORDS}; to the floor also whoever cannot get up alone. The rest counts towards it.",
        "Short of time, rounds go first, then accessory stations, the last first; then other stations and, with them, "
        f"what they were warmed up for, down to {main} of the main part, {warm} of the warm-up and {end} of the "
        "cool-down. [P]",
    ), ("Change", "Time", "Source"), rows)


def limbs_for_client() -> Section:
    """Plain."""
    return Section("limbs", "An arm or a leg that rests", (
        "An arm or leg that is to rest is not used at all: not to push, to pull, to carry or to lean on. Everything "
        "that leaves it in peace goes on.",
        "If one arm or leg hurts, that one is spared. The other goes on with what is done on one side alone, so left "
        "and right may not be equal for a while, and it says so. Your coach can have both rest.",
        "Another move in its place never gives an arm or a leg more to do than was written, and never sends you down "
        "to the floor.",
    ))


def rises_for_client() -> Section:
    """Plain."""
    return Section("rises", "Getting up takes its time", (
        f"After lying you sit for {p.SIT_S} seconds, then stand for {p.STAND_S} with a hand on something, so that the "
        f"blood has time to follow. It is {p.LONG_SIT_S} and {p.LONG_STAND_S} seconds {SLOW_WORDS}.",
        "Light-headed? Sit or lie down again. Nobody is hurried.",
        "Ten minutes are enough for a whole small session, with a warm-up and an end.",
    ))
