"""A label is out of date when, and only when, it would be drawn otherwise: fingerprints against the drawings."""

from collections.abc import Callable
from copy import deepcopy
from typing import Any
from unittest.mock import patch

import pytest
from captured_pages import Key, Printer, plain
from wiring.wiring_builder import built_in_kinds, described, read

from labelgen.making import Checked, Request
from labelgen.model.built.built_labels import STUCK_ON
from labelgen.model.built.built_record import BuiltRecord
from labelgen.pipeline import make
from labelgen.problems import has_errors
from labelgen.rendering import pdf
from labelgen.wiring.expansion import Expansion
from labelgen.wiring.recorded_outcome import built_record

RAILWAY = """
boards:
  West: {name: harbour board, holes: {H1: {at: [400, 400], diameter: 20}}}
  East: {at: [1200, 0]}
supplies:
  PULSE: {kind: pulse, board: West, at: [10, 10], volts: 24}
  CAB: {kind: track, board: West, at: [20, 20], volts: 12}
strips:
  W: {board: West, at: [300, 250], ways: 12, measured: 110, name: by the wall}
  E: {board: East, at: [300, 250], ways: 12, measured: 110}
plugs:
  J1: {boards: [West, East], pins: 15, at: {West: [1190, 300], East: [10, 300]}, keep_empty: [13]}
panels:
  QUAY:
    {board: West, at: [600, 560], size: [250, 120], points: {P1: [8, 5]}, sections: {S1: [20, 2]}, levers: {row: 9},
     tracks: {main: [[1, 5], [24, 5]], siding: [P1, [12, 2], [22, 2]]}, texts: {Marram Quay: [12, 1]}}
levers: {9: {spare: yes, panel: QUAY}}
points:
  P1: {name: harbour siding, board: West, at: [200, 200]}
  P2: {board: East, at: [200, 200]}
devices:
  S1: {kind: section, lever: 11, board: West, at: [300, 100], name: fish road, supply: CAB}
sheets: {flags: a4-65-38x21, plates: a4-65-38x21}
"""
Edit = Callable[[dict[str, Any]], None]


def at(*path: str, to: Any) -> Edit:
    """Writes something into the description."""

    def edit(railway: dict[str, Any]) -> None:
        for key in path[:-1]:
            railway = railway.setdefault(key, {})
        railway[path[-1]] = to

    return edit


def drawn(
    railway: dict[str, Any], record: BuiltRecord | None
) -> tuple[dict[Key, list[str]], dict[Key, str], BuiltRecord]:
    """Kind and name of each label: how its stickers are drawn, and its fingerprint."""
    description = described(railway)
    expansion = Expansion(description, built_in_kinds(), record)
    netlist, problems = expansion.netlist()
    assert not has_errors(problems), problems
    built = built_record(netlist, expansion.record)
    checked = Checked(description=description, netlist=netlist, before=expansion.record, built=built)
    printer = Printer()
    with patch.object(pdf, "pdf_bytes", printer):
        result = make(checked, Request(only=frozenset(STUCK_ON)))
    assert not has_errors(result.problems), result.problems
    marks = {label.key: label.fingerprint for label in result.now.labels}
    boards = {key: {one.board for one in own} for key, own in printer.paper.stickers.items()}
    shapes = {
        (kind, f"{name} on {one.board}" if len(boards[kind, name]) > 1 else name): [
            plain(each) for each in own if each.board == one.board
        ]
        for (kind, name), own in printer.paper.stickers.items()
        for one in own
        if name
    }
    return shapes, marks, built


