"""The wiring description as it was written, checked for form alone: sections 2, 3 and 7 of the format.

Places are not stored in the records: `Description.places` finds them by path, for any stage.
"""

from collections.abc import Iterable
from typing import Annotated, Any, Literal, Self, get_args

from pydantic import BeforeValidator, Field, PrivateAttr, WithJsonSchema

from labelgen.model.flag_form import FlagForm
from labelgen.model.kinds import Kind, LeverType, SupplyKind
from labelgen.model.pairs import Direction, Edge, Position, Size
from labelgen.model.panel.form import Panel
from labelgen.model.panel.hardware import Hardware
from labelgen.model.panel.route_form import Lies, RouteOrLevers
from labelgen.model.paper_lists import DeviceListing, PaperList, WireListing
from labelgen.model.printing_form import Printing, SheetChoice
from labelgen.model.record import Listing, OrShort, Record, Rows, Table, Thing
from labelgen.model.scalars import (
    Addresses,
    EntryLimit,
    Id,
    Length,
    Millimetres,
    Pins,
    Positive,
    Tiers,
    Truth,
    Way,
    Ways,
    Word,
    complaint,
    what,
)
from labelgen.model.stock_form import StockForm
from labelgen.places import NoPlaces, Path, Place, Places
from labelgen.standards.functions import Palette
from labelgen.standards.lever_colours import LeverRole, painted
from labelgen.standards.trade_words import TradeWords

HoleWay = Literal["top", "frame"]


class Hole(Thing):
    at: Position
    diameter: Millimetres | None = None
    through: HoleWay = "top"
    """What it goes through: the board's top, or an end or cross-member of its frame."""
    shown: Word = ""


class Board(Thing):
    size: Size | None = None
    at: Position | None = None
    right_of: Word | None = None
    holes: Table[dict[Id, Hole]] = Field(default_factory=dict)
    name: Word = ""
    shown: Word = ""
    supply: Word | None = None
    kind: Word | None = None
    panel: Word | None = None


ChainOrder = Literal["by_strip", "shortest"]
CHAIN_ORDERS: tuple[ChainOrder, ...] = get_args(ChainOrder)
BOTH = ""
"""Stands for every terminal of a supply."""


def _both_terminals(value: Any) -> Any:
    """One word is for both terminals."""
    if not isinstance(value, str) or value in CHAIN_ORDERS:
        return {BOTH: value} if isinstance(value, str) else value
    hint = f"Write {' or '.join(CHAIN_ORDERS)}, or that for one terminal: {{return: shortest}}."
    raise complaint("unknown-choice", f"{value!r} is not a choice here", hint)


ChainOrders = Annotated[Table[dict[Word, ChainOrder]], BeforeValidator(_both_terminals), OrShort("string")]


class Supply(Thing):
    kind: SupplyKind
    board: Word | None = None
    at: Position | None = None
    volts: Positive | None = None
    amps: Positive | None = None
    microfarads: Positive | None = None
    charge_ohms: Positive | None = None
    esr_ohms: Positive | None = None
    """What the bank, or the supply itself, resists inside."""
    diode_volts: Positive | None = None
    """What one diode on the way of its pulse takes."""
    fuse: Positive | None = None
    """Amps of the fuse or breaker at it."""
    protection: Literal["built-in", "none"] | None = None
    """Where it has no fuse that can be named: a cut-out of its own, or none at all."""
    mains: Literal["case", "layout"] | None = None
    """Where its mains side is: in a closed case off the layout, or on the layout itself."""
    winding: Word | None = None
    """A name for the transformer's winding behind it: supplies that share one name it alike."""
    terminals: Table[dict[Word, Word]] = Field(default_factory=dict)
    """Terminal: how it is painted."""
    fed_by: Word | None = None
    feed_at: Literal["strip", "panel"] = "strip"
    pins: Pins = 1
    """How many pins of a plug each wire of its chains takes."""
    chain: ChainOrders = Field(default_factory=dict)
    """Terminal: in which order its chain runs. `by_strip` where nothing is said."""
    name: Word = ""
    was: Word | None = None
    """The id that it had before: all that is there keeps its place and its number."""
    shown: Word = ""

    def chain_order(self, terminal: str) -> ChainOrder:
        return self.chain.get(terminal) or self.chain.get(BOTH, "by_strip")


