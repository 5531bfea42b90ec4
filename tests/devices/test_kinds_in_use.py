"""The kinds in whole railways: checked as a builder's file is, called by painted names, on levers of other types."""

from pathlib import Path

import pytest
from devices.point_cases import POINT_CASES
from devices.signal_cases import SIGNAL_CASES
from devices.track_cases import TRACK_CASES
from wiring.wiring_builder import built_in_kinds, lines, netlist_of, problems_of, wire_between, wires_of

from labelgen.pipeline import check_file
from labelgen.problems import Problem, Severity


def checked(folder: Path, text: str) -> list[Problem]:
    path = folder / "railway.yaml"
    path.write_text(f"railway: Marram Quay\n{text}\n", encoding="utf-8")
    return check_file(path)[1]


def errors(folder: Path, text: str) -> list[str]:
    return [problem.code for problem in checked(folder, text) if problem.severity is Severity.ERROR]


@pytest.mark.parametrize("case", [*POINT_CASES, *TRACK_CASES, *SIGNAL_CASES], ids=lambda case: case.id)
def test_a_railway_with_it_passes_every_check(case: object, tmp_path: Path) -> None:
    # A common return joins two supplies, and that is stopped: the builder fits that one wire outside of the file.
    expected = ["nets-joined"] if case.kind == "cab-selector-common" else []  # type: ignore[attr-defined]
    assert errors(tmp_path, case.railway) == expected  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", sorted(built_in_kinds()))
def test_each_kind_says_what_it_is_and_how_it_is_wired(name: str) -> None:
    kind = built_in_kinds()[name]
    assert kind.about
    assert kind.about[0].islower()
    assert all(kind.terminals.values()), "each terminal in trade language"
    assert len(kind.notes.split()) > 20


@pytest.mark.parametrize("name", sorted(built_in_kinds()))
def test_what_a_kind_switches_for_the_crossing_is_marked_to_be_swapped(name: str) -> None:
    """Trade page, rule 14. A board that turns by itself needs no pair."""
    kind = built_in_kinds()[name]
    crossing = [row for row in kind.group if row.function == "frog"]
    pairs = [row.terminal for row in kind.group if row.swap]
    assert len(pairs) == (2 if crossing and kind.inside else 0)
    # The pair are the two throws of the changeover whose arm is joined to the crossing.
    for row in crossing if pairs else ():
        throws = {end for lie in kind.inside.values() for pair in lie if row.terminal in pair for end in pair}
        assert throws == {row.terminal, *pairs}


def test_signals_stand_on_the_boards_upper_side() -> None:
    above = {name for name, kind in built_in_kinds().items() if kind.above}
    assert above == {"signal-2-aspect", "signal-3-aspect", "signal-4-aspect", "semaphore"}


def test_the_marked_pair_is_on_the_strip() -> None:
    netlist = netlist_of(
        "supplies: {D: {kind: dc}, CAB: {kind: track}}\nstrips: {A1: }\npoints: {P5: {kind: stall-motor}}"
    )
    assert [way.number for way in netlist.strip_by_id["A1"].ways if way.swap == "rails"] == [3, 5]


# Painted terminals.

PAINTED = """
supplies: {PULSE: {kind: pulse, terminals: {feed: "OUT+"}}}
strips: {A1: }
points: {P5: {terminals: {N: "CH 1.2", R: red}}}
wires:
"""


@pytest.mark.parametrize("end", ["P5.N", "P5.CH 1.2"])
def test_an_end_is_called_by_its_terminal_or_by_what_is_painted_on_it(end: str) -> None:
    netlist = netlist_of(f"{PAINTED}  - {{from: A1.1, to: {end}, number: W7}}")
    wire = wire_between(netlist, "A1.1", "P5.N")
    assert (wire.number, wire.finish.shown) == ("W7", "P5.CH 1.2")


def test_painted_names_may_change_places() -> None:
    """A maker letters the coils the other way round: then what is painted counts."""
    railway = PAINTED.replace('N: "CH 1.2", R: red', "N: R, R: N")
    netlist = netlist_of(f"{railway}  - {{from: A1.3, to: P5.N, number: W7}}")
    assert wire_between(netlist, "A1.3", "P5.R").number == "W7"


def test_a_supply_is_called_by_what_is_painted_on_it() -> None:
    netlist = netlist_of(f"{PAINTED}  - {{from: PULSE.OUT+, to: A1.2, number: W7}}")
    assert wire_between(netlist, "PULSE.feed", "A1.2").number == "W7"


def test_an_end_that_nothing_is_called(tmp_path: Path) -> None:
    assert problems_of(f"{PAINTED}  - {{from: A1.1, to: P5.CH 1.3}}") == [("bad-end", "wires.0.to")]
    assert errors(tmp_path, f"{PAINTED}  - {{from: A1.1, to: P9.CH 1.2}}") == ["bad-end"]


