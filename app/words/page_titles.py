"""What a browser's tab, a list of windows or a screen reader calls each page. Names nobody who trains."""
from __future__ import annotations

from collections.abc import Mapping

#: By the first word of the address.
PAGE_TITLES: Mapping[str, str] = {
    "today": "Today", "check-in": "Check-in", "play": "Session", "afterwards": "After the session", "diary": "Diary",
    "plan": "Plan", "send": "Send", "settings": "Settings", "programme": "Programme", "get": "Programme",
    "key": "Programme", "checks": "Checks", "note": "What happened?", "why": "The rules", "yes": "Record the go-ahead",
    "who": "Who is here?", "welcome": "Welcome", "desk": "Who needs you", "people": "People", "person": "One person",
    "unlock": "PIN", "publish": "Publish",
}


def page_title(word: str, app: str) -> str:
    """`Diary – Evenload`."""
    return f"{PAGE_TITLES[word]} – {app}"
