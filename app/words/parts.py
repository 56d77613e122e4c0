"""Words that belong to a part itself: yes and no, the ends of a scale, what a drawing says aloud."""
from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.domain.model.body import Region, Spot
from app.domain.model.plan import Part, Timeline
from app.domain.model.record import DoneStep, How

YES = "Yes"
NO = "No"
SHOW_TYPED, HIDE_TYPED = "Show", "Hide"


def answer(about: str, word: str) -> str:
    """The spoken name of an answer: "Knee pain: Yes"."""
    return f"{about}: {word}" if about else word


def of_field(word: str, label: str) -> str:
    """The spoken name of what a word does to a field: "Show: New PIN"."""
    return f"{word}: {label}"


def of(about: str, number: int, top: int) -> str:
    """The spoken name of a number: "Right knee 6 of 10"."""
    return f"{about} {number} of {top}".strip()


def scale_end(number: int, word: str) -> str:
    """What a number means: "0: none"."""
    return f"{number}: {word}"


def from_to(low: str, high: str) -> str:
    """Both ends of a short scale: "badly to well"."""
    return f"{low} to {high}"


def joined(said: Sequence[str]) -> str:
    """Short pieces in one line."""
    return "; ".join(said)


FLOOR = "floor"
SIDE_LETTERS = {"left": "L", "right": "R"}


def minutes(number: int) -> str:
    """A length on a ruler: "20 min"."""
    return f"{number} min"


KEY_WORK, KEY_REST = "work", "rest"
_PARTS = {Part.WARM_UP: "Warm-up", Part.MAIN: "Main part", Part.COOL_DOWN: "Cool-down"}


def part_name(part: Part, number: int | None, *, later: bool = False) -> str:
    """The name of a row: "Warm-up", "Round 2"; of a further block "Then round 1"."""
    return f"{'Then round' if later else 'Round'} {number}" if number else _PARTS[part]


def minutes_to_go(ms: int) -> str:
    """What is left of a session: "19 min to go"."""
    return f"{-(-max(0, ms) // 60_000)} min to go"


def count(number: int, one: str, many: str) -> str:
    """A number with its noun."""
    return f"{number} {one if number == 1 else many}"