class Strip(Thing):
    board: Word | None = None
    """May be left out where there is only one board."""
    at: Position | None = None
    """Its middle."""
    ways: Ways = 12
    amps: Positive = 5
    pitch: Millimetres | None = None
    measured: Millimetres | None = None
    """mm from the first screw's centre to the last one's; of a strip in tiers, of one row."""
    tiers: Tiers = 1
    """In how many rows, one above the other, its ways are; they are counted row by row, from the board on."""
    fixing: Millimetres | None = None
    """mm from the centre of its one fixing hole to that of the other, as far from its middle each."""
    way_1: Edge = "left"
    panel_side: Edge | None = None
    """Left out: the front, or the left of a strip that runs from front to back."""
    entry_limit: EntryLimit = 2
    bore: Millimetres | None = None
    """Width in mm of what takes the wires' ends."""
    taken: Table[dict[Way, Word]] = Field(default_factory=dict)
    bridges: Listing[tuple[Listing[tuple[Way, ...]], ...]] = ()
    keep: Listing[tuple[Way, ...]] = ()
    test_points: Listing[tuple[Way, ...]] = ()
    """Ways at which a meter is held when a fault is looked for."""
    name: Word = ""
    was: Word | None = None
    """The id that it had before: all that is there keeps its place and its number."""
    shown: Word = ""

    @property
    def row_ways(self) -> int:
        """How many ways stand side by side in one of its rows."""
        return -(-self.ways // self.tiers)


def _lever_colour(value: Any) -> Any:
    """Letters of IEC 60757, in the order of the lever's parts."""
    if isinstance(value, tuple):
        return value
    found = painted(value) if isinstance(value, str) else None
    if found is None:
        raise complaint(
            "bad-colour",
            f"{what(value)} is no colour of a lever",
            "Write one colour, or two with a stroke between, the upper one first: red, blue/brown, BU/BN.",
        )
    return found


LeverColour = Annotated[
    tuple[str, ...], BeforeValidator(_lever_colour), WithJsonSchema({"type": "string", "examples": ["blue/brown"]})
]


class Lever(Thing):
    type: LeverType | None = None
    name: Word = ""
    panel: Word | None = None
    normal: Direction = "up"
    spare: Truth = False
    was: Word | None = None
    """The id that it had before: all that is there keeps its place and its number."""
    shown: Word = ""
    role: LeverRole | None = None
    """What it works, by which it is painted; left out: as its device's kind says."""
    colour: LeverColour | None = None
    """Over that of its role: one colour, or two with a stroke between, the upper one first."""


class Device(Thing):
    """A point or any other device."""

    name: Word = ""
    lever: Word | None = None
    """`none` refuses one."""
    board: Word | None = None
    panel: Word | None = None
    at: Position | None = None
    kind: Word | None = None
    supply: Word | None = None
    supplies: Table[dict[Word, Word]] = Field(default_factory=dict)
    """For a kind with several supplies: what each is for: the supply."""
    strip: Word | None = None
    way: Way | None = None
    ways: Listing[tuple[Way, ...]] = ()
    terminals: Table[dict[Word, Word]] = Field(default_factory=dict)
    """Terminal: how it is painted."""
    swapped: Truth = False
    above: Truth | None = None
    """Whether it stands on the board's upper side, so that its wires go through a hole; left out: as its kind says."""
    not_in_use: Word = ""
    addresses: Addresses | None = None
    """Of an accessory decoder: the first and the last that it answers to."""
    roads: Table[dict[Word, Table[Lies]]] = Field(default_factory=dict)
    """Of a slip or a tandem: each road over it, and how every lever lies for that."""
    was: Word | None = None
    """The id that it had before: its ways, wires and numbers stay."""
    ohms: Positive | None = None
    milliamps: Positive | None = None
    lamp_volts: Positive | None = None
    lamp_milliamps: Positive | None = None
    shown: Word = ""


class Plug(Thing):
    """A joint of two boards: a plug and a socket, or a jumper between two; a pin has one number on both boards."""

    boards: Listing[tuple[Word, ...]]
    """Two."""
    pins: Ways
    at: Table[dict[Word, Position]] = Field(default_factory=dict)
    """Board: where it is there."""
    keep_empty: Listing[tuple[Way, ...]] = ()
    gender: Table[dict[Word, Literal["socket", "plug"]]] = Field(default_factory=dict)
    """Board: what is on its side."""
    fits_mains: Truth = False
    """It goes into a mains outlet, or a mains lead into it."""
    pin_amps: Positive | None = None
    """What one of its pins carries."""
    name: Word = ""
    was: Word | None = None
    """The id that it had before: all that is there keeps its place and its number."""
    shown: Word = ""


class Function(Thing):
    """Over the defaults of the function of that name, or a function of the builder's own."""

    code: Word | None = None
    colour: Word | None = None
    pattern: Word | None = None
    size: Word | None = None
    pins: Pins = 1
    """How many pins of a plug each of its wires takes."""
    amps: Positive | None = None
    """What its wire carries without end, as its maker says; left out: by its copper."""
    flags: FlagForm | None = None
    """The form of its wires' flags, over that of `printing`."""


def _just_a_colour(value: Any) -> Any:
    return {"colour": value} if isinstance(value, str) else value


FunctionOrColour = Annotated[Function, BeforeValidator(_just_a_colour), OrShort("string")]


class ListedWire(Thing):
    start: Word = Field(alias="from")
    finish: Word = Field(alias="to")
    function: Word | None = None
    colour: Word | None = None
    size: Word | None = None
    number: Word | None = None
    flags: FlagForm | None = None
    """Over that of its function."""
    note: Word = ""


class Slack(Record):
    """mm added at an end; `round` is what lengths are rounded up to."""

    strip: Length = 100
    device: Length = 150
    panel: Length = 150
    round: Positive = 50


class Description(Thing):
    railway: Word
    about: Word = ""
    schedule: Word = ""
    words: TradeWords = "british"
    palette: Palette = "own"
    """The colours of the functions, where nothing else is said."""
    boards: Table[dict[Id, Board]] = Field(default_factory=dict)
    panels: Table[dict[Id, Panel]] = Field(default_factory=dict)
    supplies: Table[dict[Id, Supply]] = Field(default_factory=dict)
    strips: Table[dict[Id, Strip]] = Field(default_factory=dict)
    levers: Table[dict[Id, Lever]] = Field(default_factory=dict)
    points: Table[dict[Id, Device]] = Field(default_factory=dict)
    devices: Table[dict[Id, Device]] = Field(default_factory=dict)
    plugs: Table[dict[Id, Plug]] = Field(default_factory=dict)
    hardware: Table[dict[Id, Hardware]] = Field(default_factory=dict)
    """The builder's own parts for panels, over the built-in ones."""
    routes: Table[dict[Word, RouteOrLevers]] = Field(default_factory=dict)
    kinds: Table[dict[Id, Kind]] = Field(default_factory=dict)
    functions: Table[dict[Id, FunctionOrColour]] = Field(default_factory=dict)
    wires: Rows[tuple[ListedWire, ...]] = ()
    """The builder's own, and behind them those of `wire_list`."""
    wire_list: WireListing | None = None
    device_list: DeviceListing | None = None
    slack: Slack = Slack()
    stocks: Table[dict[Id, StockForm]] = Field(default_factory=dict)
    """The builder's own label stock, over the built-in ones."""
    sheets: SheetChoice = SheetChoice()
    printing: Printing = Printing()

    _places: Places = PrivateAttr(default_factory=NoPlaces)
    _parts: dict[str, Hardware] = PrivateAttr(default_factory=dict)
    _papers: tuple[PaperList, ...] = PrivateAttr(default=())

    @property
    def places(self) -> Places:
        """Finds the builder's own line for a key or value, by its path."""
        return self._places

    def with_places(self, places: Places) -> Self:
        """The same description, which knows where each of its values stands."""
        copy = self.model_copy()
        copy._places = places
        return copy

    @property
    def parts(self) -> dict[str, Hardware]:
        """Every part that may be screwed into a panel, by name: the built-in ones, and over them the builder's."""
        return {**self._parts, **self.hardware}

    def with_parts(self, built_in: dict[str, Hardware]) -> Self:
        """The same description, which knows the built-in parts."""
        copy = self.model_copy()
        copy._parts = built_in
        return copy

    @property
    def papers(self) -> tuple[PaperList, ...]:
        """The spreadsheets that were read, and which of their rows became what."""
        return self._papers

    def with_papers(self, papers: Iterable[PaperList]) -> Self:
        """The same description, which knows what it has from spreadsheets."""
        copy = self.model_copy()
        copy._papers = tuple(papers)
        return copy

    @property
    def shown(self) -> dict[str, str]:
        """Id of a thing: what is painted on it, where that was said."""
        found = {id_: thing.shown for id_, thing in {**self.points, **self.devices}.items()}
        found |= {id_: board.shown for id_, board in self.boards.items()}
        found |= {id_: panel.shown for id_, panel in self.panels.items()}
        found |= {id_: supply.shown for id_, supply in self.supplies.items()}
        found |= {id_: strip.shown for id_, strip in self.strips.items()}
        found |= {id_: plug.shown for id_, plug in self.plugs.items()}
        return {id_: shown for id_, shown in found.items() if shown}

    def with_supplies(self, more: dict[str, Supply]) -> Self:
        """The same description with further supplies, which devices make."""
        return self.model_copy(update={"supplies": {**self.supplies, **more}}) if more else self

    def device_path(self, device: str) -> Path:
        """The path of a point or other device."""
        return ("points" if device in self.points else "devices", device)

    def board_of_panel(self, panel: str) -> str | None:
        """The board that a panel names, else the only one there is."""
        only = next(iter(self.boards)) if len(self.boards) == 1 else None
        return self.panels[panel].board or only

    def place_of(self, *path: str | int) -> Place:
        """The place of a value by its path; of what is not written, the nearest above it."""
        return self._places.of_value(path)

    def place_of_key(self, *path: str | int) -> Place:
        return self._places.of_key(path)