@pytest.mark.parametrize(
    ("painted", "said"),
    [
        ("{N: red, R: red}", "terminal R of P5 is painted `red`, and so is N"),
        ("{N: R}", "terminal N of P5 is painted `R`, and so is R"),
        ("{R: N}", "terminal R of P5 is painted `N`, and so is N"),
    ],
)
def test_two_terminals_painted_alike(painted: str, said: str, tmp_path: Path) -> None:
    text = f"supplies: {{PULSE: {{kind: pulse}}}}\nstrips: {{A1: }}\npoints: {{P5: {{terminals: {painted}}}}}"
    found = [problem for problem in checked(tmp_path, text) if problem.severity is Severity.ERROR]
    assert [(problem.code, problem.message, problem.place.line) for problem in found] == [("repeated-id", said, 4)]


def test_two_terminals_of_a_supply_painted_alike(tmp_path: Path) -> None:
    assert errors(tmp_path, "supplies: {D: {kind: dc, terminals: {feed: out, return: out}}}") == ["repeated-id"]


def test_terminals_may_change_names(tmp_path: Path) -> None:
    text = "supplies: {PULSE: {kind: pulse}}\nstrips: {A1: }\npoints: {P5: {terminals: {N: R, R: N, C: 3}}}"
    assert errors(tmp_path, text) == []


# Levers of other types.


def test_what_stands_beside_a_lever_is_an_end() -> None:
    """What the program writes, it reads back: a lamp beside the lever is called like a contact."""
    railway = """
        supplies: {PULSE: {kind: pulse}, DC: {kind: dc}}
        strips: {A1: }
        points: {P5: {kind: twin-coil-lamps}}
        wires: [{from: L5.lamp-N, to: A1.5, colour: green}]
    """
    assert wire_between(netlist_of(railway), "L5.lamp-N", "A1.5").colour == "GN"
    assert problems_of(railway.replace("lamp-N", "lamp-X")) == [("bad-end", "wires.0.from")]


def test_a_stud_has_no_feed() -> None:
    railway = """
        supplies: {PULSE: {kind: pulse}}
        strips: {A1: }
        levers: {5: {type: stud}}
        points: {P5: }
        wires: [{from: L5.F, to: A1.5}]
    """
    assert problems_of(railway) == [("bad-end", "wires.0.from")]


def test_a_lever_without_the_contacts_that_a_kind_needs() -> None:
    railway = "supplies: {D: {kind: dc}, CAB: {kind: track}}\nstrips: {A1: }\nlevers: {5: {type: sprung}}\n"
    assert problems_of(railway + "points: {P5: {kind: stall-motor}}") == [("lever-lacks-contact", "levers.5.type")]


# Rails on a digital railway.


def test_rails_take_the_controller_where_there_is_one() -> None:
    wires = wires_of(
        "supplies: {CAB: {kind: track}, BUS: {kind: digital}}\nstrips: {A1: }\ndevices: {D1: {kind: track-feed}}"
    )
    assert wires[2:] == lines("""
        3 CABT CAB.A > A1.1/layout
        4 CABU CAB.B > A1.2/layout
    """)


def test_rails_take_the_digital_supply_that_they_name_or_their_board_does() -> None:
    railway = "supplies: {CAB: {kind: track}, BUS: {kind: digital}}\nstrips: {A1: }\n"
    named = wires_of(railway + "devices: {D1: {kind: track-feed, supply: BUS}}")
    boards = wires_of(railway + "boards: {B1: {supply: BUS}}\ndevices: {D1: {kind: track-feed}}")
    assert named == boards
    assert named[2] == "3 BUST BUS.A > A1.1/layout"


def test_what_is_digital_does_not_take_a_controller() -> None:
    railway = "supplies: {CAB: {kind: track}}\nstrips: {A1: }\ndevices: {D1: {kind: crossing-detector}}"
    assert problems_of(railway) == [("no-supply-fits", "devices.D1")]
    named = railway.replace("crossing-detector", "crossing-detector, supply: CAB")
    assert problems_of(named) == [("wrong-supply", "devices.D1.supply")]


def test_behind_a_detector_a_digital_railway_stays_digital() -> None:
    railway = """
        supplies: {BUS: {kind: digital}}
        strips: {A1: }
        devices: {DET: {kind: block-detector}, D1: {kind: crossing-detector, supply: DET}}
    """
    assert problems_of(railway) == []
    mixed = railway.replace("BUS: {kind: digital}", "BUS: {kind: digital}, CAB: {kind: track}")
    assert problems_of(mixed) == [("wrong-supply", "devices.D1.supply")]
    named = mixed.replace("block-detector", "block-detector, supply: BUS")
    assert problems_of(named) == []


def test_two_digital_supplies_are_asked_about() -> None:
    railway = "supplies: {B1: {kind: digital}, B2: {kind: digital}}\nstrips: {A1: }\ndevices: {D1: {kind: track-feed}}"
    assert problems_of(railway) == [("several-supplies-fit", "devices.D1")]
