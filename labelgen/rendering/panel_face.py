"""The picture of a panel's face on its page: where each number stands, and how narrow the picture may become.

Holes grow and shrink with the picture, numbers do not: so every number has a place at which it touches nothing in the
narrowest picture, nor in any that is wider.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf

from labelgen.lengths import Rectangle
from labelgen.model.panel.holes import PanelHole

NUMBER_PX, CHARACTER_PX, GAP_PX, WORD_GAP_PX = 13.0, 9.5, 1.5, 3.0
"""Height of a number, with air; width of a bold figure in the widest of the usual typefaces of browsers; what stays
free around it, and beside another number. CSS px, of a number of 0.85rem where 1rem is 16 px."""
WIDEST, NARROWEST = 2.4, 0.3
"""px for each mm of the panel."""
_STEP, _STEPS = 1.05, 42


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """`x`, `y`: its anchor's place in hundredths of the picture's width and height; `above`: it stands on top of it."""

    text: str
    use: str
    x: float
    y: float
    anchor: str
    above: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelFace:
    numbers: tuple[Number, ...]
    least_px: int
    """Narrower, the picture's numbers would touch."""
    most_px: int


@dataclass(frozen=True, slots=True)
class _Spot:
    """A hole, or all the holes of a lever, as a rectangle in mm."""

    text: str
    use: str
    hole: Rectangle


@dataclass(frozen=True, slots=True)
class _Box:
    """A box that moves as the picture grows: each edge is `mm` of it times the scale, and `px` beyond."""

    mm: Rectangle
    px: Rectangle

    def meets(self, other: "_Box", scale: float) -> bool:
        """Whether the two overlap in a picture of that scale, or in any that is wider."""
        low, high = scale, WIDEST
        for one, two in ((self, other), (other, self)):
            for growth, offset in (
                (one.mm.x - two.mm.right, one.px.x - two.px.right),
                (one.mm.y - two.mm.bottom, one.px.y - two.px.bottom),
            ):
                if abs(growth) < _HAIR:
                    low = low if offset < -_HAIR else inf
                elif growth > 0:
                    high = min(high, -offset / growth)
                else:
                    low = max(low, -offset / growth)
                if low >= high - _HAIR:
                    return False
        return True


_HAIR = 1e-9
_NONE = Rectangle(0, 0, 0, 0)
_WAYS = (("middle", True), ("middle", False), ("end", True), ("start", True), ("end", False), ("start", False))


def panel_face(size: tuple[float, float], holes: Sequence[tuple[PanelHole, str]]) -> PanelFace:
    """`size`: of the panel in mm; `holes`: with what is written beside each; of a lever's several holes once."""
    width, height = size
    spots = list(_spots(holes))
    bare = [_around(hole) for hole, _ in holes if hole.use not in ("lever", "route")]
    scales = [*(NARROWEST * _STEP**step for step in range(_STEPS)), WIDEST]

    def standing(scale: float) -> int:
        return len(_placed(spots, bare, size, scale))

    scale = scales[min(bisect_left(scales, len(spots), key=standing), _STEPS)]
    found = _placed(spots, bare, size, scale)
    numbers = [
        Number(
            text=spot.text, use=spot.use, anchor=anchor, above=above, x=_middle(spot.hole) / width * 100,
            y=(spot.hole.y if above else spot.hole.bottom) / height * 100,
        )
        for spot in spots
        for anchor, above in (found.get(spot, _WAYS[0]),)
    ]  # fmt: skip
    return PanelFace(numbers=tuple(numbers), least_px=round(scale * width), most_px=round(WIDEST * width))


def _spots(holes: Sequence[tuple[PanelHole, str]]) -> Iterator[_Spot]:
    rows: dict[tuple[str, str], list[PanelHole]] = {}
    for hole, text in holes:
        if hole.use in ("lever", "route"):
            rows.setdefault((hole.use, text), []).append(hole)
    for (use, text), row in rows.items():
        boxes = [_around(hole) for hole in row]
        left, top = min(box.x for box in boxes), min(box.y for box in boxes)
        right, bottom = max(box.right for box in boxes), max(box.bottom for box in boxes)
        yield _Spot(text, use, Rectangle(left, top, right - left, bottom - top))


def _around(hole: PanelHole) -> Rectangle:
    return Rectangle(hole.at.x - hole.diameter / 2, hole.at.y - hole.diameter / 2, hole.diameter, hole.diameter)


def _placed(
    spots: Sequence[_Spot], bare: Sequence[Rectangle], size: tuple[float, float], scale: float
) -> dict[_Spot, tuple[str, bool]]:
    """Anchor, and whether it stands above, of each number that has room from that scale on."""
    taken = [_Box(hole, _NONE) for hole in (*bare, *(spot.hole for spot in spots))]
    face = Rectangle(0, 0, size[0] * scale, size[1] * scale)
    found: dict[_Spot, tuple[str, bool]] = {}
    for spot in spots:
        for anchor, above in _WAYS:
            box = _box(spot, anchor, above=above)
            if face.contains(_at(box, scale)) and not any(box.meets(other, scale) for other in taken):
                px = box.px
                wide = Rectangle(px.x - WORD_GAP_PX, px.y, px.width + 2 * WORD_GAP_PX, px.height)
                taken.append(_Box(box.mm, wide))
                found[spot] = (anchor, above)
                break
    return found


def _box(spot: _Spot, anchor: str, *, above: bool) -> _Box:
    """What a number covers, with a little air between it and its hole."""
    width = CHARACTER_PX * len(spot.text)
    back = {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    at = Rectangle(_middle(spot.hole), spot.hole.y if above else spot.hole.bottom, 0, 0)
    return _Box(at, Rectangle(-back, -GAP_PX - NUMBER_PX if above else GAP_PX, width, NUMBER_PX))


def _at(box: _Box, scale: float) -> Rectangle:
    mm, px = box.mm, box.px
    return Rectangle(mm.x * scale + px.x, mm.y * scale + px.y, px.width, px.height)


def _middle(box: Rectangle) -> float:
    return box.x + box.width / 2
