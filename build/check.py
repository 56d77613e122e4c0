#!/usr/bin/env python3
"""Rehearses `flet build` on a stage: the real build tool, with stand-ins for the vendors' toolchains, offline.

    python3 build/check.py [--brand FILE] [TARGET …]     targets: apk aab ipa macos linux web, by default all

What it shows: the build tool finds the entry, accepts every setting of the derived project, draws the icons and calls
the toolchains as meant, and this checkout's build/ is byte for byte as before. What it does not show is printed too.
"""
from __future__ import annotations

import argparse
import hashlib
import json
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import inside

inside.enter("test", "flet", "flet_cli", "pydantic", "tomli_w")

import stage  # noqa: E402
import stand_ins  # noqa: E402
from flet_cli.commands.build_base import ICON_PLATFORMS  # noqa: E402
from flet_platform_assets import DEFAULT_SPECS, LINUX_HICOLOR_SIZES  # noqa: E402
from stage_project import ANDROID_PERMISSIONS, LINK_HOST  # noqa: E402

from app.domain.branding.brand import Brand  # noqa: E402
from app.domain.errors import AppError  # noqa: E402
from app.exchange.brands.brand_file import png_size, read_brand  # noqa: E402
from app.words import errors  # noqa: E402

TARGETS = ("apk", "aab", "ipa", "macos", "linux", "web")
FLUTTER = {"aab": "appbundle"}
NOT_SHOWN = """\
Not shown by this: that a real build compiles, links or starts, that wheels for phones exist for every dependency, that
a store accepts the result, and anything about Windows. Flutter, Dart, the JDK, the Android SDK, Xcode, the project
template and the bundled Python were stand-ins that only wrote down how they were called."""


@dataclass(frozen=True)
class Rehearsed:
    """One target: what was wrong, empty if nothing was, and what was seen."""

    target: str
    wrong: tuple[str, ...]
    icons: int
    seconds: float
    log: str


def rehearse(brand_file: Path, targets: tuple[str, ...] = TARGETS) -> list[Rehearsed]:
    """Every target on one stage, one after the other.

    Raises:
        AppError: the brand is wrong.
    """
    brand = read_brand(brand_file)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        stand_ins.lay(folder, brand.id)
        return [_rehearse(target, brand, stage.stage(brand_file, folder / "stages" / target), folder)
                for target in targets]


def _rehearse(target: str, brand: Brand, project: Path, folder: Path) -> Rehearsed:
    begun, calls, out = time.monotonic(), folder / f"{target}.calls", folder / "out" / target
    system = stand_ins.SYSTEMS.get(target, "Linux")
    code = f"import platform; platform.system = lambda: {system!r}; from flet_cli.cli import main; main()"
    command = [sys.executable, "-c", code, "build", target, str(project), "-o", str(out),
               "--template", str(folder / "template"), "--yes"]
    ran = subprocess.run(command, env=stand_ins.surroundings(folder, calls), cwd=folder, capture_output=True, text=True,
                         check=False)
    log = ran.stdout + ran.stderr
    if ran.returncode:
        return Rehearsed(target, (f"the build tool ended with {ran.returncode}",), 0, _since(begun), log)
    made = project / "build" / "flutter"
    said = [json.loads(line) for line in calls.read_text("utf-8").splitlines()]
    told = json.loads((made / stand_ins.WORKED_OUT).read_text("utf-8"))
    sizes = {path.relative_to(made).as_posix(): size for path in made.rglob("*.png")
             if (size := png_size(path.read_bytes())) and size[0] > 1}
    wrong = (*_wrong_calls(target, said), *_wrong_settings(target, brand, told), *_wrong_icons(target, sizes))
    came_out = any(path.is_file() for path in out.rglob("*"))
    return Rehearsed(target, wrong if came_out else (*wrong, "nothing came out"), len(sizes), _since(begun), log)


