"""What a lever of several buttons or positions is set to, by the kinds that come with the program."""

import pytest
from wiring.wiring_builder import built_in_kinds, described, read

from labelgen.model.lever_positions import Position, on_and_off, positions
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.wiring.expansion import Expansion

RAILWAY = """
supplies: {PULSE: {kind: pulse}, DC: {kind: dc}, CAB: {kind: track}}
strips: {A1: {ways: 60}}
points: {P1: {}, P3: {kind: three-way}}
levers: {11: {normal: left}}
devices:
  S1: {kind: signal-4-aspect, lever: S1}
  TA: {kind: section, lever: 11}
"""
NETLIST, _ = Expansion(described(read(RAILWAY)), built_in_kinds(), None).netlist()


def lever(id_: str) -> tuple[Netlist, LeverPlan]:
    return NETLIST, next(lever for lever in NETLIST.levers if lever.id == id_)


def test_buttons_of_a_three_way() -> None:
    assert [one.name for one in positions(*lever("3"))] == ["left", "centre", "right"]


def test_a_signals_positions_say_which_lamps_are_lit() -> None:
    """Two yellows: the second by its own wire, the first through a diode, as the kind draws it."""
    found = positions(*lever("S1"))
    assert [one.name for one in found] == ["red", "yellow", "double", "green"]
    assert found[0] == Position(name="red", lamps=("red",))
    assert len(found[2].lamps) == 2


@pytest.mark.parametrize("id_", ["1", "11"])
def test_a_lever_with_a_stroke_has_none(id_: str) -> None:
    assert positions(*lever(id_)) == ()


def test_only_an_on_off_switch_is_off_and_on() -> None:
    assert on_and_off(lever("11")[1]) == {"left": "off", "right": "on"}
    assert on_and_off(lever("1")[1]) == {}
