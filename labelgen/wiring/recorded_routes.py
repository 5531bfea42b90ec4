"""The numbers of routes: what stands beside a button stays there, whatever becomes of the other routes."""

from collections.abc import Iterator

from labelgen.model.built.built_record import BuiltRecord, BuiltRoute, strip_of
from labelgen.model.description import Description
from labelgen.model.netlist import PREFIXES, EndKind
from labelgen.model.panel.route_form import route_numbers
from labelgen.model.panel.routes import Matrix
from labelgen.problems import Problem

PREFIX = PREFIXES[EndKind.ROUTE]
NAMED_LIKE_ROUTES = ("boards", "panels", "supplies", "strips", "points", "devices", "plugs")


class RecordedRoutes:
    """Gives each route its number. Reports route-stud-taken and bad-id."""

    def __init__(self, description: Description, record: BuiltRecord) -> None:
        self._description = description
        self._recorded = {route.name: route.number for route in record.routes}
        self._ever = {number.lower() for number in self._recorded.values()} | _on_wires(record)
        self.numbers = self._kept() if record.routes else route_numbers(description.routes)
        self.problems = [*self._given_before(), *self._like_ours()]

    def _kept(self) -> dict[str, str]:
        """Its own number, else the recorded one; a new route's is the lowest that none ever had."""
        routes = self._description.routes
        used = self._ever | {route.own_number.lower() for route in routes.values() if route.own_number is not None}
        found: dict[str, str] = {}
        following = 1
        for name, route in routes.items():
            number = route.own_number or self._recorded.get(name)
            if number is None:
                while str(following) in used:
                    following += 1
                number = str(following)
                following += 1
            found[name] = number
        return found

    def _given_before(self) -> Iterator[Problem]:
        """Two numbers that are written in the description, the reading stage compares."""
        routes = self._description.routes
        kept = {number.lower(): name for name, number in self.numbers.items() if routes[name].own_number is None}
        for name, route in routes.items():
            other = kept.get((route.own_number or "").lower())
            if other is not None:
                yield Problem(
                    code="route-stud-taken",
                    message=f"route {name!r} asks for number {route.own_number}, by which {other!r} is built",
                    hint=f"Choose another number, or give {other!r} another `number` first.",
                    place=self._description.place_of("routes", name, "number" if route.stud is None else "stud"),
                )

    def _like_ours(self) -> Iterator[Problem]:
        """Things that are called as a button is, because of a number that only the record knows."""
        known = set(route_numbers(self._description.routes).values())
        taken = {f"{PREFIX}{number}".lower() for number in self.numbers.values() if number not in known}
        for table in NAMED_LIKE_ROUTES if taken else ():
            for id_ in getattr(self._description, table):
                if id_.lower() in taken:
                    yield Problem(
                        code="bad-id",
                        message=f"`{id_}` is what the button of a route is called",
                        hint="Call it something else.",
                        place=self._description.place_of_key(table, id_),
                    )


def _on_wires(record: BuiltRecord) -> set[str]:
    """The numbers that routes have, or had, by the ends of wires."""
    things = {strip_of(end) for wire in (*record.wires, *record.retired) for end in wire.ends}
    return {thing.removeprefix(PREFIX).lower() for thing in things if thing.startswith(PREFIX)}


def routes_after(before: BuiltRecord, matrices: tuple[Matrix, ...]) -> tuple[BuiltRoute, ...]:
    """Those that were, and are; one that is gone is forgotten when another route has been given its number."""
    now = {
        row.route: BuiltRoute(name=row.route, number=row.number, matrix=matrix.id)
        for matrix in matrices
        for row in matrix.rows
    }
    numbers = {route.number.lower() for route in now.values()}
    gone = {route.name: route for route in before.routes if route.number.lower() not in numbers}
    return tuple((gone | now).values())
