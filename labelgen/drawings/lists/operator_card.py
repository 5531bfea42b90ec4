"""A card for a visiting operator: the routes with the levers to pull, in order; what each lever does; cautions."""

from collections.abc import Iterator, Mapping, Sequence

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.blocks import Column, Row, paragraph, space, table, title
from labelgen.drawings.lists.pages import ListPaper, Piece, list_pages
from labelgen.drawings.lists.writing import UNSAID, Writer, writer_on
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.lever_positions import OPPOSITE, TWO_BUTTONS, Position, positions
from labelgen.model.look import Look
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.model.panel.lever_looks import LeverLook, lever_look, out_of_use
from labelgen.model.tracks.road_names import RoadNames, RoadsOfPoint
from labelgen.problems import Problem
from labelgen.standards.legibility import PREFERRED_MINUTES, cap_height
from labelgen.standards.paper_sizes import PAPERS, Paper
from labelgen.typefaces import BOLD

TITLE = "operator’s card"
SMALL_READ_AT_MM, READ_AT_MM = 500, 600
"""A card held in the hand; one that hangs by the panel. Common practice, no source."""
AIR_MM = 2.5
NO_STROKE = ("button", "buttons", "on-off", "rotary", "stud")
"""Lever types that are neither normal nor reverse."""
_TO_SET = {"buttons": "press", "stud": "touch", "rotary": "turn to"}
ASPECTS = {
    "stop": ("danger", "clear"),
    "home-and-distant": ("danger", "clear"),
    "shunt": ("danger", "clear"),
    "distant": ("caution", "clear"),
}
"""What a signal shows when its lever is normal, and when it is reverse."""

BEFORE = (
    "Before you begin, ask where the switch is that turns everything off. If something hums, smells or gets hot: switch"
    " off there, and fetch whoever looks after the railway. Open nothing: there are supplies and charged capacitors"
    " behind the panel."
)
PULL = (
    "One lever at a time. Look at what it moved before you pull the next, and never move points under a train. A lever"
    " that springs back is pushed over for a moment and let go."
)
SECTIONS_OFF, SIGNALS_BACK = "every section switch off", "every signal back to danger"


def operator_card(
    description: Description, netlist: Netlist, look: Look, paper: Paper
) -> tuple[list[Drawing], list[Problem]]:
    """Its pages, each as large as its paper: A5 when all goes on one and the paper is A4; none without levers.

    Problems: text-does-not-fit, character-missing.
    """
    if not netlist.levers:
        return [], []
    cards = _Cards(description, netlist, look)
    if paper.id == "a4":
        pages, problems = cards.pages(PAPERS["a5"], SMALL_READ_AT_MM)
        if len(pages) == 1 and not problems:
            return pages, []
    return cards.pages(paper, READ_AT_MM)


