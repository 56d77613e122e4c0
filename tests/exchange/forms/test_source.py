"""The coach's folder of TOML: read as it is meant, refused with a place where it is not."""
from __future__ import annotations

import json
import re
import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given

from app.domain.errors import ContentError, UnknownName, UnreadableSource, WrongValue
from app.domain.model.exercise import Axis
from app.domain.model.proofreading_limits import DEFAULT_LIMITS, limit_bounds
from app.domain.model.source import Source
from app.exchange.forms.content import source_from_json, source_to_json
from app.exchange.forms.source import read_media, read_source, write_source
from tests.exchange.fixed import SOURCE
from tests.generators import sources

DEMOS = sorted(p.parent for p in (Path(__file__).parents[3] / "assets/programmes").glob("*/source.toml"))

HEAD = '[source]\nid = "quay"\ncoach = "Nell Harker"\nversion = 1\n'
DEMAND = "[exercise.demand]\n" + "".join(f"{axis} = 0\n" for axis in Axis)
EXERCISE = ('[[exercise]]\nid = "rise"\nname = "Stand up"\npattern = "squat"\nposition = "seated"\n'
            'seconds_per_rep = 3.5\nmuscles = ["quadriceps"]\n')
SESSION = 'id = "short"\nname = "Short"\n[[block]]\nkind = "circuit"\n[[block.item]]\nexercise = "rise"\nwork_s = 30\n'
PROGRAMME = 'id = "month"\nname = "Month"\n[[week]]\nsessions = ["short"]\n'
FILES = {"source.toml": HEAD, "exercises/legs.toml": EXERCISE + DEMAND, "sessions/short.toml": SESSION,
         "programmes/month.toml": PROGRAMME}


def folder_of(path: Path, **changes: tuple[str, str, str]) -> Path:
    """A valid source with some words changed: file, old, new."""
    files = dict(FILES)
    for where, old, new in changes.values():
        assert old in files[where]
        files[where] = files[where].replace(old, new)
    for where, text in files.items():
        (path / where).parent.mkdir(parents=True, exist_ok=True)
        (path / where).write_text(text, encoding="utf-8")
    return path


@given(sources())
def test_a_source_survives_toml_and_json_without_loss(source: Source) -> None:
    """Written by hand, in a pack and in the store it is the same value."""
    assert source_from_json(source_to_json(source)) == source
    with tempfile.TemporaryDirectory() as path:
        write_source(source, Path(path) / "out")
        assert read_source(Path(path) / "out") == source


@given(sources())
def test_equal_sources_give_equal_bytes(source: Source) -> None:
    """The JSON depends on the value alone."""
    assert source_to_json(source_from_json(source_to_json(source))) == source_to_json(source)


@pytest.mark.parametrize("folder", DEMOS, ids=lambda path: path.name)
def test_the_demo_source_reads_and_survives(folder: Path, tmp_path: Path) -> None:
    """What we ship as an example is a source."""
    source = read_source(folder)
    assert len(source.exercises) >= 24 and len(source.sessions) >= 4
    write_source(source, tmp_path / "again")
    assert read_source(tmp_path / "again") == source
    assert source_from_json(source_to_json(source)) == source


def test_the_worked_example_of_the_guide_is_a_source(tmp_path: Path) -> None:
    """Typed as it stands in SOURCE.md, it reads."""
    guide = (Path(__file__).parents[3] / "app/exchange/SOURCE.md").read_text(encoding="utf-8")
    files = re.findall(r"^`([a-z_/]+\.toml)`\n\n```toml\n(.*?)^```", guide, re.MULTILINE | re.DOTALL)
    assert len(files) >= 4
    for where, text in files:
        (tmp_path / where).parent.mkdir(exist_ok=True)
        (tmp_path / where).write_text(text, encoding="utf-8")
    source = read_source(tmp_path)
    assert source.exercises and source.sessions and source.programmes


def test_a_small_source_reads_as_it_is_meant(tmp_path: Path) -> None:
    """Seconds become milliseconds, what is left out takes its default."""
    source = read_source(folder_of(tmp_path))
    assert source.exercises[0].rep_ms == 3500 and source.sessions[0].blocks[0].items[0].work_s == 30
    assert source.rules.preset == "usual" and not source.whole_library


def test_limits_of_the_proofreader_are_read_and_only_those_that_were_moved_are_written(tmp_path: Path) -> None:
    """What is left out is as shipped."""
    moved = ("source.toml", "version = 1", "version = 1\n[proofreading]\nhold_s = 20\nimpact = 0")
    source = read_source(folder_of(tmp_path / "in", change=moved))
    assert source.proofreading == replace(DEFAULT_LIMITS, hold_s=20, impact=0)
    write_source(source, tmp_path / "out")
    assert "[proofreading]\nhold_s = 20\nimpact = 0\n" in (tmp_path / "out/source.toml").read_text("utf-8")
    write_source(replace(source, proofreading=DEFAULT_LIMITS), tmp_path / "usual")
    assert "proofreading" not in (tmp_path / "usual/source.toml").read_text("utf-8")


