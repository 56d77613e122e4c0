"""What every piece promises to a finger, a keyboard and a screen reader."""
from __future__ import annotations

import asyncio
import inspect
from collections import Counter
from typing import Any

import flet as ft
import flet.canvas as cv
import pytest

from app.domain.model.body import PAIRED_REGIONS, Region, Spot
from app.ui.parts import Card, Destination, Nav, bind, options
from app.ui.parts import theme as t
from app.ui.parts.body_list import Asking, body_list
from app.ui.parts.body_picture import DOWN, FIGURE, figure_height, place_of
from app.ui.parts.chart import Series, line_chart
from app.ui.parts.count_panel import Phase, count_panel, figure_size
from app.ui.parts.strip_rows import row_now, thread_now
from app.ui.parts.time_strip import plan_strip, review_strip
from tests.ui import samples
from tests.ui.gallery_sheets import SHEETS
from tests.ui.parts.walk import controls, spoken

CARD = Card(t.LIGHT)
PLAIN_SHEETS = ["buttons", "choices", "strips", "counts", "charts"]


def pressed(root: ft.Control) -> list[ft.Container]:
    """Everything under it that can be pressed."""
    return [c for c in controls(root) if isinstance(c, ft.Container) and c.on_click]


def texts(root: ft.Control) -> list[str]:
    """Every word under it."""
    return [c.value for c in controls(root) if isinstance(c, ft.Text)]


def ignore(_: Any = None) -> None:
    """A handler that does nothing."""


@pytest.mark.parametrize("palette", [t.LIGHT, t.DARK], ids=lambda p: p.name)
@pytest.mark.parametrize("size", [(412, 1.0, 915), (412, 2.0, 915), (1280, 1.0, 800), (915, 1.0, 412)])
@pytest.mark.parametrize("sheet", PLAIN_SHEETS)
def test_whatever_can_be_pressed_is_reached_by_keyboard_and_has_its_own_name(
    sheet: str, size: tuple[float, float, float], palette: t.Palette
) -> None:
    """`ink` makes a Container focusable; each name is there once on a page."""
    page = SHEETS[sheet](Card(palette, *size), ignore, "")
    found = pressed(page)
    assert all(c.ink for c in found)
    names = Counter(spoken(c) for c in found)
    assert "" not in names
    assert [name for name, times in names.items() if times > 1] == []
    assert all(c.height is None for c in found), "a fixed height cuts words in large print"


@pytest.mark.parametrize("sheet", PLAIN_SHEETS)
def test_no_text_is_left_to_inherit_its_ink(sheet: str) -> None:
    """Colour, size and family stand on every text, so that dark paper never has black words."""
    for c in controls(SHEETS[sheet](Card(t.DARK), ignore, "")):
        if isinstance(c, ft.Text):
            assert c.style and c.style.color and c.style.size and c.style.font_family == t.FAMILY, c.value


def test_a_button_that_cannot_be_pressed_is_a_button_without_a_handler() -> None:
    """It keeps its role and its words and takes no press."""
    button = CARD.button("Start", None)
    assert pressed(button) == []
    assert any(isinstance(c, ft.Semantics) and c.button for c in controls(button))
    assert spoken(button) == "Start"


def test_only_harm_has_the_double_rule() -> None:
    """A box in a box, with a margin between."""
    def doubled(control: ft.Control) -> bool:
        boxes = [c for c in controls(control) if isinstance(c, ft.Container) and c.border]
        return len(boxes) == 2 and boxes[1].margin == 4
    assert doubled(CARD.harm_button("That hurts", ignore))
    assert not doubled(CARD.button("Skip", ignore)) and not doubled(CARD.main_button("Start", ignore))


