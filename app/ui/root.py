"""The root of every page: its size, its inks, and the screen that the address names."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import flet as ft

from app.actions import appearance
from app.actions.people import chosen_id
from app.domain.branding.brand import Brand
from app.domain.branding.palette import Palette
from app.ui.parts import probe
from app.ui.parts import theme as t
from app.ui.routes import asks_somebody, parts_of, screen_named, shown_for
from app.ui.shell.pin_gate import LOCKED, pin_owner
from app.ui.shell.reminder import keep_reminding
from app.ui.shell.shell import Shell, Tools
from app.ui.shell.visit import end_with_visit, while_kept
from app.words.page_titles import page_title


def dress(page: ft.Page, brand: Brand, mode: ft.ThemeMode) -> None:
    """The page's inks and ground for a brand and a mode."""
    page.theme, page.dark_theme = t.flet_theme(brand.light), t.flet_theme(brand.dark)  # type: ignore[assignment]
    page.theme_mode = mode
    page.padding = 0
    page.bgcolor = palette_of(page, brand).paper


def palette_of(page: ft.Page, brand: Brand) -> Palette:
    """The inks now shown."""
    dark = page.theme_mode is ft.ThemeMode.DARK or (
        page.theme_mode is ft.ThemeMode.SYSTEM and page.platform_brightness is ft.Brightness.DARK)
    return brand.dark if dark else brand.light


def saved_mode(tools: Tools) -> ft.ThemeMode:
    """The mode chosen in the settings; else the machine's own."""
    return ft.ThemeMode(appearance.theme_mode(tools.store) or ft.ThemeMode.SYSTEM.value)


def in_american(words: str) -> str:
    """The same sentence as it is said in the United States; its table is read where it is wanted."""
    from app.words.english import american

    return american(words)


@ft.component
def Root(tools: Tools) -> ft.Control:
    """The app on one page."""
    page = tools.page
    size, set_size = ft.use_state((page.width or 412.0, page.height or 915.0))
    scale, set_scale = ft.use_state(1.0)
    route, set_route = ft.use_state(page.route or "/")
    turn, set_turn = ft.use_state(0)

    def choose(mode: ft.ThemeMode) -> None:
        appearance.choose_theme_mode(tools.store, mode.value)
        dress(page, tools.brand, mode)
        page.update()
        set_turn(lambda n: n + 1)

    def follow() -> None:
        def brightness(_: Any) -> None:
            dress(page, tools.brand, page.theme_mode or ft.ThemeMode.SYSTEM)
            page.update()
            set_turn(lambda n: n + 1)
        page.on_resize = lambda e: set_size((e.width, e.height))
        page.on_route_change = lambda e: set_route(e.route)
        page.on_platform_brightness_change = brightness
        end_with_visit(page)

    async def remind() -> None:
        await keep_reminding(tools)

    async def tell_reader() -> None:
        if page.web and appearance.is_read_aloud(tools.store):
            await tools.device.tree.tell_all(True)

    ft.use_effect(follow, dependencies=[])
    ft.use_effect(while_kept(page, remind), dependencies=[], cleanup=lambda: None)
    ft.use_effect(tell_reader, dependencies=[], cleanup=lambda: None)
    english = in_american if appearance.is_american(tools.store) else None
    shell = Shell(tools, size[0], size[1], scale, palette_of(page, tools.brand), turn,
                  lambda: set_turn(lambda n: n + 1), choose, chosen_id(tools.store) if asks_somebody(route) else "",
                  english=english)
    shown = shown_for(route, shell)
    owner = pin_owner(shell, shown)
    if owner:
        shown, shell = LOCKED, replace(shell, locked=owner)
    title = shell.said(page_title(shown, tools.brand.name))

    def name_page() -> None:
        if page.title != title:
            page.title = title
            page.update()

    ft.use_effect(name_page, dependencies=[title])
    screen = screen_named(shown)
    # somebody else's page begins anew: nothing that was entered for one is kept for another
    key = "/".join([*parts_of(route), shell.whose, owner])
    content = ft.SafeArea(ft.Container(screen(shell, key=key), expand=True), expand=True)
    return ft.Stack([probe(set_scale), content], expand=True)
