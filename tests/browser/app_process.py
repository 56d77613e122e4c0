"""The whole app in a process of its own: python -m tests.browser.app_process DATA_DIR [--port N] [--began T --rate R]

Prints the address. Loaded as a command is; its arguments: `tests/browser/served_app.py`.
"""
from __future__ import annotations

from app.cli import load

if __name__ == "__main__":
    load("tests.browser.served_app").main()
