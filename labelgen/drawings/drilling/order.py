"""In which order a panel's holes are drilled: pilots first, then drill by drill, row by row. Millimetres."""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.model.panel.holes import PanelHole
from labelgen.standards.drills import LARGEST_DRILL_MM, next_drill

PILOT_MM = 3.0
"""Larger drills follow it instead of wandering off. Common practice, no source."""
ROW_MM = 4.0
"""Holes that differ in height by no more than this are of one row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One drill, and its holes in the order in which they are drilled."""

    drill: float | None
    """None: wider than any drill, so it takes a hole saw."""
    marks: tuple[str, ...]
    pilot: bool = False


def drill_of(hole: PanelHole) -> float | None:
    """The stocked drill for a hole: of its very diameter, or the next larger; None when there is none so large."""
    return next_drill(hole.diameter)


def drilling_steps(holes: Mapping[str, PanelHole]) -> tuple[Step, ...]:
    """Pilots of all holes that are wider than that; then drills from small to large, a hole saw last."""
    wide = [mark for mark, hole in holes.items() if hole.diameter > PILOT_MM]
    steps = [Step(drill=PILOT_MM, marks=_by_rows(holes, wide), pilot=True)] if wide else []
    drills: dict[float, list[str]] = {}
    for mark, hole in holes.items():
        drills.setdefault(drill_of(hole) or 2 * LARGEST_DRILL_MM, []).append(mark)
    for drill in sorted(drills):
        known = drill if drill <= LARGEST_DRILL_MM else None
        steps.append(Step(drill=known, marks=_by_rows(holes, drills[drill])))
    return tuple(steps)


def _by_rows(holes: Mapping[str, PanelHole], marks: list[str]) -> tuple[str, ...]:
    """From the top down, there and back, so that the drill moves as little as need be."""
    rows: list[list[str]] = []
    for mark in sorted(marks, key=lambda mark: (holes[mark].at.y, holes[mark].at.x)):
        if rows and holes[mark].at.y - holes[rows[-1][0]].at.y <= ROW_MM:
            rows[-1].append(mark)
        else:
            rows.append([mark])
    ordered = []
    for index, row in enumerate(rows):
        ordered += sorted(row, key=lambda mark: holes[mark].at.x, reverse=index % 2 == 1)
    return tuple(ordered)
