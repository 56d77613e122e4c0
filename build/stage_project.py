"""The `pyproject.toml` of a stage, derived from a brand and from the checkout's own."""
from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from app.domain.branding.brand import Brand, Release

Table = dict[str, Any]

#: The newest Python for which the build tool brings its own.
PYTHON = ">=3.13,<3.14"
#: Of our dependencies, those that only a coach's machine needs: making and serving apps, commands.
AT_HOME = ("flet-web", "flet-platform-assets", "uvicorn", "platformdirs")
#: What a browser has of its own, and what only a desktop can use.
NOT_IN_BROWSERS, DESKTOP_ONLY = ("cryptography",), ("plyer",)
ANDROID, IOS, DESKTOPS = "android", "ios", ("macos", "windows", "linux")
#: For a brand that says nothing of stores: enough to build and try, and no store takes it.
UNNAMED = Release("example.evenload", "", "0.1.0", 1, "")
ANDROID_PERMISSIONS = (
    "VIBRATE", "POST_NOTIFICATIONS", "WAKE_LOCK", "FOREGROUND_SERVICE", "FOREGROUND_SERVICE_MEDIA_PLAYBACK",
)
#: `saltmarsh://programme` opens the app where a pack is taken in.
LINK_HOST = "programme"


def derived(brand: Brand, ours: Table) -> Table:
    """The whole file as a table. `ours`: the checkout's own pyproject."""
    release = brand.release or UNNAMED
    wanted = [line for line in ours["project"]["dependencies"] if _name(line) not in AT_HOME]
    everywhere = [line for line in wanted if _name(line) not in NOT_IN_BROWSERS + DESKTOP_ONLY]
    native = [line for line in wanted if _name(line) in NOT_IN_BROWSERS]
    desktop = native + [line for line in wanted if _name(line) in DESKTOP_ONLY]
    flet = _general(brand, release) | {"android": _android(brand, native), "ios": _ios(brand, native)}
    flet |= {platform: {"dependencies": desktop} for platform in DESKTOPS}
    flet["linux"]["categories"] = ["Sports"]
    flet["web"] = _web(brand)
    return {
        "project": {
            "name": brand.id, "version": release.version, "description": brand.description, "requires-python": PYTHON,
            "dependencies": everywhere,
        },
        "tool": {"flet": flet},
    }


def _general(brand: Brand, release: Release) -> Table:
    light, dark = brand.light.paper, brand.dark.paper
    return {
        "org": release.organisation, "bundle_id": release.bundle_id or f"{release.organisation}.{_plain(brand.id)}",
        "product": brand.name, "artifact": brand.id, "company": release.company or brand.name,
        "copyright": release.copyright, "build_number": release.build, "icon_background": light,
        "app": {"module": "main"},
        # byte code alone; Alembic then has to be told to read it, see `sourceless` in app/storage/schema.py
        "compile": {"app": True, "packages": True},
        "cleanup": {"packages": True},
        "splash": {"color": light, "dark_color": dark, "icon_background": light, "icon_dark_background": dark},
        "boot_screen": {"name": "flet", "flet": {"bgcolor_light": light, "bgcolor_dark": dark, "spinner_size": 30}},
    }


def _android(brand: Brand, native: list[str]) -> Table:
    return {
        "dependencies": native,
        "min_sdk_version": 24,
        "adaptive_icon_background": brand.light.paper,
        "permission": {f"android.permission.{name}": True for name in ANDROID_PERMISSIONS},
        "deep_linking": _link(brand),
    }


def _ios(brand: Brand, native: list[str]) -> Table:
    return {"dependencies": native, "info": {"UIBackgroundModes": ["audio"]}, "deep_linking": _link(brand)}


def _web(brand: Brand) -> Table:
    return {
        "pwa_background_color": brand.light.paper, "pwa_theme_color": brand.light.paper,
        "pwa_short_name": brand.short_name, "cdn": False, "route_url_strategy": "hash",
    }


def _link(brand: Brand) -> Table:
    """Per platform: the build tool reads no common one for phones."""
    return {"scheme": brand.id, "host": LINK_HOST}


def _name(requirement: str) -> str:
    return re.split(r"[^A-Za-z0-9._-]", requirement.strip(), maxsplit=1)[0].lower()


def _plain(slug: str) -> str:
    """A bundle id has no hyphens on Android."""
    return slug.replace("-", "_")
