"""Assets and migrations are found in every way the program can be there."""
from __future__ import annotations

from pathlib import Path

import pytest

from app.resources import resource_dir


def test_a_checkout_has_both() -> None:
    """Beside the package."""
    assert (resource_dir("assets") / "sounds" / "count.wav").is_file()
    assert resource_dir("migrations").is_dir()


def test_an_installed_copy_carries_its_own(tmp_path: Path) -> None:
    """What lies inside the package comes before what happens to lie beside it."""
    package = tmp_path / "app"
    (package / "_bundled" / "assets").mkdir(parents=True)
    (tmp_path / "assets").mkdir()
    assert resource_dir("assets", package) == package / "_bundled" / "assets"


def test_an_incomplete_installation_is_named(tmp_path: Path) -> None:
    """Rather than an empty folder used in silence."""
    with pytest.raises(FileNotFoundError, match="migrations"):
        resource_dir("migrations", tmp_path / "app")
