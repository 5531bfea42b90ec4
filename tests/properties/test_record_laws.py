"""Nothing recorded ever moves, whatever the builder does to the description: sections 5.2, 5.3, 5.7 and 8.

The oracle is a second book-keeping: the machine remembers every way, number, pin, route and place on a matrix that was
ever given, and follows renames itself.
"""

from copy import deepcopy
from typing import Any

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule
from wiring.recorded_builder import remade

from labelgen.model.built.built_record import BuiltRecord, BuiltWire
from labelgen.model.netlist import Netlist
from labelgen.problems import has_errors

BOARDS = ("West", "East")
SUPPLIES = ("PULSE", "CAB", "LIGHTS")
PLACES = st.none() | st.lists(st.integers(0, 1200).map(str), min_size=2, max_size=2)
PANELS = ("QUAY", "YARD")
NAMES = st.sampled_from(["", "coal road", "harbour siding", "fish quay"])


def empty_railway(*, plugs: bool) -> dict[str, Any]:
    railway: dict[str, Any] = {
        "boards": {"West": {"at": ["0", "0"]}, "East": {"at": ["1200", "0"]}},
        "supplies": {
            "PULSE": {"kind": "pulse", "board": "West", "at": ["100", "500"]},
            "CAB": {"kind": "track", "board": "West"},
            "LIGHTS": {"kind": "dc", "board": "East", "feed_at": "panel"},
        },
        "panels": {
            "QUAY": {"board": "West", "at": ["600", "600"], "size": ["300", "100"]},
            "YARD": {"board": "East"},
        },
        "routes": {},
        "strips": {name: {"board": board, "ways": "30"} for board, name in zip(BOARDS, ("W1", "E1"), strict=True)},
        "points": {},
        "devices": {},
    }
    if plugs:
        railway["plugs"] = {"J1": {"boards": list(BOARDS), "pins": "200"}, "J2": {"boards": list(BOARDS), "pins": "9"}}
    return railway