class _Cards:
    def __init__(self, description: Description, netlist: Netlist, look: Look) -> None:
        self._description, self._netlist, self._look = description, netlist, look
        self._roads = RoadNames(description)

    def pages(self, paper: Paper, read_at_mm: float) -> tuple[list[Drawing], list[Problem]]:
        description = self._description
        lettering = Lettering(
            label="operator’s card",
            place=description.place_of_key("railway"),
            look=self._look,
            hint="Give it a shorter name.",
        )
        on = ListPaper(paper=paper, railway=lettering.known(description.railway, BOLD), title=TITLE)
        cap = cap_height(read_at_mm, PREFERRED_MINUTES)
        pieces = list(self._pieces(writer_on(on, lettering, self._look, cap)))
        return list_pages(pieces, on, lettering), list(dict.fromkeys(lettering.problems))

    def _pieces(self, writer: Writer) -> Iterator[Piece]:
        setting = writer.setting
        yield paragraph(BEFORE, setting)
        yield paragraph(writer.says(PULL), setting)
        yield from self._routes(writer)
        yield from self._coupled(writer)
        levers = [lever for lever in self._netlist.levers if not lever.spare]
        looks = {lever.id: lever_look(self._description, self._netlist, lever) for lever in levers}
        moved = [lever for lever in levers if looks[lever.id].role != "section"]
        many = {lever.id: self._positions(lever) for lever in moved}
        yield from self._levers([lever for lever in moved if not many[lever.id]], looks, writer)
        yield from self._of_many([lever for lever in moved if many[lever.id]], looks, writer)
        yield from self._sections([lever for lever in levers if looks[lever.id].role == "section"], looks, writer)
        yield from self._spares(writer)
        yield from self._out_of_use(writer)
        last = [SECTIONS_OFF] if len(moved) < len(levers) else []
        last += [SIGNALS_BACK] if any(look.role in ASPECTS for look in looks.values()) else []
        if last:
            yield space(AIR_MM)
            yield paragraph(writer.says(f"When you leave, put {' and '.join(last)}."), setting)

    def _routes(self, writer: Writer) -> Iterator[Piece]:
        routes = self._description.routes
        if not routes:
            return
        numbers = {row.route: row.number for matrix in self._netlist.matrices for row in matrix.rows}
        columns = (
            Column(heading="button" if numbers else "", most=30),
            Column(heading="route", most=45),
            Column(heading="or pull, in this order", grows=True),
        )
        words = writer.words
        rows = [
            Row(cells=(words(numbers.get(name, ""), bold=True), words(name), words(self._steps(levers), bold=True)))
            for name, levers in ((name, route.levers) for name, route in routes.items())
        ]
        yield title("Routes", writer.setting)
        yield from table(columns, rows, writer.setting)

    def _coupled(self, writer: Writer) -> Iterator[Piece]:
        """Over slips and tandems, whose levers depend on each other."""
        devices = {**self._description.points, **self._description.devices}
        tables = [(device.name or self._netlist.shown_id(id_), device.roads) for id_, device in devices.items()]
        words = writer.words
        rows = [
            Row(cells=(words(called), words(name), words(self._steps(levers), bold=True)))
            for called, roads in tables
            for name, levers in roads.items()
        ]
        if rows:
            most = (Column(heading="over", most=40), Column(heading="road", most=45))
            columns = (*most, Column(heading="pull", grows=True))
            yield space(AIR_MM)
            yield title(writer.says("Points that depend on each other"), writer.setting)
            yield from table(columns, rows, writer.setting)

    def _steps(self, levers: Mapping[str, str]) -> str:
        """`5 up, 6 down`: each lever and where its handle goes; `normal` or `reverse` of a lever without a stroke."""
        by_name = {name: lever for lever in self._netlist.levers for name in (lever.shown, lever.id)}
        steps = []
        for name, lie in levers.items():
            lever = by_name.get(name)
            if lever is None:
                steps.append(f"{name} {lie}")
                continue
            idle = lever_look(self._description, self._netlist, lever).idle
            steps.append(f"{lever.shown} {_handle(lever, lie)}" + (f" ({idle})" if idle else ""))
        return ", ".join(steps)

    def _levers(self, levers: Sequence[LeverPlan], looks: dict[str, LeverLook], writer: Writer) -> Iterator[Piece]:
        if not levers:
            return
        columns = (
            Column(heading="lever"),
            Column(heading="works", most=52),
            Column(heading="normal", most=48),
            Column(heading="reverse", grows=True),
        )
        rows = [self._lever(lever, looks[lever.id], writer) for lever in levers]
        yield space(AIR_MM)
        yield title("Levers", writer.setting)
        yield from table(columns, rows, writer.setting)

    def _lever(self, lever: LeverPlan, look: LeverLook, writer: Writer) -> Row:
        words = writer.words
        first = (words(lever.shown, bold=True), words(self._what(lever, look)))
        if out_of_use(self._description, lever):
            return Row(cells=(*first, words("out of use"), words("out of use")))
        aspects = ASPECTS.get(look.role)
        means = aspects or tuple(self._leads(lever, lie) for lie in ("normal", "reverse"))
        if lever.type in NO_STROKE and lever.buttons != TWO_BUTTONS:
            return Row(cells=(*first, words(UNSAID), words(UNSAID)))
        lies = (_hand(lever, "normal"), _hand(lever, "reverse"))
        cells = [words(f"{lie}: {mean}" if mean else lie) for lie, mean in zip(lies, means, strict=True)]
        return Row(cells=(*first, *cells))

    def _what(self, lever: LeverPlan, look: LeverLook) -> str:
        return ", ".join(part for part in (lever.name or self._works(lever), _said(look, lever)) if part)

    def _leads(self, lever: LeverPlan, lie: str) -> str:
        """Where its points lead, with the track in quotes, so that `up` is no handle; of two points, where each does.

        A crossover: `P2A to “up”, P2B to “down”`.
        """
        roads = self._roads.of_lever(lever)
        tracks = {one.point: one.normal if lie == "normal" else one.reverse for one in roads}
        if len(lever.devices) < 2:
            return "".join(f"to “{track}”" for track in tracks.values())
        points: dict[str, list[str]] = {}
        for point, track in tracks.items():
            points.setdefault(track, []).append(self._netlist.shown_id(point))
        return ", ".join(f"{' and '.join(own)} to “{track}”" for track, own in points.items())

    def _positions(self, lever: LeverPlan) -> tuple[Position, ...]:
        return () if lever.buttons == TWO_BUTTONS else positions(self._netlist, lever)

    def _of_many(self, levers: Sequence[LeverPlan], looks: dict[str, LeverLook], writer: Writer) -> Iterator[Piece]:
        """What each button, stud or position does."""
        if not levers:
            return
        words = writer.words
        rows = []
        for lever in levers:
            named = [": ".join(filter(None, (one.name, self._does(lever, one)))) for one in self._positions(lever)]
            said = "out of use" if out_of_use(self._description, lever) else f"{_TO_SET[lever.type]} {', '.join(named)}"
            first = (words(lever.shown, bold=True), words(self._what(lever, looks[lever.id])))
            rows.append(Row(cells=(*first, words(said))))
        yield space(AIR_MM)
        yield title(writer.says("Levers of several buttons or positions"), writer.setting)
        columns = (Column(heading="lever"), Column(heading="works", most=52), Column(heading="set", grows=True))
        yield from table(columns, rows, writer.setting)

    def _does(self, lever: LeverPlan, position: Position) -> str:
        """Where it leads, or what it lights; "" where its name says so."""
        if position.lamps:
            return "" if position.lamps == (position.name,) else f"shows {' and '.join(position.lamps)}"
        roads = next(iter(self._roads.of_lever(lever)), None)
        track = _by_side(roads).get(position.name, "") if roads is not None and roads.third else ""
        return f"to “{track}”" if track else ""

    def _works(self, lever: LeverPlan) -> str:
        return ", ".join(self._netlist.shown_id(device) for device in lever.devices)

    def _sections(self, levers: Sequence[LeverPlan], looks: dict[str, LeverLook], writer: Writer) -> Iterator[Piece]:
        if not levers:
            return
        words = writer.words
        rows = []
        for lever in levers:
            named = ", ".join(part for part in (lever.name or self._works(lever), looks[lever.id].idle) if part)
            on = f"handle {OPPOSITE[lever.normal]}" if lever.type == "on-off" else UNSAID
            rows.append(Row(cells=(words(lever.shown, bold=True), words(named), words(on))))
        yield space(AIR_MM)
        yield title(writer.says("Sections: on only while a train is to run there"), writer.setting)
        columns = (Column(heading="switch"), Column(heading="section", most=80), Column(heading="on", grows=True))
        yield from table(columns, rows, writer.setting)

    def _spares(self, writer: Writer) -> Iterator[Piece]:
        spares = [lever.shown for lever in self._netlist.levers if lever.spare]
        if spares:
            yield space(AIR_MM)
            yield paragraph(f"Spare, and working nothing: {writer.known(', '.join(spares))}.", writer.setting)

    def _out_of_use(self, writer: Writer) -> Iterator[Piece]:
        devices = {**self._description.points, **self._description.devices}
        idle = {id_: device for id_, device in devices.items() if device.not_in_use}
        if not idle:
            return
        yield space(AIR_MM)
        yield title("Out of use", writer.setting)
        for id_, device in idle.items():
            shown = self._netlist.shown_id(id_)
            called = f"{shown}, {device.name}" if device.name else shown
            yield paragraph(writer.known(f"{called}: {device.not_in_use}"), writer.setting)


def _handle(lever: LeverPlan, lie: str) -> str:
    if lever.buttons == TWO_BUTTONS:
        return f"{'left' if lie == 'normal' else 'right'} {'stud' if lever.type == 'stud' else 'button'}"
    if lever.type in NO_STROKE:
        return lie
    return lever.normal if lie == "normal" else OPPOSITE[lever.normal]


def _hand(lever: LeverPlan, lie: str) -> str:
    """`handle up`; of two buttons `left button`."""
    handle = _handle(lever, lie)
    return handle if lever.buttons == TWO_BUTTONS else f"handle {handle}"


def _by_side(roads: RoadsOfPoint) -> dict[str, str]:
    """The tracks of a three-way, by the names of its buttons."""
    return {"left": roads.reverse, "centre": roads.normal, "right": roads.third}


def _said(look: LeverLook, lever: LeverPlan) -> str:
    """What kind of thing it works, where the name does not say so."""
    return look.words if look.words and look.words.lower() not in lever.name.lower() else ""
