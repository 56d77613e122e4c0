"""The icons are ours, and what the script draws."""
from __future__ import annotations

import importlib
import json
import zlib
from pathlib import Path

from app.resources import resource_dir


def pixels(file: bytes) -> bytes:
    """The unpacked rows of a PNG of ours; how they were packed depends on the library."""
    length = int.from_bytes(file[33:37], "big")
    assert file[37:41] == b"IDAT"
    return zlib.decompress(file[41:41 + length])


def test_the_files_are_what_the_script_draws(tmp_path: Path) -> None:
    """Pixel for pixel."""
    icons = importlib.import_module("icons")
    icons.write(tmp_path)
    for name in icons.ICONS:
        assert pixels((resource_dir("assets") / name).read_bytes()) == pixels((tmp_path / name).read_bytes()), name


def test_the_web_manifest_names_icons_that_are_there() -> None:
    """Under our own name."""
    assets = resource_dir("assets")
    manifest = json.loads((assets / "manifest.json").read_text("utf-8"))
    assert manifest["name"] == "Evenload"
    assert all((assets / icon["src"]).is_file() for icon in manifest["icons"])
