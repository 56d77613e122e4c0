"""A reply: from the coach that is known, to the client that it is for."""
from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import NotOurFile, UntrustedSigner, WrongRecipient, WrongValue
from app.exchange.crypto.keys import KeyPair
from app.exchange.letters.replies import ReplyContent, Yes, read_reply, write_reply
from tests.exchange.damage import assert_refused, cut, flipped
from tests.exchange.fixed import CLIENT, COACH, OTHER_CLIENT, REPLY, STRANGER, run
from tests.generators import axes, instants, listed, slugs, spots, texts

KNOWN = (COACH.signing.public,)


async def _read(data: bytes, *keys: KeyPair) -> ReplyContent:
    return await read_reply(data, "file", private_keys=keys or (CLIENT.sealing,), coach_keys=KNOWN)


def _write(content: ReplyContent = REPLY, coach: KeyPair = COACH.signing) -> bytes:
    return run(write_reply(content, coach=coach, readers=(CLIENT.sealing.public, COACH.sealing.public)))


demands = st.integers(0, 3)
replies = st.builds(
    ReplyContent, slugs, st.integers(1, 10_000_000), instants, texts(), st.none() | st.dictionaries(spots, demands),
    st.none() | st.dictionaries(axes, demands), listed(st.tuples(slugs, slugs)),
    st.none() | st.builds(Yes, slugs, texts(least=1), st.sampled_from(("coach", "physiotherapist", "surgeon's nurse"))),
    texts(), held=st.none() | st.frozensets(slugs, max_size=3),
)


@given(replies)
def test_what_a_coach_answers_the_client_reads(content: ReplyContent) -> None:
    """Limits that are left alone and limits that are cleared stay two different things."""
    read = run(_read(_write(content)))
    assert replace(read, coach_signing_public=b"") == content
    assert read.coach_signing_public == COACH.signing.public
    assert (read.spare is None) == (content.spare is None) and (read.limits is None) == (content.limits is None)


def test_the_coach_can_read_it_again_and_others_cannot() -> None:
    """Sealed to the client and to the coach's own key."""
    assert run(_read(_write(), COACH.sealing)).message == REPLY.message
    assert_refused(lambda data: _read(data, OTHER_CLIENT.sealing), _write(), WrongRecipient)


def test_a_stranger_cannot_answer_for_the_coach() -> None:
    """Whatever name it carries."""
    assert_refused(_read, _write(coach=STRANGER.signing), UntrustedSigner)


def test_any_flipped_byte_and_any_cut_is_refused() -> None:
    """Anywhere in the file."""
    data = _write()
    for harmed in (*flipped(data), *cut(data), data + b"\0"):
        assert_refused(_read, harmed)


def test_a_return_is_not_read_as_a_reply() -> None:
    """The first line says what it is."""
    assert_refused(_read, _write().replace(b"reply", b"return", 1), NotOurFile)


@pytest.mark.parametrize("content", [
    replace(REPLY, number=0), replace(REPLY, clearance=Yes("c-1", "Dr Moss", "")),
    replace(REPLY, clearance=Yes("c-1", "", "coach")), replace(REPLY, swaps=(("Rise", "perch"),)),
    replace(REPLY, person=""), replace(REPLY, spare={next(iter(REPLY.spare or {})): 4}),
])
def test_nothing_is_written_that_a_reader_would_refuse(content: ReplyContent) -> None:
    """A mistake shows at the coach's."""
    with pytest.raises(WrongValue):
        _write(content)
