"""What is said of a station that moved."""
from __future__ import annotations

import pytest

from app.domain.model.plan import Move, MoveKind, StepReason
from app.words.client.progression import WHY, move_text
from tests.domain.days import LIBRARY


@pytest.mark.parametrize(("move", "said"), [
    (Move("rise", 1, MoveKind.SECONDS, StepReason.CLEAN, 30, 35),
     "5 seconds more, 35 in all, after two good sessions."),
    (Move("curl", 1, MoveKind.REPS, StepReason.SKIPPED, 8, 9), "1 repetition more, 9 in all, because it was left out."),
    (Move("rise", 3, MoveKind.HARDER, StepReason.CLEAN, 30, 30, "low"),
     "A harder version of “Stand up from a chair”, after two good sessions."),
    (Move("curl", 3, MoveKind.LOAD, StepReason.CLEAN, 2000, 3000), "3 kg instead of 2 kg, after two good sessions."),
    (Move("rise", 4, MoveKind.LOAD, StepReason.HELD, 2000, 2500, "low"),
     "A harder version of “Stand up from a chair”, with 2.5 kg instead of 2 kg, as the coach asked."),
    (Move("rise", 0, MoveKind.SECONDS, StepReason.HURT, 30, 30), "Back to the plan, 30 seconds, because it hurt."),
])
def test_each_move_is_one_plain_sentence(move: Move, said: str) -> None:
    """What is more, how much it is in all, and why."""
    assert move_text(move, {i: e.name for i, e in LIBRARY.items()}) == said
    assert set(WHY) == set(StepReason)
