"""Telephone numbers and e-mail addresses in what somebody wrote of how to reach them. Knows no Flet."""
from __future__ import annotations

import re
from dataclasses import dataclass

_MAIL = re.compile(r"[^\s,;:<>()\[\]\"“”]+@[^\s,;:<>()\[\]\"“”@]+\.[^\s,;:<>()\[\]\"“”@.]+")
_PHONE = re.compile(r"(?<![\w@.])\+?\(?\d[\d ()/.\u00a0-]*\d(?![\w@])")
LEAST_DIGITS = 5
"""Fewer are a house or a year; the emergency number is known apart."""


@dataclass(frozen=True)
class ContactWay:
    """One way to somebody: `words` as they wrote it, `address` as a device opens it (`tel:`, `mailto:`)."""

    words: str
    address: str

    @property
    def is_phone(self) -> bool:
        """Whether it is a telephone number."""
        return self.address.startswith("tel:")


def phone_address(number: str) -> str:
    """`tel:+4420…`: digits and a leading plus, as a telephone takes them."""
    return "tel:" + ("+" if number.strip().startswith("+") else "") + re.sub(r"\D", "", number)


def ways_in(contact: str) -> tuple[ContactWay, ...]:
    """Every number and address in it, in the order of the text; empty where there is none."""
    mails = [(found.start(), ContactWay(found[0], f"mailto:{found[0]}")) for found in _MAIL.finditer(contact)]
    rest = _MAIL.sub(lambda found: " " * len(found[0]), contact)
    phones = [(found.start(), ContactWay(found[0].strip(), phone_address(found[0]))) for found in _PHONE.finditer(rest)
              if len(re.sub(r"\D", "", found[0])) >= LEAST_DIGITS]
    return tuple(way for _, way in sorted([*mails, *phones], key=lambda one: one[0]))
