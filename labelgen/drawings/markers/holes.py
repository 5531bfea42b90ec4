"""The fixing holes of a strip on its markers: a cross among the cells, or in an ear beyond the first and last one."""

from labelgen.model.drawing import Circle, Line, Shape
from labelgen.model.netlist import StripPlan

ARM, WEIGHT = 0.95, 0.25
"""mm, on a marker 10 mm high."""
REACH = ARM + 0.25
"""mm from a cross's middle to what is beside it."""
RING = 2.0
"""mm: the ring in an ear, about a small screw's hole."""
BEYOND = 3.4
"""mm of ear beyond the hole's middle."""


def ear_mm(strip: StripPlan, ways: int) -> float:
    """How much longer a marker is at each end, so that a fixing hole beyond its ways is on it; 0: there is none."""
    beyond = (strip.fixing or 0.0) / 2 - ways * strip.pitch / 2
    return beyond + BEYOND if beyond > 0 else 0.0


def inner_holes(strip: StripPlan, ways: int) -> tuple[float, ...]:
    """Of holes that lie among the ways: how far from the low end of the ways."""
    if strip.fixing is None or ear_mm(strip, ways):
        return ()
    middle = ways * strip.pitch / 2
    return (middle - strip.fixing / 2, middle + strip.fixing / 2)


def hole_cross(x: float, y: float, scale: float) -> list[Shape]:
    arm, weight = ARM * scale, WEIGHT * scale
    return [
        Line(x1=x - arm, y1=y, x2=x + arm, y2=y, width=weight),
        Line(x1=x, y1=y - arm, x2=x, y2=y + arm, width=weight),
    ]


def hole_in_ear(x: float, y: float, room: float) -> list[Shape]:
    """At its own size, whatever the marker's: a screw goes through it. `room`: to the next way, mm."""
    ring = Circle(x=x, y=y, radius=RING, stroke="#000000", stroke_width=WEIGHT)
    return [*hole_cross(x, y, 1.0), *([ring] if room >= RING + WEIGHT else [])]
