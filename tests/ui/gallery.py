"""Serves every part for looking at: `python tests/ui/gallery.py [PORT [ASSETS]]`, then /SHEET/light or /SHEET/dark."""
from __future__ import annotations

import os
import sys
from pathlib import Path

os.environ["FLET_FORCE_WEB_SERVER"] = "1"
ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import flet as ft  # noqa: E402

from app.ui.parts import Card, probe  # noqa: E402
from app.ui.parts import theme as t  # noqa: E402
from tests.ui.gallery_sheets import SHEETS  # noqa: E402


@ft.component
def Gallery() -> ft.Control:
    """One sheet of parts, at the size of the window and of the person's text."""
    page = ft.context.page
    size, set_size = ft.use_state((page.width or 412, page.height or 915))
    scale, set_scale = ft.use_state(1.0)
    told, set_told = ft.use_state("")

    def follow_window() -> None:
        page.on_resize = lambda e: set_size((e.width, e.height))

    ft.use_effect(follow_window, dependencies=[])
    words = (page.route or "/").strip("/").split("/")
    card = Card(t.DARK if "dark" in words else t.LIGHT, size[0], scale, size[1])
    sheet = SHEETS.get(words[0], SHEETS["buttons"])(card, lambda value: set_told(str(value)), told)
    return ft.Stack([probe(set_scale), sheet], expand=True)


def main(page: ft.Page) -> None:
    """Sets the inks of the address and shows the sheet."""
    dark = "dark" in (page.route or "")
    page.theme, page.dark_theme = t.flet_theme(t.LIGHT), t.flet_theme(t.DARK)  # type: ignore[assignment]
    page.theme_mode = ft.ThemeMode.DARK if dark else ft.ThemeMode.LIGHT
    page.bgcolor = (t.DARK if dark else t.LIGHT).paper
    page.padding = 0
    page.update()
    page.render(Gallery)


if __name__ == "__main__":
    port = int(sys.argv[1]) if len(sys.argv) > 1 else 8590
    assets = sys.argv[2] if len(sys.argv) > 2 else str(ROOT / "assets")
    ft.run(main, view=None, host="127.0.0.1", port=port, no_cdn=True, assets_dir=assets)
