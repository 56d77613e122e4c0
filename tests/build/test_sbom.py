"""The bill of materials: nothing that is asked for is missing, everything has a version and a licence."""
from __future__ import annotations

import importlib
import json
import re
import tomllib
from importlib.metadata import version
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def sbom() -> ModuleType:
    return importlib.import_module("sbom")


@pytest.fixture(scope="module")
def made(sbom: ModuleType, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """As the command writes it."""
    file = tmp_path_factory.mktemp("sbom") / "evenload.cdx.json"
    assert sbom.main(["-o", str(file)]) == 0
    told: dict[str, Any] = json.loads(file.read_text("utf-8"))
    assert told == sbom.bill(), "the same each time"
    return told


def test_every_library_is_on_it_with_what_it_asks_for(made: dict[str, Any]) -> None:
    """Each once, at the version that is installed, and each reference leads to one that is there."""
    assert (made["bomFormat"], made["specVersion"]) == ("CycloneDX", "1.6")
    by_name = {one["name"]: one for one in made["components"]}
    assert len(by_name) == len(made["components"])
    for name in ("sqlalchemy", "cryptography", "flet", "pydantic-core", "msgpack", "greenlet"):
        assert name not in by_name or by_name[name]["version"] == version(name)
    assert {"sqlalchemy", "cryptography", "flet", "pydantic-core", "msgpack", "pyodide", "cpython"} <= by_name.keys()
    refs = {one["bom-ref"] for one in made["components"]} | {made["metadata"]["component"]["bom-ref"]}
    assert all({edge["ref"], *edge["dependsOn"]} <= refs for edge in made["dependencies"])
    assert "pydantic-core" in " ".join(next(e["dependsOn"] for e in made["dependencies"] if "/pydantic@" in e["ref"]))


def test_everything_says_where_it_is_shipped_and_under_which_licence(made: dict[str, Any]) -> None:
    """A library without a licence could not be shipped."""
    assert [one["name"] for one in made["components"] if not one["licenses"]] == []
    assert all(one["properties"] for one in made["components"])
    shipped = {p["value"] for one in made["components"] if one["name"] == "cryptography" for p in one["properties"]}
    assert shipped == {"wheel"}, "the browser has its own"


def test_every_range_of_a_dependency_ends() -> None:
    """At a version that nobody has tried."""
    told = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    project = told["project"]
    asked = [*told["build-system"]["requires"], *project["dependencies"],
             *(one for extra in project["optional-dependencies"].values() for one in extra), project["requires-python"]]
    assert len(asked) > 15
    assert [one for one in asked if not re.search(r"==|<\s*\d", one)] == []
