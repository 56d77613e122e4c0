"""Stand-ins for what the vendors' toolchains bring: Flutter, Dart, a JDK, the Android SDK, the template, the manifest.

They write down how they were called and leave files where the real ones would. The template renders what the build
tool worked out, and holds an empty picture for every icon that a real project declares.
"""
from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import Any

import flet.version
import icons
from flet_platform_assets import DEFAULT_SPECS

#: What the build tool asks of the machine that it runs on.
SYSTEMS = {"ipa": "Darwin", "macos": "Darwin"}
WORKED_OUT = "worked_out.json"
#: A picture of one point, for what the template declares.
POINT = icons.png(1, 0.0)
TOOL = r'''#!{python}
import json, os, pathlib, sys
given = sys.argv[1:]
with open(os.environ["CALLS"], "a") as log:
    log.write(json.dumps([pathlib.Path(sys.argv[0]).name, *given]) + "\n")
if "--version" in given:
    print("Flutter {flutter}  channel stable")
if "package" in given:
    app = os.environ.get("SERIOUS_PYTHON_APP")
    if app:
        pathlib.Path(app).mkdir(parents=True, exist_ok=True)
    else:
        pathlib.Path("app").mkdir(exist_ok=True)
        pathlib.Path("app/app.zip").write_text("stand-in")
        site = pathlib.Path("web/pyodide")
        site.mkdir(parents=True, exist_ok=True)
        (site / "pyodide-lock.json").write_text(json.dumps({{"info": {{"version": "0.29.4"}}}}))
if given[:1] == ["build"]:
    place = pathlib.Path({outputs!r}[given[1]])
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text("stand-in")
'''
CONTEXT = ("options", "product_name", "project_name", "bundle_id", "org_name", "company_name", "copyright", "splash",
           "adaptive_icon_background", "pwa_short_name", "pwa_background_color", "pwa_theme_color", "boot_screen",
           "python_module_name", "linux_categories")


def outputs(artifact: str) -> dict[str, str]:
    """Where each Flutter build leaves its product."""
    return {
        "apk": "build/app/outputs/flutter-apk/app-release.apk",
        "appbundle": "build/app/outputs/bundle/release/app-release.aab",
        "ipa": "build/ios/archive/Runner.xcarchive/Info.plist",
        "macos": f"build/macos/Build/Products/Release/{artifact}.app/Contents",
        "linux": f"build/linux/x64/release/bundle/{artifact}",
        "web": "build/web/index.html",
    }


def lay(folder: Path, artifact: str) -> None:
    """Puts them all into a folder."""
    tool = TOOL.format(python=sys.executable, flutter=flet.version.flutter_version, outputs=outputs(artifact))
    for name in ("flutter", "dart"):
        _program(folder / "sdk" / "bin" / name, tool)
    _program(folder / "jdk" / "bin" / "javac", "#!/bin/sh\necho javac 17.0.13\n")
    for part in ("platform-tools", "platforms/android-35", "build-tools/34.0.0", "cmdline-tools/12.0/bin"):
        (folder / "android" / part).mkdir(parents=True)
    (folder / "home").mkdir()
    _lay_template(folder / "template")
    (folder / "manifest.json").write_text(json.dumps(_manifest()), "utf-8")


def surroundings(folder: Path, calls: Path) -> dict[str, str]:
    """The environment in which the build tool finds them and nothing else."""
    path = f"{folder / 'sdk' / 'bin'}{os.pathsep}{os.environ['PATH']}"
    return dict(os.environ) | {
        "PATH": path, "CALLS": str(calls), "HOME": str(folder / "home"), "JAVA_HOME": str(folder / "jdk"),
        "ANDROID_HOME": str(folder / "android"), "FLET_CACHE_DIR": str(folder / "cache"),
        "FLET_PYTHON_BUILD_MANIFEST": str(folder / "manifest.json"), "FLET_CLI_NO_RICH_OUTPUT": "1",
        "FLET_CLI_SKIP_FLUTTER_DOCTOR": "1", "PYTHONDONTWRITEBYTECODE": "1",
    }


def _lay_template(folder: Path) -> None:
    project = folder / "{{cookiecutter.out_dir}}"
    project.mkdir(parents=True)
    names = dict.fromkeys(("out_dir", *CONTEXT), "")
    (folder / "cookiecutter.json").write_text(json.dumps(names), "utf-8")
    (project / "pubspec.yaml").write_text("name: x\ndependencies: {}\n", "utf-8")
    shown = ",\n".join(f'"{name}": {{{{ cookiecutter.{name} | jsonify }}}}' for name in CONTEXT)
    (project / WORKED_OUT).write_text("{" + shown + "}\n", "utf-8")
    for spec in DEFAULT_SPECS.values():
        for target in spec.targets:
            _picture(project / target.relative_path)


def _picture(place: Path) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_bytes(POINT)


def _program(place: Path, text: str) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(text, "utf-8")
    place.chmod(0o755)


def _manifest() -> dict[str, Any]:
    release = {"full_version": "3.13.14", "pyodide_version": "0.29.4",
               "android_abis": ["arm64-v8a", "armeabi-v7a", "x86_64"]}
    return {"default_python_version": "3.13", "pythons": {"3.13": release}}
