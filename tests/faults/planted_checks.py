"""The same in the stop questions and the functional checks."""
from __future__ import annotations

from tests.faults.planted import Fault

ASKED, CHECKS, FIGURES = ("app/domain/dosing/screening.py", "app/domain/checks/functional_checks.py",
                          "app/domain/checks/published_figures.py")
T_ASKED = "tests/domain/dosing/test_screening.py"
T_CHECKS, T_FIGURES = (f"tests/domain/checks/test_{m}.py" for m in ("functional_checks", "published_figures"))
ANSWERED, T_ANSWERED = "app/actions/training/screening.py", "tests/actions/training/test_screening.py"

FAULTS: tuple[Fault, ...] = (
    Fault("an unknown tick only sets something", ASKED, "    if found - set(WITH_SETTINGS):\n",
          "    if found & set(ASK_FIRST):\n", T_ASKED),
    Fault("who answered before is asked everything", ASKED, "FIRST_LIST if asked else frozenset()", "frozenset()",
          T_ASKED),
    Fault("the new answers forget what waits", ANSWERED, "waiting=person.waiting | stopping(ticked))",
          "waiting=stopping(ticked))", T_ANSWERED),
    Fault("a tick that stops sets nothing", ANSWERED,
          "person.body.conditions | frozenset(settings_of(ticked))", "person.body.conditions", T_ANSWERED),
    Fault("on one leg without a hold for who falls", CHECKS, "Axis.SINGLE_LEG_BALANCE: 3, Axis.UNHELD_BALANCE: 3, ",
          "", T_CHECKS),
    Fault("a new hip sits low", CHECKS, "    if check is FunctionalCheck.CHAIR_STAND and new_hip:\n", "    if False:\n",
          T_CHECKS),
    Fault("an old agreement holds for ever", CHECKS, "    if usual is None or usual.until < today:\n",
          "    if usual is None:\n", T_CHECKS),
    Fault("a usual pain of 5 is measured at 5", CHECKS, "min(usual.level + 1, USUAL_PAIN_MOST)", "usual.level + 1",
          T_CHECKS),
    Fault("the walk changes at once", CHECKS, "FunctionalCheck.WALK: 2_100", "FunctionalCheck.WALK: 1_200", T_CHECKS),
    Fault("seats of any height are alike", CHECKS, " and apart <= SEATS_ALIKE_CM", "", T_CHECKS),
    Fault("a high seat is placed in the band", FIGURES, "abs(seat_cm - SEAT_CM) > SEAT_NEAR_CM", "seat_cm < 0",
          T_FIGURES),
    Fault("10 seconds are short", FIGURES, "told < ONE_LEG_SHORT_MS", "told <= ONE_LEG_SHORT_MS", T_FIGURES),
)
