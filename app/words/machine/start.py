"""What a page says by itself while neither the client nor Python stands: the start failed, or takes very long."""
from __future__ import annotations

from collections.abc import Mapping

from app.words.errors import BROWSERS
from app.words.machine.web import TRY_AGAIN


def failed_head(name: str) -> str:
    """The start ended in an error."""
    return f"{name} did not start"


def slow_head(name: str) -> str:
    """Nothing has happened for a minute."""
    return f"{name} is taking its time"


FAILED = (
    "Nothing that you saved is lost. Try again. If this page comes back, close every window of the app and open it "
    f"again, or open it in another up-to-date browser: {BROWSERS}."
)
SLOW = "The first start loads about 20 MB, so on a slow connection it can take minutes. You can wait, or try again."


def start_notice(name: str) -> Mapping[str, str]:
    """By the places of `assets/page/not_started.html`, for an app of that name."""
    return {"failed_head": failed_head(name), "failed": FAILED, "slow_head": slow_head(name), "slow": SLOW,
            "again": TRY_AGAIN}
