"""The programs in build/, which is a folder of scripts and no package."""
from __future__ import annotations

import importlib
import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest

BUILD = Path(__file__).resolve().parent.parent.parent / "build"


@pytest.fixture(scope="session", autouse=True)
def scripts() -> Iterator[None]:
    """build/ is where Python looks while these tests run."""
    sys.path.insert(0, str(BUILD))
    yield
    sys.path.remove(str(BUILD))


@pytest.fixture
def dev() -> ModuleType:
    return importlib.import_module("dev")


@pytest.fixture
def chromium() -> ModuleType:
    return importlib.import_module("chromium")


@pytest.fixture
def sounds() -> ModuleType:
    return importlib.import_module("sounds")
