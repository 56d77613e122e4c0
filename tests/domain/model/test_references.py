"""Sources have one table: whatever docstring or rule names one names it as it stands there."""
from __future__ import annotations

import re

from app.domain.model.references import REFERENCES, SALAFFI_2004, Reference
from app.words.rules.exact_rules import for_coach
from tests.test_layers import ROOT, modules

#: A source as a docstring names it.
NAMED = re.compile(r"\b[A-Z][A-Z_]+_(?:19|20)\d\d\b")
#: A source as people name it: it has to come from the table.
SPELT = re.compile(r"[A-Z][a-z]+(?: et al\.| & [A-Z][a-z]+)? (?:19|20)\d\d\b")
#: The table itself, and the measures of the drawn body, which decide nothing.
ASIDE = ("app.domain.model.references", "app.domain.figure")
#: Dates and not sources.
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")


def test_every_source_that_is_named_stands_in_the_table_and_every_one_there_is_named() -> None:
    """By docstrings, comments and rules alike; the table itself does not count."""
    named: set[str] = set()
    for name, path in modules(ROOT):
        if name != "app.domain.model.references":
            named |= set(NAMED.findall(path.read_text("utf-8")))
    assert named == set(REFERENCES)


def test_no_rule_spells_a_source_by_itself() -> None:
    """Or else a correction would reach half of them."""
    spelt = {(name, found) for name, path in modules(ROOT)
             if name.startswith(("app.domain", "app.words")) and not name.startswith(ASIDE)
             for found in SPELT.findall(path.read_text("utf-8")) if found.split()[0] not in MONTHS}
    assert spelt == set()


def test_a_source_is_told_without_what_is_not_known() -> None:
    """Authors and year, then the journal and the DOI where there is one."""
    assert SALAFFI_2004.short == "Salaffi 2004"
    assert SALAFFI_2004.line == "Salaffi et al. 2004, Eur J Pain 8:283–291, doi:10.1016/j.ejpain.2003.09.004"
    assert Reference("Nobody & Others", 2001).line == Reference("Nobody & Others", 2001).short == "Nobody & Others 2001"


def test_a_doi_is_a_doi() -> None:
    """Where one is given."""
    assert all(re.fullmatch(r"10\.\d{4,9}/\S+", one.doi) for one in REFERENCES.values() if one.doi)


def test_the_rules_name_every_source() -> None:
    """At the end of the coach's page, and so of the rules that are handed out."""
    assert [row[0] for row in for_coach()[-1].rows] == [one.short for one in REFERENCES.values()]
