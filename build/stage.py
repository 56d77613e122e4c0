#!/usr/bin/env python3
"""Derives a clean project for `flet build` from the checkout and a brand.

    python3 build/stage.py [--brand FILE] [-o FOLDER]      by default build/brands/evenload.toml, dist/stage/ID
    flet build apk dist/stage/ID -o dist/apk               or aab, ipa, macos, windows, linux

`flet build` takes a folder `build` of its project for its own and may delete it, so it must never run at the top of the
checkout. What each store needs besides: build/STORES.md.
"""
from __future__ import annotations

import argparse
import asyncio
import shutil
import sys
import tomllib
from pathlib import Path

import inside

inside.enter("run", "flet", "pydantic", "tomli_w")

import stage_project  # noqa: E402
import tomli_w  # noqa: E402

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from app.domain.errors import AppError, WrongValue  # noqa: E402
from app.exchange.brands.brand_file import BrandFiles, read_brand_files, write_brand_files  # noqa: E402
from app.exchange.packs.pack import read_pack  # noqa: E402
from app.words import errors  # noqa: E402

DEFAULT = ROOT / "build" / "brands" / "evenload.toml"
#: What of the checkout is the app, and what in it stays at home.
PARTS = ("app", "migrations", "assets")
LEFT_OUT = shutil.ignore_patterns("__pycache__", "*.pyc", ".*", "*.md", "_bundled", "commands", "demo")
MAIN = "from app.native import run\nrun()\n"
#: Flet's own caches; kept, so that the second build of a stage is quick.
KEPT = "build"


def stage(brand_file: Path, folder: Path | None = None) -> Path:
    """Writes the project and gives its folder. What was there before goes, but for the build tool's caches.

    Raises:
        AppError: the brand file or one of its packs is wrong; nothing was written.
        WrongValue: the folder holds the checkout, lies in its source, or holds something that is no stage.
    """
    whole = read_brand_files(brand_file)
    asyncio.run(_check_packs(whole))
    place = (folder or ROOT / "dist" / "stage" / whole.brand.id).resolve()
    _clear(place)
    for part in PARTS:
        shutil.copytree(ROOT / part, place / part, ignore=LEFT_OUT)
    write_brand_files(whole, place / "brand")
    (place / "main.py").write_text(MAIN, "utf-8")
    _write_icons(whole, place / "assets")
    ours = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    derived = stage_project.derived(whole.brand, ours)
    (place / "pyproject.toml").write_text(tomli_w.dumps(derived), "utf-8", newline="\n")
    return place


async def _check_packs(whole: BrandFiles) -> None:
    """Raises:
        FileError: a pack that the app would refuse at its first start.
    """
    keys = {one.signing_key for one in whole.brand.coaches}
    for name in whole.brand.packs:
        pack = await read_pack(whole.files[name], name)
        if pack.signing_key.hex() not in keys:
            raise WrongValue(where=name, value=pack.coach, expected="a coach whose key the brand file names")


def _clear(place: Path) -> None:
    """Raises:
        WrongValue: it is no place for a stage.
    """
    inside_source = any(place.is_relative_to(ROOT / part) for part in (*PARTS, "build", "tests", ".git", ".venv"))
    if place == ROOT or ROOT.is_relative_to(place) or inside_source:
        raise WrongValue(where=str(place), value="the checkout", expected="a folder outside its source")
    if place.exists() and any(place.iterdir()) and not (place / "brand" / "brand.toml").is_file():
        raise WrongValue(where=str(place), value="something else", expected="a new folder, an empty one, or a stage")
    place.mkdir(parents=True, exist_ok=True)
    for old in place.iterdir():
        if old.name != KEPT:
            shutil.rmtree(old) if old.is_dir() else old.unlink()


def _write_icons(whole: BrandFiles, assets: Path) -> None:
    """`icon.png` and `splash.png`, from which the build tool makes every size; without an own icon, ours."""
    if whole.brand.icon:
        data = whole.files[whole.brand.icon]
    else:
        import icons

        data = icons.png(1024, 0.0)
    for name in ("icon.png", "splash.png"):
        (assets / name).write_bytes(data)


def main(arguments: list[str]) -> int:
    """Prints where the project lies. 2: something is wrong, which was said."""
    parser = argparse.ArgumentParser(prog="stage.py", description="Derives a project for `flet build`.")
    parser.add_argument("--brand", type=Path, default=DEFAULT, metavar="FILE")
    parser.add_argument("-o", "--output", type=Path, metavar="FOLDER")
    args = parser.parse_args(arguments)
    try:
        print(stage(args.brand, args.output))
    except AppError as error:
        print(errors.error_text(error), file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
