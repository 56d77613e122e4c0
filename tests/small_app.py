"""A one-page app behind the real server, in a process of its own: python -m tests.small_app DATA_DIR [HOST_NAME].

Flet keeps one set of temporary folders per process, so two servers in one process would end each other's.
"""
from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import flet as ft

from app.device.device import open_device
from app.domain.sound.cues import CueKind
from app.resources import resource_dir
from app.serving.server import serve

ROOT = Path(__file__).resolve().parent.parent


def page(page: ft.Page) -> None:
    """A button that asks everything of the device and writes the answers down."""
    device = open_device(page)
    told = ft.Text(f"at {page.route}", font_family="Card")

    async def ask(_: ft.Event[ft.Button]) -> None:
        await device.sounds.load()
        played = [tone for tone in CueKind if await device.sounds.play(tone)]
        beats = [name for name in ("work", "rest", "attention") if await device.haptics.play(name)]
        handed = await device.files.share("diary.txt", b"six weeks")
        told.value = f"{len(played)} tones, {len(beats)} patterns, {handed}, same device {open_device(page) is device}"
        page.update()

    page.add(told, ft.Button("Ask", on_click=ask))


@contextmanager
def running(data_dir: Path, name: str = "") -> Iterator[tuple[str, subprocess.Popen[str]]]:
    """The address and the process; ended afterwards."""
    command = [sys.executable, "-m", "tests.small_app", str(data_dir), name]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout
        try:
            yield process.stdout.readline().strip(), process
        finally:
            process.kill()


if __name__ == "__main__":
    serve(page, data_dir=Path(sys.argv[1]), assets_dir=resource_dir("assets"),
          on_ready=lambda address: print(address, flush=True), name=sys.argv[2] if len(sys.argv) > 2 else "")
