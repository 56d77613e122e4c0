"""The text form: what messengers and mail programs do to it does no harm; what people do to it is noticed."""
from __future__ import annotations

import contextlib
import textwrap

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import DamagedFile, FileError, NotOurFile, TooLargeToPaste
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.text_form import MOST_PACK_BYTES, from_text, to_text, unwrapped
from app.exchange.letters.returns import write_return
from app.words.errors import error_text
from tests.exchange.fixed import CLIENT, READERS, RETURN, run

kinds = st.sampled_from(Kind)


@given(st.binary(max_size=2_000), kinds)
def test_any_bytes_survive_as_plain_text(data: bytes, kind: Kind) -> None:
    """ASCII, in lines that mail carries."""
    text = to_text(data, kind)
    assert from_text(text) == data and text.isascii() and max(map(len, text.splitlines())) <= 998


@given(st.binary(max_size=300), st.data())
def test_wrapping_quoting_and_chatter_do_no_harm(data: bytes, draw: st.DataObject) -> None:
    """Any width, any depth of quoting, any line ends, invisible characters, words before and behind."""
    text = to_text(data, Kind.RETURN)
    if draw.draw(st.booleans()):
        text = "\n".join(textwrap.wrap(text, draw.draw(st.integers(5, 90)), break_on_hyphens=False))
    quote = draw.draw(st.sampled_from(("", "> ", ">> ", " > > ", "\t", "\u00a0", "\u200b")))
    end = draw.draw(st.sampled_from(("\n", "\r\n", "\n\n", " \n")))
    chatter = draw.draw(st.sampled_from(("", "Hello Nell, here it is:\n", "[1] a note = a note\n")))
    text = chatter + end.join(quote + line for line in text.splitlines()) + end + "Best wishes\n> Ada"
    assert from_text(text) == data


@given(st.binary(min_size=1, max_size=200), st.data())
def test_a_changed_letter_is_noticed(data: bytes, draw: st.DataObject) -> None:
    """By the checksum or by the brackets."""
    text = to_text(data, Kind.RETURN)
    at = draw.draw(st.integers(0, len(text) - 1))
    letter = draw.draw(st.sampled_from("AZaz09+/=x]["))
    changed = text[:at] + letter + text[at + 1:]
    with contextlib.suppress(FileError):
        assert from_text(changed) == data, "only where the change says nothing, such as a letter's case in the brackets"


def test_a_lost_line_or_a_lost_end_is_damaged() -> None:
    """Nothing is taken in by half."""
    lines = to_text(bytes(range(256)), Kind.REPLY).splitlines()
    for kept in (lines[:-1], lines[:2] + lines[3:], [lines[0], lines[-1]], lines[:1]):
        with pytest.raises(DamagedFile):
            from_text("\n".join(kept), "message")
    with pytest.raises(NotOurFile):
        from_text("\n".join(lines[1:]), "message")
    with pytest.raises(DamagedFile):
        from_text("\n".join(lines).replace("reply end", "return end"), "message")


@given(st.text(max_size=200))
def test_ordinary_words_are_not_ours(text: str) -> None:
    """A message without a text form in it is said to be just that."""
    with pytest.raises(NotOurFile):
        from_text(text, "message")


def test_a_file_is_found_in_either_form() -> None:
    """The same intake for both."""
    data = run(write_return(RETURN, client=CLIENT, readers=READERS))
    assert unwrapped(data, "file") == data
    assert unwrapped(to_text(data, Kind.RETURN).encode(), "file") == data
    assert unwrapped(("\ufeff" + to_text(data, Kind.RETURN)).encode(), "file") == data
    for noise in (b"", b"\xff\xfe\x00\x01", b"PK\x03\x04"):
        with pytest.raises(NotOurFile):
            unwrapped(noise, "file")


def test_a_small_pack_travels_as_text_and_a_large_one_says_so_plainly() -> None:
    """The limit is exact on both sides, and what is said names the way that is left."""
    most = bytes(MOST_PACK_BYTES)
    assert unwrapped(to_text(most, Kind.PACK).encode(), "pack") == most
    with pytest.raises(TooLargeToPaste):
        to_text(most + b"x", Kind.PACK, "march.evenload-pack")
    over, far_over = (to_text(most + bytes(more), Kind.RETURN).replace("evenload return", "evenload pack")
                      for more in (1, MOST_PACK_BYTES))
    for text in (over, far_over, far_over[:2 * MOST_PACK_BYTES]):
        with pytest.raises(TooLargeToPaste) as refused:
            from_text(text, "This text")
        assert error_text(refused.value).startswith("This text is too large to paste")
        assert error_text(refused.value).endswith("choose the file.")