def _length(ms: int) -> str:
    if ms < 60_000:
        return count(ms // 1000, "second", "seconds")
    return count(round(ms / 60_000), "minute", "minutes")


def strip_plan(timeline: Timeline) -> str:
    """What a strip says aloud: "Time strip: 22 minutes, 14 stretches of work, some of it on the floor"."""
    if not timeline.steps:
        return "Time strip: nothing planned"
    work = sum(step.is_effort for step in timeline.steps)
    floor = ", some of it on the floor" if any(step.to_floor for step in timeline.steps) else ""
    return f"Time strip: {_length(timeline.total_ms)}, {count(work, 'stretch', 'stretches')} of work{floor}"


def strip_now(timeline: Timeline, now_ms: int) -> str:
    """The same under way; whole minutes, so that it does not change every second."""
    if now_ms >= timeline.total_ms:
        return f"{strip_plan(timeline)}; all done"
    done = now_ms // 60_000
    return f"{strip_plan(timeline)}; {count(done, 'minute', 'minutes')} done"


def strip_review(timeline: Timeline, done: Sequence[DoneStep]) -> str:
    """The same with what was done: "…; done: 12 in full, 1 easier, 1 left out"."""
    return f"{strip_plan(timeline)}; {strip_done(done)}"


def strip_done(done: Sequence[DoneStep]) -> str:
    """What was done alone: "done: 12 in full, 1 easier"."""
    named = (
        (How.FULL, "in full"), (How.EASIER, "easier"), (How.PART, "in part"), (How.SKIPPED, "left out"),
        (How.STOPPED, "stopped"),
    )
    told = [(sum(step.how is how for step in done), words) for how, words in named]
    said = ", ".join(f"{number} {words}" for number, words in told if number)
    return f"done: {said or 'nothing'}"


def row_told(name: str, length: int) -> str:
    """A row of a strip, aloud: "Round 2 10 min"."""
    return f"{name} {minutes(length)}"


def left(figures: str) -> str:
    """The count, for whoever asks: "28 left"."""
    return f"{figures} left"


NOTHING_TO_DRAW = "Nothing to show yet."


def number(value: float) -> str:
    """A number without a needless fraction."""
    return f"{value:.1f}".rstrip("0").rstrip(".")


def line_end(name: str, value: float) -> str:
    """The word at a line's end: "Right knee 5"."""
    return f"{name} {number(value)}".strip()


def chart_told(series: Sequence[tuple[str, Sequence[float | None]]], until: str) -> str:
    """What a chart says aloud: "Right knee: from 2 to 5, highest 6, today"."""
    said = []
    for name, values in series:
        known = [v for v in values if v is not None]
        if len(known) == 1:
            said.append(line_end(f"{name}:", known[0]))
            continue
        said.append(f"{name}: from {number(known[0])} to {number(known[-1])}, highest {number(max(known))}")
    return f"{'; '.join(said)}. Last point: {until}"


def bars_told(bars: Sequence[tuple[str, float]], unit: str) -> str:
    """What bars say aloud: "1 March 40 minutes, 8 March 55 minutes"; of many, the range and the last."""
    if len(bars) > 12:
        values = [value for _, value in bars]
        low, high = number(min(values)), number(max(values))
        return f"{len(bars)} bars, from {low} to {high} {unit}; the last, {bars[-1][0]}: {number(values[-1])}"
    return ", ".join(f"{name} {number(value)} {unit}" for name, value in bars)


REGIONS = {
    Region.NECK: "Neck", Region.SHOULDER: "Shoulder", Region.ELBOW: "Elbow", Region.WRIST: "Wrist",
    Region.HAND: "Hand", Region.RIBS: "Ribs", Region.BACK: "Back", Region.HIP: "Hip", Region.THIGH: "Thigh",
    Region.KNEE: "Knee", Region.CALF: "Calf", Region.ANKLE: "Ankle", Region.FOOT: "Foot",
    Region.BALANCE: "Balance", Region.FLOOR: "Getting down to the floor",
}
#: Where muscles ache, by the region that they move.
MUSCLES = {**REGIONS, Region.SHOULDER: "Shoulder, chest", Region.ELBOW: "Upper arm", Region.WRIST: "Forearm",
           Region.HIP: "Hip, buttock"}
SIDES = {"left": "Left", "right": "Right"}
AS_LIST = "List"
BEHIND, IN_FRONT = "From behind", "In front"
SEEN = {BEHIND: "Seen from behind: the left side is on the left.",
        IN_FRONT: "Seen from in front, as when facing someone: the left side is on the right."}
LEAVE_OUT = "Leave it out"


def spot(where: Spot, labels: Mapping[Region, str] = REGIONS) -> str:
    """A spot in words: "Right knee", "Back"; of muscles "Right calf"."""
    name = labels[where.region]
    return f"{SIDES[where.side]} {name.lower()}" if where.side else name


def level_of(name: str, level: int, mark: str = "") -> str:
    """A spot with its level: "Right knee 6", or "Right knee: 6"."""
    return f"{name}{mark} {level}"


def cell_face(name: str, level: int | None, was: int | None, *, asked: bool) -> str:
    """What stands in a box of the body: "Left", "Left 6", "Left ?" while its number is open, "Left, was 3"."""
    if level is not None:
        return level_of(name, level)
    if asked:
        return f"{name} ?"
    return f"{name}, was {was}" if was else name


def cell_name(name: str, level: int | None, was: int | None) -> str:
    """The same as it is spoken: "Left knee", "Left knee: 6", "Left knee, 3 last time"."""
    return level_of(name, level, ":") if level is not None else f"{name}, {was} last time" if was else name


def leave_out(name: str) -> str:
    """The spoken name of "Leave it out": "Left knee: leave it out"."""
    return f"{name}: leave it out"


def how_much(name: str) -> str:
    """The question after a spot: "Right knee, how much?"."""
    return f"{name}, how much?"
