"""Which pain is looked at before any training, and before a session goes on: in both wordings. Knows no Flet.

Every number comes from the thresholds that `app/domain/dosing/look.py` decides by.
"""
from __future__ import annotations

from app.domain.model import thresholds as at
from app.domain.model.level import Level
from app.words.rules.section import Section


def looks_for_coach() -> Section:
    """Exact."""
    rows = (
        ("any joint, after a fall", f"≥ {at.PAIN_RESTS}", f"{at.FALL_HOLDS_DAYS} days"),
        ("hip, thigh, back or neck, after a fall", f"≥ {at.PAIN_CAPS}", f"{at.FALL_HOLDS_DAYS} days"),
        ("anywhere, after a fall with osteoporosis", f"≥ {at.PAIN_CAPS}", f"{at.FALL_HOLDS_DAYS} days"),
        ("what was operated on", f"≥ {at.PAIN_RESTS}", "until the go-ahead"),
        ("shoulder, with a pacemaker", f"≥ {at.PAIN_RESTS}", "in the first weeks, and while no date is known"),
        ("hip, thigh, back or ribs, with osteoporosis",
         f"≥ {at.PAIN_RESTS}; ≥ {at.PAIN_CAPS} where it rose by ≥ {at.PAIN_RISE}",
         "since the last session; within a session, since the morning too"),
        ("back, with a fracture of the spine", f"≥ {at.PAIN_CAPS}", "until the go-ahead"),
        ("calf", f"≥ {at.PAIN_RESTS}; ≥ {at.PAIN_CAPS} after an operation, in treatment for cancer, or with a "
         "leg at rest",
         "a clot cannot be ruled out here"),
    )
    return Section("looks", "Pain that is looked at first", (
        f"Such a pain gives level {Level.ASK_FIRST:d} in the morning, and ends a session in which it is told; a "
        "clinician’s go-ahead is then needed, as after any stop. The numbers are [P].",
        "After any other pain told within a session we go as easy on that place as after the same answer in the "
        "morning.",
    ), ("Where", "Pain", "For how long"), rows)


def looks_for_client() -> Section:
    """Plain."""
    return Section("looks", "Pain that is looked at first", (
        f"Pain of {at.PAIN_RESTS} or more soon after a fall, where you had an operation, in a shoulder with a "
        "new pacemaker, or in a calf should be looked at before you train. We ask you to do that first. If you tell us "
        "during a session, the session ends.",
        f"In a calf it is {at.PAIN_CAPS} or more after an operation, during treatment for cancer, and while a leg "
        "rests, in plaster for instance.",
        f"In a hip, a thigh, the back or the neck it is {at.PAIN_CAPS} or more soon after a fall, and anywhere "
        "with thin bones.",
        f"In the back it is {at.PAIN_CAPS} or more with a broken bone in the spine. With thin bones it is "
        f"{at.PAIN_CAPS} or more in the back, a hip, a thigh or the ribs when the pain is new, and {at.PAIN_RESTS} or "
        "more when it isn’t.",
        "We don’t know what it is. It may be nothing, and it may be something that training makes worse.",
    ))
