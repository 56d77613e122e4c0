"""At the desk a brand and a shell are kept only whole."""
from __future__ import annotations

from pathlib import Path

import pytest

from app.actions.desk import brand_apps
from app.device.abilities import PickedFile
from app.domain.errors import AppError
from app.storage.database import Store

BRANDS = Path(__file__).resolve().parents[3] / "build" / "brands"


def picked(*names: str) -> list[PickedFile]:
    return [PickedFile(name, (BRANDS / name).read_bytes()) for name in names]


def test_a_brand_with_all_its_files_is_kept(store: Store) -> None:
    """Under its id, and again over itself."""
    files = picked("saltmarsh.toml", "saltmarsh-icon.png", "saltmarsh-picture.png", "saltmarsh.evenload-pack")
    for _ in range(2):
        brand = brand_apps.take_files(store, files)
        assert brand is not None
        assert brand.name == "Saltmarsh Steady"
    assert [path.parent.name for path in brand_apps.brand_files(store)] == ["saltmarsh"]
    assert [one.name for one in brand_apps.own_brands(store)] == ["Saltmarsh Steady"]


def test_a_brand_that_broke_later_is_called_by_its_id(store: Store) -> None:
    """So that the page still opens."""
    brand_apps.take_files(store, picked("saltmarsh.toml", "saltmarsh-icon.png", "saltmarsh-picture.png",
                                     "saltmarsh.evenload-pack"))
    brand_apps.brand_files(store)[0].write_text("[brand", "utf-8")
    assert [one.name for one in brand_apps.own_brands(store)] == ["saltmarsh"]


@pytest.mark.parametrize("files", [
    picked("saltmarsh.toml"), picked("saltmarsh-icon.png"), picked("evenload.toml", "saltmarsh.toml"),
    [PickedFile("shell.zip", b"no zip")], [],
], ids=["without its icon", "no brand", "two brands", "no shell", "nothing"])
def test_anything_else_is_refused_and_not_kept(files: list[PickedFile], store: Store) -> None:
    """In our own words."""
    with pytest.raises(AppError):
        brand_apps.take_files(store, files)
    assert brand_apps.brand_files(store) == ()
    assert brand_apps.shell_file(store) is None


def test_a_machine_that_cannot_draw_icons_offers_nothing(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """As in a browser or on a phone."""
    assert brand_apps.can_make(store)
    monkeypatch.setattr(brand_apps, "DRAWS", "no_such_library")
    assert not brand_apps.can_make(store)
