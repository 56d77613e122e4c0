"""A file's name tells whose it is to nobody who does not know already."""
from __future__ import annotations

from app.exchange.letters.file_names import copy_name, mark_of, reply_name, return_name


def test_names_carry_a_mark_and_a_number_alone() -> None:
    """The same person's files share a mark; another's have another."""
    mark = mark_of("8b1f-nora")
    assert return_name("8b1f-nora", 7) == f"diary-{mark}-7.evenload-return"
    assert reply_name("8b1f-nora", 3) == f"message-{mark}-3.evenload-reply"
    assert copy_name("8b1f-nora", ".html") == f"diary-{mark}.html"
    assert mark != mark_of("8b1f-maud") and len(mark) == 6 and "nora" not in mark
