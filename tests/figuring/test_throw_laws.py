"""Laws that hold on every railway: thicker wire, more motors, one lamp more."""

from functools import lru_cache
from itertools import pairwise

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st
from test_throws_figures import figured

from labelgen.model.figures import Figures

SIZES = ("7/0.1", "7/0.2", "16/0.2", "24/0.2", "32/0.2", "30/0.25", "50/0.25")
X = st.integers(1, 58).map(lambda step: step * 50)
PLACES = st.lists(st.tuples(X, st.integers(1, 17).map(lambda step: step * 50)), min_size=1, max_size=4, unique=True)
HEAD = """\
railway: Samphire Point
boards: {B1: {size: [3000, 900], at: [0, 0]}}
slack: {strip: 0, device: 0, panel: 0, round: 1}
supplies:
  PULSE: {kind: pulse, at: [100, 100], volts: 24, microfarads: 4700}
  LIGHT: {kind: dc, at: [100, 200], volts: 12}
strips: {A1: {at: [1000, 500], measured: 110}, A2: {at: [2200, 500], measured: 110}}
panels: {BOX: {at: [900, 900], size: [300, 100], levers: {row: 5}}}
"""


@lru_cache(maxsize=256)
def thrown(places: tuple[tuple[int, int], ...], wires: str = "", strip: str = "") -> Figures:
    """All motors of lever 5, one at each place."""
    on = f"strip: {strip}, " if strip else ""
    points = "".join(f"  P{n}: {{lever: 5, {on}at: [{x}, {y}]}}\n" for n, (x, y) in enumerate(places, 1))
    return figured(f"{HEAD}points:\n{points}{wires}")[2]


def sized(**sizes: int) -> str:
    return "functions: {" + ", ".join(f"{name}: {{size: {SIZES[size]}}}" for name, size in sizes.items()) + "}\n"


@given(PLACES, st.tuples(*[st.integers(0, 5)] * 3), st.integers(0, 2))
@settings(deadline=None, max_examples=40)
def test_thicker_wire_never_lowers_what_coils_get(
    places: list[tuple[int, int]], sizes: tuple[int, int, int], thicker: int
) -> None:
    """Of a single coil, and of all coils of a throw together, as long as wire resists less than a coil."""
    names = ("feed", "normal", "return")
    thin = dict(zip(names, sizes, strict=True))
    thick = thin | {names[thicker]: thin[names[thicker]] + 1}
    for before, after in zip(
        thrown(tuple(places), sized(**thin)).throws, thrown(tuple(places), sized(**thick)).throws, strict=True
    ):
        assert after.loop_ohms <= before.loop_ohms * (1 + 1e-12)
        assert sum(c.share for c in after.coils) >= sum(c.share for c in before.coils) - 1e-12
        assert after.weakest.share >= before.weakest.share - 1e-12


@given(PLACES, st.integers(0, 5), st.sampled_from([("PULSE.feed", "A1.2"), ("PULSE.return", "P1.C")]))
@settings(deadline=None, max_examples=25)
def test_a_thicker_trunk_lowers_no_share(places: list[tuple[int, int]], size: int, trunk: tuple[str, str]) -> None:
    """Of the one wire by which the current of all coils comes, or goes back: nobody loses by it."""
    before, after = (
        thrown(tuple(places), f"wires: [{{from: {trunk[0]}, to: {trunk[1]}, size: {SIZES[one]}}}]\n", "A1")
        for one in (size, size + 1)
    )
    for thin, thick in zip(before.throws, after.throws, strict=True):
        assert thick.loop_ohms < thin.loop_ohms
        shares = {coil.device: coil.share for coil in thick.coils}
        assert all(shares[coil.device] > coil.share for coil in thin.coils)


@given(PLACES, X, st.integers(0, 5))
@settings(deadline=None, max_examples=40)
def test_more_motors_at_once_never_raise_any_share(places: list[tuple[int, int]], x: int, size: int) -> None:
    wires = sized(feed=size, normal=size)
    before = thrown(tuple(places), wires)
    after = thrown((*places, (x, 870)), wires)
    for few, more in zip(before.throws, after.throws, strict=True):
        shares = {coil.device: coil.share for coil in more.coils}
        assert all(shares[coil.device] <= coil.share + 1e-12 for coil in few.coils)


def lit(places: list[tuple[int, int]]) -> tuple[dict[frozenset[str], float], nx.Graph]:
    """By the two ends of a wire: its amps. And all wires."""
    lamps = "".join(
        f"  H{n}: {{kind: lamps, strip: A1, at: [{x}, {y}], milliamps: 400}}\n" for n, (x, y) in enumerate(places, 1)
    )
    _, netlist, figures = figured(f"{HEAD}devices:\n{lamps}")
    ends = {wire.number: frozenset((wire.start.name, wire.finish.name)) for wire in netlist.wires}
    return {ends[wire.number]: wire.amps for wire in figures.wires}, nx.Graph(map(tuple, ends.values()))


@given(PLACES, X)
@settings(deadline=None, max_examples=40)
def test_one_more_lamp_never_lowers_a_current_on_its_feed(places: list[tuple[int, int]], x: int) -> None:
    """On the wires from the supply to the new one and back; lamps beside it lose a little."""
    before, _ = lit(places)
    after, graph = lit([*places, (x, 870)])
    new = f"H{len(places) + 1}"
    steps = [*pairwise(nx.shortest_path(graph, "LIGHT.feed", f"{new}.L"))]
    steps += pairwise(nx.shortest_path(graph, f"{new}.C", "LIGHT.return"))
    on_the_way = {frozenset(step) for step in steps}
    assert on_the_way <= after.keys()
    assert all(after[wire] >= before[wire] for wire in on_the_way & before.keys())
    assert on_the_way & before.keys()
