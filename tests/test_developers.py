"""What a developer reads is true of the tree: paths exist, packages stand in the table, every change has its tests."""
from __future__ import annotations

import re
from itertools import product
from pathlib import Path

import pytest

from tests.test_layers import PACKAGES

ROOT = Path(__file__).resolve().parents[1]
PAGE = ROOT / "DEVELOPERS.md"
PAGES = (PAGE, ROOT / "README.md", *sorted((ROOT / ".github").glob("*.md")), *sorted((ROOT / "app").rglob("README.md")),
         ROOT / "build" / "web" / "README.md", ROOT / "build" / "STORES.md")
#: What may lie at the top of the checkout, beside hidden files.
TOP = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "app", "assets", "migrations", "tests", "build"}
PATH = re.compile(r"[\w.-]+(/[\w.*-]+)*/?")
ENDINGS = (".py", ".md", ".toml", ".yml", ".mjs", ".js", ".png", "/")
ADDRESS = re.compile(r"https?:")
#: Files that a coach writes or a build makes, named without a place; they lie in no checkout.
ELSEWHERE = {"source.toml", "built.zip", "brand.toml"}
LEAST_CHANGES, LEAST_WORDS = 15, 30


def named(text: str) -> set[str]:
    """Every path in a page: what stands in backticks or as the aim of a link and ends like a file, or in a slash."""
    quoted = re.findall(r"`([^`\n]+)`", re.sub(r"```.*?```", "", text, flags=re.DOTALL))
    linked = [aim for aim in re.findall(r"\]\(([^)#]+)\)", text) if not ADDRESS.match(aim)]
    words = [word for one in quoted for word in one.split()]
    found = {word for word in (*words, *linked) if PATH.fullmatch(word) and word.endswith(ENDINGS)}
    return found - ELSEWHERE


def places(page: Path) -> tuple[Path, ...]:
    """Where a path of this page may begin."""
    return (ROOT, ROOT / "app", page.parent, ROOT / "build")


def is_there(page: Path, path: str, beside: set[Path]) -> bool:
    """Whether it leads somewhere: from the top, in `app`, or beside the page or another file that it names."""
    return any((place / path).exists() for place in (*places(page), *beside))


def folders_of(page: Path, paths: set[str]) -> set[Path]:
    """Folders of the files that the page names with their place."""
    return {(place / path).parent for place, path in product(places(page), paths)
            if "/" in path and (place / path).exists()}


def missing(page: Path) -> list[str]:
    """The paths of a page that lead nowhere."""
    paths = named(page.read_text("utf-8"))
    beside = folders_of(page, paths)
    return sorted(path for path in paths if not is_there(page, path, beside))


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_every_path_that_is_named_exists(page: Path) -> None:
    """From the top of the checkout, in `app`, or beside a file that the page names."""
    assert missing(page) == []


def test_a_path_that_leads_nowhere_is_found(tmp_path: Path) -> None:
    """Or else the test above would see nothing."""
    page = tmp_path / "page.md"
    page.write_text("`app/cli.py`, `domain/nothing.py`, ![x](build/pictures/none.png), `python -m x`", "utf-8")
    assert missing(page) == ["build/pictures/none.png", "domain/nothing.py"]


def test_the_table_of_packages_is_that_of_the_layers() -> None:
    """Every package with what it may import, and no other."""
    rows = re.findall(r"^\| `([\w.]+)` \| .+? \| ([^|]+) \|$", PAGE.read_text("utf-8"), re.MULTILINE)
    assert {name: " ".join(re.findall(r"`([\w.]+)`", told)) for name, told in rows} == PACKAGES


def table(heading: str) -> list[list[str]]:
    """The rows of the table under that heading, without its head."""
    part = PAGE.read_text("utf-8").split(f"## {heading}")[1].split("\n## ")[0]
    rows = [line.strip("| ").split(" | ") for line in part.splitlines() if line.startswith("|")]
    return rows[2:]


def test_every_usual_change_names_files_and_tests() -> None:
    """At least 15 of them, each with something to touch and something that sees it."""
    rows = table("To change X")
    assert len(rows) >= LEAST_CHANGES
    for change, files, tests in rows:
        assert named(files), change
        assert any(path.startswith("tests/") for path in named(tests)), change


def test_a_word_has_one_meaning() -> None:
    """Some 30 words, none twice."""
    words = [word for row in table("Words") for word in row[0].split(", ")]
    assert len(words) >= LEAST_WORDS and len(set(words)) == len(words)


def test_the_top_holds_what_belongs_there() -> None:
    """A stranger sees nine names."""
    at_top = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")} - {"dist", "uv.lock", "htmlcov"}
    assert at_top <= TOP and {name for name in TOP if (ROOT / name).exists()} == TOP
