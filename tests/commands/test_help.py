"""Every command explains itself, and says of its JSON what it prints."""
from __future__ import annotations

import argparse
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from app import __version__
from app.actions.desk.web_app_build import Made
from app.cli import RUNS, main
from app.commands import web_app
from app.commands.arguments import SERVES, parser
from app.exchange.letters.replies import write_reply
from app.exchange.letters.returns import write_return
from app.exchange.packs.pack import build_pack
from app.resources import resource_dir
from app.storage import keys, packs
from app.storage.database import open_store
from app.words.machine.command_help import DETAILS, SUMMARIES
from tests.exchange.fixed import CLIENT, COACH, NOW, READERS, REPLY, RETURN, SOURCE, run

BRACKWATER = resource_dir("assets") / "programmes" / "brackwater"
ROOT = Path(__file__).resolve().parents[2]


def commands() -> dict[str, argparse.ArgumentParser]:
    """Every command of the parser, by name."""
    [found] = [one for one in parser()._actions if isinstance(one, argparse._SubParsersAction)]
    return dict(found.choices)


def test_the_parser_the_table_and_the_help_name_the_same_commands() -> None:
    """One that is forgotten in one of them would be found by nobody."""
    assert set(commands()) == set(RUNS) == set(SUMMARIES) == set(DETAILS)


@pytest.mark.parametrize("name", sorted(RUNS))
def test_every_command_has_a_description_an_example_and_words_for_each_argument(
    name: str, capsys: pytest.CaptureFixture[str],
) -> None:
    """`--help` prints them and ends with 0."""
    with pytest.raises(SystemExit) as ended:
        main([name, "--help"])
    told = capsys.readouterr().out
    assert ended.value.code == 0
    assert SUMMARIES[name].split()[0] in told and f"evenload {name}" in told.partition("Example")[2]
    silent = [one.dest for one in commands()[name]._actions if not one.help and one.dest != "session"]
    assert silent == []


@pytest.mark.parametrize("name", sorted(set(RUNS) - SERVES))
def test_every_command_whose_result_is_data_takes_json_and_lists_the_fields(name: str) -> None:
    """What only serves until it is interrupted has no result."""
    options = {option for one in commands()[name]._actions for option in one.option_strings}
    assert "--json" in options
    assert "--json" in DETAILS[name]
    assert set(RUNS) >= SERVES


