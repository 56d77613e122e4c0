"""What 0, 1, 2 and 3 mean on each axis, so that two coaches rate alike.

Ratings are a coach's judgement [P], not a measurement, and every screen that shows one says so. Angles are rough.
"""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.model.exercise import Axis

Anchors = tuple[str, str, str, str]

#: How to read any axis where its own anchors leave room.
GENERAL: Anchors = (
    "does not come into it",
    "light, or easily avoided",
    "a clear demand that most people notice",
    "what limits the exercise; not for somebody who spares that area",
)

ANCHORS: Mapping[Axis, Anchors] = {
    Axis.WRIST_WEIGHT_BEARING: (
        "hands free, or they only hold something",
        "a light lean against a wall or a high edge",
        "part of the body's weight on a bent wrist, or the wrist drawn to its end",
        "much of the body's weight on a bent wrist",
    ),
    Axis.OVERHEAD_SHOULDER: (
        "arms stay below the chest",
        "arms come up to the shoulders",
        "arms go above the shoulders, empty or helped by a band",
        "a weight is pressed or held overhead",
    ),
    Axis.SHOULDER_LOAD: (
        "arms rest, hang, or swing loosely",
        "empty arms lifted, a light lean, press or band, or a weight kept still close to the body",
        "a weight, or part of the body's weight, moved or held up to shoulder height; or the arm drawn to its end",
        "a weight moved above the shoulders, or much of the body's weight on the arms",
    ),
    Axis.ELBOW_LOAD: (
        "elbows rest, or bend with nothing to resist",
        "a light lean, press or band, quick empty reaches, or a weight hanging from a straight arm",
        "elbows bend and straighten against a weight or part of the body's weight",
        "bending the elbow is the work itself, or much of the body's weight goes through it",
    ),
    Axis.GRIP: (
        "hands may stay open",
        "a light hold, a hand opened and closed, or a band",
        "a weight held for the whole set",
        "the hand gives in before anything else does",
    ),
    Axis.NECK_LOAD: (
        "head balanced upright, or resting",
        "head turned or tipped gently, or the shoulders carry a light weight",
        "head held up while leaning or face down, or weights pressed overhead",
        "head lifted from lying, or held against load at the end of its range",
    ),
    Axis.LOADED_SPINAL_FLEXION: (
        "upright, supported, or leaning only as one does to stand up",
        "bows, leans or folds with its own weight alone, holds the trunk against it, or keeps a weight close upright",
        "a bow with a weight or a band that nothing props",
        "the back rounded against a load",
    ),
    Axis.LOADED_TWIST: (
        "no turning",
        "a turn is resisted, or is small and free, also a reach across",
        "turning against resistance in the middle of the range",
        "turning fast or against a load at the end of the range",
    ),
    Axis.DEEP_HIP_FLEXION: (
        "hips straight, or bent no further than sitting upright",
        "thigh lifted a little from there, or a small bow under the body's weight",
        "trunk and thigh come clearly closer: standing up from a chair, a full bow",
        "thigh close to the trunk: a very low seat, sitting back on the heels",
    ),
    Axis.DEEP_KNEE_FLEXION: (
        "nearly straight, to about 45° under load",
        "about 45–80°, or bent with hardly any load",
        "about 80–100° under the body's weight, as on a chair",
        "beyond 100°, or as deep as it goes",
    ),
    Axis.KNEELING: (
        "knees never on the ground",
        "a knee touches in passing",
        "on the knees, the hands or forearms carrying a share",
        "most of the weight on the knees for the whole set",
    ),
    Axis.ANKLE_LOAD: (
        "sitting or lying; the foot rests or moves freely",
        "standing or walking, or heels pressed up while seated",
        "rising onto both feet's toes, or balance or a bend that works the ankle",
        "rising onto the toes of one foot, hopping, jumping",
    ),
    Axis.SINGLE_LEG_BALANCE: (
        "sitting, lying, or two feet apart",
        "weight shifts or steps, feet together, or one leg with a firm hold",
        "feet in line, or one leg for a moment with a light hold",
        "one leg for a while with a light hold or none, or a pause on a line",
    ),
    Axis.IMPACT: (
        "none",
        "a step as in walking",
        "an easy jog or hop",
        "a jump and a landing",
    ),
    Axis.FLOOR_TRANSFER: (
        "stays in the chair or on the feet",
        "up and down at the height of a chair, bed or step",
        "down to one knee, or to hands and knees",
        "down to lying on the floor, and up again",
    ),
    Axis.HEAD_BELOW_HEART: (
        "head above the heart",
        "lying flat, or tipped forward for a moment",
        "head clearly below the heart for some seconds",
        "held upside down",
    ),
    Axis.SPINAL_ROUNDING: (
        "the back stays long",
        "it gives a little in passing, or the low back flattens",
        "rounding is asked for: held, or again and again",
        "rounded as far as it goes",
    ),
    Axis.SPINAL_EXTENSION: (
        "upright or resting",
        "the breastbone lifts, the arms go overhead, a leg goes back, or the trunk is kept from sagging",
        "arched back on purpose, again and again",
        "arched as far as it goes, or against a load",
    ),
    Axis.HEAD_TURNING: (
        "the head stays where it is",
        "it slides, or goes along with the trunk, or looks round once",
        "turned or tipped on purpose",
        "fast, or far up or round",
    ),
    Axis.TURNING_ROUND: (
        "faces one way",
        "turns in small steps at the end of a path, or one foot steps back or down",
        "turning round is the exercise, or it walks backwards",
        "turned fast, or on one foot",
    ),
    Axis.BEARING_DOWN: (
        "the breath flows and nothing strains",
        "a light press, band or weight, a light brace, or the body's own weight up from a seat",
        "a weight lifted or carried that one notices, a plank, a push-up, or legs or trunk held in the air",
        "a weight from the floor, or pressing with held breath",
    ),
    Axis.HARD_HOLD: (
        "it moves, rests, stretches or breathes",
        "a light hold, or a pause of some seconds",
        "pressed, pulled, braced or carried without moving, at half strength or with the body's weight",
        "as hard as it goes",
    ),
    Axis.UNHELD_BALANCE: (
        "a hand stays on something firm, or two feet stand apart, or one sits or lies",
        "steps, or rises, with no hand on anything",
        "a line, a turn, a quick step, or a lean that only the grip keeps from falling",
        "one leg for a while, with no hand on anything",
    ),
    Axis.LEG_CROSSING: (
        "the legs stay hip-wide or together",
        "feet in line, or a leg circled, opened wide or taken behind",
        "ankles crossed",
        "an ankle on the other knee, or a leg drawn across",
    ),
}
