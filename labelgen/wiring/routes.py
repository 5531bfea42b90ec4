"""Which routes share a matrix, and which coils each of them sets: section 5.9 of the format.

A matrix stands behind a panel and takes one pulse supply. Columns come in the order in which the routes first need
them, so that a route that is added at the end of the list moves none; what is recorded as built never moves.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.description import Description
from labelgen.model.kinds import GroupRow
from labelgen.model.netlist import LeverPlan
from labelgen.model.panel.route_form import LIES, Lie, Route, levers_path, lie_of
from labelgen.model.panel.routes import OUTPUT, Matrix, MatrixColumn, MatrixRow, row_position
from labelgen.natural_order import natural
from labelgen.places import Path
from labelgen.problems import Problem
from labelgen.wiring.circuits import WantedCircuit
from labelgen.wiring.recorded_matrices import RecordedMatrices
from labelgen.wiring.recorded_routes import RecordedRoutes
from labelgen.wiring.resolving import only

PULSED = ("sprung", "passing", "buttons", "stud")
"""Lever types that let go of a coil by themselves. Common practice, no source."""

HINT = "A route sets points with two coils, each by a lever that springs back or makes in passing. Take this lever out."


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """One lever of a route, and how it lies."""

    lever: str
    lie: Lie
    contact: str
    supply: str
    panel: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Driver:
    """What of a lever's circuit a route needs to know: its pulse supply, and the row of each of its two coils."""

    supply: str
    rows: Mapping[Lie, GroupRow]


def planned_matrices(
    description: Description,
    circuits: Sequence[WantedCircuit],
    levers: Sequence[LeverPlan],
    panel_boards: Mapping[str, str | None],
    record: BuiltRecord,
) -> tuple[tuple[Matrix, ...], list[Problem]]:
    """The matrices in the order of their first routes. Reports route-cannot-drive, route-stud-taken and bad-id.

    What names an unknown lever or panel, or no way to lie, is left out: the reading stage has said so.
    """
    return _Planner(description, circuits, levers, panel_boards, record).all()


