"""The pinned libraries: all that is asked for, within its range, each file of each known by its hash."""
from __future__ import annotations

import importlib
import tomllib
from pathlib import Path
from types import ModuleType

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def constraints() -> ModuleType:
    return importlib.import_module("constraints")


@pytest.fixture(scope="module")
def pinned(constraints: ModuleType) -> dict[str, tuple[str, tuple[str, ...]]]:
    """As it is committed."""
    text = constraints.FILE.read_text("utf-8")
    found: dict[str, tuple[str, tuple[str, ...]]] = constraints.pinned(text)
    assert len(found) == sum(not line.startswith(" ") for line in text.splitlines()), "a line of another kind"
    return found


def _asked() -> list[Requirement]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    return [Requirement(one) for one in (*project["dependencies"], *project["optional-dependencies"]["test"])]


def test_everything_that_is_asked_for_is_pinned_within_its_range(pinned: dict[str, tuple[str, tuple[str, ...]]]
                                                                  ) -> None:
    """Whoever changes a range writes the file anew."""
    asked = _asked()
    assert len(asked) > 15
    for one in asked:
        version, _ = pinned[canonicalize_name(one.name)]
        assert one.specifier.contains(version), f"{one}: {version} is pinned; python3 build/constraints.py"


def test_what_they_ask_for_in_turn_is_pinned_too(pinned: dict[str, tuple[str, tuple[str, ...]]]) -> None:
    """As far as it is installed here; pip refuses a library without a hash once one has some."""
    sbom = importlib.import_module("sbom")
    closure = sbom.closure([str(one) for one in _asked()])
    assert closure.keys() <= pinned.keys() and len(closure) > 40


def test_every_library_has_its_hashes_each_once(pinned: dict[str, tuple[str, tuple[str, ...]]]) -> None:
    """And no two libraries the same file."""
    hashes = [one for _, found in pinned.values() for one in found]
    assert all(found for _, found in pinned.values()) and len(hashes) == len(set(hashes))


def test_a_line_is_read_with_its_marker_and_all_hashes(constraints: ModuleType) -> None:
    """And one without a hash is none."""
    a, b = "a" * 64, "b" * 64
    text = (f"cffi==2.1.1 ; sys_platform != 'win32' \\\n    --hash=sha256:{a} \\\n    --hash=sha256:{b}\n"
            f"anyio==4.16.0 \\\n    --hash=sha256:{b}\nbare==1.0\n")
    assert constraints.pinned(text) == {"cffi": ("2.1.1", (f"sha256:{a}", f"sha256:{b}")),
                                        "anyio": ("4.16.0", (f"sha256:{b}",))}


def test_what_the_web_app_ships_is_asked_for_by_its_hashes(pinned: dict[str, tuple[str, tuple[str, ...]]],
                                                            capsys: pytest.CaptureFixture[str]) -> None:
    """Where the version is the pinned one; any other is said to be unproven, and pip takes it without."""
    web = importlib.import_module("web_python")
    version, hashes = pinned["msgpack"]
    assert web.with_hashes({"msgpack": version}).split() == [f"msgpack=={version}", *(f"--hash={h}" for h in hashes)]
    assert capsys.readouterr().err == ""
    assert web.with_hashes({"msgpack": "0.1"}) == "msgpack==0.1\n"
    assert "msgpack" in capsys.readouterr().err
