"""What of a record travels, by what somebody agreed to send."""
from __future__ import annotations

from dataclasses import replace

from app.domain.model.person import Person
from app.domain.model.plan import Move, MoveKind, StepReason
from app.exchange.letters.agreed_records import agreed_records
from tests.domain.days import Days


def test_that_it_hurt_does_not_travel_where_pain_is_not_sent() -> None:
    """Nor that something hurts today; any other reason does."""
    done = Days().do(0)
    moves = tuple(Move("rise", 0, MoveKind.SECONDS, because, 30, 30) for because in StepReason)
    done = replace(done, plan=replace(done.plan, moves=moves))
    sent, = agreed_records(Person("p", "Ines", sends=frozenset({"sessions"})), [done])
    assert isinstance(sent, type(done))
    told = {one.because for one in sent.plan.moves}
    assert told == set(StepReason) - {StepReason.HURT, StepReason.PAIN}
    whole, = agreed_records(Person("p", "Ines"), [done])
    assert whole == done
