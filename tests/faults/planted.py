"""Faults to plant, one at a time: a threshold off by one, a vote dropped, a side forgotten, a rounding up, …

Each names a file, the words to replace (found exactly once), what to put there, and the tests that should see it.
"""
from __future__ import annotations

from typing import NamedTuple

SORE = "app/domain/dosing/sore_places.py"
DOSE, VOTES, LIMITS, HISTORY, WAY_BACK = (
    f"app/domain/dosing/{m}.py" for m in ("dose", "votes", "limits", "history", "way_back"))
CONDITIONS = "app/domain/dosing/conditions.py"
RULES, NUMBERS, BODY = (f"app/domain/model/{m}.py" for m in ("rules", "thresholds", "body"))
AMOUNTS, STATIONS, TIMELINE, CHOICE = (
    f"app/domain/compile/{m}.py" for m in ("prescription", "stations", "timeline", "substitution"))
LIMBS, T_LIMBS = "app/domain/model/limbs.py", "tests/domain/compile/test_limbs.py"
BOUTS, POSTURE, SHORTER = (f"app/domain/compile/{m}.py" for m in ("bouts", "posture", "shortening"))
T_POSTURE, T_SHORTER = (f"tests/domain/compile/test_{m}.py" for m in ("posture", "shortening"))
ON, RUNGS, MOVING, LADDER = (
    f"app/domain/progress/progression_{m}.py" for m in ("state", "steps", "today", "ladder"))
SPARING = "app/domain/player/pain_response.py"
PROGRAMME, STALL = "app/domain/progress/due_session.py", "app/domain/measures/stall.py"
CALLED, OVER_WEEKS, LIST = (f"app/domain/measures/attention{m}.py" for m in ("_harm", "_weeks", ""))
T_PROGRAMME, T_WEEKS = "tests/domain/progress/test_due_session.py", "tests/domain/measures/test_attention_weeks.py"
TRACK, SPOKEN, CUES = (f"app/domain/sound/{m}.py" for m in ("audio_track", "voice_lines", "cues"))
T_TRACK, T_SPOKEN, T_CUES = (f"tests/domain/sound/test_{m}.py" for m in ("audio_track", "voice_lines", "cues"))
T_ON, T_LADDER, T_MOVING = (f"tests/domain/progress/test_progression_{m}.py" for m in ("state", "ladder", "today"))
T_SPARING = "tests/domain/player/test_pain_response.py"
T_DOSE, T_RULES, T_LIMITS, T_HISTORY, T_CONDITIONS = (
    f"tests/domain/dosing/test_{m}.py" for m in ("dose", "rules", "limits", "history", "conditions"))
T_TIME, T_CHOICE, T_AMOUNTS = (
    f"tests/domain/compile/test_{m}.py" for m in ("timeline", "substitution", "prescription"))


MESSAGES, EFFECTS = "app/actions/files/messages.py", "app/actions/files/message_effects.py"
INTAKE, PEOPLE = "app/actions/desk/intake.py", "app/storage/people.py"
TRUST, MANIFEST = "app/exchange/packs/trust.py", "app/exchange/packs/manifest.py"
PIECES = "app/exchange/forms/json_parts.py"
T_ORDER, T_CLOCKS = "tests/actions/files/test_message_order.py", "tests/actions/desk/test_wrong_clocks.py"
T_VECTORS = "tests/exchange/test_vectors.py"


class Fault(NamedTuple):
    """One mistake that somebody could make."""

    name: str
    file: str
    words: str
    instead: str
    seen_by: str


