"""What the checks say of a sheet: each objection at its place, and with a fix where one act takes it away.

A fix is offered only if the checks, asked again about the fixed sheet, have one objection less and none that is new.
"""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from app.domain.bench.fix import Fix, fixes
from app.domain.bench.sheet import SessionSheet, SheetBlock, SheetLine
from app.domain.model.exercise import Exercise
from app.domain.model.plan import Timeline
from app.domain.model.proofreading_limits import DEFAULT_LIMITS, ProofreadingLimits
from app.domain.model.session import BlockKind
from app.domain.proofreading.finding import Finding, SessionUnderCheck, written_timeline
from app.domain.proofreading.sessions import session_problems
from app.domain.proofreading.station_order import order_problems

Library = Mapping[str, Exercise]


@dataclass(frozen=True)
class PlacedCheck:
    """One objection. `lines` are the numbers of the lines it speaks of, else `block` that of a block; never both 0.

    `number` counts from 1: what keeps the session from being handed out first, then in the order of the card.
    """

    number: int
    found: Finding
    lines: tuple[int, ...] = ()
    block: int = 0
    fix: Fix | None = field(default=None, compare=False, repr=False)


def checked(
    sheet: SessionSheet, library: Library, limits: ProofreadingLimits = DEFAULT_LIMITS
) -> tuple[PlacedCheck, ...]:
    """Every objection to a sheet, with its place and its fix. None to an empty one."""
    found = problems_of(sheet, library, limits)
    order = {row.number: n for n, row in enumerate(sheet.rows())}
    placed = [(one, _lines(sheet, one), _block(sheet, one)) for one in found]
    placed.sort(key=lambda at: (not at[0].blocks, min((order[line.number] for line in at[1]),
                                                      default=order[at[2].number] if at[2] else 0)))
    return tuple(
        PlacedCheck(number, one, tuple(line.number for line in lines), block.number if block and not lines else 0,
                    _fix(sheet, library, limits, one, lines, found))
        for number, (one, lines, block) in enumerate(placed, 1))


def problems_of(
    sheet: SessionSheet, library: Library, limits: ProofreadingLimits = DEFAULT_LIMITS
) -> tuple[Finding, ...]:
    """Every objection once, in the order of the checks."""
    session = sheet.session()
    if not session.blocks:
        return ()
    draft = SessionUnderCheck(session, written_timeline(session, library), library, limits)
    return tuple(dict.fromkeys([*session_problems(draft), *order_problems(draft)]))


def timeline_of(sheet: SessionSheet, library: Library) -> Timeline | None:
    """The session as it was written, on its ruler; None for an empty one."""
    session = sheet.session()
    return written_timeline(session, library) if session.blocks else None


def _lines(sheet: SessionSheet, found: Finding) -> tuple[SheetLine, ...]:
    about = found.where.partition("/")[2]
    return tuple(line for line in sheet.lines() if line.item.exercise == about)


_OF_A_PART = {"short_warm_up": (BlockKind.WARM_UP,), "short_cool_down": (BlockKind.COOL_DOWN,),
              "not_stretched": (BlockKind.COOL_DOWN,)}


def _block(sheet: SessionSheet, found: Finding) -> SheetBlock | None:
    """The block that an objection to the whole session is shown at."""
    kinds = _OF_A_PART.get(found.rule, ())
    fits = [b for b in sheet.blocks if b.lines and (b.kind in kinds if kinds else b.written().is_main)]
    if fits:
        return fits[0]
    return sheet.blocks[-1 if BlockKind.COOL_DOWN in kinds else 0] if sheet.blocks else None


def _fix(
    sheet: SessionSheet, library: Library, limits: ProofreadingLimits, found: Finding, lines: tuple[SheetLine, ...],
    all_found: tuple[Finding, ...],
) -> Fix | None:
    before = {_told(one) for one in all_found}
    for fix in fixes(sheet, library, found, lines):
        after = problems_of(fix.sheet, library, limits)
        told = {_told(one) for one in after}
        if len(after) < len(all_found) and told < before and _told(found) not in told:
            return fix
    return None


def _told(found: Finding) -> tuple[str, str, str]:
    """The same objection, whatever its numbers."""
    return found.rule, found.where, found.what
