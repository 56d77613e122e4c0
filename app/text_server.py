"""The pages that the server itself shows, before the app is there."""
from __future__ import annotations

LOCKED_TITLE = "This page is locked"
LOCKED_TEXT = (
    "Only you can open Evenload on this computer. Use the whole address that the command printed when it started, "
    "or start it again."
)
ELSEWHERE_TITLE = "Wrong address"
ELSEWHERE_TEXT = "Evenload answers only at the address that the command printed, on this computer."


def plain_page(title: str, text: str) -> str:
    """A page with one heading and one paragraph that needs nothing else."""
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{title}</title><style>"
        "body{margin:10vh auto;max-width:34rem;padding:0 20px;font:1.2rem/1.5 sans-serif;"
        "background:#f4eddd;color:#1f1a14}"
        "@media (prefers-color-scheme:dark){body{background:#18140f;color:#f5ebd8}}"
        f"</style></head><body><h1>{title}</h1><p>{text}</p></body></html>"
    )