def test_the_guide_states_every_limit_with_its_default_and_bounds() -> None:
    """One table for coach and code."""
    guide = (Path(__file__).parents[3] / "app/exchange/SOURCE.md").read_text(encoding="utf-8")
    stated = {}
    for row in re.findall(r"^\| (`[a-z_`, ]+`) \| ([\d, ]+) \| ([\d–, ]+) \|", guide, re.MULTILINE):
        names, defaults, bounds = (column.split(", ") for column in row)
        for name, otherwise, bound in zip(names, defaults, bounds * len(names), strict=False):
            least, most = bound.split("–")
            stated[name.strip("`")] = int(least), int(most), int(otherwise)
    assert stated == limit_bounds()


WRONG: dict[str, tuple[str, str, str, type[ContentError], str]] = {
    "typo in a key": ("exercises/legs.toml", "muscles =", "muscels =", UnknownName,
                      "exercises/legs.toml, exercise rise"),
    "axis left out": ("exercises/legs.toml", "kneeling = 0\n", "", WrongValue,
                      "exercises/legs.toml, exercise rise, demand.kneeling"),
    "axis too high": ("exercises/legs.toml", "kneeling = 0", "kneeling = 4", WrongValue,
                      "exercises/legs.toml, exercise rise, demand.kneeling"),
    "axis unknown": ("exercises/legs.toml", "kneeling = 0", "kneeling = 0\nkneling = 0", UnknownName,
                     "exercises/legs.toml, exercise rise, demand"),
    "pattern unknown": ("exercises/legs.toml", '"squat"', '"squatt"', WrongValue,
                        "exercises/legs.toml, exercise rise, pattern"),
    "tempo too quick": ("exercises/legs.toml", "3.5", "0.2", WrongValue,
                        "exercises/legs.toml, exercise rise, seconds_per_rep"),
    "tempo no number": ("exercises/legs.toml", "3.5", "nan", WrongValue,
                        "exercises/legs.toml, exercise rise, seconds_per_rep"),
    "tempo and hold": ("exercises/legs.toml", "seconds_per_rep = 3.5", "seconds_per_rep = 3.5\nhold_s = 20",
                       WrongValue, "exercises/legs.toml, exercise rise"),
    "id no slug": ("exercises/legs.toml", 'id = "rise"', 'id = "Rise up"', WrongValue,
                   "exercises/legs.toml, exercise Rise up, id"),
    "work too long": ("sessions/short.toml", "work_s = 30", "work_s = 601", WrongValue,
                      "sessions/short.toml, block.0.item.0.work_s"),
    "work as text": ("sessions/short.toml", "work_s = 30", 'work_s = "30"', WrongValue,
                     "sessions/short.toml, block.0.item.0.work_s"),
    "work as true": ("sessions/short.toml", "work_s = 30", "work_s = true", WrongValue,
                     "sessions/short.toml, block.0.item.0.work_s"),
    "work as a date": ("sessions/short.toml", "work_s = 30", "work_s = 2026-03-02", WrongValue,
                       "sessions/short.toml, block.0.item.0.work_s"),
    "two amounts": ("sessions/short.toml", "work_s = 30", "work_s = 30\nreps = 5", WrongValue,
                    "sessions/short.toml, block.0.item.0"),
    "no amount": ("sessions/short.toml", "work_s = 30", "", WrongValue, "sessions/short.toml, block.0.item.0"),
    "load too heavy": ("sessions/short.toml", "work_s = 30", "work_s = 30\nload_kg = 61", WrongValue,
                       "sessions/short.toml, block.0.item.0.load_kg"),
    "exercise unknown": ("sessions/short.toml", '"rise"', '"ryse"', UnknownName, "sessions/short.toml, item 1"),
    "session unknown": ("programmes/month.toml", '["short"]', '["long"]', UnknownName,
                        "programmes/month.toml, week 1"),
    "no weeks": ("programmes/month.toml", '[[week]]\nsessions = ["short"]\n', "", WrongValue,
                 "programmes/month.toml, week"),
    "no coach": ("source.toml", 'coach = "Nell Harker"\n', "", WrongValue, "source.toml, source.coach"),
    "pain softened": ("source.toml", "version = 1", "version = 1\n[rules.shift]\npain = -1", WrongValue,
                      "rules.shift.pain"),
    "limit too far": ("source.toml", "version = 1", "version = 1\n[proofreading]\nhold_s = 61", WrongValue,
                      "source.toml, proofreading.hold_s"),
    "body unknown": ("source.toml", "version = 1", 'version = 1\nbody = "tall"', WrongValue,
                     "source.toml, source.body"),
    "limit unknown": ("source.toml", "version = 1", "version = 1\n[proofreading]\nholds = 20", UnknownName,
                      "source.toml, proofreading"),
    "preset unknown": ("source.toml", "version = 1", 'version = 1\n[rules]\npreset = "brisk"', UnknownName,
                       "rules.preset"),
    "stray table": ("exercises/legs.toml", "[[exercise]]", "[[exercises]]", UnknownName, "exercises/legs.toml"),
    "single brackets": ("exercises/legs.toml", "[[exercise]]", "[exercise]", WrongValue, "exercises/legs.toml"),
    "no toml": ("sessions/short.toml", "[[block]]", "[[block", UnreadableSource, "sessions/short.toml"),
}


