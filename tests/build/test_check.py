"""The rehearsal runs the real build tool, notices what is wrong, and leaves build/ as it was."""
from __future__ import annotations

import importlib
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[2]
BRAND = ROOT / "build" / "brands" / "linden-court.toml"
TARGETS = ("apk", "aab", "ipa", "macos", "linux", "web")


@pytest.fixture(scope="module")
def check() -> ModuleType:
    return importlib.import_module("check")


@pytest.mark.whole(keep=2)
@pytest.mark.parametrize("target", TARGETS)
def test_a_target_is_rehearsed(target: str, check: ModuleType) -> None:
    """Entry, settings, icons and calls as meant; build/ byte for byte as before."""
    before = check.fingerprint(ROOT / "build")
    (done,) = check.rehearse(BRAND, (target,))
    assert done.wrong == (), done.log
    assert done.icons >= 7
    assert check.fingerprint(ROOT / "build") == before


def test_all_targets_are_those_that_were_promised(check: ModuleType) -> None:
    """And Windows is named among what is not shown."""
    assert check.TARGETS == TARGETS
    assert "Windows" in check.NOT_SHOWN


def test_a_project_without_its_entry_fails(check: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    """The build tool itself says so."""
    whole = check.stage.stage

    def without_entry(brand: Path, folder: Path) -> Path:
        project: Path = whole(brand, folder)
        (project / "main.py").unlink()
        return project

    monkeypatch.setattr(check.stage, "stage", without_entry)
    (done,) = check.rehearse(BRAND, ("linux",))
    assert done.wrong == ("the build tool ended with 1",)
    assert "main.py" in done.log


def test_links_in_the_common_table_are_noticed(check: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the build tool's documentation puts them, phones get none."""
    derived = check.stage.stage_project.derived

    def common(brand: object, ours: object) -> dict[str, object]:
        table: dict[str, object] = derived(brand, ours)
        flet = table["tool"]["flet"]  # type: ignore[index]
        flet["deep_linking"] = flet["android"].pop("deep_linking")
        return table

    monkeypatch.setattr(check.stage.stage_project, "derived", common)
    (done,) = check.rehearse(BRAND, ("apk",))
    assert len(done.wrong) == 1
    assert done.wrong[0].startswith("link is")


def test_a_changed_file_changes_the_fingerprint(check: ModuleType, tmp_path: Path) -> None:
    """One byte, a new file, a removed one; Python's caches do not count."""
    (tmp_path / "a").write_bytes(b"1")
    first = check.fingerprint(tmp_path)
    (tmp_path / "__pycache__").mkdir()
    (tmp_path / "__pycache__" / "x.pyc").write_bytes(b"")
    assert check.fingerprint(tmp_path) == first
    (tmp_path / "a").write_bytes(b"2")
    assert check.fingerprint(tmp_path) != first
    (tmp_path / "a").unlink()
    assert check.fingerprint(tmp_path) == {}
