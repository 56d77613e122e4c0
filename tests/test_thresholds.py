"""A number that decides has one home: no room above the domain compares with its own, or keeps a copy."""
from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from app.domain.model import session_timing, thresholds
from tests.test_layers import ROOT, modules, plant

ROOMS = ("ui", "words", "storage", "actions", "exchange")
#: What a threshold would be about, as it stands in names; with the domain's own rooms for numbers left out.
ABOUT = re.compile(r"pain|sore|ache|hurt|level|rpe|effort|days|fortnight|stopp?ed|fever|completed|worst", re.IGNORECASE)
#: The same in a sentence, with a number in it.
SAID = re.compile(r"\b(pain|achy|muscles|level|fever)\b[^.]*\b\d|\bfrom \d+ on\b|(?<!of )\b\d+ or more\b",
                  re.IGNORECASE)
#: Names that are declared in the domain and so nowhere else.
DECLARED = {name for module in (thresholds, session_timing) for name in vars(module) if name.isupper()}
#: Nothing at all, and one of something, are no thresholds.
NONE_OR_ONE = {0, 1}
#: What looks like a threshold and is none: module and the words found there, with the reason.
EXCEPTIONS: dict[tuple[str, str], str] = {
    ("app.exchange.forms.load_table", "MOST_MINUTES, MOST_RPE = (24 * 60, 10)"): "the scale's end",
    ("app.exchange.forms.session_form", "target_rpe: Annotated[int, whole(1, 10)] = 5"):
        "what a session says by default",
    ("app.exchange.letters.letter", "_LEVELS = (6, 1, 0)"): "how hard a letter is compressed",
    ("app.exchange.forms.record_form", "steps that touch, from 0 on"): "milliseconds",
    ("app.exchange.letters.readable_copy", "Tired, achy muscles (0–10)"): "the scale",
    ("app.words.rules.plain_rules", "Achy muscles, 0 to 10"): "the scale",
    ("app.words.rules.exact_rules",
     "worst region, now or in the last session; a usual pain agreed with a clinician asks for 0"): "nothing is voted",
    ("app.words.machine.command_help",
     "The files are JSON; leave out what doesn’t apply. A question left out of the diary counts as"): "an example",
    ("app.words.rules.exact_rules", "Every answer asks for a level from 0 to "): "nothing at all",
    ("app.words.client.diary", "done.completed < 100"): "all of it",
    ("app.exchange.crypto.pin", "timedelta(hours=24)"): "until a forgotten PIN goes",
    ("app.exchange.crypto.pin", "timedelta(minutes=16)"): "the longest wait after a wrong PIN",
    ("app.words.client.coach_told", "WEEK_DAYS = 7"): "a calendar week",
    ("app.ui.coach.person.axis_limit_panel", "timedelta(days=30)"): "a month, of a limit's end",
    ("app.words.client.diary", "timedelta(days=7)"): "a calendar week",
    ("app.ui.client.settings.usual_pain", "timedelta(days=30)"): "a month, of an agreement's end",
}


def found_in(tree: ast.Module) -> Iterator[str]:
    """Everything in a module that looks like a threshold of its own, as it is written there."""
    notes = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if _compares(node) or _keeps(node) or _spans(node):
            yield ast.unparse(node)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in notes:
            yield from [node.value] if SAID.search(node.value) else []


def _number(node: ast.expr) -> bool:
    """Whether it is a bare number that could decide something."""
    return isinstance(node, ast.Constant) and type(node.value) in {int, float} and node.value not in NONE_OR_ONE


def _spans(node: ast.AST) -> bool:
    """Whether it is a stretch of time of so many days, weeks or hours."""
    is_one = isinstance(node, ast.Call) and ast.unparse(node.func).endswith("timedelta")
    return is_one and any(map(_number, [*node.args, *(word.value for word in node.keywords)]))


def _compares(node: ast.AST) -> bool:
    """Whether something that is told is compared with a bare number, or with a few of them."""
    if not isinstance(node, ast.Compare):
        return False
    sides = [node.left, *node.comparators]
    bare = [side for side in sides if _number(side) or any(map(_number, getattr(side, "elts", ())))]
    return bool(bare) and any(ABOUT.search(ast.unparse(side)) for side in sides if side not in bare)


def _keeps(node: ast.AST) -> bool:
    """Whether a name is given a bare number: one about what is told, or one that the domain declares."""
    if not isinstance(node, ast.Assign | ast.AnnAssign) or node.value is None:
        return False
    targets = node.targets if isinstance(node, ast.Assign) else [node.target]
    names = {name.id for target in targets for name in ast.walk(target) if isinstance(name, ast.Name)}
    held = node.value.elts if isinstance(node.value, ast.Tuple) else [node.value]
    return any(map(_number, held)) and bool(names & DECLARED or any(map(ABOUT.search, names)))


def thresholds_in(root: Path) -> set[tuple[str, str]]:
    """Module and words of everything found in the rooms."""
    found = set()
    for name, path in modules(root):
        if name.split(".")[1:2] and name.split(".")[1] in ROOMS:
            found |= {(name, words.splitlines()[0]) for words in found_in(ast.parse(path.read_text("utf-8")))}
    return found


def test_no_room_above_the_domain_keeps_a_threshold() -> None:
    """What is found is named here with its reason, and what is named here is found."""
    assert thresholds_in(ROOT) == set(EXCEPTIONS)


@pytest.mark.parametrize("line", [
    "STOPPED_FROM = 7",
    "PAIN_EASES, SORENESS_EASES = 4, 6",
    "ANSWER_FIRST, STOPPED_FROM = 6, 7",
    "BREATH_S = 0.02",
    "ASKED_DAYS: int = 14",
    "def late(dose):\n    return dose.level >= 7",
    "def late(done):\n    return 8 <= done.worst_pain",
    "def late(check_in):\n    return (check_in.level or 0) in (7, 8)",
    "def late(pain):\n    return max(pain.values(), default=0) > 5",
    "import datetime\nREST = datetime.timedelta(days=2)",
    "from datetime import timedelta\nQUIET = timedelta(hours=48)",
    "STOPS = 'From 8 on the session ends.'",
    "CALL = 'Pain of 6 or more is worth a call.'",
])
def test_a_planted_threshold_is_found(line: str, tmp_path: Path) -> None:
    """However it is written."""
    plant(tmp_path, "app/ui/client/late.py", line)
    assert len(thresholds_in(tmp_path)) == 1


@pytest.mark.parametrize("line", [
    "PAGE = 25",
    "def any_pain(pain):\n    return pain > 0",
    "def days(count):\n    return 'a day' if count == 1 else f'{count} days'",
    "from app.domain.model.level import Level\n\ndef late(dose):\n    return dose.level >= Level.REST",
    "from app.domain.model.thresholds import PAIN_ENDS\nSTOPS = f'From {PAIN_ENDS} on the session ends.'",
    '"""Pain of 8 or more ends a session."""',
])
def test_what_is_no_threshold_is_left_alone(line: str, tmp_path: Path) -> None:
    """Or else the list of exceptions would grow until nobody read it."""
    plant(tmp_path, "app/ui/client/late.py", line)
    assert thresholds_in(tmp_path) == set()
