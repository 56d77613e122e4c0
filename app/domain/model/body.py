"""Regions of the body, the axes that load them, and a spot: a region with its side."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from app.domain.errors import UnknownName
from app.domain.model.exercise import Axis


class Region(StrEnum):
    """What can be spared. Pain and soreness take body regions only, not `balance` or `floor`."""

    NECK = "neck"
    SHOULDER = "shoulder"
    ELBOW = "elbow"
    WRIST = "wrist"
    HAND = "hand"
    RIBS = "ribs"
    BACK = "back"
    HIP = "hip"
    THIGH = "thigh"
    KNEE = "knee"
    CALF = "calf"
    ANKLE = "ankle"
    FOOT = "foot"
    BALANCE = "balance"
    FLOOR = "floor"


BODY_REGIONS: tuple[Region, ...] = tuple(r for r in Region if r not in (Region.BALANCE, Region.FLOOR))
PAIRED_REGIONS = frozenset(BODY_REGIONS) - {Region.NECK, Region.BACK}

#: Which demands load which region, each read off the anchors of its axes. [P], `app/domain/dosing/README.md`.
REGION_AXES: Mapping[Region, tuple[Axis, ...]] = {
    Region.KNEE: (Axis.DEEP_KNEE_FLEXION, Axis.KNEELING, Axis.IMPACT, Axis.FLOOR_TRANSFER, Axis.SINGLE_LEG_BALANCE),
    Region.HIP: (Axis.DEEP_HIP_FLEXION, Axis.LEG_CROSSING, Axis.LOADED_TWIST, Axis.IMPACT, Axis.SINGLE_LEG_BALANCE),
    Region.ANKLE: (Axis.ANKLE_LOAD, Axis.IMPACT, Axis.SINGLE_LEG_BALANCE),
    Region.BACK: (Axis.LOADED_SPINAL_FLEXION, Axis.SPINAL_ROUNDING, Axis.SPINAL_EXTENSION, Axis.LOADED_TWIST,
                  Axis.IMPACT),
    Region.NECK: (Axis.NECK_LOAD, Axis.HEAD_TURNING, Axis.HEAD_BELOW_HEART),
    Region.SHOULDER: (Axis.OVERHEAD_SHOULDER, Axis.SHOULDER_LOAD, Axis.WRIST_WEIGHT_BEARING),
    Region.ELBOW: (Axis.ELBOW_LOAD, Axis.GRIP),
    Region.WRIST: (Axis.WRIST_WEIGHT_BEARING, Axis.GRIP),
    Region.THIGH: (Axis.DEEP_KNEE_FLEXION, Axis.DEEP_HIP_FLEXION, Axis.SINGLE_LEG_BALANCE, Axis.IMPACT),
    Region.CALF: (Axis.ANKLE_LOAD, Axis.IMPACT),
    Region.FOOT: (Axis.ANKLE_LOAD, Axis.IMPACT, Axis.SINGLE_LEG_BALANCE),
    Region.HAND: (Axis.GRIP, Axis.WRIST_WEIGHT_BEARING),
    Region.RIBS: (Axis.LOADED_TWIST, Axis.SPINAL_ROUNDING, Axis.SPINAL_EXTENSION, Axis.BEARING_DOWN,
                  Axis.SHOULDER_LOAD),
    Region.BALANCE: (Axis.SINGLE_LEG_BALANCE, Axis.UNHELD_BALANCE),
    Region.FLOOR: (Axis.FLOOR_TRANSFER, Axis.HEAD_BELOW_HEART),
}

#: What getting up from the floor takes, beside a knee: every limb, the back and the ribs. [P]
GETS_UP_WITH = frozenset(BODY_REGIONS) - {Region.NECK, Region.KNEE}
#: What somebody lies on when they lie on one side.
LAIN_ON = frozenset({Region.HIP, Region.SHOULDER, Region.RIBS})


@dataclass(frozen=True, order=True)
class Spot:
    """A region, and `left`, `right` or the empty string for neither in particular."""

    region: Region
    side: str = ""

    def __str__(self) -> str:
        return f"{self.side} {self.region}".strip()

    def meets(self, other: Spot) -> bool:
        """Whether both may mean the same joint; a region without a side may be either."""
        return self.region is other.region and (self.side == other.side or "" in (self.side, other.side))

    def mirrored(self) -> Spot:
        """The same spot seen in a mirror."""
        return Spot(self.region, {"left": "right", "right": "left"}.get(self.side, ""))


#: Every spot that can hurt: a region by itself, and each side of what there are two of.
SPOTS = tuple(Spot(region, side) for region in BODY_REGIONS
              for side in (("", "left", "right") if region in PAIRED_REGIONS else ("",)))


_REGIONS = {region.value: region for region in Region}


def parse_spot(words: str) -> Spot:
    """`left knee`, `knee` or `left_knee` as a Spot.

    Raises:
        UnknownName: the region is not one of ours.
    """
    parts = words.lower().replace("_", " ").split()
    side = parts[0] if len(parts) == 2 and parts[0] in ("left", "right") else ""
    name = parts[-1] if len(parts) == (2 if side else 1) else words
    region = _REGIONS.get(name)
    if region is None:
        raise UnknownName(kind="region", name=words, known=tuple(_REGIONS))
    return Spot(region, side)


def parse_body_spot(words: str) -> Spot:
    """A spot that can hurt.

    Raises:
        UnknownName: not a region of the body.
    """
    spot = parse_spot(words)
    if spot.region not in BODY_REGIONS:
        raise UnknownName(kind="body region", name=words, known=tuple(r.value for r in BODY_REGIONS))
    return spot
