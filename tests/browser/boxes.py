"""Where what is read and pressed stands in a browser, and how tall what is printed is, as the picture shows it."""
from __future__ import annotations

import io
from dataclasses import dataclass
from itertools import combinations

from PIL import Image

from tests.browser.driver import Walker
from tests.browser.page_scripts import SEEN


@dataclass(frozen=True)
class Box:
    """Something that is said on the page, and where it is seen, px; `whole` is its height unscrolled."""

    words: str
    role: str
    left: float
    top: float
    right: float
    bottom: float
    whole: float

    @property
    def width(self) -> float:
        """Of what is seen, px."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Of what is seen, px."""
        return self.bottom - self.top

    @property
    def is_seen(self) -> bool:
        """Whether any of it is on the screen."""
        return self.width > 2 and self.height > 2

    def covers(self, other: Box) -> bool:
        """Whether they share more of the screen than a line's edge."""
        return (min(self.right, other.right) - max(self.left, other.left) > 3
                and min(self.bottom, other.bottom) - max(self.top, other.top) > 3)


def seen(walker: Walker) -> list[Box]:
    """Everything that is on the screen now."""
    found = [Box(one["words"], one["role"], *one["seen"], one["box"][3] - one["box"][1])
             for one in walker.page.evaluate(SEEN) if not one["inner"]]
    return [box for box in found if box.is_seen]


def overlaps(boxes: list[Box]) -> list[str]:
    """Which of them lie upon one another."""
    return [f"“{a.words}” and “{b.words}”" for a, b in combinations(boxes, 2) if a.covers(b)]


def sticks_out(boxes: list[Box], width: float) -> list[str]:
    """Which of them reach over the sides of the page."""
    return [f"“{box.words}” from {box.left:.0f} to {box.right:.0f}" for box in boxes
            if box.left < -0.5 or box.right > width + 0.5]


@dataclass(frozen=True)
class Print:
    """Which rows and columns of a part of the picture hold ink: runs of px, from and to."""

    rows: list[tuple[int, int]]
    columns: list[tuple[int, int]]

    @property
    def tallest(self) -> int:
        """Height of the tallest run of rows."""
        return max((to - at for at, to in self.rows), default=0)

    @property
    def width(self) -> int:
        """From the first column that holds ink to the last."""
        return self.columns[-1][1] - self.columns[0][0] if self.columns else 0


def printed(walker: Walker, box: Box) -> Print:
    """The ink within a box: whatever differs from the colour of its top left corner."""
    picture = walker.page.screenshot(clip={"x": box.left, "y": box.top, "width": box.width, "height": box.height})
    return ink_of(Image.open(io.BytesIO(picture)).convert("RGB"))


def ink_of(picture: Image.Image) -> Print:
    """Rows and columns that hold something else than the ground."""
    ground = picture.getpixel((1, 1))
    assert isinstance(ground, tuple)
    width, height = picture.size
    dots = picture.load()
    assert dots is not None
    dark = [[_differs(dots[x, y], ground) for x in range(width)] for y in range(height)]
    return Print(_runs([any(row) for row in dark]), _runs([any(column) for column in zip(*dark, strict=True)]))


def _differs(dot: object, ground: tuple[int, ...]) -> bool:
    assert isinstance(dot, tuple)
    return sum(abs(a - b) for a, b in zip(dot, ground, strict=True)) > 200


def _runs(marks: list[bool]) -> list[tuple[int, int]]:
    runs: list[tuple[int, int]] = []
    for at, mark in enumerate(marks):
        if mark and runs and runs[-1][1] == at:
            runs[-1] = (runs[-1][0], at + 1)
        elif mark:
            runs.append((at, at + 1))
    return runs
