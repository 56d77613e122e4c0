"""The pages that the server itself shows, before the app is there."""
from __future__ import annotations

from app.domain.branding.brand import Brand

LOCKED_TITLE = "This page is locked"
ELSEWHERE_TITLE = "Wrong address"


def locked_text(app: str) -> str:
    """To a browser without the key."""
    return (f"Only you can open {app} on this computer, and each address works once. Open the page that the command "
            "named when it started: it is in your records folder, and lets you in again.")


def elsewhere_text(app: str) -> str:
    """To whoever comes by another name."""
    return f"{app} answers only at the address that the command printed, on this computer."


def plain_page(title: str, text: str, brand: Brand) -> str:
    """A page with one heading and one paragraph that needs nothing else."""
    light, dark = brand.light, brand.dark
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{title}</title><style>"
        "body{margin:10vh auto;max-width:34rem;padding:0 20px;font:1.2rem/1.5 sans-serif;"
        f"background:{light.paper};color:{light.ink}}}"
        f"@media (prefers-color-scheme:dark){{body{{background:{dark.paper};color:{dark.ink}}}}}"
        f"</style></head><body><h1>{title}</h1><p>{text}</p></body></html>"
    )
