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
    return Section("limbs", "Limbs, sides and swaps", (
        "Each exercise says which limbs it works (`loads`) and which it leans on (`leans_on`); standing, and getting "
        "down to the floor and up, use both legs. A resting side names its limb, or both: anything that uses that limb "
        "is left out, and everything else stays. With an arm at rest balance is held, on one leg only with a firm "
        "hold, and with a walking aid as well on both feet; no weight is lifted while standing. [P]",
        "Pain on one side, or going easy on it, applies to work that uses that limb. One-sided work of the "
        "other side stays as written; on the painful side an easier one-sided option takes its place, or nothing, and "
        "the plan says that left and right are not equal. Anything that jars, turns or goes to the floor is capped for "
        "both. spare_both_sides = true under [rules] rests the other side too. [P]",
        "No limb ever works longer than was written: when two-sided work replaces one-sided work, it is done once. A "
        "swap never takes anyone lower than what was written, and never adds a trip to the floor.",
    ))


def rises_for_coach() -> Section:
    """Exact."""
    floor = f"{p.FLOOR_CHANGE_S} s; with a weight, or if slow, {p.SLOW_FLOOR_CHANGE_S} s"
    rows = (
        ("to the floor, or up from it", floor, f"4.1 ± 1.1 s: {BOHANNON_LUSARDI_2004.short}; planned time [P]"),
        ("to a sit after lying", f"{p.SIT_UP_S} s, then sitting {p.SIT_S} s; if slow, {p.LONG_SIT_S} s",
         f"early drop in 29% over 65: {TRAN_2021.short}; length [P]"),
        ("standing still after lying", f"{p.STAND_S} s, holding on; if slow, {p.LONG_STAND_S} s",
         f"deepest in the first 15 s: {FREEMAN_2011.short}; length if slow [P]"),
        ("from a seat or a bed’s edge to a stand",
         f"{p.STAND_UP_S} s; with a walking aid, or after a fall, {p.STAND_UP_S + p.CROSS_S} s", "[P]"),
        ("from lying to the knees, on the floor", f"{p.SIT_UP_S} s", "[P]"),
        ("down on a bed", f"{p.LIE_DOWN_S} s", "[P]"),
    )
    main, end, warm = SMALLER[-1]
    return Section("rises", "Getting up, and short sessions", (
        f"Slow means {SLOW_WORDS}; to the floor, also anyone who can’t get up without help. The rest counts towards "
        "it.",
        "When time is short, rounds go first, then accessory stations, from the last; then other stations along with "
        f"their warm-up, down to {main} of the main part, {warm} of the warm-up and {end} of the cool-down. [P]",
    ), ("Change", "Time", "Source"), rows)


def limbs_for_client() -> Section:
    """Plain."""
    return Section("limbs", "An arm or a leg that rests", (
        "We don’t use a resting arm or leg at all: not to push, pull, carry or lean on. You keep everything else. "
        "With an arm at rest you always hold on, and if you use a walking aid as well, both feet stay down.",
        "If one arm or leg hurts, we go easy on it. The other side carries on with its one-sided exercises, so left "
        "and right may not be equal for a while, and we tell you when. Your coach can ask for both to rest.",
        "An exercise that is swapped in never gives an arm or leg more to do than your coach wrote, and never sends "
        "you down to the floor.",
    ))


def rises_for_client() -> Section:
    """Plain."""
    return Section("rises", "Getting up takes time", (
        f"After lying down you sit for {p.SIT_S} seconds, then stand for {p.STAND_S} holding on, to give your blood "
        f"pressure time. It is {p.LONG_SIT_S} and {p.LONG_STAND_S} seconds {SLOW_WORDS}.",
        "Light-headed? Sit or lie down again. There is no hurry.",
        "Ten minutes is enough for a small but complete session, with a warm-up and a cool-down.",
    ))