class Builder(RuleBasedStateMachine):
    """A builder who changes the description, and makes everything after each change."""

    def __init__(self) -> None:
        super().__init__()
        self.railway = empty_railway(plugs=False)
        self.record: BuiltRecord | None = None
        self.netlist: Netlist | None = None
        self.numbers: dict[int | str, frozenset[str]] = {}
        self.freed: set[str] = set()
        self.freed_pins: set[str] = set()
        self.routes: dict[str, tuple[str, str, str]] = {}
        """Name: number, matrix, row."""
        self.columns: dict[tuple[str, int], tuple[str, str]] = {}
        """Matrix, column: lever, how it lies."""
        self.count = 0

    @initialize(plugs=st.booleans(), points=st.integers(0, 6), routes=st.integers(0, 4))
    def begin(self, *, plugs: bool, points: int, routes: int) -> None:
        """With some points on both boards, and routes on both panels."""
        changed = empty_railway(plugs=plugs)
        changed["points"] = {f"P{number}": {"board": BOARDS[number % 2]} for number in range(1, points + 1)}
        for number in range(1, routes + 1 if points else 1):
            lies = {str(1 + number % points): "normal"}
            changed["routes"][f"from berth {number}"] = {"levers": lies, "panel": PANELS[number % 2]}
        self.make(changed, {})

    def make(self, changed: dict[str, Any], names: dict[str, str], named_way: str | None = None) -> None:
        """`names`: things that were renamed. With an error nothing is made, and the builder takes the change back."""
        netlist, record, problems = remade(changed, self.record)
        if has_errors(problems):
            return
        before = self.record or BuiltRecord(railway="Marram Quay")
        self._nothing_moved(before, record, names)
        self._no_number_twice(record, names)
        listed = {end for wire in changed.get("wires", []) for end in (wire["from"], wire["to"])}
        self._freed_ways_stay_spare(before, record, {named_way, *listed})
        self._freed_pins_stay_spare(before, record, listed)
        self._matrices_stay(netlist, names)
        self.railway, self.record, self.netlist = changed, record, netlist

    def _nothing_moved(self, before: BuiltRecord, now: BuiltRecord, names: dict[str, str]) -> None:
        then = {renamed(wire, names): wire.number for wire in before.wires}
        for wire in now.wires:
            assert then.get(wire.ends, wire.number) == wire.number
        pins = {frozenset(today(end, names) for end in one.ends): one.pins for one in before.pins}
        for one in now.pins:
            assert pins.get(one.ends, one.pins) in (one.pins, one.pins[::-1])
        ways = {
            (names.get(device, device), row): (today(f"L{group.circuit}.", names) if group.by_lever else "", way)
            for group in before.groups
            for device in group.devices
            for row, way in ((row, f"{group.strip}.{way}") for row, way in group.ways.items())
        }
        for group in now.groups:
            lever = f"L{group.circuit}." if group.by_lever else ""
            for device in group.devices:
                for row, way in group.ways.items():
                    was_lever, was = ways.get((device, row), (lever, f"{group.strip}.{way}"))
                    assert was == f"{group.strip}.{way}" or was_lever != lever
        self._not_rethreaded(before, now, names)

    def _not_rethreaded(self, before: BuiltRecord, now: BuiltRecord, names: dict[str, str]) -> None:
        """A chain's wire stays while both its ends are on the chain; through a plug, when a lever went elsewhere."""
        led = [one.ends for one in now.pins]
        for supply in SUPPLIES:
            chain = [wire.ends for wire in now.wires if wire.circuit == supply]
            stops = {end for ends in chain for end in ends}
            chain += led
            for wire in before.wires:
                if wire.circuit == supply and renamed(wire, names) <= stops:
                    assert renamed(wire, names) in chain
        there = {end for wire in now.wires for end in wire.ends}
        kept = [*led, *(wire.ends for wire in now.wires)]
        for wire in before.wires:
            ends = renamed(wire, names)
            if any(end.startswith("ROUTE") and end.endswith(".F") for end in ends) and ends <= there:
                assert ends in kept, "the feed of the buttons"

    def _no_number_twice(self, now: BuiltRecord, names: dict[str, str]) -> None:
        numbers = {number: frozenset(today(end, names) for end in ends) for number, ends in self.numbers.items()}
        gone = {wire.number for wire in now.retired}
        assert not gone & {wire.number for wire in now.wires}
        for wire in now.wires:
            assert numbers.setdefault(wire.number, wire.ends) == wire.ends
        assert numbers.keys() == gone | {wire.number for wire in now.wires}
        self.numbers = numbers

    def _freed_ways_stay_spare(self, before: BuiltRecord, now: BuiltRecord, named: set[str | None]) -> None:
        used, given = ways_of(now), ways_of(before)
        assert used & self.freed <= named
        self.freed = (self.freed | given) - used
        assert {f"{spare.strip}.{spare.way}" for spare in now.spare} == self.freed
        assert all(spare.head for spare in now.spare)

    def _freed_pins_stay_spare(self, before: BuiltRecord, now: BuiltRecord, named: set[str]) -> None:
        used, given = pins_of(now), pins_of(before)
        assert used & self.freed_pins <= named
        self.freed_pins = (self.freed_pins | given) - used
        assert {f"{spare.plug}.{spare.pin}" for spare in now.spare_pins} == self.freed_pins
        assert all(spare.head for spare in now.spare_pins)

    def _matrices_stay(self, netlist: Netlist, names: dict[str, str]) -> None:
        """Routes keep their numbers and rows, coils their columns; what was one's is never another's."""
        columns = {place: (today(f"L{coil[0]}.", names)[1:-1], coil[1]) for place, coil in self.columns.items()}
        for matrix in netlist.matrices:
            for row in matrix.rows:
                found = (row.number, matrix.id, row.letter)
                assert self.routes.setdefault(row.route, found) == found
            for column in matrix.columns:
                coil = (column.lever, column.lie)
                assert columns.setdefault((matrix.id, column.number), coil) == coil
        self.columns = columns
        assert len({number for number, _, _ in self.routes.values()}) == len(self.routes)
        assert len({(matrix, row) for _, matrix, row in self.routes.values()}) == len(self.routes)

    # What a builder does.

    @rule(number=st.integers(1, 12), end=st.sampled_from(["", "A", "B"]), board=st.sampled_from(BOARDS), at=PLACES)
    def add_a_point(self, number: int, end: str, board: str, at: list[str] | None) -> None:
        changed = deepcopy(self.railway)
        if f"P{number}{end}" not in changed["points"]:
            changed["points"] |= {f"P{number}{end}": {"board": board, **({"at": at} if at else {})}}
            self.make(changed, {})

    @rule(number=st.integers(1, 5), kind=st.sampled_from(["section", "lamps"]), board=st.sampled_from(BOARDS))
    def add_a_device(self, number: int, kind: str, board: str) -> None:
        changed = deepcopy(self.railway)
        if f"D{number}" not in changed["devices"]:
            lever = {"lever": f"S{number}"} if kind == "section" else {}
            changed["devices"][f"D{number}"] = {"kind": kind, "board": board, **lever}
            self.make(changed, {})

    @precondition(lambda self: self.railway["points"] or self.railway["devices"])
    @rule(data=st.data())
    def remove(self, data: st.DataObject) -> None:
        changed = deepcopy(self.railway)
        if things := sorted([*changed["points"], *changed["devices"]]):
            id_ = data.draw(st.sampled_from(things))
            changed["points" if id_ in changed["points"] else "devices"].pop(id_)
            self.make(changed, {})

    @precondition(lambda self: self.railway["points"])
    @rule(data=st.data())
    def rename(self, data: st.DataObject) -> None:
        """A point gets another number, and with it, if nothing else is on it, its lever."""
        changed = deepcopy(self.railway)
        if not changed["points"]:
            return
        old = data.draw(st.sampled_from(sorted(changed["points"])))
        self.count += 1
        new = f"P{100 + self.count}"
        changed["points"] = {
            new if id_ == old else id_: {**point, "was": old} if id_ == old else point
            for id_, point in changed["points"].items()
        }
        names = {old: new}
        lever, new_lever = old[1:].rstrip("AB"), changed["points"][new].get("lever", new[1:])
        if "lever" not in changed["points"][new] and not any(
            lever == point.get("lever", id_[1:].rstrip("AB")) for id_, point in changed["points"].items()
        ):
            names[f"L{lever}"] = f"L{new_lever}"
            for route in changed["routes"].values():
                route["levers"] = {new_lever if id_ == lever else id_: lie for id_, lie in route["levers"].items()}
        self.make(changed, names)

    @rule(data=st.data(), at=PLACES, name=NAMES)
    def move_or_call_otherwise(self, data: st.DataObject, at: list[str] | None, name: str) -> None:
        changed = deepcopy(self.railway)
        table = data.draw(st.sampled_from(["points", "devices", "strips"]))
        if changed[table]:
            thing = changed[table][data.draw(st.sampled_from(sorted(changed[table])))]
            thing.pop("at", None)
            thing |= {"name": name, **({"at": at} if at else {})}
            self.make(changed, {})

    @precondition(lambda self: self.railway["points"])
    @rule(data=st.data(), board=st.sampled_from(BOARDS))
    def carry_to_another_board(self, data: st.DataObject, board: str) -> None:
        """What is wired stays where it is: the change is refused, or it is none."""
        changed = deepcopy(self.railway)
        if changed["points"]:
            changed["points"][data.draw(st.sampled_from(sorted(changed["points"])))]["board"] = board
            self.make(changed, {})

    @precondition(lambda self: self.railway["points"])
    @rule(data=st.data())
    def work_by_another_lever(self, data: st.DataObject) -> None:
        changed = deepcopy(self.railway)
        if changed["points"]:
            changed["points"][data.draw(st.sampled_from(sorted(changed["points"])))]["lever"] = data.draw(
                st.sampled_from([str(number) for number in range(1, 13)])
            )
            self.make(changed, {})

    @rule(chance=st.randoms(use_true_random=False))
    def write_it_in_another_order(self, chance: Any) -> None:
        changed = deepcopy(self.railway)
        for table in ("points", "devices", "strips", "supplies", "routes"):
            ids = list(changed[table])
            chance.shuffle(ids)
            changed[table] = {id_: changed[table][id_] for id_ in ids}
        self.make(changed, {})
        assert self.record is None or self.railway == changed

    @rule(board=st.sampled_from(BOARDS), at=PLACES)
    def add_a_strip(self, board: str, at: list[str] | None) -> None:
        changed = deepcopy(self.railway)
        self.count += 1
        changed["strips"][f"{board[0]}{10 + self.count}"] = {"board": board, "ways": "9", **({"at": at} if at else {})}
        self.make(changed, {})

    @precondition(lambda self: self.freed)
    @rule(data=st.data())
    def use_a_spare_way(self, data: st.DataObject) -> None:
        """Lamps need one way: one that was freed, and is named."""
        changed = deepcopy(self.railway)
        if self.freed:
            way = data.draw(st.sampled_from(sorted(self.freed)))
            self.count += 1
            strip, _, number = way.partition(".")
            changed["devices"][f"H{self.count}"] = {"kind": "lamps", "strip": strip, "way": number}
            self.make(changed, {}, way)

    @rule(data=st.data())
    def list_a_wire(self, data: st.DataObject) -> None:
        """One of those that there are, with a number of the builder's own."""
        changed = deepcopy(self.railway)
        wires = [wire for wire in self.netlist.wires if wire.circuit] if self.netlist is not None else []
        if wires and len(changed.get("wires", [])) < 6:
            wire = data.draw(st.sampled_from(wires))
            self.count += 1
            entry = {"from": wire.start.name, "to": wire.finish.name, "colour": "white"}
            changed["wires"] = [*changed.get("wires", []), entry]
            self.make(changed, {})

    @rule(way=st.integers(28, 30))
    def add_a_wire(self, way: int) -> None:
        """From board to board, at ways that nothing else reaches."""
        changed = deepcopy(self.railway)
        entry = {"from": f"W1.{way}", "to": f"E1.{way}", "function": "spare"}
        if entry not in changed.get("wires", []):
            changed["wires"] = [*changed.get("wires", []), entry]
            for strip in ("W1", "E1"):
                changed["strips"][strip]["keep"] = ["28", "29", "30"]
            self.make(changed, {})

    @precondition(lambda self: self.freed_pins)
    @rule(data=st.data(), way=st.integers(28, 30))
    def use_a_spare_pin(self, data: st.DataObject, way: int) -> None:
        """By a listed wire that ends there."""
        changed = deepcopy(self.railway)
        if self.freed_pins:
            pin = data.draw(st.sampled_from(sorted(self.freed_pins)))
            changed["wires"] = [*changed.get("wires", []), {"from": f"W1.{way}", "to": pin, "function": "spare"}]
            changed["strips"]["W1"]["keep"] = ["28", "29", "30"]
            self.make(changed, {})

    @precondition(lambda self: self.railway["points"])
    @rule(data=st.data(), panel=st.sampled_from(PANELS), own=st.booleans())
    def add_a_route(self, data: st.DataObject, panel: str, *, own: bool) -> None:
        """Over one lever or two, at any place of the list."""
        changed = deepcopy(self.railway)
        levers = sorted({point.get("lever", id_[1:].rstrip("AB")) for id_, point in changed["points"].items()})
        if levers:
            chosen = data.draw(st.lists(st.sampled_from(levers), min_size=1, max_size=2, unique=True))
            lies = {lever: data.draw(st.sampled_from(["normal", "reverse"])) for lever in chosen}
            self.count += 1
            route = {"levers": lies, "panel": panel, **({"number": f"R{self.count}"} if own else {})}
            routes = list(changed["routes"].items())
            routes.insert(data.draw(st.integers(0, len(routes))), (f"to berth {self.count}", route))
            changed["routes"] = dict(routes)
            self.make(changed, {})

    @precondition(lambda self: self.railway["routes"])
    @rule(data=st.data())
    def take_a_route_out(self, data: st.DataObject) -> None:
        changed = deepcopy(self.railway)
        if changed["routes"]:
            changed["routes"].pop(data.draw(st.sampled_from(sorted(changed["routes"]))))
            self.make(changed, {})

    @precondition(lambda self: self.railway["routes"])
    @rule(panel=st.sampled_from(PANELS))
    def take_all_routes_of_a_panel_out(self, panel: str) -> None:
        changed = deepcopy(self.railway)
        changed["routes"] = {name: one for name, one in changed["routes"].items() if one["panel"] != panel}
        self.make(changed, {})

    @precondition(lambda self: self.routes.keys() - self.railway["routes"].keys())
    @rule(data=st.data())
    def put_a_route_back(self, data: st.DataObject) -> None:
        """Under its old name, over another lever: it comes back to its number and row."""
        changed = deepcopy(self.railway)
        levers = sorted({point.get("lever", id_[1:].rstrip("AB")) for id_, point in changed["points"].items()})
        if gone := sorted(self.routes.keys() - changed["routes"].keys()):
            name = data.draw(st.sampled_from(gone))
            panel = "QUAY" if self.routes[name][1] == self._matrix_of("QUAY") else "YARD"
            if levers and self.routes[name][1] == self._matrix_of(panel):
                lies = {data.draw(st.sampled_from(levers)): "normal"}
                changed["routes"][name] = {"levers": lies, "panel": panel}
                self.make(changed, {})

    def _matrix_of(self, panel: str) -> str | None:
        matrices = self.record.matrices if self.record is not None else ()
        return next((matrix.id for matrix in matrices if matrix.panel == panel), None)

    @precondition(lambda self: self.railway.get("wires"))
    @rule(data=st.data())
    def take_a_listed_wire_out(self, data: st.DataObject) -> None:
        changed = deepcopy(self.railway)
        if changed.get("wires"):
            changed["wires"].pop(data.draw(st.integers(0, len(changed["wires"]) - 1)))
            self.make(changed, {})

    @invariant()
    def every_net_is_a_tree(self) -> None:
        """As many wires as pieces of metal less nets."""
        if self.netlist is None:
            return
        part: dict[Any, Any] = {}

        def top(metal: Any) -> Any:
            while part.setdefault(metal, metal) != metal:
                metal = part[metal]
            return metal

        for wire in self.netlist.wires:
            one, other = top(wire.start.point), top(wire.finish.point)
            assert one != other, "a ring"
            part[one] = other


def today(end: str, names: dict[str, str]) -> str:
    thing, _, terminal = end.rpartition(".")
    return f"{names.get(thing, thing)}.{terminal}"


def ways_of(record: BuiltRecord) -> set[str]:
    """Those of groups, and those at which only wires of the builder's own land."""
    own = {end for wire in record.wires if not wire.circuit for end in wire.ends}
    groups = {f"{strip}.{way}" for group in record.groups for strip, way in group.places()}
    return groups | {end for end in own if end.partition(".")[0][:1] in ("W", "E")}


def pins_of(record: BuiltRecord) -> set[str]:
    ends = {end for wire in record.wires for end in wire.ends if end.startswith(("J1.", "J2."))}
    return ends | {pin for one in record.pins for pin in one.pins}


def renamed(wire: BuiltWire, names: dict[str, str]) -> frozenset[str]:
    return frozenset(today(end, names) for end in wire.ends)


Builder.TestCase.settings = settings(max_examples=60, stateful_step_count=25)
TestNothingRecordedEverMoves = Builder.TestCase
