"""Words for a device whose clock can hardly be right. Knows no Flet."""
from __future__ import annotations

from datetime import datetime

from app.domain.model.misdated import ClockDoubt, ClockFault
from app.words.client.today import long_day_words


def clock_line(doubt: ClockDoubt, here: datetime) -> str:
    """That the device's clock may be wrong; `here` is what it says, by local time."""
    says, entry = (f"{long_day_words(one.date())}, {one:%H:%M}" for one in (here, doubt.entry))
    if doubt.fault is ClockFault.BEHIND:
        return (f"This device says that it’s {says}, but your newest entry was made on {entry}. Please check the date "
                "and time in the device’s settings. Everything here goes by them.")
    return (f"This device says that it’s {says}, and your newest entry was made on {entry}. If that can’t be right, "
            "please set the date and time in the device’s settings before you go on.")