def test_a_choice_tells_which_is_chosen() -> None:
    """Selected for one of many, checked for several of many; every other one says that it is not."""
    one = CARD.one_of(options((1, "Home"), (2, "Garage")), 2, ignore)
    assert [c.selected for c in controls(one) if isinstance(c, ft.Semantics)] == [False, True]
    several = CARD.several_of(options((1, "Chair"), (2, "Wall"), (3, "Mat")), {1, 3}, ignore)
    assert [c.checked for c in controls(several) if isinstance(c, ft.Semantics)] == [True, False, True]


def test_a_choice_hands_over_its_value() -> None:
    """Not the event, and not the last value of the loop."""
    told: list[int] = []
    scale = CARD.scale_0_10("Right knee", 3, told.append, ("none", "", "worst"))
    for box in pressed(scale):
        box.on_click(None)
    assert told == list(range(11))
    assert [spoken(b) for b in pressed(scale)][6] == "Right knee 6 of 10"


def test_an_async_handler_stays_async() -> None:
    """Flet awaits only what it can see to be a coroutine function."""
    told: list[str] = []

    async def later(value: str) -> None:
        told.append(value)

    handler = bind(later, "home")
    assert inspect.iscoroutinefunction(handler)
    asyncio.run(handler(None))
    assert told == ["home"]


