"""The picture of a panel's face on its page: where each number stands, and how narrow the picture may become.

Holes grow and shrink with the picture, numbers do not: so every number has a place at which it touches nothing in the
narrowest picture, and then in none.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.lengths import Rectangle
from labelgen.model.panel.holes import PanelHole

NUMBER_PX, CHARACTER_PX, GAP_PX, WORD_GAP_PX = 13.0, 9.5, 1.5, 4.0
"""Height of a number, with air; width of a bold figure in the widest of the usual typefaces of browsers; what stays
free around it, and beside another number. CSS px, of a number of 0.85rem where 1rem is 16 px."""
WIDEST, NARROWEST = 2.4, 0.3
"""px for each mm of the panel."""
_STEP = 1.05


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


def panel_face(size: tuple[float, float], holes: Sequence[tuple[PanelHole, str]]) -> PanelFace:
    """`size`: of the panel in mm; `holes`: with what is written beside each; of a lever's several holes once."""
    width, height = size
    spots = list(_spots(holes))
    bare = [_around(hole) for hole, _ in holes if hole.use not in ("lever", "route")]
    scale = NARROWEST
    while scale < WIDEST and len(_placed(spots, bare, width, height, scale)) < len(spots):
        scale *= _STEP
    scale = min(scale, WIDEST)
    numbers = [
        Number(
            text=spot.text, use=spot.use, anchor=anchor, above=above, x=_middle(spot.hole) / width * 100,
            y=(spot.hole.y if above else spot.hole.bottom) / height * 100,
        )
        for spot, (anchor, above) in _placed(spots, bare, width, height, scale).items()
    ]  # fmt: skip
    return PanelFace(numbers=tuple(numbers), least_px=round(scale * width), most_px=round(WIDEST * width))


def _spots(holes: Sequence[tuple[PanelHole, str]]) -> Iterator[_Spot]:
    rows: dict[str, list[PanelHole]] = {}
    texts = {}
    for hole, text in holes:
        if hole.use in ("lever", "route"):
            rows.setdefault(f"{hole.use} {hole.thing}", []).append(hole)
            texts[f"{hole.use} {hole.thing}"] = text
    for key, row in rows.items():
        boxes = [_around(hole) for hole in row]
        left, top = min(box.x for box in boxes), min(box.y for box in boxes)
        right, bottom = max(box.right for box in boxes), max(box.bottom for box in boxes)
        yield _Spot(texts[key], row[0].use, Rectangle(left, top, right - left, bottom - top))


def _around(hole: PanelHole) -> Rectangle:
    return Rectangle(hole.at.x - hole.diameter / 2, hole.at.y - hole.diameter / 2, hole.diameter, hole.diameter)


def _placed(
    spots: Sequence[_Spot], bare: Sequence[Rectangle], width: float, height: float, scale: float
) -> dict[_Spot, tuple[str, bool]]:
    """Anchor, and whether it stands above, of each number that has room; at the widest, all have theirs above."""
    face = Rectangle(0, 0, width * scale, height * scale).inset(GAP_PX)
    taken = [_scaled(hole, scale) for hole in (*bare, *(spot.hole for spot in spots))]
    found: dict[_Spot, tuple[str, bool]] = {}
    for spot in spots:
        for anchor, above in _WAYS:
            box = _box(spot, anchor, above=above, scale=scale)
            if face.contains(box) and not any(box.overlaps(other) for other in taken):
                taken.append(Rectangle(box.x - WORD_GAP_PX, box.y, box.width + 2 * WORD_GAP_PX, box.height))
                found[spot] = (anchor, above)
                break
        else:
            if scale >= WIDEST:
                found[spot] = ("middle", True)
    return found


_WAYS = (("middle", True), ("middle", False), ("end", True), ("start", True), ("end", False), ("start", False))


def _box(spot: _Spot, anchor: str, *, above: bool, scale: float) -> Rectangle:
    """What a number covers in px."""
    hole, width = _scaled(spot.hole, scale), CHARACTER_PX * len(spot.text)
    back = {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    y = hole.y - GAP_PX - NUMBER_PX if above else hole.bottom + GAP_PX
    return Rectangle(_middle(hole) - back, y, width, NUMBER_PX)


def _scaled(box: Rectangle, scale: float) -> Rectangle:
    return Rectangle(box.x * scale, box.y * scale, box.width * scale, box.height * scale)


def _middle(box: Rectangle) -> float:
    return box.x + box.width / 2