@pytest.mark.parametrize("words", [["--version"], ["--data", "x", "--version"]])
def test_the_version_is_told(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """On standard output, with 0."""
    with pytest.raises(SystemExit) as ended:
        main(words)
    assert (ended.value.code, capsys.readouterr().out) == (0, f"evenload {__version__}\n")


# ------------------------------------------------------------------ fields of the JSON

#: What was printed from the first version on, by command: none of these may go away.
FIELDS = {
    "check source": "kind coach version title sessions exercises programmes problems",
    "check pack": "kind coach version title sessions exercises programmes problems words sha256",
    "check return": "kind person number made records problems",
    "check reply": "kind coach number made problems",
    "pack": "file coach version words problems",
    "timeline": "session total_s steps dose substitutions left_out",
    "timeline steps": "kind block exercise side round reps load_kg start_ms length_ms written",
    "timeline dose": "level rounds work rest load reasons rules_version",
    "cues": "file session rate samples total_s sounds",
    "cues sounds": "kind sample position_ms",
    "intake": "taken refused",
    "intake taken": "file person new newer same older misdated clock_is_wrong resembles",
    "intake refused": "file error",
    "review": "harm progress silence people",
    "review silence": "person id because on text evidence",
    "make-app": "name folder files bytes",
    "load": "weeks days",
    "load weeks": "start load monotony strain",
    "load days": "date load acute chronic ratio",
    "keys": "coach key words sheet_waits",
    "backup": "file bytes sealed",
    "restore": "from kept",
    "erase": "erased complete left",
}


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a file of each kind, and `data` of somebody who can open them all."""
    folder = tmp_path_factory.mktemp("desk")
    (folder / "a.evenload-pack").write_bytes(run(build_pack(SOURCE, coach=COACH)))
    (folder / "a.evenload-return").write_bytes(run(write_return(RETURN, client=CLIENT, readers=READERS)))
    reply = run(write_reply(REPLY, coach=COACH.signing, readers=[CLIENT.sealing.public]))
    (folder / "a.evenload-reply").write_bytes(reply)
    (folder / "a.csv").write_text("date,minutes,rpe\n2026-03-02,20,5\n", "utf-8")
    (folder / "none.evenload-return").write_bytes(b"Dear Nell")
    store = open_store(folder / "data")
    with store.begin() as db:
        for owner, kind, pair in ((keys.COACH, "sealing", COACH.sealing), ("ada", "sealing", CLIENT.sealing)):
            keys.keep_keys(db, keys.StoredKeyPair(owner, kind, pair.private, pair.public, NOW))
        coach = packs.StoredCoach(COACH.signing.public.hex(), "Nell Harker", COACH.sealing.public.hex(), (), NOW)
        packs.save_coach(db, coach)
    store.close()
    return folder


def printed(desk: Path, capsys: pytest.CaptureFixture[str], *words: str) -> Any:
    """The JSON of one command."""
    assert main(["--data", str(desk / "data"), *words, "--json"]) in (0, 1)
    return json.loads(capsys.readouterr().out)


def shapes(desk: Path, capsys: pytest.CaptureFixture[str], folder: Path) -> Iterator[tuple[str, Any]]:
    """Each object that is printed, by the names of `FIELDS`."""
    yield "check source", printed(desk, capsys, "check", str(BRACKWATER))
    for kind in ("pack", "return", "reply"):
        yield f"check {kind}", printed(desk, capsys, "check", str(desk / f"a.evenload-{kind}"))
    pack = str(folder / "b.evenload-pack")
    yield "pack", printed(folder, capsys, "pack", str(BRACKWATER), "-o", pack, "--no-voice")
    timeline = printed(desk, capsys, "timeline", str(BRACKWATER), "hotel-room")
    yield from (("timeline", timeline), ("timeline steps", timeline["steps"][0]), ("timeline dose", timeline["dose"]))
    cues = printed(desk, capsys, "cues", str(BRACKWATER), "hotel-room", "-o", str(folder / "a.wav"))
    yield from (("cues", cues), ("cues sounds", cues["sounds"][0]))
    taken = printed(desk, capsys, "intake", *map(str, sorted(desk.glob("*.evenload-return"))))
    yield from (("intake", taken), ("intake taken", taken["taken"][0]), ("intake refused", taken["refused"][0]))
    review = printed(desk, capsys, "review")
    yield from (("review", review), ("review silence", (review["harm"] + review["silence"])[0]))
    load = printed(desk, capsys, "load", str(desk / "a.csv"))
    yield from (("load", load), ("load weeks", load["weeks"][0]), ("load days", load["days"][0]))
    brand = str(ROOT / "build/brands/saltmarsh.toml")
    yield "make-app", printed(desk, capsys, "make-app", "--brand", brand, "--shell", "s.zip", "-o", str(folder))


def whole_shapes(folder: Path, capsys: pytest.CaptureFixture[str]) -> Iterator[tuple[str, Any]]:
    """The same of the records as a whole: of a data directory that `pack` has filled."""
    yield "keys", printed(folder, capsys, "keys")
    copy = str(folder / "copy.db")
    yield "backup", printed(folder, capsys, "backup", "-o", copy)
    yield "restore", printed(folder, capsys, "restore", copy)
    yield "erase", printed(folder, capsys, "erase", "--yes")


def test_every_field_that_was_ever_printed_is_there_and_in_the_help(
    desk: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch,
) -> None:
    """And nothing is printed that the help does not list."""
    monkeypatch.setattr(web_app, "make_app", lambda whole, shell, folder, wrote: Made(folder, 3, 1000))
    seen = dict(shapes(desk, capsys, tmp_path)) | dict(whole_shapes(tmp_path, capsys))
    assert set(seen) == set(FIELDS)
    for name, shape in seen.items():
        listed = set(re.findall(r"[a-z_0-9]+", DETAILS[name.split()[0]].partition("--json")[2]))
        assert set(FIELDS[name].split()) <= set(shape), name
        assert set(shape) <= listed, name
