"""Tests lie where a reader looks for them: a folder of tests for a room of the program has its like there."""
from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]


def strays(tests: Path, program: Path) -> Iterator[str]:
    """Folders of tests inside a room of the program that name no package of it."""
    for folder in sorted({path.parent.relative_to(tests) for path in tests.rglob("test_*.py")}):
        if folder.parts and (program / folder.parts[0]).is_dir() and not (program / folder).is_dir():
            yield folder.as_posix()


def test_every_folder_of_tests_has_its_package() -> None:
    """`tests/domain/dosing` is about `app/domain/dosing`; whoever moves a package moves its tests."""
    assert list(strays(ROOT / "tests", ROOT / "app")) == []


def test_a_folder_without_its_package_is_found(tmp_path: Path) -> None:
    """And one that is about no room, such as the stories, is let be."""
    (tmp_path / "app/domain/dosing").mkdir(parents=True)
    for place in ("domain/dosing", "domain/doses", "stories", "."):
        (tmp_path / "tests" / place).mkdir(parents=True, exist_ok=True)
        (tmp_path / "tests" / place / "test_one.py").touch()
    assert list(strays(tmp_path / "tests", tmp_path / "app")) == ["domain/doses"]
