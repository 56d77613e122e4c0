"""Who moves in the pictures."""
from __future__ import annotations

from enum import StrEnum


class FigureBody(StrEnum):
    """Of a figure; a coach names one in `source.toml`, a client chooses in the settings."""

    SILVER = "silver"
    """Short silver hair; as figures are drawn."""
    BEARD = "beard"
    """A man: bald, a white beard, dark skin."""
    BROAD = "broad"
    """A broad build, dark hair to the chin, light skin."""
