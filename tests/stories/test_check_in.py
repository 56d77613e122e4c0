"""The check-in of somebody with a past: what hurt before, the morning after, the picture of the body."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

from app.words import parts
from app.words.client import check_in
from app.words.client import today as client
from tests.browser.prepared import MORNING
from tests.stories.person import PersonAt
from tests.stories.turns import MAUD, Demo


def test_where_it_hurt_before_is_asked_anew(person_at: PersonAt, demo_data: Path, tmp_path: Path) -> None:
    """Each spot of last time; a new one on the picture; and how the morning after was."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(MAUD)
    with person_at(demo.data, "/check-in", began=MORNING) as walker:
        walker.press(parts.answer(check_in.ANYTHING_SHORT, parts.NO)).sees(check_in.JOINTS[0])
        walker.press(parts.ON_PICTURE, "Left ankle").choose(parts.of("Left ankle", 2, 10))
        walker.sees_button("Left ankle: 2").press(client.NEXT)
        walker.sees_heading(re.compile("^The morning after")).press(check_in.NOTHING_WORSE)
        walker.sees(check_in.MUSCLES[0]).press(check_in.NO_ACHES).sees(check_in.FEEL[0])
