"""`evenload timeline` from the outside: the console's words, exit statuses and JSON."""
from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from app.cli import main
from app.domain.model.exercise import Axis
from app.domain.model.session import Block, BlockKind, Item, Session
from app.domain.model.source import Source
from app.exchange.forms.source import read_source, write_source
from app.resources import resource_dir

SOURCE = resource_dir("assets") / "programmes" / "brackwater"
CLEAR: dict[str, Any] = {
    "symptoms": [], "pain": {}, "pain_rise": {}, "soreness": {}, "slept": 5, "energy": 5, "calm": 5,
    "last": {"days_ago": 3, "rpe": 5, "target_rpe": 5, "completed": 1.0, "pain": 0},
}
KINDS = {"setup", "work", "rest", "round_rest", "change", "hold"}


def timeline(capsys: pytest.CaptureFixture[str], *more: str, session: str = "dumbbell-circuit") -> tuple[int, Any]:
    """Exit status and JSON of one call."""
    status = main(["timeline", str(SOURCE), session, *more, "--json"])
    return status, json.loads(capsys.readouterr().out)


def written(folder: Path, name: str, data: object) -> str:
    """A JSON file and its path."""
    path = folder / name
    path.write_text(json.dumps(data), "utf-8")
    return str(path)


def test_without_a_check_in_the_prescription_stands(capsys: pytest.CaptureFixture[str]) -> None:
    """No --diary: level 1, one reason, every step of a known kind, touching and summing."""
    status, got = timeline(capsys)
    assert status == 0
    assert [got["dose"][key] for key in ("level", "work", "rest", "load")] == [1, 100, 100, 100]
    assert [r["rule"] for r in got["dose"]["reasons"]] == ["no_check_in"]
    at = 0
    for step in got["steps"]:
        assert step["kind"] in KINDS and step["start_ms"] == at and step["length_ms"] > 0
        at += step["length_ms"]
    assert got["total_s"] * 1000 == at


def test_a_sore_knee_shortens_and_says_so(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Pain 6: level 4, less time, and nothing left that loads a knee."""
    _, whole = timeline(capsys)
    status, got = timeline(capsys, "--diary", written(tmp_path, "d.json", CLEAR | {"pain": {"left knee": 6}}))
    assert status == 0 and got["dose"]["level"] == 4
    assert got["total_s"] < whole["total_s"]
    assert "left knee" in got["dose"]["reasons"][0]["text"]
    assert any("deep_knee_flexion" in s["because"] for s in got["substitutions"])


@pytest.mark.parametrize(
    "change", [{"symptoms": ["fever"]}, {"pain": {"hip": 8}}, {"cleared": False, "previous_level": 8}]
)
def test_a_stop_gives_no_steps_and_status_1(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, change: dict[str, Any]
) -> None:
    """Levels 6–8 answer "no"."""
    status, got = timeline(capsys, "--diary", written(tmp_path, "d.json", CLEAR | change))
    assert status == 1 and got["steps"] == [] and got["dose"]["level"] >= 6


@pytest.mark.parametrize(("option", "data"), [
    ("--client", {"spare": {"nose": 1}}), ("--client", {"spare": {"knee": 4}}), ("--client", {"weight": 2}),
    ("--client", {"conditions": ["gout"]}), ("--diary", {"pain": {"knee": 11}}), ("--diary", {"pain": {"balance": 1}}),
    ("--diary", {"slept": 0}), ("--diary", []), ("--place", {"minutes": 0}), ("--place", {"space": "vast"}),
])
def test_bad_input_is_one_sentence_and_status_2(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, option: str, data: object
) -> None:
    """One line on stderr, nothing on stdout."""
    status = main(["timeline", str(SOURCE), "hotel-room", option, written(tmp_path, "bad.json", data)])
    out, err = capsys.readouterr()
    assert (status, out) == (2, "")
    assert err.count("\n") == 1 and len(err) > 20 and "Traceback" not in err


def test_unknown_names_say_what_is_known(capsys: pytest.CaptureFixture[str]) -> None:
    """A wrong session or place names those that exist."""
    assert main(["timeline", str(SOURCE), "legs"]) == 2
    assert "hotel-room" in capsys.readouterr().err
    assert main(["timeline", str(SOURCE), "hotel-room", "--place", "Attic"]) == 2
    assert "Garage" in capsys.readouterr().err


def test_minutes_beat_the_place_file_and_too_few_name_the_least(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """--minutes wins; below the least the sentence names it."""
    place = written(tmp_path, "p.json", {"minutes": 90, "kit": ["chair", "dumbbell", "mat"]})
    status, got = timeline(capsys, "--place", place, "--minutes", "20")
    assert status == 0 and got["total_s"] <= 20 * 60
    assert "minutes" in [r["rule"] for r in got["dose"]["reasons"]]
    assert main(["timeline", str(SOURCE), "dumbbell-circuit", "--minutes", "3"]) == 2
    assert "needs at least" in capsys.readouterr().err


def test_no_arguments_are_bad_input(capsys: pytest.CaptureFixture[str]) -> None:
    """The command alone: one sentence, status 2."""
    with pytest.raises(SystemExit) as left:
        main([])
    assert left.value.code == 2 and capsys.readouterr().err.count("\n") == 1


def test_a_session_of_which_nothing_is_left_says_so_and_exits_1(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """Nobody is sent into an empty session: the answer is no, in a sentence, with what was left out and why."""
    kneel = replace(read_source(SOURCE).library()["sit-to-stand"], id="kneel", easier=(), harder=(), swaps=(),
                    demand=dict.fromkeys(Axis, 0) | {Axis.KNEELING: 3})
    only = Session("only", "Only kneeling", (Block(BlockKind.CIRCUIT, (Item("kneel", work_s=30),), 2, 20),))
    write_source(Source("small", "Odile Marsh", 1, (kneel,), (only,), ()), tmp_path)
    body = written(tmp_path, "client.json", {"spare": {"knee": 0}})
    assert main(["timeline", str(tmp_path), "only", "--client", body]) == 1
    said = capsys.readouterr().out
    assert "This session doesn’t suit today" in said and "kneeling" in said
    assert main(["timeline", str(tmp_path), "only"]) == 0
