"""The committed vectors: what was written once is read for ever, and what must be refused stays refused."""
from __future__ import annotations

import io
import json
import re
import zipfile
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from app.domain import errors
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import sealing_pair
from app.exchange.crypto.text_form import unwrapped
from app.exchange.letters.replies import read_reply
from app.exchange.letters.returns import read_return
from app.exchange.packs.pack import Pack, read_pack
from app.exchange.packs.trust import PinnedCoach, trust
from tests.exchange.fixed import AROUND, CHECK_IN, REPLY, RETURN, SOURCE, run
from tests.exchange.make_vectors import FOLDER, SCENARIOS

FAR = replace(CHECK_IN, stamp=replace(CHECK_IN.stamp, utc=datetime(2031, 5, 4, 7, tzinfo=UTC),
                                      local=date(2031, 5, 4)))
VECTORS = sorted(FOLDER.glob("*.vector"))


def _parts(path: Path) -> tuple[dict[str, str], bytes]:
    head, _, data = path.read_bytes().partition(b"\n\n")
    return dict(line.split(": ", 1) for line in head.decode().splitlines()), data


async def _read(head: dict[str, str], data: bytes) -> object:
    kind = Kind(head["kind"])
    if kind is Kind.PACK:
        return await _trusted(head, await read_pack(unwrapped(data, "vector"), "vector"))
    mine = (await sealing_pair(bytes.fromhex(head["opens-with"])),)
    whole = unwrapped(data, "vector")
    if kind is Kind.RETURN:
        return (await read_return(whole, "vector", private_keys=mine)).records
    known = (bytes.fromhex(head["coach"]),)
    return (await read_reply(whole, "vector", private_keys=mine, coach_keys=known)).message


async def _trusted(head: dict[str, str], pack: Pack) -> object:
    """The source, once the head's reader would take the pack in."""
    if "now" in head:
        keys = head.get("pinned", "").split()
        pinned = PinnedCoach(bytes.fromhex(keys[0]), bytes.fromhex(keys[1]), int(keys[2])) if keys else None
        retired = {bytes.fromhex(head["retired"]): "Nell Harker"} if "retired" in head else {}
        assert trust(pack, pinned, "vector", now_s=int(head["now"]), retired=retired).value == head["trust"]
    return pack.source


@pytest.mark.parametrize("path", VECTORS, ids=lambda path: path.stem)
def test_a_vector_is_read_or_refused_as_it_says(path: Path) -> None:
    """`ok` gives the fixed values; anything else exactly that error."""
    head, data = _parts(path)
    if head["expect"] == "ok":
        assert run(_read(head, data)) in (SOURCE, RETURN.records, REPLY.message, (CHECK_IN,), (FAR,), AROUND)
        return
    with pytest.raises(errors.FileError) as caught:
        run(_read(head, data))
    assert type(caught.value).__name__ == head["expect"]


def test_every_scenario_has_its_vector_and_every_refusal_is_shown() -> None:
    """None is lost, and each FileError has at least one."""
    assert sorted(path.stem for path in VECTORS) == sorted(scenario.name for scenario in SCENARIOS)
    assert {kind.__name__ for kind in errors.FileError.__subclasses__()} <= {s.expect for s in SCENARIOS}


def test_the_worked_examples_are_the_vectors() -> None:
    """What the two descriptions show is what the bytes are."""
    beside = Path(__file__).parents[2] / "app/exchange"
    pack, letter = (beside / name for name in ("PACK.md", "RETURN.md"))
    _, data = _parts(FOLDER / "pack-ok.vector")
    with zipfile.ZipFile(io.BytesIO(data)) as opened:
        manifest = json.loads(opened.read("manifest.json"))
    shown = pack.read_text(encoding="utf-8")
    assert data[:164].decode() in shown
    assert json.loads(re.findall(r"```json\n(.*?)```", shown, re.DOTALL)[0]) == manifest
    for line in _parts(FOLDER / "return-ok.vector")[1].split(b"\n")[1:4]:
        word, one, sealed = line.decode().split()
        assert f"{word} {one} {sealed[:6]}…{sealed[-6:]}" in letter.read_text(encoding="utf-8")
