"""Runs a script of build/ with the packages of the checkout's own environment, whichever Python it was called with."""
from __future__ import annotations

import subprocess
import sys
from importlib.util import find_spec

import dev


def enter(extra: str, *needs: str) -> None:
    """Goes on where the modules `needs` are here; else runs the same script again inside `.venv`, and ends with it.

    `extra`: "run" or "test", what has to be installed there.

    Raises:
        SystemExit: always, unless the modules are here. 2: this machine lacks something, which was named.
    """
    if all(find_spec(module) for module in needs):
        return
    environment = dev.Environment(dev.ROOT, dev.ROOT / ".venv")
    try:
        environment.ready(extra)
    except dev.CannotGoOn as lack:
        print(lack, file=sys.stderr)
        raise SystemExit(2) from lack
    raise SystemExit(subprocess.call([str(environment.python), *sys.argv]))
