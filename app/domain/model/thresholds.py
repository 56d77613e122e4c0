"""Every number of pain, soreness, effort and days that decides, each once, beside the rule table and part of it.

Nothing else in the program holds a copy; `tests/test_thresholds.py` looks for them. All are [P], coaching conventions
at their careful edge, except where a reference of `app/domain/model/references.py` is named.
"""
from __future__ import annotations

from datetime import timedelta

# ------------------------------------------------------------------ pain, 0–10

PAIN_HOLDS = 3
"""From here on nothing moves on, and a session is not clean."""
PAIN_CAPS = 4
"""From here on the region's axes are capped, no functional check is offered, and the coach is shown it.

Pain monitoring was studied in younger people, so this is its stricter edge. Source: SILBERNAGEL_2007.
"""
PAIN_RESTS = 6
"""From here on nothing may load the region, and a call to somebody is worth it. Source: SILBERNAGEL_2007."""
PAIN_ENDS = 8
"""From here on a session ends, and none begins before a clinician's yes."""
PAIN_RISE = 2
"""Points by which a pain has meaningfully changed. Source: SALAFFI_2004."""
USUAL_PAIN_MOST = 5
"""A usual pain may be agreed up to here. Source: SILBERNAGEL_2007, the most that was allowed in it."""

# ------------------------------------------------------------------ soreness of muscles, 0–10

SORENESS_HOLDS = 4
SORENESS_EASES = 6
SORENESS_LIGHT = 8
SORENESS_LONG = SORENESS_EASES
"""Soreness of this much that goes on for days is asked about; how long is in the rule table."""

# ------------------------------------------------------------------ effort, 0–10, and what was done, percent

EFFORT_OVER = 2
"""Points above the effort that was meant that count as too hard: a step back, and twice running the coach is told."""
EFFORT_TOP = 9
"""From here on a session was as hard as can be, whatever was meant."""
WEEK_OVER = EFFORT_OVER
"""Points above, on average over its strength sessions, at which a week of a programme is done once more. [P]"""
WEEKS_AGAIN = 2
"""Times that a week was begun once more from which the coach is told. [P]"""
WHOLE_FROM = 95
"""Percent of the planned work from which a session counts as done to its end, and is clean."""
COUNTS_FROM = 60
"""Percent from which a session counts as one of the week's."""
CLEAN_NEEDED = 2
"""Clean sessions running before anything moves on."""
CLEAN_WITH_USUAL_PAIN = 3
"""The same for what loads a joint with an agreed usual pain."""
EFFORT_UNDER = 2
"""Points below the effort that was meant that count as much too easy."""

# ------------------------------------------------------------------ what the coach is told of, over weeks
# Told to the coach and to nobody else; none of it changes a dose. One rating varies by about a point from day to day,
# so that a mean of four, or most of the last few, is waited for.

LAST_SESSIONS = 4
"""So many of the last strength sessions are looked at together."""
MEAN_OVER = 1
"""Points above the effort that was meant, on average over them, that are too much."""
TOO_MUCH_TIMES, EARLY_TIMES = 2, 3
"""Times among them that one ended as too much, or with less done than counts, from which the coach is told."""
EASY_OF, EASY_TIMES = 5, 4
"""Much too easy in so many of the last clean strength sessions."""
FEEL_OF, FEEL_TIMES = 5, 3
"""An answer at its lowest in so many of the last mornings."""
FEEL_FALL = 3
"""Points by which slept, energy and settled together lie lower over a fortnight than before: the median."""
SORENESS_TOLD, SORENESS_OF, SORENESS_TIMES = 7, 3, 2
"""Soreness of this much in so many of the last mornings."""
RATE_DAYS, RATE_MISSED = 42, 2
"""Sessions of a fortnight are held against those of so many days before; at least so many must be missing."""
STALL_DAYS, STALL_SESSIONS, STALL_DONE = 21, 4, 70
"""Nothing moved on for so long, though so many sessions were done, and so many percent of those that were due."""
STALL_LOOK_DAYS = 56
"""So far back a station's highest step is looked for; what came before a long gap is no measure any more."""

# ------------------------------------------------------------------ blood pressure at rest, mmHg: upper, lower

PRESSURE_STOPS = (180, 110)
"""From either figure on nobody starts. Source: HEART_ONLINE_2026, a clinic's page; the papers were not read."""
PRESSURE_STOPS_HEART = 100
"""The lower figure with a heart condition: a British list for heart patients, known from a copy only. [P]"""
PRESSURE_ASKS = (160, 100)
"""From either figure on a clinician is asked first. [P]"""

# ------------------------------------------------------------------ days

STRENGTH_GAP_DAYS = 2
"""Days from one session with strength work to the next, the second one counted. Source: ACSM_AHA_2007."""
FORTNIGHT_DAYS = 14
"""A fortnight without a session is silence; beyond it a station goes a step back, and an effort told is a guess."""
ROUND_WEEKS = 3
"""So many of the last full weeks go round after the end of a programme. A lighter week is not needed in the first
months. Source: CONLON_2016, [P] for how many."""
NOTHING_BACK_DAYS = 21
"""Days without a return after which the coach asks."""
FOUR_WEEKS_DAYS = 28
"""Off for so long, the stop questions are asked again; as far back the coach's list of harm looks."""
GAP_EASES, GAP_BACK, GAP_OUT = 8, FORTNIGHT_DAYS + 1, FOUR_WEEKS_DAYS + 1
"""Days off that ease a session a little, take a step back, and go back to what was written."""
FALL_HOLDS_DAYS, FALL_SUPPORT_DAYS = FORTNIGHT_DAYS, 56
"""Days after a fall in which nothing moves on, and in which balance is done with a hand on something only."""
STEP_DAYS = 7
"""An exercise moves on once in so many days, however often it is done."""
FLARE_ASKED_DAYS, FLARE_DAYS = FOUR_WEEKS_DAYS, 2
"""For so long after an illness it is asked whether they felt worse up to so many days after a session. [P]"""
FEVER_FREE_HOURS = 48
FEVER_FREE = timedelta(hours=FEVER_FREE_HOURS)
"""So long without fever before one's own word is enough."""
TELL_BACK_DAYS = 7
"""For so many days, today included, a fall or an activity may still be written down."""
CHECKS_DAYS = 366
"""So far back the check before the last one is looked for."""
RETEST = timedelta(weeks=6)
"""From one functional check to the reminder of the next."""
