"""`evenload load` from the outside: the table, the JSON, and one sentence for what cannot be read."""
from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from app.cli import main

TABLE = "date,minutes,rpe\n2026-03-02,30,5\n2026-03-04,40,6\n2026-03-07,60,4\n2026-03-02,10,3\n"


def loaded(capsys: pytest.CaptureFixture[str], folder: Path, words: str | bytes, *more: str) -> tuple[int, str, str]:
    """Exit status, stdout and stderr of the command on a file with these words."""
    path = folder / "diary.csv"
    path.write_bytes(words if isinstance(words, bytes) else words.encode())
    status = main(["load", str(path), *more])
    out, err = capsys.readouterr()
    return status, out, err


def shape(capsys: pytest.CaptureFixture[str], folder: Path, words: str | bytes) -> Any:
    """Its JSON."""
    status, out, err = loaded(capsys, folder, words, "--json")
    assert (status, err) == (0, "")
    return json.loads(out)


def test_a_week_worked_out_by_hand_is_printed_to_three_decimals(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """The sums stand in the tests of `training_load`: 180, 240 and 240 on Monday, Wednesday and Saturday."""
    got = shape(capsys, tmp_path, TABLE)
    assert list(got) == ["weeks", "days"]
    week, = got["weeks"]
    assert list(week) == ["start", "load", "monotony", "strain"]
    assert week["start"] == "2026-03-02" and week["load"] == 660
    assert (round(week["monotony"], 3), round(week["strain"], 3)) == (0.790, 521.686)
    assert [d["date"] for d in got["days"]] == [f"2026-03-0{n}" for n in range(2, 8)]
    assert [d["load"] for d in got["days"]] == [180, 0, 240, 0, 0, 240]
    assert all(list(d) == ["date", "load", "acute", "chronic", "ratio"] and d["ratio"] is None for d in got["days"])
    # 180; 0.75 × 180 = 135; 60 + 0.75 × 135 = 161.25; × 0.75 = 120.9375; 90.703125; 60 + 68.02734375
    assert [d["acute"] for d in got["days"]] == [180, 135, 161.25, 120.9375, 90.703125, 128.02734375]


def test_day_28_is_the_first_with_a_ratio(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Where every day is alike both averages are the day itself, so the ratio is 1; and no week has a monotony."""
    rows = "".join(f"2026-{'03' if n <= 31 else '04'}-{n if n <= 31 else n - 31:02},20,5\n" for n in range(2, 31))
    got = shape(capsys, tmp_path, "date,minutes,rpe\n" + rows)
    assert [d["ratio"] for d in got["days"]] == [None] * 27 + [1, 1]
    assert {(w["monotony"], w["strain"]) for w in got["weeks"][:4]} == {(None, None)}
    # the fifth week holds a Monday alone: 1 / √7, × 100
    assert (round(got["weeks"][4]["monotony"], 3), round(got["weeks"][4]["strain"], 3)) == (0.378, 37.796)


@pytest.mark.parametrize("words", [
    "\ufeff" + TABLE, TABLE.replace("\n", "\r\n"), TABLE.replace("date,minutes,rpe", " Date , MINUTES,Rpe "),
    TABLE.replace("\n", ",walk\n"), TABLE.replace("\n", "\n\n,,\n"), TABLE.rstrip("\n"),
    TABLE.replace("30,5", "30.0, 5.0"), TABLE.replace("2026-03-02,30,5", '"2026-03-02","30","5"'),
    "rpe,date,minutes\n5,2026-03-02,30\n6,2026-03-04,40\n4,2026-03-07,60\n3,2026-03-02,10\n",
])
def test_a_table_of_any_editor_is_read(capsys: pytest.CaptureFixture[str], tmp_path: Path, words: str) -> None:
    """Byte order mark, line ends, case, spaces, more columns, empty lines, another order."""
    assert shape(capsys, tmp_path, words) == shape(capsys, tmp_path, TABLE)


HEAD = "date,minutes,rpe\n"


@pytest.mark.parametrize(("words", "line", "column"), [
    ("", 1, "date"), ("\n\n", 1, "date"), (HEAD, 2, "date"), ("date,minutes\n2026-03-02,30\n", 1, "rpe"),
    ("date,minutes,rpe,rpe\n2026-03-02,30,5,5\n", 1, "rpe"), ("2026-03-02,30,5\n", 1, "date"),
    (HEAD + "2026-03-02,30,5\n2026-02-30,30,5\n", 3, "date"), (HEAD + "02/03/2026,30,5\n", 2, "date"),
    (HEAD + "20260302,30,5\n", 2, "date"), (HEAD + "2026-W10-1,30,5\n", 2, "date"), (HEAD + ",30,5\n", 2, "date"),
    (HEAD + "0206-03-02,30,5\n", 2, "date"), (HEAD + "2026-03-02,-1,5\n", 2, "minutes"),
    (HEAD + "2026-03-02,1441,5\n", 2, "minutes"), (HEAD + "2026-03-02,nan,5\n", 2, "minutes"),
    (HEAD + "2026-03-02,1e3,5\n", 2, "minutes"), (HEAD + "2026-03-02,,5\n", 2, "minutes"),
    (HEAD + '2026-03-02,"3,5",5\n', 2, "minutes"), (HEAD + "2026-03-02,30,10.5\n", 2, "rpe"),
    (HEAD + "2026-03-02,30,-1\n", 2, "rpe"), (HEAD + "2026-03-02,30,hard\n", 2, "rpe"),
    (HEAD + "2026-03-02,30\n", 2, "rpe"), (HEAD + "\n\n2026-03-02,30,inf\n", 4, "rpe"),
    (HEAD + "2026-03-02,30," + "9" * 500 + "\n", 2, "rpe"),
])
def test_what_is_wrong_is_said_in_a_sentence_with_line_and_column(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, words: str, line: int, column: str
) -> None:
    """Status 2, nothing on stdout."""
    status, out, err = loaded(capsys, tmp_path, words, "--json")
    assert (status, out) == (2, "")
    assert err.startswith(f"diary.csv, line {line}, column {column}: ")
    assert err.endswith(".\n") and err.count("\n") == 1 and len(err) < 300


@pytest.mark.parametrize(("data", "said"), [
    (HEAD.encode() + b"2026-03-02,30\xe9,5\n", "line 2, column 14 can’t be read: it is not UTF-8"),
    (HEAD.encode("utf-16"), "line 1, column 1 can’t be read: it is not UTF-8"),
    (HEAD.encode() + b'\n2026-03-02,"30,5\n', "line 3 can’t be read: it is no CSV"),
])
def test_what_is_no_table_is_said_with_its_place(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, data: bytes, said: str
) -> None:
    """Bytes that are no text, and quotes that never end."""
    status, out, err = loaded(capsys, tmp_path, data)
    assert (status, out) == (2, "") and said in err and err.count("\n") == 1


def test_a_file_that_is_not_there_is_named(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Status 2."""
    assert main(["load", str(tmp_path / "none.csv")]) == 2
    assert "none.csv can’t be read" in capsys.readouterr().err


def test_without_json_it_is_a_table_that_explains_itself(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """A dash where there is no value, and no verdict."""
    status, out, _ = loaded(capsys, tmp_path, TABLE)
    assert status == 0
    assert out.splitlines()[1].split() == ["2026-03-02", "660.0", "0.790", "521.7"]
    assert out.splitlines()[4].split() == ["2026-03-02", "180.0", "180.0", "180.0", "–"]


@pytest.mark.parametrize(("last", "status"), [("2076-03-02", 0), ("2200-01-01", 2), ("2199-12-31", 2)])
def test_days_generations_apart_are_a_mistake_and_said_at_once(
    last: str, status: int, capsys: pytest.CaptureFixture[str], tmp_path: Path,
) -> None:
    """Every day between the first and the last is worked out, and a wrong year makes it a hundred thousand."""
    words = f"date,minutes,rpe\n2026-03-02,30,5\n{last},30,5\n".replace("2026", "1900" if status else "2026")
    found, _, err = loaded(capsys, tmp_path, words)
    assert found == status
    assert status == 0 or ("date" in err and err.count("\n") == 1)
