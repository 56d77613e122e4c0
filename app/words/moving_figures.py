"""Wording around moving figures: what a check found, and why a figure is refused."""
from __future__ import annotations

from app.domain.figure.checking.figure_finding import FigureCheck, FigureFinding
from app.domain.figure.drawing.picture import Picture

CHECKS = {
    FigureCheck.LENGTH: ("a limb changes its length", "%H"),
    FigureCheck.LIMIT: ("a joint is bent too far", "degrees beyond its limit"),
    FigureCheck.REACH: ("an arm or a leg is too short for where it is held", "%H"),
    FigureCheck.SPEED: ("a joint moves too fast", "degrees a second"),
    FigureCheck.LEAP: ("the whole body leaps", "%H a second"),
    FigureCheck.LOOP: ("the end does not meet the beginning", "%H"),
    FigureCheck.SYMMETRY: ("left and right differ", "degrees"),
    FigureCheck.MIRROR: ("the second half is not the first one mirrored", "%H"),
    FigureCheck.SWAP: ("the figure jumps where sides change", "%H"),
    FigureCheck.DRIFT: ("something slides that should stay", "%H"),
    FigureCheck.GAP: ("something that should touch does not", "%H"),
    FigureCheck.FLOOR: ("something goes through the floor or what it lies on", "%H"),
    FigureCheck.BALANCE: ("the body is not over its feet", "%H"),
    FigureCheck.HANDS: ("a dumbbell is not in the hand", "%H"),
    FigureCheck.STRETCH: ("a band is slack", "of its length"),
    FigureCheck.FACE: ("a hand covers the head", "%H"),
    FigureCheck.MARGIN: ("the figure reaches over the edge of the picture", "px"),
    FigureCheck.THICKNESS: ("the figure is drawn too small", "px"),
    FigureCheck.STILL: ("nothing moves, and no arrow says why", "%H"),
    FigureCheck.ROUND: ("one round is too short or too long", "seconds"),
    FigureCheck.LIT: ("nothing lights up", "areas"),
}


def finding_line(finding: FigureFinding) -> str:
    """What one check found, in a line."""
    words, unit = CHECKS[finding.check]
    place = f" ({finding.note})" if finding.note else ""
    return f"{words}: {finding.value:.2f} {unit}, allowed {finding.limit:g}{place}"


def findings_line(findings: object) -> str:
    """What several checks found, in one line."""
    found = findings if isinstance(findings, tuple) else ()
    return "; ".join(finding_line(f) for f in found if isinstance(f, FigureFinding))


AREAS = {
    "quads": "front of the thighs", "quadriceps": "front of the thighs", "hamstrings": "back of the thighs",
    "glutes": "buttocks", "calves": "calves", "abs": "belly", "abdominals": "belly", "obliques": "sides of the waist",
    "lower_back": "lower back", "spinal_extensors": "lower back", "upper_back": "upper back",
    "rhomboids": "upper back", "lats": "sides of the back", "chest": "chest", "pectorals": "chest",
    "shoulders": "shoulders", "deltoids": "shoulders", "rotator_cuff": "shoulders", "triceps": "back of the arms",
    "biceps": "front of the arms", "hip_flexors": "front of the hips", "hip_abductors": "sides of the hips",
    "hip_rotators": "sides of the hips", "adductors": "inside of the thighs", "shins": "shins",
    "tibialis_anterior": "shins", "neck": "neck", "traps": "tops of the shoulders",
    "trapezius": "tops of the shoulders", "forearms": "forearms", "hands": "hands", "hand_intrinsics": "hands",
    "feet": "feet", "foot_intrinsics": "feet",
}


def areas_line(picture: Picture) -> str:
    """Which parts of the body work: `front of the thighs, buttocks`."""
    return ", ".join(dict.fromkeys(AREAS[muscle] for muscle in picture.works if muscle in AREAS))


def figure_label(name: str, picture: Picture) -> str:
    """What a screen reader says of a figure."""
    areas = areas_line(picture)
    return f"Figure: {name}." + (f" Works: {areas}." if areas else "")
