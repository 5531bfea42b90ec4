"""The chart against every single fault: networkx judges what a meter reads; some reading must not be as printed."""

from collections.abc import Iterator
from pathlib import Path

import generated_railways
import networkx as nx
import pytest
from meter_judge import Bench, Fault, Node, crossings, node, opens, pins, shorts

from labelgen.making import Checked
from labelgen.model.netlist import EndKind
from labelgen.model.test_plan import Reading, TestPlan
from labelgen.pipeline import check_file
from labelgen.probing.charts import plan_of_tests
from labelgen.problems import has_errors

EXAMPLE = Path(__file__).parents[2] / "layouts" / "railways" / "marram-quay.yaml"
MIXED = """
railway: Samphire Flats
boards: {B1: {size: [1200, 600], at: [0, 0], holes: {H1: {at: [600, 500]}}}, B2: {size: [1200, 600], right_of: B1}}
supplies:
  PULSE: {kind: pulse, board: B1, at: [60, 60], volts: 24, microfarads: 10000}
  CAB: {kind: track, board: B1, at: [60, 160], volts: 12, fuse: 1, pins: 2}
  SLOW: {kind: dc, board: B1, at: [60, 260], volts: 12, fuse: 1}
strips:
  S1: {board: B1, at: [300, 300], measured: 110, test_points: [2]}
  S2: {board: B2, at: [300, 300], measured: 110}
  S3: {board: B2, at: [600, 300], measured: 110}
  S4: {board: B1, at: [600, 300], measured: 110, bridges: [[11, 12]]}
panels: {BOX: {board: B1, at: [600, 600], size: [300, 100], levers: {row: 3}}}
plugs: {J1: {boards: [B1, B2], pins: 30, at: {B1: [1190, 200], B2: [10, 200]}}}
points:
  P1: {board: B1, at: [200, 100], strip: S1}
  P2: {board: B1, at: [300, 100], strip: S1, not_in_use: coil burnt out}
  P3A: {board: B1, at: [400, 100], strip: S1}
  P3B: {board: B2, at: [100, 100], strip: S2}
  P4: {board: B2, at: [400, 100], kind: twin-coil-frog, strip: S2}
  P5: {board: B2, at: [500, 100], kind: stall-motor, strip: S3}
  P6: {board: B2, at: [700, 100], kind: stall-motor, strip: S3}
devices:
  YARD: {kind: section, lever: 11, board: B1, at: [700, 100], strip: S4}
  LAMPS: {kind: lamps, board: B1, at: [500, 400], supply: SLOW, strip: S4}
"""


def checked(text: str, folder: Path) -> Checked:
    path = folder / "railway.yaml"
    path.write_text(text, encoding="utf-8")
    return checked_file(path)


def checked_file(path: Path) -> Checked:
    found, problems = check_file(path)
    assert found is not None
    assert not has_errors(problems), [problem.message for problem in problems]
    return found


