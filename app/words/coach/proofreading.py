"""Words of the proofreader: what is wrong, and how to fix it. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.proofreading.finding import Finding
from app.words.text import AXIS_WORDS

#: Rule → what is wrong, and how to fix it; `{limit}` is the coach's own limit or the shipped one.
PROBLEMS: Mapping[str, tuple[str, str]] = {
    # ---- ladders
    "easier_asks_more": ("An easier option asks more than the exercise it eases.",
                         "Lower its rating, or make it easier for something else."),
    "relief_not_there": ("An easier option claims to relieve what it does not.", "List only what it asks less of."),
    "ladder_in_a_circle": ("The easier options lead back to the exercise itself.", "Break the circle."),
    "no_easier_option": ("A high demand has no easier option.", "Add an easier option that asks less there."),
    "unknown_kit": ("It needs kit that nobody can tick.",
                    "Use one of the equipment words listed in the format."),
    # ---- times and sides
    "no_repetition_fits": ("The work interval is too short for a single repetition (seconds).",
                           "Give it at least {limit} s, or count repetitions."),
    "endless_work": ("One work interval is far too long (seconds).", "Ask for fewer repetitions, or a quicker tempo."),
    "endless_session": ("The session is far too long (minutes).", "Remove rounds or stations."),
    "side_missing": ("One side is left out, and no reason is given.",
                     "Train both sides, or write the reason in one_side_because."),
    "sides_differ": ("Left and right don’t get the same amount.",
                     "Ask for an even number, or the same time on both sides."),
    "side_reason_without_sides": ("An exercise without sides has a reason for one side.", "Remove the reason."),
    "long_hold": ("A hold is too long (seconds).",
                  "Hold at most {limit} s; breathe out, never hold the breath."),
    "tempo_too_quick": ("A repetition is quicker than its cues count (seconds).",
                        "Give a repetition at least {limit} s, or count less."),
    "stated_length": ("The session takes longer or shorter than it says (minutes).",
                      "Correct the stated length, or change the rounds, work or rest."),
    # ---- before and after
    "short_warm_up": ("The warm-up is short (seconds).", "Add an exercise or some seconds, up to {limit} s."),
    "short_cool_down": ("The cool-down is short (seconds).", "Add a stretch or some seconds, up to {limit} s."),
    "not_warmed_up": ("The muscles used in a demanding station are not warmed up.", "Add a warm-up exercise for them."),
    "not_stretched": ("A muscle that was worked isn’t stretched afterwards.", "Add a stretch for it to the cool-down."),
    # ---- stations and their order
    "floor_changes": ("Too many changes between standing and floor in one round.", "Group the floor stations."),
    "muscle_in_a_row": ("The same muscle works in several stations in a row.",
                        "Put a station for other muscles between them."),
    "grip_in_a_row": ("The hands grip hard in several stations in a row.",
                      "Put a station that rests the hands between them."),
    "wrist_in_a_row": ("The wrists bear weight in several stations in a row.",
                       "Put a station that rests the wrists between them."),
    "wrist_often": ("The wrists bear weight in many stations.", "Remove some, or use fists, forearms or a wall."),
    "overhead_often": ("Weights go overhead in many stations.",
                       "Keep {limit} of them, and push forward in the others."),
    "impact": ("The steps jar more than allowed here.", "Use a step instead of a hop, or set your own limit."),
    "balance_unsupported": ("Full balance work with nothing to hold on to.", "Put it beside a worktop or a wall."),
    "balance_when_tired": ("Full balance work comes after the strength work.", "Put it before the rounds."),
    "head_low_after_effort": ("The head goes low straight after effort.",
                              "Put a gentle station or a standing stretch in between."),
    # ---- weeks
    "push_and_pull": ("Pushing and pulling are out of balance over the week (percent).",
                                                                             "Add more of the one that is short."),
    "knee_and_hip": ("Squatting and hip bending are out of balance over the week (percent).",
                     "Add more of the one that is short."),
    "week_without": ("A week lacks something every week needs.", "Add it to one of the sessions."),
    "does_not_rise": ("Something that should build up stays the same for too long (weeks).",
                      "Add time, weight or a harder option, after {limit} weeks at the latest."),
    "no_lighter_week": ("No lighter week for too long (weeks).", "Make one of every four to six weeks lighter."),
    "much_work_early": ("Too much work for the rest in the first weeks (percent).",
                                                                        "Start at 30 s work, 30–40 s rest."),
    "work_rises_fast": ("Work against rest goes up by more than a step in a week (steps).",
                        "Go from 20/30 s over 30/30 s to 40/20 s, a week or more at each."),
}
WEEK_WORDS: Mapping[str, str] = {
    "squat": "a squat", "hinge": "a hip hinge", "push": "a push", "pull": "a pull", "balance": "balance",
}


def what_words(what: str) -> str:
    """What a problem is about: an axis, a muscle, an exercise by its id, or something that a week needs."""
    about = what.split(":")[-1]
    return AXIS_WORDS.get(about) or WEEK_WORDS.get(about) or about.replace("_", " ")


def problem_text(problem: Finding) -> str:
    """What is wrong, with what it is about."""
    about = f" ({what_words(problem.what)})" if problem.what else ""
    return PROBLEMS[problem.rule][0].rstrip(".") + about + "."


def problem_mend(problem: Finding) -> str:
    """How to fix it."""
    return PROBLEMS[problem.rule][1].replace("{limit}", str(problem.limit))
