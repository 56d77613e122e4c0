"""A reader that shares no code with the program makes the same of every vector."""
from __future__ import annotations

import ast
import hashlib
import json
from pathlib import Path

import pytest

from app.exchange.forms.to_json import to_json
from tests.exchange import other_reader
from tests.exchange.letter_scenarios import REPLY
from tests.exchange.make_vectors import FOLDER, SCENARIOS

VECTORS = sorted(FOLDER.glob("*.vector"))


@pytest.mark.parametrize("path", VECTORS, ids=lambda path: path.stem)
def test_it_reads_and_refuses_as_the_vector_says(path: Path) -> None:
    """The same error, or the same words."""
    expected = next(line for line in path.read_text("latin-1").splitlines() if line.startswith("expect: "))
    assert f"expect: {other_reader.outcome(path.read_bytes())[0]}" == expected


def test_it_shares_no_code_with_the_program() -> None:
    """Neither directly nor through the tests."""
    tree = ast.parse(Path(other_reader.__file__).read_text("utf-8"))
    imported = {name for node in ast.walk(tree) for name in (
        [alias.name for alias in node.names] if isinstance(node, ast.Import)
        else [node.module or ""] if isinstance(node, ast.ImportFrom) else [])}
    assert not [name for name in imported if name.split(".")[0] in ("app", "tests")]


def test_it_reads_what_the_program_wrote() -> None:
    """The values of the usual vectors, as they were put in."""
    _, pack = other_reader.outcome((FOLDER / "pack-ok.vector").read_bytes())
    _, back = other_reader.outcome((FOLDER / "return-ok.vector").read_bytes())
    _, reply = other_reader.outcome((FOLDER / "reply-ok.vector").read_bytes())
    assert pack["source"]["coach"] == "Nell Harker" and [r["record"] for r in back["records"]] == [
        "check_in", "session_done", "clearance"]
    assert reply["message"] == REPLY.message


def test_the_worked_example_of_a_reply_is_the_vector() -> None:
    """And its digest is that of the very bytes."""
    shown = (Path(__file__).parents[2] / "app/exchange/REPLY.md").read_text("utf-8")
    said = json.loads(shown.split("```json\n")[1].split("```")[0])
    _, reply = other_reader.outcome((FOLDER / "reply-ok.vector").read_bytes())
    assert said == reply and len(hashlib.sha256(to_json(reply)).hexdigest()) == 64


def test_there_are_enough_scenarios_and_each_is_another_file() -> None:
    """At least 120, told apart by more than their names."""
    assert len(SCENARIOS) >= 120
    assert len({path.read_bytes().partition(b"\n\n")[2] for path in VECTORS}) >= len(VECTORS) - 12