@pytest.fixture(params=["example", "plugs", "mixed"])
def railway(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Checked:
    if request.param == "example":
        return checked_file(EXAMPLE)
    if request.param == "mixed":
        return checked(MIXED, tmp_path)
    monkeypatch.setattr(generated_railways, "POINTS_A_BOARD", 8)
    return checked(generated_railways.railway(24), tmp_path)


def nets(railway_: Checked) -> dict[Node, int]:
    """With the plugs pulled, by wires, bars and jumpers alone."""
    netlist = railway_.netlist
    graph = nx.Graph([(node(wire.start), node(wire.finish)) for wire in netlist.wires])
    for strip in netlist.strips:
        ways = [[(EndKind.WAY, strip.id, str(way), "") for way in bridge] for bridge in strip.bridges]
        graph.add_edges_from((bar[0], way) for bar in ways for way in bar[1:])
    for plug in netlist.plugs:
        for pin in plug.pins:
            for board in plug.boards if pin.bridged_to is not None else ():
                graph.add_edge(*((EndKind.PIN, plug.id, str(n), board) for n in (pin.number, pin.bridged_to)))
    return {point: number for number, piece in enumerate(nx.connected_components(graph)) for point in piece}


def idle(railway_: Checked) -> frozenset[str]:
    return frozenset(id_ for id_, one in railway_.description.points.items() if one.not_in_use)


def scenes(plan: TestPlan) -> dict[str, list[Reading]]:
    """How the levers lie: the readings then."""
    found: dict[str, list[Reading]] = {"normal": plan.whole}
    for chart in plan.charts:
        for levers, readings in chart.apart:
            found[levers] = [*found.get(levers, []), *readings]
        found["reverse"] = [*found.get("reverse", []), *chart.again]
    return found


def missed(
    railway_: Checked, faults: Iterator[Fault], readings: dict[str, list[Reading]], *, plugged: bool
) -> list[str]:
    """The faults that no reading shows."""
    found, count = [], 0
    for fault in faults:
        count += 1
        benches = (
            (Bench(railway_.netlist, plugged, lie, fault, idle(railway_)), some) for lie, some in readings.items()
        )
        if all(bench.is_right(reading) for bench, some in benches for reading in some):
            found.append(str(fault))
    assert count > 0
    return found


def test_every_reading_is_as_printed_where_nothing_is_wrong(railway: Checked) -> None:
    plan = plan_of_tests(railway.description, railway.netlist)
    for lie, readings in scenes(plan).items():
        bench = Bench(railway.netlist, levers=lie, idle=idle(railway))
        assert [
            (r.shown, r.expect, r.ohms, bench.reads(r.one, r.other)) for r in readings if not bench.is_right(r)
        ] == []
    together = Bench(railway.netlist, plugged=True, idle=idle(railway))
    assert [reading.shown for reading in plan.plugged if not together.is_right(reading)] == []


def test_ohms_are_those_of_the_copper(railway: Checked) -> None:
    plan = plan_of_tests(railway.description, railway.netlist)
    bench = Bench(railway.netlist)
    for reading in plan.whole:
        assert reading.ohms == pytest.approx(bench.reads(reading.one, reading.other))


def test_every_open_is_found(railway: Checked) -> None:
    plan = plan_of_tests(railway.description, railway.netlist)
    left_out = idle(railway)
    faults = [
        fault
        for fault in opens(railway.netlist)
        if not (fault.kind == "coil" and fault.about[0][1] in left_out)  # type: ignore[index]
    ]
    not_asked = {
        str(Fault(kind, about))
        for wire in railway.netlist.wires
        if any(end.kind is EndKind.DEVICE and end.thing in left_out for end in wire.ends) and wire.function != "return"
        for kind, about in (("broken", (wire.number,)), ("joint", (wire.number, 0)), ("joint", (wire.number, 1)))
    }
    assert set(missed(railway, iter(faults), scenes(plan), plugged=False)) == not_asked


def test_every_pin_is_found(railway: Checked) -> None:
    plan = plan_of_tests(railway.description, railway.netlist)
    if railway.netlist.plugs:
        assert missed(railway, pins(railway.netlist), {"normal": plan.plugged}, plugged=True) == []
    else:
        assert plan.plugs == ()


def test_every_short_is_found(railway: Checked) -> None:
    plan = plan_of_tests(railway.description, railway.netlist)
    assert plan.unread == ()
    assert missed(railway, shorts(railway.netlist, nets(railway).get), scenes(plan), plugged=False) == []


def test_every_crossed_pair_is_found(railway: Checked) -> None:
    plan = plan_of_tests(railway.description, railway.netlist)
    left_out = idle(railway)
    faults = [f for f in crossings(railway.netlist, nets(railway).get) if f.about[2][1] not in left_out]  # type: ignore[index]
    assert missed(railway, iter(faults), scenes(plan), plugged=False) == []


def test_joints_at_a_supply_are_proved_by_its_volts(railway: Checked) -> None:
    plan = plan_of_tests(railway.description, railway.netlist)
    at_supplies = [w.number for w in railway.netlist.wires if any(e.kind is EndKind.SUPPLY for e in w.ends)]
    assert sorted(w.number for start in plan.starts for w in start.wires) == sorted(at_supplies)
    assert all(start.measured_at is not None and start.measured_at != start.across for start in plan.starts)


def test_readings_are_as_few_as_can_be(railway: Checked) -> None:
    """Of each net, by networkx, half its ends, rounded up."""
    plan = plan_of_tests(railway.description, railway.netlist)
    assert len(plan.whole) == plan.fewest_whole
    assert len(plan.plugged) == plan.fewest_plugged
    if not idle(railway) and not railway.netlist.plugs:
        graph = nx.Graph([(node(wire.start), node(wire.finish)) for wire in railway.netlist.wires])
        least = 0
        for piece in nx.connected_components(graph):
            least += -(-sum(graph.degree[point] == 1 for point in piece) // 2)
        assert plan.fewest_whole == least
    assert sum(reading.pairs for reading in plan.apart) == plan.pairs
    assert len(plan.apart) >= plan.fewest_apart


def test_the_figures_that_are_told() -> None:
    """Marram Quay: 37 + 31 readings for 77 pairs, and no choice of readings does with fewer."""
    example = checked_file(EXAMPLE)
    plan = plan_of_tests(example.description, example.netlist)
    assert len({frozenset({r.one, r.other}) for r in (*plan.whole, *plan.apart)}) == len(plan.whole) + len(plan.apart)
    assert len(plan.apart) == plan.fewest_apart < plan.pairs


def test_what_is_not_in_use_is_said_and_left_out(tmp_path: Path) -> None:
    mixed = checked(MIXED, tmp_path)
    plan = plan_of_tests(mixed.description, mixed.netlist)
    assert [(idle.shown, idle.reason) for chart in plan.charts for idle in chart.idle] == [("P2", "coil burnt out")]
    ends = {point for reading in plan.whole for point in (reading.one, reading.other)}
    assert not [point for point in ends if point[:2] == (EndKind.DEVICE, "P2")]
    assert [row.not_in_use for row in plan.motors if row.device == "P2"] == ["coil burnt out"]
    assert not [act for step in plan.show for act in step.acts if "P2" in act.works]


def test_a_test_point_is_preferred(tmp_path: Path) -> None:
    """S1.2 is the feed of the first group, marked as test point: every reading of that net's kind is taken there."""
    mixed = checked(MIXED, tmp_path)
    plan = plan_of_tests(mixed.description, mixed.netlist)
    feed = nets(mixed)[EndKind.WAY, "S1", "2", ""]
    of = nets(mixed)
    taken = [p for r in plan.apart for p in (r.one, r.other) if of.get(p) == feed]
    assert taken
    assert set(taken) == {(EndKind.WAY, "S1", "2", "")}


def test_the_walk_goes_strip_by_strip_and_way_by_way() -> None:
    example = checked_file(EXAMPLE)
    plan = plan_of_tests(example.description, example.netlist)
    for chart in plan.charts:
        bands = [reading.band for reading in chart.apart_readings]
        assert [band for i, band in enumerate(bands) if i == 0 or bands[i - 1] != band] == list(dict.fromkeys(bands))
        ways = [(r.band, int(r.one[2])) for r in chart.apart_readings if r.one[0] is EndKind.WAY]
        assert ways == sorted(ways)


def test_motors_read_twice_from_coil_to_coil() -> None:
    example = checked_file(EXAMPLE)
    plan = plan_of_tests(example.description, example.netlist)
    assert [row.device for row in plan.motors] == [
        "P1", "P2", "P3", "P4", "P5A", "P5B", "P6", "P7", "P8", "P9",
    ]  # fmt: skip
    assert {(row.coils, row.common, row.ohms) for row in plan.motors} == {(("N", "R"), "C", 4.5)}


def test_the_pulse_comes_on_last() -> None:
    example = checked_file(EXAMPLE)
    plan = plan_of_tests(example.description, example.netlist)
    assert [(start.supply, start.measured_at) for start in plan.starts] == [
        ("LIGHT", ("S3.12", "LAMPS.C")),
        ("CAB", ("S1.1", "YARD.B")),
        ("PULSE", ("S1.4", "P3.C")),
    ]


def test_a_show_check_uses_every_pin_in_plug_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(generated_railways, "POINTS_A_BOARD", 8)
    plugs = checked(generated_railways.railway(24), tmp_path)
    plan = plan_of_tests(plugs.description, plugs.netlist)
    steps = [step for step in plan.show if step.plug]
    used = {plug.id: sum(bool(pin.wires) for pin in plug.pins) for plug in plugs.netlist.plugs}
    assert {step.plug: (step.pins, step.of_pins) for step in steps} == {id_: (n, n) for id_, n in used.items()}
    assert steps[0].plug.startswith("J1-")
    assert sum(len(step.acts) for step in plan.show) <= 60


def test_a_long_show_check_says_what_it_leaves(tmp_path: Path) -> None:
    long = checked(generated_railways.railway(130), tmp_path)
    plan = plan_of_tests(long.description, long.netlist)
    assert sum(len(step.acts) for step in plan.show) <= 60
    assert any(step.pins < step.of_pins for step in plan.show)


def test_evenings_hold_every_wire_once_and_ten_at_most(railway: Checked) -> None:
    plan = plan_of_tests(railway.description, railway.netlist)
    numbers = [wire.number for card in plan.evenings for wire in card.wires]
    assert sorted(numbers) == sorted(wire.number for wire in railway.netlist.wires)
    assert max(len(card.wires) for card in plan.evenings) == 10
    of, board = nets(railway), ""
    fitted: set[Node] = set()
    for card in plan.evenings:
        fitted |= {node(end) for wire in card.wires for end in wire.ends}
        assert len(card.whole) == len(card.wires)
        assert all({test.one, test.other} <= fitted and of[test.one] != of[test.other] for test in card.apart)
        board = card.board
    assert board


def test_laws_on_every_good_case() -> None:
    """Of all kinds and oddities: as few readings as can be, every pair of nets read once, or said to be unread."""
    seen = 0
    for path in sorted((Path(__file__).parents[1] / "checks" / "cases").glob("*/good.yaml")):
        found, problems = check_file(path)
        if found is None or has_errors(problems):
            continue
        plan = plan_of_tests(found.description, found.netlist)
        assert len(plan.whole) == plan.fewest_whole, path
        assert len(plan.apart) >= plan.fewest_apart, path
        assert sum(reading.pairs for reading in plan.apart) + len(plan.unread) == plan.pairs, path
        assert all(reading.one != reading.other for reading in (*plan.whole, *plan.apart, *plan.plugged)), path
        seen += 1
    assert seen > 100
