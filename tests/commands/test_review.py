"""`evenload review` from the outside: who needs attention, in words and as JSON."""
from __future__ import annotations

import json
from pathlib import Path

import pytest

from app.cli import main
from app.commands import review
from app.device.clock import ManualClock
from app.domain.model.person import Person
from app.storage import people, records
from app.storage.database import open_store
from app.storage.people import Trains
from app.words.coach.desk import HARM, PROGRESS, SILENCE, part_head
from tests.actions.afar import NOW, check_in, gave_way, session

Out = pytest.CaptureFixture[str]


@pytest.fixture
def data(data_dir: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty data directory, at a fixed time."""
    monkeypatch.setattr(review, "SystemClock", lambda: ManualClock(NOW))
    return data_dir


def tell(data: Path) -> None:
    """Vera's knee gave way, Olga has not trained for twenty days, and Ines is well."""
    store = open_store(data)
    with store.begin() as db:
        for name in ("Vera", "Olga", "Ines"):
            people.add_person(db, Person(f"p-{name.lower()}", name), Trains.ELSEWHERE, NOW)
        for one in (gave_way("p-vera", "s1"), session("p-olga", "s2", 20), session("p-ines", "s3", 1),
                    check_in("p-ines", "c1")):
            records.save_record(db, one)
    store.close()


def test_harm_stands_first_then_progress_then_silence(data: Path, capsys: Out) -> None:
    """A line for each, with the evidence; whoever is well is in neither part."""
    tell(data)
    assert main(["review"]) == 0
    out, err = capsys.readouterr()
    harm, vera, progress, nobody, silence, olga = out.splitlines()
    assert (harm, progress, nobody, silence, err) == (
        part_head(HARM, 1), part_head(PROGRESS, 0), "  nobody", part_head(SILENCE, 1), "")
    assert vera == "  Vera: Stopped: a joint that gave way, on Monday 2 March"
    assert olga.startswith("  Olga: ") and "20 days" in olga


def test_where_nobody_needs_attention_each_part_says_so(data: Path, capsys: Out) -> None:
    """Of a desk that knows nobody yet."""
    assert main(["review"]) == 0
    assert capsys.readouterr().out == "".join(
        f"{part_head(part, 0)}\n  nobody\n" for part in (HARM, PROGRESS, SILENCE))


def test_the_json_says_of_whom_why_and_by_which_records(data: Path, capsys: Out) -> None:
    """And how many people there are in all."""
    tell(data)
    assert main(["review", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    harm, = told["harm"]
    assert (harm["id"], harm["person"], harm["because"], harm["on"]) == ("p-vera", "Vera", "sign", "2026-03-02")
    assert harm["evidence"] == {"records": ["s1"], "numbers": [], "words": ["gave_way"]}
    assert [one["id"] for one in told["silence"]] == ["p-olga"]
    assert told["people"] == 3
