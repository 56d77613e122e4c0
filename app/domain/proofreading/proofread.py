"""What an experienced coach would object to in a source, with the number, the place and what would mend it.

Only what could hurt a client blocks publishing; the rest is said and left to the coach, who may also move its limits:
`proofreading_limits.py`. Source: the project's list, `README.md` beside this. [P]
"""
from __future__ import annotations

from app.domain.model.source import Source
from app.domain.proofreading.finding import Finding, SessionUnderCheck, written_timeline
from app.domain.proofreading.ladders import ladder_problems, relief_problems
from app.domain.proofreading.rising import rising_problems
from app.domain.proofreading.sessions import session_problems
from app.domain.proofreading.station_order import order_problems
from app.domain.proofreading.tempo import tempo_problems
from app.domain.proofreading.unknown_kit import kit_problems
from app.domain.proofreading.weeks_of_programme import draft_weeks, programme_problems

__all__ = ["Finding", "proofread", "written_timeline"]


def proofread(source: Source) -> tuple[Finding, ...]:
    """Every objection to a source, those that block publishing first."""
    library, limits = source.library(), source.proofreading
    drafts = {s.id: SessionUnderCheck(s, written_timeline(s, library), library, limits) for s in source.sessions}
    found = [*ladder_problems(library), *relief_problems(source, library), *kit_problems(library),
             *tempo_problems(library, limits)]
    for draft in drafts.values():
        found += [*session_problems(draft), *order_problems(draft)]
    for programme in source.programmes:
        found += programme_problems(programme, drafts, limits)
        found += rising_problems(programme, draft_weeks(programme, drafts), limits)
    return tuple(sorted(dict.fromkeys(found), key=lambda p: not p.blocks))
