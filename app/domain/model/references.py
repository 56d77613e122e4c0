"""The published work that numbers of the program stand on: who, when, where. Named from docstrings and the rules.

A DOI is given where its record was read; empty means that none was looked up successfully, and never a guess. What
stands on practice alone is no reference: it is marked [P].
"""
from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Reference:
    """One publication. `where` is the journal with volume and page; `doi` may be empty."""

    authors: str
    year: int
    where: str = ""
    doi: str = ""

    @property
    def short(self) -> str:
        """`Salaffi 2004`."""
        return f"{self.authors.split(',')[0].removesuffix(' et al.')} {self.year}"

    @property
    def line(self) -> str:
        """`Salaffi et al. 2004, Eur J Pain 8:283–291, doi:10.1016/j.ejpain.2003.09.004`, without what is not known."""
        known = [f"{self.authors} {self.year}", self.where, f"doi:{self.doi}" if self.doi else ""]
        return ", ".join(filter(None, known))


SILBERNAGEL_2007 = Reference("Silbernagel et al.", 2007)
SALAFFI_2004 = Reference("Salaffi et al.", 2004, "Eur J Pain 8:283–291", "10.1016/j.ejpain.2003.09.004")
ACSM_AHA_2007 = Reference("ACSM/AHA", 2007)
FOSTER_2001 = Reference("Foster et al.", 2001, "J Strength Cond Res 15:109–115")
NARLOCH_1995 = Reference("Narloch", 1995)
RIKLI_JONES_1999 = Reference("Rikli & Jones", 1999, "J Aging Phys Act 7:162")
BOHANNON_2006 = Reference("Bohannon", 2006, "J Geriatr Phys Ther 29:64–68", "10.1519/00139143-200608000-00004")
BOHANNON_LUSARDI_2004 = Reference("Bohannon & Lusardi", 2004)
WILLIAMS_2017 = Reference("Williams et al.", 2017, "Br J Sports Med 51:209")

#: By the name that docstrings give, in the order of the names.
REFERENCES: dict[str, Reference] = {
    name: value for name, value in sorted(globals().items()) if isinstance(value, Reference)}
