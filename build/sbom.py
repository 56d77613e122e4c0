#!/usr/bin/env python3
"""A bill of materials: every library that the wheel asks for and that the web app ships, with versions and licences.

    python3 build/sbom.py -o FILE        CycloneDX 1.6, JSON; the same environment gives the same bytes

Versions, licences and what asks for what come from the metadata of what is installed here.
"""
from __future__ import annotations

import argparse
import json
import sys
import tomllib
from collections.abc import Iterator, Sequence
from importlib.metadata import Distribution, distribution
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import inside

inside.enter("test", "flet", "flet_web", "packaging")

from packaging.requirements import Requirement  # noqa: E402
from packaging.utils import canonicalize_name  # noqa: E402
from web_python import COMPILED, PURE  # noqa: E402

ROOT = Path(__file__).resolve().parent.parent
#: Longer than this, metadata hold the text of a licence and not its name.
_LONGEST_NAME = 80
Table = dict[str, Any]


def closure(wanted: Sequence[str]) -> dict[str, set[str]]:
    """Everything that is asked for, by name, with the names that each asks for in turn; of this platform."""
    found: dict[str, set[str]] = {}
    waiting = [Requirement(words) for words in wanted]
    while waiting:
        one = waiting.pop()
        name = canonicalize_name(one.name)
        asked = [*_asked(distribution(one.name), one.extras)]
        new = {canonicalize_name(other.name) for other in asked}
        if name not in found or not new <= found[name]:
            found[name] = found.get(name, set()) | new
            waiting.extend(asked)
    return found


def _asked(of: Distribution, extras: set[str]) -> Iterator[Requirement]:
    for words in of.requires or ():
        one = Requirement(words)
        if one.marker is None or any(one.marker.evaluate({"extra": extra}) for extra in ("", *extras)):
            yield one


def licences(of: Distribution) -> list[Table]:
    """As CycloneDX has them; empty where the metadata name none."""
    told = of.metadata
    if expression := told.get("License-Expression"):
        return [{"expression": expression}]
    named = told.get("License") or ""
    if named and named != "UNKNOWN" and len(named) <= _LONGEST_NAME and "\n" not in named:
        return [{"license": {"name": named}}]
    lines = (line for line in told.get_all("Classifier") or () if line.startswith("License ::"))
    return [{"license": {"name": line.rpartition(" :: ")[2]}} for line in lines]


def _library(name: str, ships: Sequence[str]) -> Table:
    found = distribution(name)
    ref = f"pkg:pypi/{canonicalize_name(name)}@{found.version}"
    return _component("library", canonicalize_name(name), found.version, licences(found), ref, ships)


def _component(kind: str, name: str, version: str, licensed: list[Table], ref: str, ships: Sequence[str]) -> Table:
    properties = [{"name": "evenload:in", "value": where} for where in ships]
    more = ({"purl": ref} if ref.startswith("pkg:pypi/") else {}) | ({"version": version} if version else {})
    return {"type": kind, "bom-ref": ref, "name": name, "licenses": licensed, **more,
            "properties": properties}


def beside_python() -> list[Table]:
    """What the web app ships that is no Python library: the client, the interpreter, the typeface."""
    spec = find_spec("flet_web")
    assert spec is not None and spec.origin is not None
    web = Path(spec.origin).parent / "web"
    client = json.loads((web / "version.json").read_text("utf-8"))["version"]
    about = json.loads((web / "pyodide" / "pyodide-lock.json").read_text("utf-8"))["info"]
    return [
        _component("application", "flet client", client, [{"expression": "Apache-2.0"}], f"flet-client@{client}",
                   ["web"]),
        _component("platform", "pyodide", about["abi_version"], [{"expression": "MPL-2.0"}],
                   f"pyodide@{about['abi_version']}", ["web"]),
        _component("platform", "cpython", about["python"], [{"expression": "Python-2.0"}],
                   f"cpython@{about['python']}", ["web"]),
        _component("data", "Atkinson Hyperlegible Next", "", [{"expression": "OFL-1.1"}],
                   "atkinson-hyperlegible-next", ["wheel", "web"]),
    ]


def bill() -> Table:
    """The whole of it."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    asked = closure(project["dependencies"])
    web = {canonicalize_name(name) for name in (*PURE, *COMPILED)}
    version = _version()
    libraries = [_library(name, [where for where, names in (("wheel", asked.keys()), ("web", web)) if name in names])
                 for name in sorted(asked.keys() | web)]
    ref_of = {one["name"]: one["bom-ref"] for one in libraries}
    first = {canonicalize_name(Requirement(words).name) for words in project["dependencies"]}
    app = {"type": "application", "bom-ref": f"evenload@{version}", "name": "evenload", "version": version,
           "licenses": [{"expression": project["license"]}]}
    depends = [{"ref": app["bom-ref"], "dependsOn": sorted(ref_of[name] for name in first)},
               *({"ref": ref_of[name], "dependsOn": sorted(ref_of[other] for other in asked[name])}
                 for name in sorted(asked))]
    return {"bomFormat": "CycloneDX", "specVersion": "1.6", "version": 1, "metadata": {"component": app},
            "components": [*libraries, *beside_python()], "dependencies": depends}


def _version() -> str:
    lines = (ROOT / "app" / "__init__.py").read_text("utf-8").splitlines()
    line = next(line for line in lines if "__version__" in line)
    return line.partition("=")[2].strip().strip("\"'")


def main(arguments: Sequence[str] | None = None) -> int:
    """Writes it, and says how many there are."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("-o", "--output", type=Path, required=True)
    args = asked.parse_args(arguments)
    made = bill()
    args.output.write_text(json.dumps(made, ensure_ascii=False, indent=1) + "\n", "utf-8", newline="\n")
    unnamed = [one["name"] for one in made["components"] if not one["licenses"]]
    print(f"{args.output}: {len(made['components'])} components"
          + (f"; no licence named by {', '.join(unnamed)}" if unnamed else ""))
    return 0


if __name__ == "__main__":
    sys.exit(main())
