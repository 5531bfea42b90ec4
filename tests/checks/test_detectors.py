"""What leads past a detector of trains, by the wires alone."""

import pytest
from wiring.wiring_builder import described, netlist_of

from labelgen.checks.detectors import detectors_passed_by

TEXT = """
supplies: {CAB: {kind: track}}
strips: {A1: {ways: 24}}
devices:
  DET: {kind: block-detector, supply: CAB}
  D1: {kind: dropper, supply: DET}
  D2: {kind: dropper, supply: CAB}
"""


def told(more: str = "", strip: str = "ways: 24", text: str = TEXT) -> list[tuple[str, str]]:
    text = text.replace("ways: 24", strip) + more
    return [(one.place.source, one.message) for one in detectors_passed_by(described(text), netlist_of(text))]


@pytest.mark.parametrize("wire", ["A1.1, to: D1.A", "CAB.A, to: A1.2", "D2.A, to: D1.A"])
def test_a_wire_from_before_it_to_behind_it(wire: str) -> None:
    start, _, finish = wire.partition(", to: ")
    ((place, message),) = told(f"wires: [{{from: A1.8, to: A1.9}}, {{from: {wire}}}]\n")
    assert place == "wires.1"
    assert message == f"the listed wire from {start} to {finish} leads past DET, which sees no train by it"


def test_a_bridge_is_shown_at_the_detector() -> None:
    at_the_bridge = TEXT.replace("block-detector, supply", "block-detector, way: 1, supply")
    assert told(strip="ways: 24, bridges: [[1, 2]]", text=at_the_bridge) == [
        ("devices.DET", "a bridge leads past DET, which sees no train by it")
    ]


@pytest.mark.parametrize("wire", ["A1.2, to: A1.9", "CAB.A, to: A1.9", "CAB.B, to: D1.B"])
def test_wires_that_stay_on_one_side_are_right(wire: str) -> None:
    assert told() == []
    assert told(f"wires: [{{from: {wire}}}]\n") == []


def test_without_detectors_nothing_is_looked_at() -> None:
    assert told(text="supplies: {PULSE: {kind: pulse}}\nstrips: {A1: {ways: 24}}\npoints: {P1: }\n") == []
