"""What to see to before a session speaks to the right person, and holds what this body needs."""
from __future__ import annotations

from app.domain.model.client import Client, Condition
from app.words.client import safety

FALLS = Client(conditions=frozenset({Condition.FALLS, Condition.INSULIN}), alone=True)


def test_whoever_leads_is_not_told_to_check_their_own_sugar() -> None:
    """Each line names whom it is about."""
    led = [*safety.safety_lines(FALLS, led=True, asked="Anton"), *safety.look_lines(FALLS, ["chair"], "Anton")]
    assert led.pop(0) == safety.SAFETY_LEAD and any("Anton’s sugar" in line for line in led)
    assert not any({"you", "your"} & set(line.lower().replace(",", " ").split()) for line in led)


def test_the_stop_line_is_for_everybody_and_the_room_for_the_kit() -> None:
    """Somebody without conditions and without a chair."""
    assert safety.safety_lines(Client(alone=False), led=False) == [safety.SAFETY_ALWAYS]
    assert safety.CHAIR not in safety.look_lines(Client(alone=False), [])
    assert safety.CHAIR in safety.look_lines(Client(alone=False), ["chair"])
