"""A default supply is the board's, else the only one that fits, never the first; and where a thing stands."""

import pytest
from wiring.wiring_builder import netlist_of, problems_of, wired


@pytest.mark.parametrize(
    ("supplies", "expected"),
    [
        ("{A: {kind: pulse}}", []),
        ("{A: {kind: pulse}, B: {kind: dc}}", []),  # only one fits
        ("{A: {kind: dc}}", [("no-supply-fits", "points.P1")]),
        ("{}", [("no-supply-fits", "points.P1")]),
        ("{B: {kind: pulse}, A: {kind: pulse}}", [("several-supplies-fit", "points.P1")]),
    ],
)
def test_the_only_supply_that_fits(supplies: str, expected: list[tuple[str, str]]) -> None:
    assert problems_of(f"supplies: {supplies}\nstrips: {{A1: }}\npoints: {{P1: }}") == expected


def test_several_supplies_are_named_in_natural_order() -> None:
    _, problems = wired("supplies: {P10: {kind: pulse}, P9: {kind: pulse}}\nstrips: {A1: }\npoints: {P1: }")
    assert "P9, P10 would fit" in problems[0].message
    many = ", ".join(f"S{n}: {{kind: pulse}}" for n in range(1, 12))
    _, problems = wired(f"supplies: {{{many}}}\nstrips: {{A1: }}\npoints: {{P1: }}")
    assert "S8 and 3 more would fit" in problems[0].message


BOARD = """
boards: {West: {supply: %s}}
supplies: {A: {kind: pulse}, B: {kind: pulse}, D: {kind: dc}}
strips: {A1: }
"""


def test_the_board_says_the_supply() -> None:
    netlist = netlist_of(BOARD % "B" + "points: {P1: , P2: {supply: A}}")
    assert [circuit.supply for circuit in netlist.circuits] == ["B", "A"]


def test_a_board_whose_supply_does_not_fit_leaves_the_choice_open() -> None:
    assert problems_of(BOARD % "D" + "points: {P1: }") == [("several-supplies-fit", "points.P1")]


def test_a_named_supply_of_another_kind() -> None:
    assert problems_of(BOARD % "B" + "points: {P1: {supply: D}}") == [("wrong-supply", "points.P1.supply")]


def test_an_unknown_supply_or_kind_is_left_to_the_reading_stage() -> None:
    netlist, problems = wired(BOARD % "B" + "points: {P1: {supply: Z}, P2: {kind: steam}}\ndevices: {D1: {}}")
    assert problems == []
    assert netlist.circuits == ()


def test_the_boards_kind_is_that_of_its_points() -> None:
    netlist = netlist_of("""
        boards: {West: {kind: bell}}
        supplies: {D: {kind: dc}}
        strips: {A1: }
        kinds: {bell: {terminals: {T: }, supply: dc, group: [{function: lamp, terminal: T}]}}
        points: {P1: }
    """)
    assert netlist.circuits[0].kind_name == "bell"


def test_on_which_board_a_device_is() -> None:
    railway = """
boards: {West: {}, East: {}}
panels: {QUAY: {board: East}}
supplies: {PULSE: {kind: pulse}}
strips: {A1: {board: West}, B1: {board: East}}
"""
    assert problems_of(railway + "points: {P1: }") == [("no-board", "points.P1")]
    netlist = netlist_of(railway + "points: {P1: {strip: B1}, P2: {panel: QUAY}, P3: {board: West}}")
    assert [circuit.groups[0].board for circuit in netlist.circuits] == ["East", "East", "West"]
    # what names something unknown is left to the reading stage
    assert problems_of(railway + "points: {P1: {board: North}, P2: {strip: C1}, P3: {panel: NONE}}") == []


def test_on_which_board_a_strip_is() -> None:
    assert problems_of("boards: {West: {}, East: {}}\nstrips: {A1: }") == [("no-board", "strips.A1")]
    assert netlist_of("boards: {West: {}}\nstrips: {A1: }").strip_by_id["A1"].board == "West"
    assert netlist_of("strips: {A1: }").strip_by_id["A1"].board is None


def test_a_forgotten_supply_is_said_once() -> None:
    _, problems = wired("supplies: {D: {kind: dc}}\nstrips: {A1: }\npoints: {P10: , P9: , P1: }")
    (problem,) = problems
    assert problem.message == "3 devices need a pulse supply, and none is described: P1, P9, P10"
    assert (problem.code, problem.place.source) == ("no-supply-fits", "points.P1")


def test_each_kind_of_supply_that_is_forgotten() -> None:
    _, problems = wired("supplies: {}\nstrips: {A1: }\npoints: {P1: , P2: {kind: stall-motor}}")
    assert [problem.code for problem in problems] == ["no-supply-fits"] * 3
    assert "P1 is of the kind twin-coil, which needs a pulse supply" in problems[0].message