FAULTS: tuple[Fault, ...] = (
    # thresholds
    Fault("pain eases a point later", NUMBERS, "PAIN_CAPS = 4", "PAIN_CAPS = 5", T_DOSE),
    Fault("pain eases less", RULES, "VoteBand(at.PAIN_CAPS, Level.REDUCED)", "VoteBand(at.PAIN_CAPS, Level.HOLD)",
          T_DOSE),
    Fault("pain 8 does not stop", NUMBERS, "PAIN_ENDS = 8", "PAIN_ENDS = 9", T_DOSE),
    Fault("pain 8 does not end a session", NUMBERS, "PAIN_ENDS = 8", "PAIN_ENDS = 9", T_SPARING),
    Fault("a rise of two is one", NUMBERS, "PAIN_RISE = 2", "PAIN_RISE = 3", T_DOSE),
    Fault("soreness a point later", NUMBERS, "SORENESS_EASES = 6", "SORENESS_EASES = 7", T_DOSE),
    Fault("soreness for days is a table's own", HISTORY, "earlier, table.soreness_long)", "earlier, 6)", T_HISTORY),
    Fault("effort a point later", RULES, "VoteBand(4, Level.LIGHT)), \"coaching",
          "VoteBand(5, Level.LIGHT)), \"coaching",
          T_DOSE),
    Fault("effort 9 is no top", NUMBERS, "EFFORT_TOP = 9", "EFFORT_TOP = 10", T_DOSE),
    Fault("94 percent is complete", NUMBERS, "WHOLE_FROM = 95", "WHOLE_FROM = 94", T_DOSE),
    Fault("a poor night a point later", RULES, "VoteBand(7, Level.REDUCED)", "VoteBand(8, Level.REDUCED)", T_DOSE),
    Fault("eight days are no gap", NUMBERS, "GAP_BACK, GAP_OUT = 8, F", "GAP_BACK, GAP_OUT = 9, F", T_DOSE),
    Fault("training twice a day", RULES, "days_same=Level.REST", "days_same=Level.GENTLE", T_DOSE),
    Fault("a rise may last longer", RULES, "rise_hours=48", "rise_hours=49", T_DOSE),
    Fault("soreness may last longer", VOTES, "hours > table.soreness_hours", "hours > table.soreness_hours + 1",
          T_DOSE),
    # votes
    Fault("fever dropped", VOTES, "    Symptom.FEVER: Level.ASK_FIRST,", "    Symptom.FEVER: Level.LIGHT,", T_DOSE),
    Fault("unanswered symptoms pass", VOTES, "MISSING_SYMPTOMS = Level.REST", "MISSING_SYMPTOMS = Level.HOLD", T_DOSE),
    Fault("unanswered pain passes", VOTES, "MISSING_PAIN = Level.LIGHT", "MISSING_PAIN = Level.HOLD", T_DOSE),
    Fault("the vote of the morning after dropped", VOTES, "        *rise_votes(diary, table),\n", "", T_DOSE),
    Fault("the vote of effort dropped", VOTES, "        *effort_votes(diary, table, strength=strength),\n", "", T_DOSE),
    Fault("the way back skips a level", VOTES, "RuleId.RETURN, previous - 1", "RuleId.RETURN, previous - 2", T_DOSE),
    Fault("no yes needed", VOTES,
          "if previous >= Level.ASK_FIRST and not diary.cleared:",
          "if previous > Level.ASK_FIRST and not diary.cleared:", T_DOSE),
    Fault("an item at 1 counts as any", VOTES, "    if lowest == 1:", "    if lowest == 0:", T_DOSE),
    Fault("the doorbell counts", VOTES, "        if last.interrupted:\n            continue\n", "", T_DOSE),
    Fault("a light day hides the strength session before it", VOTES, "own, other = (last, light) if strength else",
          "own, other = (light, last) if strength else", T_DOSE),
    Fault("a later session of the other kind is not read", VOTES, "return (own, other) if unknown or",
          "return (own, other) if unknown and", T_DOSE),
    Fault("the last of all stands for the last with strength", HISTORY, "_last(strength[-1], days)",
          "_last(sessions[-1], days)", T_HISTORY),
    Fault("a fall that hurt goes on", VOTES, "fall.hurt and not diary.cleared", "fall.hurt and diary.cleared", T_DOSE),
    Fault("the lowest vote wins", DOSE, "level = max((r.level for r in reasons), default=0)",
          "level = min((r.level for r in reasons), default=0)", T_DOSE),
    Fault("pain may be softened", RULES, "(by < 0 and rule not in SOFTENABLE)", "(by < -1 and rule not in SOFTENABLE)",
          T_RULES),
    Fault("usual pain never runs out", SORE, " and today <= usual.until", "", T_DOSE),
    Fault("usual pain needs no morning", SORE,
          "rise is not None and rise <= 0", "(rise is None or rise <= 0)", T_DOSE),
    # caps
    Fault("pain 4 caps nothing", NUMBERS, "PAIN_CAPS = 4", "PAIN_CAPS = 5", T_LIMITS),
    Fault("pain 6 still allows a little", NUMBERS, "PAIN_RESTS = 6", "PAIN_RESTS = 7", T_LIMITS),
    Fault("osteoporosis may twist", CONDITIONS, "first={Axis.LOADED_SPINAL_FLEXION: 1, Axis.LOADED_TWIST: 0}",
          "first={Axis.LOADED_SPINAL_FLEXION: 1}", T_LIMITS),
    Fault("vertigo lies flat", CONDITIONS, "caps={Axis.HEAD_BELOW_HEART: 0, Axis.FLOOR_TRANSFER: 1, Axis.SINGLE_LEG",
          "caps={Axis.FLOOR_TRANSFER: 1, Axis.SINGLE_LEG", T_LIMITS),
    Fault("the calendar lifts a limit", CONDITIONS, "    return terms is not None and bool(terms.cleared_by)",
          "    return terms is not None and terms.since is not None or terms is not None and bool(terms.cleared_by)",
          T_CONDITIONS),
    Fault("cannot rise, lies down", LIMITS,
          "    if not client.rises_unaided:\n", "    if client.rises_unaided:\n", T_LIMITS),
    Fault("the highest cap wins", LIMITS, "caps[axis] = min(caps[axis], cap)", "caps[axis] = cap", T_LIMITS),
    Fault("a knee may kneel", BODY, "(Axis.DEEP_KNEE_FLEXION, Axis.KNEELING, Axis.IMPACT, ",
          "(Axis.DEEP_KNEE_FLEXION, Axis.IMPACT, ", T_LIMITS),
    Fault("falls without a hold", CONDITIONS, "HELD: Caps = {Axis.UNHELD_BALANCE: 0, ", "HELD: Caps = {", T_CHOICE),
    Fault("alone and never shown", CHOICE, "not client.alone or exercise.self_explanatory or",
          "exercise.self_explanatory or True or", T_CHOICE),
    Fault("the same as always is swapped", CHOICE, "found = [] if steady else list(", "found = list(", T_CHOICE),
    # rounding and amounts
    Fault("work rounds up", AMOUNTS, "seconds * percent // FULL // STEP_S * STEP_S)",
          "-(-seconds * percent // (FULL * STEP_S)) * STEP_S)", T_AMOUNTS),
    Fault("work has no floor", AMOUNTS, "LEAST_WORK_S, LEAST_HOLD_S, LEAST_REPS = 15, 10, 5",
          "LEAST_WORK_S, LEAST_HOLD_S, LEAST_REPS = 10, 10, 5", T_AMOUNTS),
    Fault("rest rounds down", AMOUNTS, "longer = -(-seconds * percent // (FULL * STEP_S)) * STEP_S",
          "longer = seconds * percent // (FULL * STEP_S) * STEP_S", T_AMOUNTS),
    Fault("rest grows on", AMOUNTS, "min(longer, max(MOST_REST_S, seconds))", "longer", T_AMOUNTS),
    Fault("the next weight up", AMOUNTS, "max((w for w in weights_g if w <= most), default=0)",
          "min((w for w in weights_g if w >= most), default=0)", T_AMOUNTS),
    Fault("half the rounds, rounded down", DOSE,
          "        return (rounds + 1) // 2\n", "        return rounds // 2\n", T_DOSE),
    Fault("one round fewer may be none", DOSE, "return max(1, rounds - 1)", "return rounds - 1", T_DOSE),
    Fault("a side forgotten", LIMBS, "        return (LEFT, RIGHT)\n", "        return (LEFT,)\n", T_TIME),
    Fault("the resting limb is used", LIMBS, "return whole or bool(used(exercise, side) & resting(client))",
          "return whole", T_LIMBS),
    Fault("what is leaned on does not count", LIMBS, "(loads_of(exercise) | leans_of(exercise) | legs | arms, side)",
          "(loads_of(exercise) | legs | arms, side)", T_LIMBS),
    Fault("one arm gets up from the floor", LIMBS, "leans_of(exercise) | legs | arms, side)",
          "leans_of(exercise) | legs, side)", T_LIMBS),
    Fault("rounds of the first block alone", STATIONS,
          "max((b.rounds for b in session.blocks if b.is_main), default=1)",
          "next((b.rounds for b in session.blocks if b.is_main), 1)", "tests/domain/compile/test_dose_diff.py"),
    Fault("a limb works twice for a stand-in", BOUTS, "return Bouts(sides, min(WHOLE, least)).at_most(Fraction(turns))",
          "return Bouts(sides)", T_LIMBS),
    Fault("a sore limb takes the other's work", TIMELINE, "    if not order.table.spare_both_sides:\n",
          "    if order.table.spare_both_sides:\n", T_LIMBS),
    Fault("from lying straight to a stand", POSTURE, "    if was in LYING:\n        yield",
          "    if False:\n        yield", T_TIME),
    Fault("a short sit for the slow", POSTURE, "SIT_S, LONG_SIT_S = 30, 60", "SIT_S, LONG_SIT_S = 30, 30", T_POSTURE),
    Fault("down to the floor for a stand-in", POSTURE, "return depth(exercise) > depth(written)", "return False",
          T_POSTURE),
    Fault("ten minutes are too few", SHORTER, "WHOLE_SMALL_S = 600", "WHOLE_SMALL_S = 601", T_SHORTER),
    Fault("the warm-up is cut", STATIONS,
          "(dose.work, max(dose.rest, limits.rest), dose.load) if block.is_main else (FULL, FULL, FULL)",
          "(dose.work, dose.rest, dose.load)", T_TIME),
    Fault("the set-up comes on top", TIMELINE, "- change_ms - set_up_ms)", "- change_ms)", T_TIME),
    # history and sparing
    Fault("not answering frees a joint that hurt", LIMITS, "for spot, level in felt(diary).items():",
          "for spot, level in (diary.pain or {} if diary else {}).items():", T_LIMITS),
    Fault("a clock set back forgets", HISTORY, "check_in.stamp.utc + CLOCK_SET_BACK", "check_in.stamp.utc", T_HISTORY),
    Fault("a check-in wins back a level", WAY_BACK,
          "level = max(level, record.carried)", "level = record.carried", T_HISTORY),
    Fault("anybody's yes will do", WAY_BACK, 'return clearance.kind not in ("self", "coach")',
          "return True", T_HISTORY),
    Fault("a joint that gave way goes on", SPARING, " or hurt.gave_way", "", T_SPARING),
    # moving on
    Fault("one clean session is enough", NUMBERS, "CLEAN_NEEDED = 2", "CLEAN_NEEDED = 1", T_ON),
    Fault("moves on with pain 3", NUMBERS, "PAIN_HOLDS = 3", "PAIN_HOLDS = 4", T_MOVING),
    Fault("moves on from a step that was not done", ON, "    if reached < at.step or ", "    if ", T_ON),
    Fault("a fortnight off takes nothing", NUMBERS, "FORTNIGHT_DAYS + 1", "FORTNIGHT_DAYS + 2", T_ON),
    Fault("the coach's ceiling ignored", ON, "return min(self.item.steps, len(self.rungs) - 1)",
          "return len(self.rungs) - 1", T_ON),
    Fault("a harder option never shown", RUNGS, "may_stand_in(e, exercise, day.client, day.limits)",
          "not day.limits.against(e)", T_LADDER),
    Fault("more on a day that holds", MOVING, "        if holds:\n", "        if False:\n", T_MOVING),
    Fault("this morning's pain lets it go on", MOVING, "painful = any(loads(exercise, region) for region in",
          "painful = False and any(loads(exercise, region) for region in", T_MOVING),
    Fault("a step every day", NUMBERS, "STEP_DAYS = 7", "STEP_DAYS = 1", T_ON),
    Fault("a weight comes a repetition early", LADDER, "- EPLEY - IN_RESERVE", "- EPLEY - IN_RESERVE - 1", T_LADDER),
    Fault("a weight comes with all its repetitions", LADDER, "amount=min(unit.written, max(least, begin))",
          "amount=unit.written", T_LADDER),
    Fault("a usual pain lets a weight go on", ON, "if hurts and not ahead[0]:", "if False:", T_MOVING),
    Fault("with a usual pain two are enough", NUMBERS, "CLEAN_WITH_USUAL_PAIN = 3", "CLEAN_WITH_USUAL_PAIN = 2",
          T_MOVING),
    Fault("what hurt elsewhere is forgotten", ON, "if station.item.exercise in held:",
          "if station.item.exercise in held and done.plan.session == 's':", T_ON),
    # over weeks
    Fault("a light day hides too much", CALLED, "(light if t.strength is False else strength).append(t)",
          "strength.append(t)", T_WEEKS),
    Fault("a usual pain is harm", CALLED, "level <= a.level", "level < a.level", T_WEEKS),
    Fault("a high pain hides that it rises", CALLED, "    if _is_rising(levels):\n",
          "    if level < at.PAIN_CAPS and _is_rising(levels):\n", T_WEEKS),
    Fault("much too easy beside harm", OVER_WEEKS, "    if hurting:\n        return\n", "", T_WEEKS),
    Fault("one sore morning is enough", NUMBERS, "SORENESS_TIMES = 7, 3, 2", "SORENESS_TIMES = 7, 3, 1", T_WEEKS),
    Fault("days that nobody knows of count as missed", LIST, "heard = min(today, _heard(line, today) or today)",
          "heard = today", T_WEEKS),
    Fault("a step on ends no stall", STALL, "if step > highest", "if step < highest", T_WEEKS),
    Fault("a week that was too hard marches on", PROGRAMME, "sum(over) >= WEEK_OVER * len(over)",
          "sum(over) > WEEK_OVER * len(over)", T_PROGRAMME),
    Fault("a lighter week for ever", PROGRAMME, "tuple((full or held)[-ROUND_WEEKS:])", "tuple(held[-ROUND_WEEKS:])",
          T_PROGRAMME),
    # sound
    Fault("every cue a sample late", TRACK, "Sound(cue.kind.value, _track_ms(waits, cue.at_ms) * PER_MS,",
          "Sound(cue.kind.value, _track_ms(waits, cue.at_ms) * PER_MS + 1,", T_TRACK),
    Fault("no room for a tap", TRACK, "WAIT_MS = 3_000", "WAIT_MS = 0", T_TRACK),
    Fault("the rest is written a sample off", TRACK, "max(0, at - sound.at)", "max(0, at - sound.at + 1)", T_TRACK),
    Fault("a tone runs into the next", TRACK, "GAP_MS = 10", "GAP_MS = -40", T_TRACK),
    Fault("a line into the count-in", SPOKEN, "last = min([*counted, end_ms]) - AROUND_MS",
          "last = end_ms - AROUND_MS", T_SPOKEN),
    Fault("safety gives way first", SPOKEN, "SAFETY = 0", "SAFETY = 9", T_SPOKEN),
    Fault("a tick over a tone", CUES, "TICK_AFTER_MS, TICK_BEFORE_MS = 700, 200",
          "TICK_AFTER_MS, TICK_BEFORE_MS = 100, 200", T_CUES),
    # files, keys and messages
    Fault("a reply for another person is taken", MESSAGES, "if content.person != person_id:", "if False:", T_ORDER),
    Fault("any coach whose programme is now on this device is believed", MESSAGES, "if person.coach_key != key:",
          "if False:",
          T_ORDER),
    Fault("a message is known by its number alone", MESSAGES,
          "any((r.signer, r.number, r.digest) == (reply.signer, reply.number, reply.digest) for r in earlier)",
          "any((r.signer, r.number) == (reply.signer, reply.number) for r in earlier)", T_ORDER),
    Fault("the message opened last decides", EFFECTS, "return place > told[signer]", "return True", T_ORDER),
    Fault("a new key's messages decide nothing anew", EFFECTS, 'return "" not in told or place[1] > told[""][1]',
          "return not told", T_ORDER),
    Fault("another sealing key is taken", INTAKE, "elif (pinned.signing, pinned.sealing) != keys:",
          "elif pinned.signing != keys[0]:", T_CLOCKS),
    Fault("a return of 2031 is the latest", INTAKE, "can_be = no_later(content.made_utc, now) == content.made_utc",
          "can_be = True", T_CLOCKS),
    Fault("a new phone counts on from the old one", PEOPLE, ".values(last_return_number=0))",
          ".values(last_return_number=table.c.last_return_number))", T_CLOCKS),
    Fault("what was heard in 2031 stands", PEOPLE, "_c.last_return_utc > bindparam(\"most\", ",
          "_c.last_return_utc == bindparam(\"most\", ", T_CLOCKS),
    Fault("any date can be", "app/domain/model/misdated.py", "max(days) > arrived + AHEAD or", "False or", T_CLOCKS),
    Fault("1970 can be", "app/domain/model/misdated.py", " or min(days) < FIRST_DAY", "", T_CLOCKS),
    Fault("a date that cannot be is told last", "app/domain/measures/attention.py",
          "dated = [t for t in recent if t not in aside]", "dated = recent", T_CLOCKS),
    Fault("a pause without an end", "app/domain/dosing/events.py", "return last if last - first < LONGEST_PAUSE else",
          "return last if last > first else", T_CLOCKS),
    Fault("a recovery statement for the same key", TRUST,
          "if pack.signing_key == pinned.signing_key and same_recovery:",
          "if pack.signing_key == pinned.signing_key and same_recovery and by is None:", T_VECTORS),
    Fault("an equal epoch is newer", TRUST, "pinned.epoch < epoch <=", "pinned.epoch <= epoch <=", T_VECTORS),
    Fault("an epoch of any day", TRUST, "pinned.epoch < epoch <= now_s + AHEAD_S", "pinned.epoch < epoch", T_VECTORS),
    Fault("a statement without an epoch beats one with", TRUST, "return pinned.epoch == 0 if epoch == 0 else",
          "return True if epoch == 0 else", T_VECTORS),
    Fault("a replaced key comes back", TRUST, "if pack.signing_key in retired:", "if False:", T_VECTORS),
    Fault("the epoch is not signed", MANIFEST, "_DATED_CHANGE + f\"epoch {epoch}\\n\".encode() if epoch",
          "_DATED_CHANGE if epoch", T_VECTORS),
    Fault("readers are not bound to the header", "app/exchange/crypto/sealing.py",
          "return kind.first_line + b\"\".join(f\"reader {one}\\n\".encode() for one in key_ids)",
          "return kind.first_line", T_VECTORS),
    Fault("a gap in the archive", "app/exchange/packs/archive.py", "if at != archive.start_dir:",
          "if at > archive.start_dir:", T_VECTORS),
    Fault("any ratio of packing", "app/exchange/letters/letter.py",
          "return min(MOST_JSON[kind] + SIGNED_BYTES, max(SMALL, packed * MOST_RATIO))",
          "return MOST_JSON[kind] + SIGNED_BYTES", T_VECTORS),
    Fault("a record of any number of values", PIECES, "        check_values(entry, name, MOST_IN_A_PIECE)\n", "",
          T_VECTORS),
    Fault("brackets of any depth", PIECES, "if len(waiting) > MOST_DEPTH:", "if len(waiting) > 400:", T_VECTORS),
    Fault("letters of other scripts are told apart", "app/domain/model/names.py", ".translate(_DRAWN_LIKE)", "",
          "tests/domain/model/test_names.py"),
    Fault("what is invisible makes another name", "app/domain/model/names.py",
          "if _is_seen(c)).translate", "if c).translate", "tests/domain/model/test_names.py"),
    Fault("only one count of a repetition is read", "app/domain/proofreading/tempo.py", "needed = sum(counts) +",
          "needed = counts[0] +", "tests/domain/proofreading/test_proofreading.py"),
    Fault("the way back takes no time", "app/domain/proofreading/tempo.py",
          "limits.uncounted_s if len(counts) == 1 else 0", "0", "tests/domain/proofreading/test_proofreading.py"),
    Fault("a lighter week sets the mark", "app/domain/proofreading/rising.py", " and not written.lighter]", "]",
          "tests/domain/proofreading/test_proofreading.py"),
    Fault("balance of a warm-up counts", "app/domain/proofreading/weeks_of_programme.py",
          "if _is_main_work(step) and _is_balance(", "if step.exercise and _is_balance(",
          "tests/domain/proofreading/test_proofreading.py"),
)
