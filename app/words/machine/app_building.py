"""What is said while a studio's own app is made and shown."""
from __future__ import annotations

from datetime import datetime


def made(name: str, folder: str, files: int, size: int) -> str:
    """After `evenload make-app`, with what to do next."""
    return (f"{name} is in {folder}: {files} files, {size / 1e6:.0f} MB. See it here with: evenload serve {folder}\n"
            "To hand it out, put the whole folder on any web host that answers by https.")


def shown_at(address: str) -> str:
    """While a folder is served on this machine."""
    return f"Open {address}\nOnly this computer can see it. Ctrl+C ends it."


def works_offline(tried: datetime) -> str:
    """After a start without a network succeeded on this device; before that nothing of the kind is said."""
    return f"Works without internet: it started without a network on {tried:%d %B %Y}."

