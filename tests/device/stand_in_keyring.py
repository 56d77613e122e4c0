"""A password store for tests: `keyring` as far as it is used, kept in memory, opened or refusing."""
from __future__ import annotations

import sys
from dataclasses import dataclass, field
from types import ModuleType, SimpleNamespace

import pytest


@dataclass
class Keyring:
    """What is kept by service and name. `refuses`: its owner does not open it."""

    kept: dict[tuple[str, str], str] = field(default_factory=dict)
    refuses: bool = False
    priority: float = 5

    def _look(self) -> None:
        if self.refuses:
            raise RuntimeError("the store was not opened")

    def set_password(self, service: str, name: str, secret: str) -> None:
        """Keeps it."""
        self._look()
        self.kept[service, name] = secret

    def get_password(self, service: str, name: str) -> str | None:
        """What is kept, or None."""
        self._look()
        return self.kept.get((service, name))

    def delete_password(self, service: str, name: str) -> None:
        """Forgets it."""
        self._look()
        del self.kept[service, name]


def put_in(monkeypatch: pytest.MonkeyPatch) -> Keyring:
    """In place of the library, as if it were installed on a desktop computer."""
    stands_in, library = Keyring(), ModuleType("keyring")
    for act in ("set_password", "get_password", "delete_password"):
        setattr(library, act, getattr(stands_in, act))
    library.get_keyring = lambda: SimpleNamespace(priority=stands_in.priority)  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "keyring", library)
    monkeypatch.setattr("app.device.password_store.is_desktop", lambda: True)
    return stands_in
