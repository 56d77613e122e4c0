#!/usr/bin/env python3
"""Writes `build/constraints.txt`: every library for running and testing at one version, with the hashes of its files.

    python3 build/constraints.py                                      needs uv; asks the package registry
    pip install --require-hashes -r build/constraints.txt             installs exactly these, on any platform
    pip install --no-deps -e .                                        and then the program

What pyproject.toml asks for are ranges; this is what was tested last. It is written anew when pyproject.toml changes.
"""
from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
FILE = ROOT / "build" / "constraints.txt"
OLDEST = "3.11"
_LINE = re.compile(r"^([a-z0-9-]+)==(\S+?)( ; [^\\\n]+?)?((?: \\\n    --hash=sha256:[0-9a-f]{64})+)$", re.MULTILINE)


def pinned(text: str) -> dict[str, tuple[str, tuple[str, ...]]]:
    """Version and hashes by name, of a file as this writes it."""
    return {name: (version, tuple(re.findall("sha256:[0-9a-f]{64}", hashes)))
            for name, version, _, hashes in _LINE.findall(text)}


def main() -> int:
    """0: written; 2: there is no uv, or it failed and says why; the file stays as it was."""
    uv = shutil.which("uv")
    if uv is None:
        print("uv is not installed: pip install uv, then run this again.", file=sys.stderr)
        return 2
    made = subprocess.run(
        [uv, "pip", "compile", "pyproject.toml", "--extra", "test", "--universal", "--python-version", OLDEST,
         "--generate-hashes", "--no-annotate", "--no-header", "--no-emit-index-url", "--quiet"],
        cwd=ROOT, stdout=subprocess.PIPE, text=True, check=False)
    if made.returncode or not pinned(made.stdout):
        print("uv gave nothing; it says why above.", file=sys.stderr)
        return 2
    FILE.write_text(made.stdout, "utf-8", newline="\n")
    print(f"{FILE.relative_to(ROOT)}: {len(pinned(made.stdout))} libraries")
    return 0


if __name__ == "__main__":
    sys.exit(main())
