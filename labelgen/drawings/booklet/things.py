"""A booklet's levers, devices, supplies and plugs: contact by contact what lands there, and where it goes."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from labelgen.drawings.booklet.figures import throw_said
from labelgen.drawings.booklet.index import Landed, thing_stop
from labelgen.drawings.booklet.pages import Chapter, opening
from labelgen.drawings.booklet.strips import far_cells, named_cells
from labelgen.drawings.booklet.work import Work
from labelgen.drawings.lists.blocks import Band, Column, Note, Row, table
from labelgen.drawings.lists.cells import NOTHING
from labelgen.drawings.lists.pages import Piece
from labelgen.model.description import Device, Supply
from labelgen.model.figure_views import FigureViews
from labelgen.model.kinds import LEVER_CONTACTS
from labelgen.model.lamp_resistors import lamp_resistors, ohms_in_words
from labelgen.model.netlist import Circuit, EndKind, LeverPlan
from labelgen.model.panel.lever_looks import lever_look
from labelgen.model.way_diodes import diodes_of, diodes_said
from labelgen.natural_order import natural

SUPPLY_WORDS = {
    "pulse": "pulse supply (capacitor bank)",
    "dc": "direct current",
    "ac": "alternating current",
    "track": "track controller",
    "digital": "digital track supply",
}
RIGHT_SHARE = 0.55
"""Of a band's width: what is longer stands below it."""
COLUMNS = (
    Column(heading="", most=34),
    Column(heading="wire", most=20),
    Column(heading="no.", align="end", most=13),
    Column(heading="colour"),
    Column(heading="goes to", grows=True),
    Column(heading="page", align="end"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Thing:
    """What has terminals."""

    kind: EndKind
    id: str
    said: str
    right: str
    notes: tuple[str, ...] = ()
    terminals: tuple[str, ...] = ()
    """In this order; others that something lands on come behind them."""


class ThingChapters:
    def __init__(self, work: Work) -> None:
        self._work, self._index, self._contents, self._writer = work, work.index, work.contents, work.writer
        self._description, self._netlist = work.description, work.netlist
        self._circuits: dict[str, Circuit] = {d: circuit for circuit in work.netlist.circuits for d in circuit.devices}
        self._devices = {**work.description.points, **work.description.devices}
        self._resistors = lamp_resistors(work.description, work.netlist)

    def levers(self, views: FigureViews) -> Iterator[Chapter]:
        wanted = set(self._contents.levers)
        levers = [self._lever(lever, views) for lever in self._netlist.levers if lever.id in wanted]
        yield from self._chapter("Levers", "What each works, and what is soldered to its contacts.", "contact", levers)

    def devices(self) -> Iterator[Chapter]:
        devices = [self._device(id_, self._devices[id_]) for id_ in sorted(self._contents.devices, key=natural)]
        under = "Everything that is worked, lit or fed, terminal by terminal."
        yield from self._chapter("Devices", under, "terminal", devices)

    def supplies(self) -> Iterator[Chapter]:
        given = self._description.supplies
        supplies = [self._supply(id_, given[id_]) for id_ in self._contents.supplies]
        yield from self._chapter(
            "Supplies", "What feeds the railway, and where each feed begins.", "terminal", supplies
        )

    def _chapter(self, name: str, under: str, first: str, things: Sequence[_Thing]) -> Iterator[Chapter]:
        if not things:
            return
        columns = (replace(COLUMNS[0], heading=first), *COLUMNS[1:])
        rows = [row for thing in things for row in self._rows(thing)]
        pieces = [opening(name, self._writer.setting, under), *table(columns, rows, self._writer.setting)]
        yield Chapter(title=name, stop=name, sections=(_closed(pieces),))

    def _rows(self, thing: _Thing) -> Iterator[Row | Band | Note]:
        known = self._writer.known
        stop, setting = thing_stop(thing.kind, thing.id), self._writer.setting
        long = self._writer.words(thing.right).width(setting.cap) > RIGHT_SHARE * setting.width
        right = "" if long else known(thing.right)
        yield Band(text=known(thing.said), right=right, stop=stop, bookmark=known(thing.said))
        yield from (Note(text=known(note)) for note in (thing.right if long else "", *thing.notes) if note)
        landed = self._index.at(thing.kind, thing.id)
        terminals = [one for one in dict.fromkeys((*thing.terminals, *landed)) if one in landed]
        for terminal in terminals:
            yield from self._terminal(thing, terminal, landed[terminal], last=terminal == terminals[-1])

    def _terminal(self, thing: _Thing, terminal: str, landed: Sequence[Landed], *, last: bool) -> Iterator[Row]:
        """A thing of few wires stays on one page."""
        few = sum(map(len, self._index.at(thing.kind, thing.id).values())) <= 8
        for place, (wire, far) in enumerate(landed):
            here = next(end for end in wire.ends if end is not far)
            painted = here.shown.rpartition(".")[2] or terminal
            name = self._writer.words(painted, bold=True) if place == 0 else NOTHING
            ends = last and place == len(landed) - 1
            first = named_cells(wire, self._netlist, self._writer)
            cells = (name, *first, *far_cells(wire, far, self._work))
            yield Row(cells=cells, keeps=few and not ends)

    # what stands in a band

    def _lever(self, lever: LeverPlan, views: FigureViews) -> _Thing:
        look = lever_look(self._description, self._netlist, lever)
        panel = self._description.panels.get(lever.panel or "")
        where = (panel.name or self._netlist.shown_id(lever.panel or "")) if panel is not None else ""
        said = " ".join(part for part in (f"Lever {lever.shown}", lever.name) if part)
        right = ", ".join(part for part in (lever.type, f"normal {lever.normal}", where) if part)
        return _Thing(
            kind=EndKind.LEVER,
            id=lever.id,
            said=said,
            right=right if not lever.spare else f"spare, {where}".removesuffix(", "),
            notes=(" ".join(filter(None, (self._works(lever, look.idle), *self._throws(lever, views)))),),
            terminals=tuple(LEVER_CONTACTS.get(lever.type) or lever.buttons),
        )

    def _works(self, lever: LeverPlan, idle: str) -> str:
        if lever.spare:
            return "Spare: it works nothing."
        named = [self._named(device) for device in lever.devices]
        works = f"Works {', '.join(named)}{f' ({idle})' if idle else ''}." if named else ""
        ways = [
            f"{self._netlist.shown_id(group.strip)}.{_run(sorted(group.ways.values()))}"
            for circuit in self._netlist.circuits
            if circuit.lever == lever.id
            for group in circuit.groups
            if group.ways
        ]
        diodes = [one for c in self._netlist.circuits if c.lever == lever.id for one in diodes_of(self._netlist, c)]
        resistors = [said for device in lever.devices for said in self._resistors_of(device)]
        on = f"Ways {', '.join(ways)}." if ways else ""
        return " ".join(filter(None, (works, on, diodes_said(diodes), *resistors)))

    def _named(self, device: str) -> str:
        shown, written = self._netlist.shown_id(device), self._devices.get(device)
        return f"{shown} {written.name}" if written is not None and written.name else shown

    def _throws(self, lever: LeverPlan, views: FigureViews) -> Iterator[str]:
        """What its own throws give: those of routes stand among the figures."""
        throws = views.of_lever(lever.id).throws
        said = [throw_said(self._netlist, throw) for throw in throws if throw.lever == lever.id]
        if said:
            yield f"One throw: {'; '.join(said)}."

    def _device(self, id_: str, device: Device) -> _Thing:
        circuit = self._circuits.get(id_)
        lever = self._netlist.lever_by_id.get(circuit.lever or "") if circuit is not None else None
        notes = [f"Out of use: {device.not_in_use}." if device.not_in_use else ""]
        notes += ["Normal and reverse change places at this motor."] if device.swapped else []
        notes += list(self._resistors_of(id_))
        notes.append(diodes_said(diodes_of(self._netlist, circuit)) if circuit is not None else "")
        worked = f"lever {lever.shown}" if lever is not None else "no lever"
        return _Thing(
            kind=EndKind.DEVICE,
            id=id_,
            said=self._named(id_),
            right=f"{self._kind(circuit.kind_name)}, {worked}" if circuit is not None else worked,
            notes=tuple(filter(None, notes)),
            terminals=tuple(circuit.kind.terminals) if circuit is not None else (),
        )

    def _resistors_of(self, device: str) -> Iterator[str]:
        """Where each resistor of its lamps is soldered in."""
        found: dict[str, list[str]] = {}
        for one in self._resistors:
            if one.device == device and one.resistor is not None:
                found.setdefault(ohms_in_words(one.resistor.ohms), []).append(one.place(self._netlist))
        for ohms, places in found.items():
            each = "a resistor each" if len(places) > 1 else "a resistor"
            yield f"In series with its lamps {each} of {ohms}, at {', '.join(places)}."

    def _kind(self, name: str) -> str:
        """A built-in one in the trade words that are wanted; the builder's own as it is."""
        return name if name in self._description.kinds else self._writer.says(name)

    def _supply(self, id_: str, supply: Supply) -> _Thing:
        shown = self._netlist.shown_id(id_)
        figures = ", ".join(supply_figures(supply))
        kind = self._writer.says(SUPPLY_WORDS[supply.kind])
        said = f"{shown} {supply.name}" if supply.name else shown
        return _Thing(kind=EndKind.SUPPLY, id=id_, said=said, right=", ".join(filter(None, (kind, figures))))


def supply_figures(supply: Supply) -> Iterable[str]:
    """What is known of it: `22 V`, `4700 µF`."""
    units = {"V": supply.volts, "A": supply.amps, "µF": supply.microfarads, "Ω": supply.charge_ohms}
    return (f"{figure:g} {unit}" for unit, figure in units.items() if figure is not None)


def _run(numbers: Sequence[int]) -> str:
    """`4 to 6`, `4, 7`."""
    if len(numbers) > 2 and numbers[-1] - numbers[0] == len(numbers) - 1:
        return f"{numbers[0]} to {numbers[-1]}"
    return ", ".join(map(str, numbers))


def _closed(pieces: list[Piece]) -> list[Piece]:
    """Nothing follows the last one."""
    return [*pieces[:-1], replace(pieces[-1], keeps=False)]
