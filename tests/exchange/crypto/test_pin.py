"""A PIN is known again and never kept itself, and wrong ones take longer and longer."""
from __future__ import annotations

import itertools
from datetime import timedelta

import pytest

from app.domain.errors import EasyPin
from app.exchange.crypto.pin import FREE_TRIES, LONGEST_WAIT, KeptPin, fits, kept_pin, wait_after
from tests.exchange.fixed import run


def test_what_is_kept_knows_its_pin_and_does_not_hold_it() -> None:
    """Two of the same PIN have nothing in common; space around it does not count."""
    one, two = run(kept_pin("4719")), run(kept_pin("4719"))
    assert one.key != two.key and "4719" not in f"{one!r}{one.as_json()}"
    again = KeptPin.from_json(one.as_json())
    assert run(fits(again, " 4719 ")) and not run(fits(again, "4718")) and not run(fits(again, ""))


@pytest.mark.parametrize("pin", ["", "471", "471947194", "0000", "1234", "8765", "47a9", "４７１９", "47 19"])
def test_no_pin_or_one_that_is_tried_first_is_refused(pin: str) -> None:
    """Four to eight digits, not all the same, not counting up or down."""
    with pytest.raises(EasyPin):
        run(kept_pin(pin))


def test_wrong_ones_take_longer_and_longer_to_a_limit() -> None:
    """A few are free; then a minute, and each further one twice as long."""
    waits = [wait_after(wrong) for wrong in range(FREE_TRIES + 60)]
    assert waits[:FREE_TRIES + 1] == [timedelta(0)] * (FREE_TRIES + 1)
    assert waits[FREE_TRIES + 1] == timedelta(minutes=1)
    later = waits[FREE_TRIES + 1:]
    assert all(b == min(2 * a, LONGEST_WAIT) for a, b in itertools.pairwise(later))
    assert later[-1] == LONGEST_WAIT
