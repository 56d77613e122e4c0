"""A Firefox for the whole run is one that is here, or Debian's."""
from __future__ import annotations

import importlib
from types import ModuleType

import pytest


@pytest.fixture
def firefox() -> ModuleType:
    return importlib.import_module("firefox")


@pytest.mark.parametrize(("here", "installs", "had", "asked"), [
    ("firefox", False, True, []), ("firefox-esr", False, True, []),
    ("", True, True, ["firefox-esr"]), ("", False, False, ["firefox-esr"]),
])
def test_debian_s_is_installed_only_where_there_is_none(
        firefox: ModuleType, monkeypatch: pytest.MonkeyPatch, here: str, installs: bool, had: bool,
        asked: list[str]) -> None:
    """By the same names that the tests look for."""
    there, installed = {here}, list[str]()

    def from_debian(package: str) -> bool:
        installed.append(package)
        there.add(package if installs else "")
        return installs
    monkeypatch.setattr(firefox.shutil, "which", lambda name: name if name in there else None)
    monkeypatch.setattr(firefox.chromium, "from_debian", from_debian)
    assert firefox.obtain() is had
    assert installed == asked
