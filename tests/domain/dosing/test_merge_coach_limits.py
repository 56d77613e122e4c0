"""A coach's limit never loosens one's own, and one's own comes back when the coach's is taken back."""
from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from app.domain.dosing.merge_coach_limits import with_coach_limits

caps = st.dictionaries(st.sampled_from("abcd"), st.integers(0, 3))


@given(caps, caps)
def test_a_coach_never_loosens(own: dict[str, int], coach: dict[str, int]) -> None:
    """Every limit afterwards is at most the client's own and at most the coach's."""
    holds, _ = with_coach_limits(own, {}, coach)
    assert set(holds) == set(own) | set(coach)
    assert all(holds[k] <= own.get(k, 3) and holds[k] <= coach.get(k, 3) for k in holds)


@given(caps, st.lists(caps, max_size=4))
def test_taking_all_back_leaves_ones_own(own: dict[str, int], sent: list[dict[str, int]]) -> None:
    """However many messages came between, an empty one gives back what the client had set."""
    now, kept = dict(own), {}
    for coach in [*sent, {}]:
        now, kept = with_coach_limits(now, kept, coach)
    assert now == own and kept == {}


@given(caps, caps, caps)
def test_the_latest_message_counts(own: dict[str, int], first: dict[str, int], second: dict[str, int]) -> None:
    """Two messages lead to the same limits as the second alone."""
    between, kept = with_coach_limits(own, {}, first)
    assert with_coach_limits(between, kept, second)[0] == with_coach_limits(own, {}, second)[0]


def test_a_limit_changed_since_stays_as_changed() -> None:
    """What the client set by hand after a message is theirs."""
    now, kept = with_coach_limits({"a": 2}, {}, {"a": 1})
    assert now == {"a": 1}
    assert with_coach_limits({"a": 0}, kept, {})[0] == {"a": 0}
