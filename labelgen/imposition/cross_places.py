"""Where the crosses go by which two tiles are laid over each other: where they spoil nothing that is drawn."""

from collections.abc import Iterator, Sequence

from labelgen.imposition.ink import ink_boxes
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Drawing, Line, Shape

PARTS = (0.25, 0.75)
"""How far along a stretch of overlap its two crosses would best stand."""

GROUND_MM = 20.0
"""What covers the drawing but for so much at its edges is its ground: crosses stand on it."""


class CrossPlaces:
    """Finds places in a drawing for crosses. `reach`: half the length of their arms, in mm."""

    def __init__(self, drawing: Drawing, reach: float) -> None:
        self._reach = reach + 0.5
        ground = Rectangle(0, 0, drawing.width, drawing.height).inset(GROUND_MM)
        boxes = [box for shape in drawing.shapes if not _crosses_all(shape, drawing) for box in ink_boxes(shape)]
        self._ink = [box for box in boxes if not box.contains(ground)]

    def in_stretch(self, stretch: Rectangle) -> Iterator[tuple[float, float]]:
        """Two places at whole mm in a stretch of overlap, one in each half: the nearest ones that are free.

        Where nothing is free, the middle of the stretch at a quarter and three quarters of its length.
        """
        near = [box for box in self._ink if box.overlaps(stretch)]
        for part in PARTS:
            at = (stretch.x + part * stretch.width, stretch.y + part * stretch.height)
            best = _across_the_middle(stretch, at)
            yield next((place for place in self._candidates(stretch, best) if self._free(place, near)), best)

    def _free(self, place: tuple[float, float], near: Sequence[Rectangle]) -> bool:
        x, y = place
        cross = Rectangle(x - self._reach, y - self._reach, 2 * self._reach, 2 * self._reach)
        return not any(box.overlaps(cross) for box in near)

    def _candidates(self, stretch: Rectangle, best: tuple[float, float]) -> Iterator[tuple[float, float]]:
        """Places at whole mm in the same half of the stretch, from the best one outwards along it, then across."""
        upright = stretch.height > stretch.width
        length = stretch.height if upright else stretch.width
        room = stretch.inset(self._reach)
        half = round(length / 4)
        for along in range(half):
            for aside in (0, 1, -1, 2, -2):
                for way in (along, -along) if along else (0,):
                    dx, dy = (aside, way) if upright else (way, aside)
                    x, y = best[0] + dx, best[1] + dy
                    if room.contains(Rectangle(x, y, 0, 0)):
                        yield x, y


def _crosses_all(shape: Shape, drawing: Drawing) -> bool:
    """A line from edge to edge: of a grid, between whose lines no cross would find room."""
    if not isinstance(shape, Line):
        return False
    return abs(shape.x2 - shape.x1) >= drawing.width - 1e-6 or abs(shape.y2 - shape.y1) >= drawing.height - 1e-6


def _across_the_middle(stretch: Rectangle, at: tuple[float, float]) -> tuple[float, float]:
    x, y = at
    if stretch.height > stretch.width:
        return round(stretch.x + stretch.width / 2), round(y)
    return round(x), round(stretch.y + stretch.height / 2)