EDITS: dict[str, Edit] = {
    "nothing": lambda _: None,
    "the name of a point": at("points", "P1", "name", to="coal road"),
    "what is painted on a point": at("points", "P2", "shown", to="Q2"),
    "what is painted at a terminal": at("points", "P1", "terminals", to={"N": "red"}),
    "a point that is swapped": at("points", "P1", "swapped", to="yes"),
    "a point that is out of use": at("points", "P1", "not_in_use", to="burnt out"),
    "a point more": at("points", "P3", to={"board": "East", "at": ["100", "100"]}),
    "a section more": at("devices", "S2", to={"kind": "section", "lever": "12", "board": "East", "supply": "CAB"}),
    "the name of a lever": at("levers", "1", to={"name": "goods"}),
    "how a lever lies": at("levers", "1", to={"normal": "down"}),
    "the colour of a lever": at("levers", "1", to={"colour": "blue/brown"}),
    "a spare lever that is used": at("levers", "9", to={"panel": "QUAY"}),
    "no paint on levers": at("printing", "levers", to="none"),
    "the colour of a function": at("functions", "normal", to={"colour": "grey"}),
    "the code of a function": at("functions", "normal", to={"code": "A"}),
    "the size of a function": at("functions", "normal", to={"size": "24/0.2"}),
    "the pattern of a function": at("functions", "reverse", to={"pattern": "dots"}),
    "the form of flags": at("functions", "return", to={"flags": "wrap"}),
    "how long a strip is": at("strips", "W", "measured", to="112"),
    "where a strip begins": at("strips", "W", "way_1", to="right"),
    "the name of a strip": at("strips", "W", "name", to="under the crane"),
    "what is painted on a strip": at("strips", "W", "shown", to="TB1"),
    "a bridge": at("strips", "E", "bridges", to=[["4", "6"]]),
    "a way that is taken": at("strips", "E", "taken", to={"12": "doorbell"}),
    "ways that are kept": at("strips", "W", "keep", to=["12"]),
    "markers the same way up": at("printing", "markers", to="same"),
    "the name of a board": at("boards", "West", "name", to="quay board"),
    "what is painted on a board": at("boards", "West", "shown", to="B1"),
    "what is painted at a hole": at("boards", "West", "holes", "H1", "shown", to="H10"),
    "the name of a plug": at("plugs", "J1", "name", to="harbour joint"),
    "a pin that is kept empty": at("plugs", "J1", "keep_empty", to=["13", "14"]),
    "the volts of a supply": at("supplies", "PULSE", "volts", to="18"),
    "an address": at("schedule", to="https://marram-quay.example/wiring"),
    "both on tags": lambda railway: (
        at("schedule", to="https://marram-quay.example/wiring")(railway),
        at("printing", "tags", to="both")(railway),
    )[0],
    "american words": lambda railway: (at("words", to="american")(railway), at("printing", "paper", to="a4")(railway))[
        0
    ],
    "a listed wire": at("wires", to=[{"from": "W.9", "to": "W.11", "colour": "white"}]),
    "a number of the builder's": at("wires", to=[{"from": "L1.N", "to": "W.1", "number": "N7"}]),
    "the style of a panel": at("panels", "QUAY", "style", to="dark"),
    "a text on a panel": at("panels", "QUAY", "texts", to={"Marram Quay": ["12", "1"], "Coal": ["5", "7"]}),
    "a track on a panel": at("panels", "QUAY", "tracks", "main", to=[["1", "5"], ["23", "5"]]),
    "screws in a panel": at("panels", "QUAY", "screws", to="yes"),
    "other paper for a panel": at("panels", "QUAY", "paper", to="a3"),
    "smaller letters": at("printing", "smallest_text", to="1.2"),
    "other paper for flags": at("sheets", "flags", to="a4-21-64x38"),
}
OF_LOOK = {"smaller letters", "other paper for flags", "other paper for a panel"}
"""They change how labels look, and nothing that a label says."""
OVER_CAREFUL = {"fascia"}
"""A fascia counts as changed when anything did that might be seen on it; so do all labels when the trade words did."""


@pytest.mark.parametrize("name", EDITS)
def test_a_label_is_out_of_date_when_it_would_be_drawn_otherwise(name: str) -> None:
    before = read(RAILWAY)
    after = deepcopy(before)
    EDITS[name](after)
    old, old_marks, record = drawn(before, None)
    new, new_marks, _ = drawn(after, record)
    both = old.keys() & new.keys()
    assert both <= old_marks.keys() & new_marks.keys()
    changed = {key for key in both if old_marks[key] != new_marks[key]}
    redrawn = {key for key in both if old[key] != new[key]}
    if name in OF_LOOK:
        assert not changed
        return
    assert redrawn <= changed, "an old label would be taken for right"
    assert {key for key in changed - redrawn if key[0] not in OVER_CAREFUL and name != "american words"} == set(), (
        "a right label would be thrown away"
    )
    assert (old == new) is (name == "nothing"), "an edit that changes nothing tells nothing"