@pytest.mark.parametrize(("scale", "rows"), [(1.0, 1), (2.0, 2)])
def test_the_bar_goes_two_by_two_in_large_print(scale: float, rows: int) -> None:
    """So that no word of it is broken."""
    places = tuple(Destination(w.lower(), w) for w in ("Today", "Diary", "Plan", "Send"))
    bar = Card(t.LIGHT, 412, scale).nav_bar(Nav(places, "today", ignore))
    lines = [c for c in controls(bar) if isinstance(c, ft.Row)]
    assert [len(line.controls) for line in lines] == [4 // rows] * rows


def test_navigation_is_below_on_a_phone_and_beside_on_a_desk() -> None:
    """And on a low window nothing is held fixed over the body."""
    nav = Nav((Destination("a", "Desk"), Destination("b", "People")), "a", ignore, "Evenload")
    foot = [CARD.button("Done", ignore)]
    phone, desk = Card(t.LIGHT, 412).page([], foot, nav), Card(t.LIGHT, 1280, 1, 800).page([], foot, nav)
    assert isinstance(phone, ft.Column) and isinstance(desk, ft.Row)
    low = Card(t.LIGHT, 800, 1, 400).page([], foot)
    assert isinstance(low, ft.Column) and len(low.controls) == 1
    assert [spoken(b) for b in pressed(low)] == ["Done"]


@pytest.mark.parametrize(("width", "scale", "two"), [(412, 1.0, False), (1100, 1.0, False), (1280, 1.0, True),
                                                     (1280, 1.3, False), (1280, 2.0, False), (1920, 1.3, True)])
def test_a_wide_page_has_two_columns_and_every_other_the_same_in_one(width: int, scale: float, two: bool) -> None:
    """Both fit beside the navigation, each as wide as words need; the foot is as wide as the first."""
    nav = Nav((Destination("today", "Today"),), "today", ignore)
    c = Card(t.LIGHT, width, scale, 900)
    page = c.page([c.body("first")], [c.body("foot")], nav, beside=[c.body("second")])
    assert [one for one in texts(page) if one in ("first", "second", "foot")] == ["first", "second", "foot"]
    assert c.has_two_columns(nav) is two
    rows = [one for one in controls(page) if isinstance(one, ft.Row) and texts(one) == ["first", "second"]]
    assert bool(rows) is two
    if two:
        first, second = (float(column.width or 0) for column in rows[0].controls)
        assert first >= t.LEAST_MAIN and second >= t.LEAST_BESIDE
        assert first + t.BETWEEN + second <= width - t.SIDE * min(scale, 1.5) - 2 * t.MARGIN_WIDE
        assert c.room(nav, beside=True) == first and c.room_beside(nav) == second
    else:
        assert c.room(nav, beside=True) == c.room(nav) == c.room_beside(nav)


def test_a_strip_of_hundreds_of_steps_is_a_handful_of_shapes() -> None:
    """Since each shape travels to the screen."""
    many = samples.many_short()
    for strip in (plan_strip(CARD, many, 372), plan_strip(CARD, many, 4000), row_now(CARD, many, 900_000, 372),
                  thread_now(CARD, many, 900_000, 372), review_strip(CARD, many, samples.all_done(many), 372)):
        drawn = [c for c in controls(strip) if isinstance(c, cv.Canvas)]
        assert drawn and all(len(canvas.shapes) < 20 for canvas in drawn)


def test_a_strip_says_in_a_sentence_what_it_shows() -> None:
    """Minutes, stretches of work, floor; while under way it changes once a minute only."""
    plan = samples.circuit()
    said = plan_strip(CARD, plan, 372)
    assert isinstance(said, ft.Semantics)
    assert said.label == "Time strip: 21 minutes, 19 stretches of work, some of it on the floor"
    labels = {draw(CARD, plan, ms, 372).label for ms in range(0, 60_000, 900)  # type: ignore[attr-defined]
              for draw in (row_now, thread_now)}
    assert len(labels) == 1
    told = review_strip(CARD, plan, samples.mixed(plan), 372)
    assert isinstance(told, ft.Semantics) and told.label and told.label.endswith(
        "done: 14 in full, 2 easier, 1 in part, 2 left out")
    empty = plan_strip(CARD, samples.nothing(), 372)
    assert isinstance(empty, ft.Semantics) and empty.label == "Time strip: nothing planned"


def test_the_count_is_told_quietly() -> None:
    """What is announced holds no seconds, so that a screen reader speaks at the steps and not at every tick."""
    def live(count: str) -> str | None:
        panel = count_panel(CARD, Phase.WORK, "Work", count, 412, aside="round 2 of 2")
        return next(c.label for c in controls(panel) if isinstance(c, ft.Semantics) and c.live_region)
    assert live("28") == live("27") == "Work; round 2 of 2"


def test_figures_fill_the_width_and_no_more() -> None:
    """Two figures on a phone are as tall as allowed, four are smaller and fit."""
    assert figure_size("28", 372, t.T_COUNT) == t.T_COUNT
    assert 4 * 0.62 * figure_size("1:20", 372, 300) == pytest.approx(372)


def test_a_chart_without_values_says_so() -> None:
    """In words, not with an empty frame."""
    chart = line_chart(CARD, [Series("Back", (None, None))], 372, since="6 weeks ago", until="today")
    assert texts(chart) == ["Nothing to show yet."]


def test_every_spot_can_be_picked_in_the_list_and_taken_back() -> None:
    """Every spot by name, the question under the one asked, and a way to take it back."""
    told: list[Any] = []
    knee = Spot(Region.KNEE, "right")
    asking = Asking({knee: 6}, knee, told.append, lambda spot, level: told.append((spot, level)), told.append)
    by_name = {spoken(b): b for b in pressed(body_list(CARD, asking))}
    assert {"Neck", "Back", "Left knee", "Right knee: 6", "Right ankle", "Right knee: leave it out"} <= set(by_name)
    by_name["Right knee 4 of 10"].on_click(None)
    by_name["Left hip"].on_click(None)
    by_name["Right knee: leave it out"].on_click(None)
    assert told == [(knee, 4), Spot(Region.HIP, "left"), knee]


def test_every_part_lies_on_the_figure_and_left_is_left_from_behind() -> None:
    """In front it is as when facing somebody; the names beside it stand from the head down, each once."""
    assert set(DOWN) == PAIRED_REGIONS
    for region in DOWN:
        for in_front in (False, True):
            left, right = (place_of(Spot(region, side), in_front=in_front) for side in ("left", "right"))
            assert all(0 <= x <= FIGURE and 0 <= y <= figure_height() for x, y in (left, right))
            assert (left[0] < right[0]) is not in_front
    heights = [place_of(Spot(region, "left"))[1] for region in DOWN]
    assert heights == sorted(heights)
