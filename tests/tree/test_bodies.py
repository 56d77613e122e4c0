"""Who shows the moves: as the coach chose, until whoever trains here chooses another."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

import flet as ft

from app.domain.figure.checking.figure_checks import failed
from app.domain.figure.checking.figure_finding import FigureCheck
from app.domain.figure.greeting import GREETING
from app.domain.figure.rig.figure_form import read_figure
from app.domain.figure.rig.motion import FigureMotion
from app.domain.model.figure_body import FigureBody
from app.words.client import day_card, settings, welcome
from tests.browser.prepared import MORNING
from tests.stories.turns import MAUD, Demo
from tests.tree.driver import TreeWalker
from tests.tree.window import window

LIST, MOVES = "/today/hotel-room", re.compile(day_card.WHAT_COMES)


def shown(walker: TreeWalker) -> list[str]:
    """Every still on the page, as it is drawn."""
    return [str(one.src) for one in walker.controls() if isinstance(one, ft.Image) and "<svg" in str(one.src)]


def test_a_body_is_chosen_and_stays(demo_data: Path, tmp_path: Path) -> None:
    """The session's list shows it; taken back, it is the coach's again."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(MAUD)
    name = f"{settings.BODIES_HEAD}: "
    with window(demo.data, LIST, began=MORNING) as walker:
        plain = shown(walker.press(MOVES))
        assert plain
        walker.go("/settings").sees_chosen(name + settings.BODIES[None])
        assert len(set(shown(walker))) == len(FigureBody)
        walker.choose(name + settings.BODIES[FigureBody.BEARD]).go(LIST)
        bearded = shown(walker.press(MOVES))
        assert len(bearded) == len(plain) and not set(bearded) & set(plain)
    with window(demo.data, "/settings", began=MORNING) as walker:
        walker.sees_chosen(name + settings.BODIES[FigureBody.BEARD]).choose(name + settings.BODIES[None]).go(LIST)
        assert shown(walker.press(MOVES)) == plain


def test_they_stand_by_the_welcome(tmp_path: Path) -> None:
    """Each once, a moment after the page; of all checks of figures one alone is not kept: no muscle lights up."""
    with window(tmp_path / "new") as walker:
        walker.sees_heading(welcome.TITLE).wait(1)
        assert len(set(shown(walker))) == len(FigureBody)
    assert [one.check for one in failed(FigureMotion(read_figure(GREETING, "greeting")))] == [FigureCheck.LIT]