def _wrong_calls(target: str, calls: list[list[str]]) -> Iterator[str]:
    """The Python program is packed once, and the right product built from it."""
    packed = [call for call in calls if "package" in call]
    if len(packed) != 1:
        yield f"the Python program was packed {len(packed)} times"
    if not any(call[:2] == ["flutter", "build"] and call[2] == FLUTTER.get(target, target) for call in calls):
        yield "Flutter was not asked to build it"
    if packed and not any("--compile-app" in word for call in packed for word in call):
        yield "the program is not byte-compiled"


def _wrong_settings(target: str, brand: Brand, told: dict[str, Any]) -> Iterator[str]:
    """What the brand says has reached the project's template."""
    options = told["options"]
    wanted: dict[str, tuple[object, object]] = {
        "name": (told["product_name"], brand.name), "splash": (told["splash"]["color"], brand.light.paper),
        "dark splash": (told["splash"]["dark_color"], brand.dark.paper), "module": (told["python_module_name"], "main"),
    }
    if brand.release:
        wanted["bundle id"] = (told["bundle_id"], brand.release.bundle_id)
    if target in {"apk", "aab"}:
        given = {name for name, on in options["android_permissions"].items() if on}
        wanted["permissions"] = (given >= {f"android.permission.{name}" for name in ANDROID_PERMISSIONS}, True)
        wanted["adaptive icon"] = (told["adaptive_icon_background"], brand.light.paper)
    if target in {"apk", "aab", "ipa"}:
        wanted["link"] = (options["deep_linking"], {"scheme": brand.id, "host": LINK_HOST})
    if target == "ipa":
        wanted["background audio"] = (options["info_plist"].get("UIBackgroundModes"), ["audio"])
    if target == "web":
        wanted["short name"] = (told["pwa_short_name"], brand.short_name)
    yield from (f"{name} is {found!r}, not {meant!r}" for name, (found, meant) in wanted.items() if found != meant)


def _wrong_icons(target: str, sizes: dict[str, tuple[int, int]]) -> Iterator[str]:
    """Every icon that a project of that platform declares was drawn in its size."""
    declared = DEFAULT_SPECS[ICON_PLATFORMS[target]].targets
    for icon in declared:
        if sizes.get(icon.relative_path) != (icon.size, icon.size):
            yield f"{icon.relative_path} is {sizes.get(icon.relative_path)}, not {icon.size}"
    # Linux declares none: its icons are added, each in a size of the theme that desktops look in
    if not declared and len(sizes) < len(LINUX_HICOLOR_SIZES):
        yield f"only {len(sizes)} pictures were drawn"


def _since(begun: float) -> float:
    return time.monotonic() - begun


def fingerprint(folder: Path) -> dict[str, str]:
    """Every file below a folder with its hash, but for Python's own caches."""
    return {str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
            for path in sorted(folder.rglob("*")) if path.is_file() and "__pycache__" not in path.parts}


def main(arguments: list[str]) -> int:
    """Prints a line for each target. 1: something was wrong. 2: it could not be begun."""
    parser = argparse.ArgumentParser(prog="check.py", description="Rehearses `flet build` with stand-ins.")
    parser.add_argument("targets", nargs="*", choices=[*TARGETS, []], metavar="TARGET")
    parser.add_argument("--brand", type=Path, default=stage.DEFAULT, metavar="FILE")
    args = parser.parse_args(arguments)
    build = stage.ROOT / "build"
    before = fingerprint(build)
    try:
        done = rehearse(args.brand, tuple(args.targets) or TARGETS)
    except AppError as error:
        print(errors.error_text(error), file=sys.stderr)
        return 2
    for one in done:
        print(f"{one.target:6} {'; '.join(one.wrong) or 'as meant'}, {one.icons} pictures, {one.seconds:.1f} s")
        if one.wrong:
            print(one.log[-2000:])
    unchanged = fingerprint(build) == before
    print("build/ is byte for byte as before" if unchanged else "build/ WAS CHANGED")
    print(NOT_SHOWN)
    return int(not unchanged or any(one.wrong for one in done))


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
