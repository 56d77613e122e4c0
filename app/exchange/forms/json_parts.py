"""JSON from elsewhere, taken apart before any of it becomes a value: counted first, then read piece by piece.

A file of some kilobytes can unpack to tens of megabytes of JSON, and each of its values takes a hundred bytes once it
is read. So values are counted in the text, the table is cut at its own keys, lists of entries at their entries; what is
not known is skipped by its brackets and never read, and each entry is read alone, the first mistake ending all.
"""
from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.domain.errors import DamagedFile, TooLarge, WrongValue

#: Values of one entry of a list, such as a record or an exercise, and of everything beside the lists.
MOST_IN_A_PIECE = 200_000
MOST_DEPTH = 32
_MARKS = (b",", b":", b"[", b"{")
#: Whatever opens and closes nothing, as far as it goes.
_PLAIN = rb'[^"\[\]{}]++|"(?:[^"\\]++|\\.)*+"'
_FLAT = re.compile(rb"(?:%b)*+" % _PLAIN, re.DOTALL)
#: The same with pairs of brackets that hold such, two deep: most of a record in one step.
_PAIR = rb"(?:%(plain)b|\[%(held)b\]|\{%(held)b\})*+"
_IN_PAIRS = _PAIR % {b"plain": _PLAIN, b"held": _FLAT.pattern}
_DEEP, _TWO_DEEP = 2, re.compile(_PAIR % {b"plain": _PLAIN, b"held": _IN_PAIRS}, re.DOTALL)
_SPACE = re.compile(rb"[ \t\r\n]*+")
_STRING = re.compile(rb'"(?:[^"\\]++|\\.)*+"', re.DOTALL)
_SCALAR = re.compile(rb'[^\s"\[\]{},:]++')
_CLOSES = {ord("["): ord("]"), ord("{"): ord("}")}
_OPENING, _CLOSING = b"[{", b"]}"


@dataclass(frozen=True)
class Pieces:
    """A table taken apart: the text of its known keys but the lists, and of each entry of each list."""

    rest: bytes
    lists: Mapping[str, tuple[bytes, ...]]


def check_values(data: bytes, name: str, most: int) -> None:
    """Whether the text can hold no more than so many values. Marks inside text count as well.

    Raises:
        TooLarge: it could hold more.
    """
    found = sum(data.count(mark) for mark in _MARKS)
    if found > most:
        raise TooLarge(name=name, limit=most, found=found)


def pieces(data: bytes, name: str, known: Mapping[str, int | None]) -> Pieces:
    """The table, cut at its keys. `known`: every key that is read, with the most entries where it is a list to be cut.

    Keys that are not known are skipped. What a piece says is not looked at.

    Raises:
        WrongValue: no table, or a key twice, or a list too long.
        TooLarge: a piece that could hold more than 200,000 values.
        DamagedFile: nested deeper than 32.
    """
    rest: list[bytes] = []
    lists: dict[str, tuple[bytes, ...]] = {}
    seen: set[str] = set()
    for key, at, end in _members(data, name):
        if key in seen:
            raise WrongValue(where=key, value=None, expected="each key once")
        if key not in known:
            continue
        seen.add(key)
        most = known[key]
        if most is not None and data[at:at + 1] == b"[":
            lists[key] = tuple(_entries(data, at, name, key, most))
        else:
            rest.append(json.dumps(key).encode() + b":" + data[at:end])
    whole = b"{" + b",".join([*rest, *(json.dumps(key).encode() + b":[]" for key in lists)]) + b"}"
    check_values(whole, name, MOST_IN_A_PIECE)
    return Pieces(whole, lists)


def _entries(data: bytes, at: int, name: str, key: str, most: int) -> Iterator[bytes]:
    """The text of each entry of the list that begins there."""
    at = _past_space(data, at + 1)
    if data[at:at + 1] == b"]":
        return
    for _ in range(most):
        end = _past_value(data, at, name)
        entry = data[at:end]
        check_values(entry, name, MOST_IN_A_PIECE)
        yield entry
        at = _past_space(data, end)
        if data[at:at + 1] == b"]":
            return
        at = _past_space(data, _past(data, at, b","))
    raise WrongValue(where=key, value=None, expected="fewer entries")


def _members(data: bytes, name: str) -> Iterator[tuple[str, int, int]]:
    """Each key of the table with where its value begins and ends."""
    at = _past_space(data, _past(data, _past_space(data, 0), b"{"))
    if data[at:at + 1] == b"}":
        at += 1
    else:
        while True:
            key = _STRING.match(data, at)
            if key is None:
                raise _no_json()
            at = _past_space(data, _past(data, _past_space(data, key.end()), b":"))
            end = _past_value(data, at, name)
            yield _text(key[0]), at, end
            at = _past_space(data, end)
            if data[at:at + 1] == b"}":
                at += 1
                break
            at = _past_space(data, _past(data, at, b","))
    if _past_space(data, at) != len(data):
        raise _no_json()


def _past_value(data: bytes, at: int, name: str) -> int:
    """Where the value that begins there ends; a table or a list by its brackets alone."""
    first = data[at:at + 1]
    if first in (b"[", b"{"):
        return _past_brackets(data, at, name)
    found = (_STRING if first == b'"' else _SCALAR).match(data, at)
    if found is None:
        raise _no_json()
    return found.end()


def _past_brackets(data: bytes, at: int, name: str) -> int:
    waiting: list[int] = []
    while at < len(data):
        mark = data[at]
        if mark in _OPENING:
            waiting.append(_CLOSES[mark])
            if len(waiting) > MOST_DEPTH:
                raise DamagedFile(name=name, why="nesting")
        elif not waiting or mark != waiting.pop():
            break
        at += 1
        if not waiting:
            return at
        flat = (_TWO_DEEP if len(waiting) + _DEEP <= MOST_DEPTH else _FLAT).match(data, at)
        at = flat.end() if flat else at
        if at < len(data) and data[at] not in _OPENING + _CLOSING:
            break
    raise _no_json()


def _past_space(data: bytes, at: int) -> int:
    found = _SPACE.match(data, at)
    return found.end() if found else at


def _past(data: bytes, at: int, mark: bytes) -> int:
    if data[at:at + 1] != mark:
        raise _no_json()
    return at + 1


def _text(string: bytes) -> str:
    """The text that a JSON string stands for."""
    try:
        return str(json.loads(string))
    except ValueError as error:
        raise _no_json() from error


def _no_json() -> WrongValue:
    return WrongValue(where="", value=None, expected="JSON")
