"""Names that are read as the same are the same, and others are not."""
from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.model.names import reads_like, skeleton


@pytest.mark.parametrize("other", [
    "Nell Harker", "nell  harker", "N\u0435ll Harker", "Nell Hark\u0435r", "N\u200bell Harker", "Nell\u2060 Harker",
    "\u202eNell Harker", "Nell \u2066Harker\u2069", "Ｎｅｌｌ Ｈａｒｋｅｒ", "Nell Harker.", "Nell Harker \u00b7",
    "Nell\x85Harker", "Nell\u0007 Harker", "Ne\u0301ll Harker", "N\u00e9ll Harker", "NELL\u00a0HARKER", "Ne11 Harker",
    "Nell\u3164 Harker",
    "\ufeffNell Harker", "𝐍𝐞𝐥𝐥 Harker", "Nell H\u0430rker",
])
def test_these_read_like_nell_harker(other: str) -> None:
    """Other scripts' letters, nothing to see, directions, widths, accents put together or not, marks at an end."""
    assert reads_like("Nell Harker", other)


@pytest.mark.parametrize("other", ["Nell Barker", "Nel Harker", "Nella Harker", "Harker Nell", "", " ", "\u200b"])
def test_these_do_not(other: str) -> None:
    """One letter more or less is another name, and nothing is like a blank one."""
    assert not reads_like("Nell Harker", other)
    assert not reads_like(other, "") and not reads_like("", other)


def test_names_in_other_scripts_stay_apart() -> None:
    """Only what looks the same is the same."""
    assert not reads_like("Анна", "Anna")
    assert not reads_like("Иван", "Иванна") and reads_like("Иван", "ИВАН")
    assert not reads_like("محمد", "محمود") and not reads_like("李娜", "李那")


@given(st.text(max_size=40))
def test_forms_of_one_text_read_alike(name: str) -> None:
    """Composed, decomposed, in capitals where that is reversible; and once is as good as twice."""
    bare = skeleton(name)
    assert skeleton(unicodedata.normalize("NFD", name)) == skeleton(unicodedata.normalize("NFC", name)) == bare
    assert reads_like(name, name) is bool(bare)