@pytest.mark.parametrize("case", WRONG, ids=str)
def test_a_slip_of_the_pen_is_found_and_placed(case: str, tmp_path: Path) -> None:
    """The error is of the right kind and names file, thing and key."""
    where, old, new, kind, place = WRONG[case]
    with pytest.raises(kind) as caught:
        read_source(folder_of(tmp_path, change=(where, old, new)))
    assert type(caught.value) is kind
    assert caught.value.what["where"] == place


def test_an_id_that_is_used_twice_is_refused(tmp_path: Path) -> None:
    """Diaries refer to ids, so each exists once."""
    folder = folder_of(tmp_path)
    (folder / "exercises/more.toml").write_text(EXERCISE + DEMAND, encoding="utf-8")
    with pytest.raises(WrongValue) as caught:
        read_source(folder)
    assert caught.value.what["where"] == "exercises/more.toml, exercise rise, id"


def test_an_exercise_is_not_its_own_easier_option(tmp_path: Path) -> None:
    """A ladder leads somewhere."""
    folder = folder_of(tmp_path, change=("exercises/legs.toml", "floor_transfer = 0",
                                         "floor_transfer = 0"))
    (folder / "exercises/legs.toml").write_text(EXERCISE + DEMAND + '[[exercise.easier]]\nto = "rise"\n')
    with pytest.raises(WrongValue):
        read_source(folder)


@pytest.mark.parametrize("text", ["\ufeff" + HEAD, HEAD.replace("\n", "\r\n")])
def test_files_of_any_editor_are_read(text: str, tmp_path: Path) -> None:
    """A byte order mark and Windows line ends do no harm."""
    folder = folder_of(tmp_path)
    (folder / "source.toml").write_bytes(text.encode())
    assert read_source(folder).coach == "Nell Harker"


@pytest.mark.parametrize("data", [b"\xff\xfe\x00", b"a = " + b"[" * 100_000, b"a = 1" + b"0" * 5000],
                         ids=["no text", "too deep", "number too long"])
def test_what_is_no_toml_is_an_unreadable_source(data: bytes, tmp_path: Path) -> None:
    """Whatever is in a file, it is an error of ours."""
    folder = folder_of(tmp_path)
    (folder / "source.toml").write_bytes(data)
    with pytest.raises(ContentError):
        read_source(folder)


def test_a_folder_without_a_source_is_named(tmp_path: Path) -> None:
    """The missing file is said."""
    with pytest.raises(UnreadableSource) as caught:
        read_source(tmp_path)
    assert caught.value.what["where"] == "source.toml"


def test_nothing_is_written_over(tmp_path: Path) -> None:
    """A folder that holds something is left as it is, and nothing is left beside it."""
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine/notes.txt").write_text("mine")
    with pytest.raises(WrongValue):
        write_source(SOURCE, tmp_path / "mine")
    assert [p.name for p in tmp_path.rglob("*")] == ["mine", "notes.txt"]


def test_media_is_found_by_its_path(tmp_path: Path) -> None:
    """Figures, media and voice go into the pack; hidden files and other folders do not."""
    for where in ("media/a.png", "voice/en/rise.opus", "media/.hidden", "other/b.png"):
        (tmp_path / where).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / where).write_bytes(b"x")
    assert read_media(tmp_path) == {"media/a.png": b"x", "voice/en/rise.opus": b"x"}


def test_a_key_from_a_later_version_is_left_alone_in_a_pack() -> None:
    """Within a major version unknown keys are ignored."""
    data = source_to_json(SOURCE).replace(b'{"exercises"', b'{"colour":"blue","exercises"')
    assert source_from_json(data) == SOURCE


def test_what_is_said_of_steps_means_the_same_in_text_in_a_new_pack_and_in_an_older_one(tmp_path: Path) -> None:
    """Text that says nothing means eight; a pack that says nothing was made when two were usual, and stays at two."""
    def first(source: Source) -> int:
        return source.sessions[0].blocks[0].items[0].steps

    def with_steps(steps: int) -> Source:
        session = SOURCE.sessions[0]
        blocks = tuple(replace(b, items=tuple(replace(i, steps=steps) for i in b.items)) for b in session.blocks)
        return replace(SOURCE, sessions=(replace(session, blocks=blocks),))

    for steps in (0, 2, 4, 8, 12):
        write_source(with_steps(steps), tmp_path / str(steps))
        text = "".join(path.read_text("utf-8") for path in (tmp_path / str(steps) / "sessions").iterdir())
        assert ("steps" in text) == (steps != 8)
        assert first(read_source(tmp_path / str(steps))) == steps
        assert first(source_from_json(source_to_json(with_steps(steps)))) == steps
    older = json.loads(source_to_json(with_steps(8)))
    for block in older["sessions"][0]["block"]:
        for item in block["item"]:
            del item["steps"]
    assert first(source_from_json(json.dumps(older).encode())) == 2
