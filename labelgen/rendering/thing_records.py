"""What the pages of levers, plugs, panels and boards are set from."""

from dataclasses import dataclass

from labelgen.model.figure_views import FigureView
from labelgen.model.netlist import PinPlan
from labelgen.model.panel.holes import PanelHole
from labelgen.model.pulling_order import Pull
from labelgen.model.threaded_holes import ThreadedHole
from labelgen.rendering.page_wires import EndFacts, Link
from labelgen.rendering.panel_face import PanelFace
from labelgen.rendering.schedule_facts import StripFacts, SupplyFacts
from labelgen.standards.colour_letters import Colour


@dataclass(frozen=True, slots=True, kw_only=True)
class Terminal:
    shown: str
    about: str
    anchor: str
    ends: list[EndFacts]
    resistor: str = ""
    """In series with its lamp: `510 Ω`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ThingFacts:
    """A device, a supply, a route's button or a board with diodes: what lands on it, terminal by terminal."""

    anchor: str
    shown: str
    name: str
    about: tuple[str, ...]
    terminals: list[Terminal]
    diodes: tuple[tuple[Link, Link], ...] = ()
    """On its strip, where its kind has any: the ways of their plain ends and of their bands."""
    lever: Link | None = None
    idle: str = ""
    issues: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LeverFacts:
    id: str
    link: Link
    spare: bool
    look: str
    colours: tuple[Colour, ...]
    type: str
    normal: str
    panel: Link | None
    works: list[ThingFacts]
    ways: list[Link]
    terminals: list[Terminal]
    routes: list[tuple["RouteFacts", str]]
    """And how it lies in each."""
    figures: FigureView
    issues: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteFacts:
    name: str
    number: str
    href: str
    anchor: str
    stud: bool
    lies: list[tuple[Link, str]]
    diodes: list[str]
    terminals: list[Terminal]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    pin: PinPlan
    sides: tuple[list[EndFacts], list[EndFacts]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlugFacts:
    link: Link
    boards: tuple[Link, Link]
    genders: tuple[str, str]
    pins: list[Pin]
    used: int
    issues: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelFacts:
    id: str
    link: Link
    board: Link
    size: str
    width: float
    height: float
    face: PanelFace | None
    """None: its size is not known."""
    levers: list[LeverFacts]
    holes: list[tuple[PanelHole, Link]]
    routes: list[RouteFacts]
    matrices: list[ThingFacts]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleFacts:
    hole: ThreadedHole
    anchor: str
    wires: list[tuple[EndFacts, EndFacts]]
    issues: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardFacts:
    id: str
    link: Link
    size: str
    strips: list[StripFacts]
    panels: list[PanelFacts]
    devices: list[ThingFacts]
    supplies: list[tuple[SupplyFacts | None, ThingFacts]]
    plugs: list[tuple[PlugFacts, Link]]
    """And the board beyond."""
    holes: list[HoleFacts]


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """Wires that are pulled one after the other."""

    strip: StripFacts | None
    pull: Pull
    holes: str
    ends: list[tuple[EndFacts, EndFacts]]
