"""One name for a thing, and one thing for a name: `app/words/TERMS.md` against every sentence that somebody reads."""
from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).resolve().parents[2]
TABLE = ROOT / "app" / "words" / "TERMS.md"
WORDS = ROOT / "app" / "words"
LIBRARY = ROOT / "assets" / "programmes" / "brackwater"
SCOPES = {"clients", "app", "everywhere"}
#: What a client reads, of the words that are in no package of their own.
OF_CLIENTS = {"text.py", "signs.py", "reasons.py", "amounts.py", "demands.py", "kit.py", "parts.py", "plain_rules.py"}


class Term(NamedTuple):
    """A line of the table: what is said, what never is, and where."""

    say: str
    never: tuple[re.Pattern[str], ...]
    where: str


class Sentence(NamedTuple):
    """What somebody reads, where it is, and who reads it."""

    place: str
    said: str
    where: str


def terms(page: str) -> list[Term]:
    """The rows of every table in the page; a bar inside a cell is written with a backslash."""
    rows = [re.split(r"(?<!\\)\|", line)[1:-1] for line in page.splitlines() if line.startswith("| ")]
    cells = [[cell.strip() for cell in row] for row in rows]
    return [Term(say, tuple(re.compile(p.replace(r"\|", "|")) for p in re.findall(r"`([^`]+)`", never)), where)
            for say, _, never, where in cells if say != "Say"]


def literals(path: Path) -> Iterator[tuple[int, str]]:
    """(line, text) of every string of a module that is no docstring; what is filled in stands as {}."""
    tree = ast.parse(path.read_text("utf-8"))
    said = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    parts = {id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in ast.walk(node)
             if part is not node and not isinstance(part, ast.JoinedStr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            yield node.lineno, "".join(str(v.value) if isinstance(v, ast.Constant) else "{}" for v in node.values)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and not {id(node)} & (said | parts):
            yield node.lineno, node.value


def _words() -> Iterator[Sentence]:
    for path in sorted(WORDS.rglob("*.py")):
        clients = path.parent.name == "client" or path.name in OF_CLIENTS
        for line, said in literals(path):
            if not re.fullmatch(r"[a-z_]*", said):  # an id
                yield Sentence(f"{path.relative_to(ROOT)}:{line}", said, "clients" if clients else "app")


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for key, inner in value.items():
            if key not in {"id", "easier", "equipment"}:
                yield from _texts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _texts(inner)


def _library() -> Iterator[Sentence]:
    for path in sorted(LIBRARY.rglob("*.toml")):
        for said in _texts(tomllib.loads(path.read_text("utf-8"))):
            if " " in said:
                yield Sentence(str(path.relative_to(ROOT)), said, "everywhere")


@cache
def sentences() -> tuple[Sentence, ...]:
    """Everything that the table speaks about."""
    return (*_words(), *_library())


def holds_for(term: Term, sentence: Sentence) -> bool:
    """What holds everywhere holds in the app, and what holds in the app holds for clients."""
    order = ("everywhere", "app", "clients")
    return order.index(term.where) <= order.index(sentence.where)


def found(term: Term) -> list[str]:
    """Every place that says it another way."""
    return [f"{one.place}: {one.said!r}" for one in sentences() if holds_for(term, one)
            and any(pattern.search(one.said) for pattern in term.never)]


TERMS = terms(TABLE.read_text("utf-8"))


@pytest.mark.parametrize("term", TERMS, ids=lambda term: term.say)
def test_nothing_is_said_in_two_ways(term: Term) -> None:
    """Whoever adds a sentence finds the name of the thing in the table."""
    assert found(term) == []


def test_every_row_can_be_held() -> None:
    """Each has its patterns and its place, and no name stands twice."""
    assert len(TERMS) > 40 and all(term.never and term.where in SCOPES for term in TERMS)
    assert len({term.say for term in TERMS}) == len(TERMS)


def test_no_name_is_forbidden_by_another_row() -> None:
    """What the table tells to say may be said."""
    clashes = [(a.say, b.say) for a in TERMS for b in TERMS for pattern in b.never if pattern.search(a.say)]
    assert clashes == []


def test_a_sentence_that_breaks_a_row_is_found(tmp_path: Path) -> None:
    """Also where it is put together from pieces, and not in a docstring."""
    module = tmp_path / "some_words.py"
    module.write_text('"""A docstring about a stop sign."""\ndef f(n: int) -> str:\n'
                      '    """One more."""\n    return f"Pain {n} of 10, "\\\n        "and a stop sign"\n', "utf-8")
    assert [said for _, said in literals(module)] == ["Pain {} of 10, and a stop sign"]
    said = Sentence("x", "Pain {} of 10, and a stop sign", "clients")
    broken = [t.say for t in TERMS if holds_for(t, said) and any(p.search(said.said) for p in t.never)]
    assert broken == ["warning sign", "on hold", "4 out of 10"]