class _Planner:
    def __init__(
        self,
        description: Description,
        circuits: Sequence[WantedCircuit],
        levers: Sequence[LeverPlan],
        panel_boards: Mapping[str, str | None],
        record: BuiltRecord,
    ) -> None:
        self._description = description
        self._panel_boards = panel_boards
        self._recorded = RecordedMatrices(record)
        self._circuits = {circuit.lever: circuit for circuit in circuits if circuit.lever is not None}
        self._levers = {lever.id: lever for lever in levers}
        self._painted = {lever.shown: lever.id for lever in levers if lever.shown != lever.id}
        routes = RecordedRoutes(description, record)
        self._numbers = routes.numbers
        self._drawn = _drawn(description)
        self._problems: list[Problem] = routes.problems

    def all(self) -> tuple[tuple[Matrix, ...], list[Problem]]:
        together: dict[tuple[str | None, str], dict[str, list[Setting]]] = {}
        for name, route in self._description.routes.items():
            settings = self._settings(name, route)
            if settings:
                key = (self._panel(name, route, settings), settings[0].supply)
                together.setdefault(key, {})[name] = settings
        ids = self._recorded.ids(together)
        matrices = [self._matrix(ids[key], *key, routes) for key, routes in together.items()]
        return tuple(matrices), self._problems

    def _settings(self, name: str, route: Route) -> list[Setting]:
        """In natural order of lever; those of another supply than the first one's are reported and left out."""
        found: dict[str, Setting] = {}
        for written, text in route.levers.items():
            lever, lie = self._painted.get(written, written), lie_of(text)
            if lever in self._levers and lie is not None and lever not in found:
                found |= self._setting(name, route, written, lever, lie)
        in_order = [found[lever] for lever in sorted(found, key=natural)]
        alike = [setting for setting in in_order if setting.supply == in_order[0].supply]
        for other in (setting for setting in in_order if setting not in alike):
            self._report(
                (*levers_path(name, route), other.lever),
                f"route {name!r} sets lever {in_order[0].lever} on {alike[0].supply} and lever {other.lever} on "
                f"{other.supply}",
                "One button has the feed of one supply: make a route for each supply.",
            )
        return alike

    def _setting(self, name: str, route: Route, written: str, lever: str, lie: Lie) -> dict[str, Setting]:
        driver = self._driver(lever)
        if isinstance(driver, str):
            path = (*levers_path(name, route), written)
            self._report(path, f"route {name!r} cannot set lever {written}: {driver}", HINT)
            return {}
        contact = driver.rows[lie].contact or ""
        panel = self._levers[lever].panel
        return {lever: Setting(lever=lever, lie=lie, contact=contact, supply=driver.supply, panel=panel)}

    def _driver(self, lever: str) -> Driver | str:
        """How a lever's points are set by a pulse; else why a route cannot do it."""
        circuit = self._circuits.get(lever)
        if circuit is None:
            return "it works nothing"
        kind, what = circuit.kind, f"it works {circuit.first.id}, a {circuit.first.kind_name}"
        pulses = [supply for role, supply in circuit.first.supplies.items() if kind.supply[role] == "pulse"]
        if len(pulses) != 1:
            return f"{what}, which no pulse sets"
        rows: dict[Lie, GroupRow] = {}
        for lie in LIES:
            coils = [row for _, row in circuit.rows() if row.function == lie and row.contact is not None]
            if len(coils) != 1 or coils[0].terminal is None or coils[0].diodes:
                return f"{what}, which does not have just one contact for normal and one for reverse"
            rows[lie] = coils[0]
        if circuit.lever_type not in PULSED:
            return f"it is {circuit.lever_type}, and so keeps one coil on the feed, or the other"
        return Driver(supply=pulses[0], rows=rows)

    def _report(self, path: Path, message: str, hint: str) -> None:
        place = self._description.place_of_key(*path)
        self._problems.append(Problem(code="route-cannot-drive", message=message, hint=hint, place=place))

    def _panel(self, name: str, route: Route, settings: Sequence[Setting]) -> str | None:
        """The panel it names, the panel that draws it, the panel of its first lever that has one, the only panel."""
        panels = self._description.panels
        if route.panel in panels:
            return route.panel
        of_levers = [setting.panel for setting in settings if setting.panel is not None]
        return self._drawn.get(name) or next(iter(of_levers), None) or only(panels)

    def _matrix(self, id_: str, panel: str | None, supply: str, routes: Mapping[str, Sequence[Setting]]) -> Matrix:
        columns = _columns(id_, [setting for settings in routes.values() for setting in settings], self._recorded)
        by_coil = {(column.lever, column.lie): column.number for column in columns}
        letters = self._recorded.rows(id_, [f"ROUTE{self._numbers[name]}.{OUTPUT}" for name in routes])
        rows = [
            MatrixRow(
                letter=letter,
                route=name,
                number=self._numbers[name],
                stud=self._description.routes[name].stud is not None,
                columns=tuple(sorted(by_coil[setting.lever, setting.lie] for setting in settings)),
                path=("routes", name),
            )
            for letter, (name, settings) in zip(letters, routes.items(), strict=True)
        ]
        rows.sort(key=lambda row: row_position(row.letter) or 0)
        board = self._levers[columns[0].lever].board if panel is None else self._panel_boards[panel]
        return Matrix(id=id_, panel=panel, board=board, supply=supply, rows=tuple(rows), columns=columns)


def _columns(matrix: str, settings: Iterable[Setting], recorded: RecordedMatrices) -> tuple[MatrixColumn, ...]:
    """A column for each coil: where it is as built, else in the order in which the routes first need them."""
    coils = list({(setting.lever, setting.lie): setting for setting in settings}.values())
    numbers = recorded.columns(matrix, [f"L{coil.lever}.{coil.contact}" for coil in coils])
    columns = [
        MatrixColumn(number=number, lever=coil.lever, lie=coil.lie, function=coil.lie, contact=coil.contact)
        for number, coil in zip(numbers, coils, strict=True)
    ]
    return tuple(sorted(columns, key=lambda column: column.number))


def _drawn(description: Description) -> dict[str, str]:
    """Route: the first panel that draws it."""
    found: dict[str, str] = {}
    for id_ in sorted(description.panels, key=natural):
        for name in description.panels[id_].routes:
            found.setdefault(name, id_)
    return found
