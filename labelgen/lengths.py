"""Millimetres, points and rectangles. Origin top left, x to the right, y down."""

from dataclasses import dataclass
from math import ceil

MM_PER_INCH = 25.4
POINTS_PER_MM = 72 / MM_PER_INCH
"""A PDF unit is 1/72 inch: ISO 32000-1, 8.3.2.3."""


@dataclass(frozen=True, slots=True)
class Point:
    x: float
    y: float

    def __add__(self, other: "Point") -> "Point":
        return Point(self.x + other.x, self.y + other.y)

    def __sub__(self, other: "Point") -> "Point":
        return Point(self.x - other.x, self.y - other.y)


@dataclass(frozen=True, slots=True)
class Rectangle:
    """Top left corner and size."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.x + self.width

    @property
    def bottom(self) -> float:
        return self.y + self.height

    def inset(self, by: float) -> "Rectangle":
        """The rectangle made smaller by `by` mm on every side."""
        return Rectangle(self.x + by, self.y + by, self.width - 2 * by, self.height - 2 * by)

    def overlaps(self, other: "Rectangle", slack: float = 1e-9) -> bool:
        """True when the two share an area; touching edges do not count."""
        return (
            self.x < other.right - slack
            and other.x < self.right - slack
            and self.y < other.bottom - slack
            and other.y < self.bottom - slack
        )

    def contains(self, other: "Rectangle", slack: float = 1e-6) -> bool:
        return (
            self.x <= other.x + slack
            and self.y <= other.y + slack
            and other.right <= self.right + slack
            and other.bottom <= self.bottom + slack
        )


def rectilinear(a: Point, b: Point) -> float:
    """|dx| + |dy|: wires run along the frame, not across it."""
    return abs(a.x - b.x) + abs(a.y - b.y)


def rounded_up(length: float, step: float) -> int:
    """The next multiple of `step`, up to whole mm; a hair of floating point above a multiple does not count."""
    return ceil(ceil(length / step - 1e-9) * step - 1e-9)
