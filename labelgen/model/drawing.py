"""Device-free shapes in millimetres: origin top left, x to the right, y down. Sized and placed for good.

Backends paint these and decide nothing. A colour is `#rrggbb`; None paints nothing.
"""

from dataclasses import dataclass
from typing import Literal

from labelgen.places import Place

Corner = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    x1: float
    y1: float
    x2: float
    y2: float
    width: float = 0.2
    colour: str = "#000000"
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle by its top left corner; a stroke is centred on its edge."""

    x: float
    y: float
    width: float
    height: float
    fill: str | None = None
    stroke: str | None = None
    stroke_width: float = 0.2
    radius: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    x: float
    y: float
    radius: float
    fill: str | None = None
    stroke: str | None = None
    stroke_width: float = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """One path of one or more runs of straight lines; `closed` closes each of them."""

    runs: tuple[tuple[Corner, ...], ...]
    closed: bool = False
    fill: str | None = None
    stroke: str | None = None
    stroke_width: float = 0.2
    round_ends: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text. (x, y) is on the baseline, at the `anchor`; `turn` is clockwise degrees about it."""

    x: float
    y: float
    text: str
    face: str
    """The name of a face in `typefaces`, which has every character of the text."""
    size: float
    """Font size (em) in mm."""
    colour: str = "#000000"
    anchor: Literal["start", "middle", "end"] = "start"
    turn: float = 0.0
    stretch: float = 1.0
    """Horizontal scaling: below 1 the text is condensed."""
    leads_to: str = ""
    """The name of a stop in the same document: touched on a screen, the text leads there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Symbol:
    """A square matrix of modules (QR), dark where true, without its quiet zone; (x, y) its top left corner."""

    x: float
    y: float
    module: float
    rows: tuple[tuple[bool, ...], ...]


Shape = Line | Box | Circle | Outline | Text | Symbol


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A finished drawing of a given size. Nothing in `shapes` lies outside of it."""

    width: float
    height: float
    shapes: tuple[Shape, ...]
    name: str
    """What it is, in the builder's words: "flag 5N at A1.1". Used in messages."""
    place: Place
    """What in the description it was made for."""
    board: str | None = None
    """The board on which it is stuck, None when it belongs to a panel or to no board."""
    folds: tuple[float, ...] = ()
    """x of its fold lines."""
    label: str = ""
    """By what the as-built record knows it, among the labels of its kind; "" of what is not stuck on."""
