"""The rules to be read: everything that decides is on the page, in words for those who read it."""
from __future__ import annotations

import re

import pytest

from app.domain.dosing import screening
from app.domain.model.anchors import ANCHORS
from app.domain.model.body import REGION_AXES
from app.domain.model.client import Condition
from app.domain.model.exercise import Axis
from app.domain.model.proofreading_limits import limit_bounds
from app.domain.model.record import FunctionalCheck
from app.domain.model.rules import PRESETS, RuleId, rule_table
from app.words.coach.person import RULE_WORDS
from app.words.coach.proofreading import PROBLEMS
from app.words.rules.exact_rules import for_coach
from app.words.rules.plain_rules import EFFECTS, for_client
from app.words.rules.section import Section

#: What is no vote of an answer: it stands where there is no check-in, or says how a session was fitted.
NO_VOTE = {RuleId.NO_CHECK_IN, RuleId.LIGHTER_WEEK, RuleId.MINUTES, RuleId.CONDITION}
BOTH = [*for_coach(), *for_client()]


def section(name: str, among: tuple[Section, ...]) -> Section:
    """The section of that id."""
    return next(s for s in among if s.id == name)


def firsts(name: str) -> list[str]:
    """The names of a section's rows, as a coach reads them."""
    return [row[0] for row in section(name, for_coach()).rows]


def test_every_table_is_on_the_coachs_page_whole() -> None:
    """Each vote, region, condition, axis, sign, question, check and limit."""
    assert set(firsts("votes")) == {RULE_WORDS[rule] for rule in RuleId if rule not in NO_VOTE}
    assert firsts("regions") == [region.value for region in REGION_AXES]
    assert len(firsts("conditions")) == len(Condition)
    assert len(firsts("axes")) == len(ANCHORS) + 1 == len(Axis) + 1
    assert len(firsts("stops")) == len(screening.SIGNS) + len(screening.questions())
    assert set(firsts("proofreading")) == set(PROBLEMS)
    assert firsts("limits") == list(limit_bounds())
    assert firsts("hand") == list(PRESETS)


def test_every_vote_names_its_source() -> None:
    """A number without one would be somebody's whim."""
    assert all(row[-1] for row in section("votes", for_coach()).rows)


def test_the_usual_table_reads_as_it_was_agreed() -> None:
    """Pain and days, whole."""
    votes = {row[0]: row[1] for row in section("votes", for_coach()).rows}
    assert votes["Pain"] == "0–2 gives 0; 3 gives 1; 4–5 gives 2; 6–7 gives 4; 8–10 gives 7"
    assert votes["Days since strength work"] == (
        "0 gives 6; 1 gives 5; 2–7 gives 0; 8–14 gives 2; 15–28 gives 3; ≥ 29 gives 4")
    assert votes["Completion"] == "95–100 gives 0; 80–94 gives 1; 60–79 gives 2; 0–59 gives 3"


@pytest.mark.parametrize("preset", PRESETS)
def test_a_clients_page_shows_their_own_coachs_table(preset: str) -> None:
    """Another preset, other words."""
    told = for_client(rule_table(preset))
    assert preset in section("coach", told).words[0]
    same = section("answers", told).rows == section("answers", for_client()).rows
    assert same is (preset == "usual")
    assert set(EFFECTS) == set(range(9))


def test_a_clients_page_is_plain() -> None:
    """No ids, no marks of the trade, every sentence ended, every part of the body named."""
    for one in for_client():
        for line in (*one.words, *(cell for row in one.rows for cell in row[1:])):
            assert line.endswith((".", "]")), line
            assert "_" not in line and "[P]" not in line and "RPE" not in line, line
    assert len(section("joints", for_client()).rows) == len(REGION_AXES)
    assert len(section("checks", for_client()).rows) == len(FunctionalCheck)


@pytest.mark.parametrize("one", BOTH, ids=lambda s: s.id)
def test_every_section_can_be_drawn(one: Section) -> None:
    """Its cells match its heads, and no sign is in it that the typeface lacks."""
    assert one.title and one.words and re.fullmatch("[a-z-]+", one.id)
    assert all(len(row) == (len(one.heads) or 1) for row in one.rows)
    words = "".join((one.title, *one.words, *one.heads, *(cell for row in one.rows for cell in row)))
    assert not set(words) & set("→←⇒⌈⌉✓✗•")


def test_ids_are_addresses_and_so_each_is_there_once() -> None:
    """On each of the two pages."""
    for told in (for_coach(), for_client()):
        ids = [s.id for s in told]
        assert len(ids) == len(set(ids))
