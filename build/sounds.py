#!/usr/bin/env python3
"""Makes the tones of a session as files: python3 build/sounds.py [FOLDER], by default assets/sounds.

From the same table as the cue track: `app/domain/sound/tones.py`. The same bytes every time.
"""
from __future__ import annotations

import sys
import wave
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "assets" / "sounds"
sys.path.insert(0, str(ROOT))

from app.domain.sound.tones import TONES, tone_bytes  # noqa: E402

RATE = 24_000


def write(folder: Path) -> None:
    """Writes every tone into `folder` as NAME.wav."""
    folder.mkdir(parents=True, exist_ok=True)
    for kind in TONES:
        with wave.open(str(folder / f"{kind}.wav"), "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(RATE)
            file.writeframes(tone_bytes(kind, RATE))


if __name__ == "__main__":
    write(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
