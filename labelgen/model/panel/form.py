"""A control panel as it is described: section 7 of the format, and what it takes to make its fascia."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from labelgen.model.pairs import Position, Size, pair
from labelgen.model.record import Listing, OrShort, Record, Table, Thing
from labelgen.model.scalars import Length, Positive, Truth, Word, complaint, coordinate, truth

PointForm = Literal["single-slip", "double-slip", "three-way", "point"]
PanelPaper = Literal["a4", "a3", "a2", "a1", "letter", "tabloid"]


class PanelPoint(Record):
    at: Position
    normal: Word | None = None
    """The track that is the normal road."""
    form: PointForm | None = None
    """Left out: what the roads that meet there make of it."""


def _just_a_place(value: Any) -> Any:
    return {"at": value} if isinstance(value, (list, tuple)) else value


def _corner(value: Any) -> Any:
    """A corner of a track: [x, y], or a point's id."""
    if isinstance(value, str):
        return value
    x, y = pair(value)
    return (coordinate(x), coordinate(y))


def _hole_or_row(value: Any) -> Any:
    """Where a lever's hole goes; a lone number stands behind `row` only."""
    return coordinate(value) if isinstance(value, str) else _corner(value)


def _two_corners(value: Any) -> Any:
    if not isinstance(value, (list, tuple)) or len(value) != 2:
        raise complaint("wrong-type", "two corners are expected here", "Write two opposite corners: [[2, 1], [9, 2]].")
    return value


def _lamps(value: Any) -> Any:
    """`yes` for one on each road of a point."""
    if isinstance(value, (bool, str)):
        return {"roads": "yes"} if truth(value) else {}
    return value


def _lamp_places(value: Any) -> Any:
    """One place, a row of places, or yes and no (behind `roads` only)."""
    if isinstance(value, (bool, str)):
        return truth(value)
    if isinstance(value, (list, tuple)) and value and isinstance(value[0], (list, tuple)):
        return tuple(_corner(pair(one)) for one in value)
    return (_corner(pair(value)),)


def _feed_places(value: Any) -> Any:
    """One place, or a list of them."""
    several = isinstance(value, (list, tuple)) and value and isinstance(value[0], (list, tuple))
    return tuple(value) if several else (value,)


DrawnPoint = Annotated[PanelPoint, BeforeValidator(_just_a_place), OrShort("array")]
Corner = Annotated[Any, BeforeValidator(_corner)]
HoleOrRow = Annotated[Any, BeforeValidator(_hole_or_row)]
LampPlaces = Annotated[Any, BeforeValidator(_lamp_places)]
FeedPlaces = Annotated[tuple[Position, ...], BeforeValidator(_feed_places), WithJsonSchema({"type": "array"})]
Lamps = Annotated[dict[Word, LampPlaces], BeforeValidator(_lamps)]
Rectangle = Annotated[tuple[Position, Position], BeforeValidator(_two_corners)]


class Turntable(Record):
    at: Position
    """Its middle."""
    radius: Positive = 2
    """In squares; tracks that end on its rim or at its middle are its roads."""


class Screws(Record):
    """Screw holes in the corners of the fascia."""

    inset: Positive = 8
    """mm from either edge."""
    diameter: Positive = 3.4
    """ISO 273, medium series, for M3."""


def _just_yes(value: Any) -> Any:
    if isinstance(value, (bool, str)):
        return {} if truth(value) else None
    return value


class Panel(Thing):
    """A control panel: `at` and `exit` in mm, `size` in mm, all that is drawn in squares of `grid` mm."""

    board: Word | None = None
    at: Position | None = None
    """Where its wires go down through the board."""
    exit: Position | None = None
    size: Size | None = None
    grid: Positive = 10
    name: Word = ""
    shown: Word = ""
    tracks: Table[dict[Word, Listing[tuple[Corner, ...]]]] = Field(default_factory=dict)
    points: Table[dict[Word, DrawnPoint]] = Field(default_factory=dict)
    levers: Table[dict[Word, HoleOrRow]] = Field(default_factory=dict)
    """Lever: where its hole goes; `row`: the y of all that are not given a place of their own."""
    breaks: Listing[tuple[Position, ...]] = ()
    sections: Table[dict[Word, Position]] = Field(default_factory=dict)
    feeds: Table[dict[Word, FeedPlaces]] = Field(default_factory=dict)
    """Device: where its wires reach the rails; for the checks alone."""
    one_rail: Table[dict[Literal["A", "B"], Listing[tuple[Position, ...]]]] = Field(default_factory=dict)
    """Which of the breaks cut one rail alone; the others cut both."""
    platforms: Table[dict[Word, Rectangle]] = Field(default_factory=dict)
    """Name: two opposite corners."""
    texts: Table[dict[Word, Position]] = Field(default_factory=dict)
    """What is written: the middle of its line."""
    routes: Table[dict[Word, Position]] = Field(default_factory=dict)
    """Route: where its button or stud goes."""
    matrix: Position | None = None
    """Behind which square the diodes of its routes are."""
    exits: Table[dict[Word, Position]] = Field(default_factory=dict)
    """Where a track leaves the scene, and where it leads."""
    crossings: Listing[tuple[Position, ...]] = ()
    """Diamonds: where two tracks cross on the level."""
    bridges: Listing[tuple[Position, ...]] = ()
    """Where one track passes over another without meeting it; the later one is on top."""
    turntables: Table[dict[Word, Turntable]] = Field(default_factory=dict)
    fans: Table[dict[Word, Position]] = Field(default_factory=dict)
    """A fiddle yard's traverser or sector plate: where any number of roads meet, and are chosen by hand."""
    lamps: Lamps = Field(default_factory=dict)
    """`roads: yes`: one on each road of a point; else what it shows (`P1.normal`, a section, a supply): its places."""
    hardware: Table[dict[Word, Word]] = Field(default_factory=dict)
    """`levers`, `routes`, `lamps`, or one lever's id: the part that is screwed in there."""
    thickness: Positive | None = None
    """Of the panel with all its layers, in mm."""
    screws: Annotated[Screws | None, BeforeValidator(_just_yes)] = None
    bleed: Length = 0
    """mm of ground printed beyond the trim line."""
    paper: PanelPaper | None = None
    """What its fascia is printed on; left out: as everything else."""
    view_from: Positive = 700
    """mm from the eye to the panel. Common practice, no source."""
    section_colours: Truth = False
    """Every section's tracks in a colour of their own, neighbours always different."""
    style: Literal["light", "dark"] = "light"

    @property
    def lever_row(self) -> float | None:
        row = self.levers.get("row")
        return row if isinstance(row, float) else None

    @property
    def lamps_on_roads(self) -> bool:
        return self.lamps.get("roads") is True

    @property
    def lamp_places(self) -> dict[str, tuple[tuple[float, float], ...]]:
        """What a lamp shows: where it is, or a row of them, in squares."""
        return {name: places for name, places in self.lamps.items() if isinstance(places, tuple)}
