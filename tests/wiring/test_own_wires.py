"""The wires that a builder lists: sections 5.4 and 5.5 of the format."""

import pytest
from wiring.wiring_builder import end_text, lines, netlist_of, problems_of, way_heads, wire_text, wired, wires_of

QUAY = """
supplies: {PULSE: {kind: pulse, terminals: {feed: "+"}}}
strips: {A1: {}}
points: {P5: {terminals: {N: green}}}
"""
"""Wires 1 to 7: 5N, 5N, 5F, 5R, 5R, F, C."""


def listed(*wires: str) -> str:
    return QUAY + "wires:\n" + "".join(f"  - {{{wire}}}\n" for wire in wires)


@pytest.mark.parametrize("ends", ["from: L5.N, to: A1.1", "from: A1.1, to: L5.N", "from: A1.1/panel, to: L5.N"])
def test_the_same_two_ends_in_either_direction_are_that_wire(ends: str) -> None:
    netlist = netlist_of(listed(f"{ends}, number: W17, colour: red/white, size: 24/0.2, note: old cable"))
    first = netlist.wires[0]
    assert len(netlist.wires) == 7
    assert wire_text(first) == "W17 5N L5.N > A1.1/panel"
    assert (first.colour, first.size, first.note, first.circuit) == ("RDWH", "24/0.2", "old cable", "5")
    # the second wire takes the first free number of ours
    assert [wire.number for wire in netlist.wires] == ["W17", 1, 2, 3, 4, 5, 6]


def test_what_is_not_said_stays_as_the_function_says() -> None:
    first = netlist_of(listed("from: L5.N, to: A1.1, number: 08")).wires[0]
    assert (first.number, first.colour, first.size) == ("08", "YE", "16/0.2")


def test_a_listed_function_does_not_rename_a_wire_of_the_rules() -> None:
    """5.4: it gives number, colour and size; the marker's head and the flag's stay the same."""
    netlist, problems = wired(listed("from: L5.N, to: A1.1, function: track"))
    assert [(problem.code, problem.place.source) for problem in problems] == [("other-function", "wires.0.function")]
    assert problems[0].message == "the wire from L5.N to A1.1 is listed as track, and it is normal"
    assert (netlist.wires[0].head, netlist.wires[0].function) == ("5N", "normal")
    assert way_heads(netlist, "A1")[0] == "5N"


def test_nor_where_it_runs_through_a_plug() -> None:
    railway = """
boards: {W: , E: }
supplies: {PULSE: {kind: pulse, board: W}}
strips: {A1: {board: W}}
plugs: {J1: {boards: [W, E], pins: 9}}
points: {P5: {board: E, strip: A1}}
wires: [{from: A1.1, to: P5.N, function: %s}]
"""
    assert problems_of(railway % "track") == [("other-function", "wires.0.function")]
    assert problems_of(railway % "normal") == []


def test_our_numbers_go_past_the_builders() -> None:
    wires = wires_of(
        listed("from: PULSE.feed, to: A1.2, number: 2", "from: A1.11, to: A1.12, function: feed, number: 4")
    )
    assert [wire.split()[0] for wire in wires] == ["1", "3", "5", "6", "7", "2", "8", "4"]


def test_a_side_that_is_said_is_kept() -> None:
    wires = wires_of(listed("from: PULSE.feed, to: A1.2/panel"))
    assert wires[5] == "6 F PULSE.feed > A1.2/panel"


@pytest.mark.parametrize(
    ("wire", "expected"),
    [
        # a lever lands on the panel side, everything else on the layout side ...
        ("from: L5.N, to: A1.9, function: normal", "L5.N > A1.9/panel"),
        ("from: P5.N, to: A1.9, function: normal", "P5.N > A1.9/layout"),
        ("from: PULSE.feed, to: A1.9, function: feed", "PULSE.feed > A1.9/layout"),
        ("from: A1.9, to: A2.1", "A1.9/layout > A2.1/layout"),
        # ... unless the other end says otherwise
        ("from: A1.9/panel, to: A2.1", "A1.9/panel > A2.1/panel"),
        ("from: A1.9, to: A2.1/panel", "A1.9/panel > A2.1/panel"),
        ("from: A1.9/layout, to: A2.1/panel", "A1.9/layout > A2.1/panel"),
        ("from: L5.N, to: A1.9/layout", "L5.N > A1.9/layout"),
    ],
)
def test_on_which_side_an_extra_wire_lands(wire: str, expected: str) -> None:
    netlist = netlist_of(listed(wire).replace("strips: {A1: {}", "strips: {A2: {}, A1: {}"))
    extra = netlist.wires[-1]
    assert f"{end_text(extra.start)} > {end_text(extra.finish)}" == expected
    assert (extra.number, extra.circuit) == (8, "")


def test_extra_wires_come_last_and_keep_their_order() -> None:
    wires = wires_of(listed("from: A1.12, to: A1.11, function: lamp", "from: A1.4, to: A1.5, function: data"))
    assert wires[7:] == lines("""
        8 L A1.12/layout > A1.11/layout link   ; from way to way of one strip
        9 D A1.4/layout > A1.5/layout link
    """)


@pytest.mark.parametrize(
    ("wire", "head"),
    [
        ("from: A1.1, to: A1.9", "5N"),  # called after the way on which it lands
        ("from: A1.9, to: A1.1, function: normal", "5N"),
        ("from: A1.2, to: A1.9", "F"),  # the chain's way carries the feed
        ("from: A1.1, to: A1.9, function: lamp", "L"),
        ("from: L5.N, to: A1.9, function: lamp", "5L"),  # else after the lever or device at its end
        ("from: A1.9, to: P5.N, function: lamp", "P5L"),
        ("from: PULSE.feed, to: A1.9, function: lamp", "L"),
        ("from: A1.9, to: A1.10", "–"),  # neither function nor way: a spare wire
    ],
)
def test_what_an_extra_wire_is_called(wire: str, head: str) -> None:
    assert netlist_of(listed(wire)).wires[-1].head == head


def test_an_extra_wire_marks_the_spare_way_on_which_it_lands() -> None:
    netlist = netlist_of(listed("from: A1.1, to: A1.9", "from: PULSE.feed, to: A1.11, function: lamp"))
    ways = netlist.strip_by_id["A1"].ways
    assert (ways[8].state, ways[8].head, ways[8].stem, ways[8].code, ways[8].function) == (
        "used", "5N", "5", "N", "normal",
    )  # fmt: skip
    assert (ways[10].state, ways[10].head) == ("used", "L")
    assert ways[0].layout == (netlist.wires[1], netlist.wires[7])


def test_painted_names_are_accepted() -> None:
    railway = """
        supplies: {PULSE: {kind: pulse, shown: CDU 1, terminals: {feed: "+"}}}
        strips: {A1: {shown: TB1/A}}
        levers: {5: {shown: 5A}}
        points: {P5: {shown: Pt 5, terminals: {N: green}}}
        wires:
          - {from: L5A.N, to: TB1/A.1/panel, number: a}
          - {from: TB1/A.1, to: Pt 5.green, number: b}
          - {from: CDU 1.+, to: A1.2, number: c}
          - {from: CDU 1.return, to: P5.C, number: d}
          - {from: L5A.N, to: TB1/A.9, function: lamp}
          - {from: Pt 5.N, to: TB1/A.10, function: lamp}
    """
    netlist = netlist_of(railway)
    assert [wire_text(wire) for wire in netlist.wires if isinstance(wire.number, str)] == lines("""
        a 5N L5.N > A1.1/panel
        b 5N A1.1/layout > P5.N
        c F PULSE.feed > A1.2/layout
        d C PULSE.return > P5.C
    """)
    shown = [(wire.start.shown, wire.finish.shown) for wire in netlist.wires]
    assert shown[:2] == [("L5A.N", "TB1/A.1"), ("TB1/A.1", "Pt 5.green")]
    assert ("CDU 1.+", "TB1/A.2") in shown
    assert [(wire.head, wire.stem) for wire in netlist.wires[-2:]] == [("5L", "5A"), ("P5L", "Pt 5")]
    assert way_heads(netlist, "A1")[0] == "5AN"  # printed instead of the id


@pytest.mark.parametrize(
    ("end", "words"),
    [
        ("A1", "'A1' is not an end of a wire"),
        (".1", "'.1' is not an end of a wire"),
        ("A1.", "'A1.' is not an end of a wire"),
        ("A1.13", "strip A1 has the ways 1 to 12, not '13'"),
        ("A1.0", "strip A1 has the ways 1 to 12, not '0'"),
        ("A1.x", "strip A1 has the ways 1 to 12, not 'x'"),
        (f"A1.{'9' * 5000}", f"strip A1 has the ways 1 to 12, not '{'9' * 40}…'"),
        ("A1.²", "strip A1 has the ways 1 to 12, not '²'"),
        ("A2.1", "there is no A2; did you mean A1?"),
        ("ZZZZ.1", "there is no ZZZZ"),
        ("L5.X", "L5 has no terminal X, only N, F, R"),
        ("P5.X", "P5 has no terminal X, only N, C, R"),
        ("PULSE.X", "PULSE has no terminal X, only feed, return, in-feed, in-return"),
        ("P5.C/panel", "'P5.C/panel' names a side, and only a strip has sides"),
    ],
)
def test_what_is_no_end(end: str, words: str) -> None:
    _, problems = wired(listed(f"from: {end}, to: A1.9"))
    assert [(p.code, p.place.source) for p in problems] == [("bad-end", "wires.0.from")]
    assert problems[0].message == words


def test_both_ends_are_looked_at() -> None:
    assert problems_of(listed("from: A9.1, to: A1.99")) == [("bad-end", "wires.0.from"), ("bad-end", "wires.0.to")]


@pytest.mark.parametrize("wire", ["from: A1.9, to: A1.9", "from: A1.9/panel, to: A1.9/layout"])
def test_a_wire_to_itself(wire: str) -> None:
    assert problems_of(listed(wire)) == [("same-ends", "wires.0.to")]


def test_a_wire_that_is_listed_twice() -> None:
    assert problems_of(listed("from: A1.9, to: A1.10", "from: A1.10, to: A1.9")) == [("same-ends", "wires.1")]
    assert problems_of(listed("from: L5.N, to: A1.1", "from: A1.1, to: L5.N")) == [("same-ends", "wires.1")]


def test_an_unknown_function_is_left_to_the_reading_stage() -> None:
    netlist, problems = wired(listed("from: A1.9, to: A1.10, function: bell"))
    assert problems == []
    assert len(netlist.wires) == 7


def test_a_thing_that_was_left_out_for_its_own_mistake_is_not_called_unknown() -> None:
    """Two supplies fit, so P5 has no wires: that is said once, and nothing of the wires that were listed for it."""
    railway = listed("from: L5.N, to: A1.1", "from: A1.9, to: P5.C").replace("PULSE:", "CDU: {kind: pulse}, PULSE:")
    assert problems_of(railway) == [("several-supplies-fit", "points.P5")]


@pytest.mark.parametrize(("contact", "fine"), [("green", True), ("F", True), ("amber", False)])
def test_the_contacts_of_a_rotary_lever_are_those_of_its_rows(contact: str, fine: bool) -> None:
    railway = f"""
        supplies: {{D: {{kind: dc}}}}
        strips: {{A1: }}
        kinds: {{signal: {{terminals: {{g: }}, supply: dc, lever_type: rotary,
                 group: [{{function: lamp, contact: green, terminal: g}}]}}}}
        devices: {{S7: {{kind: signal, lever: 7}}}}
        wires: [{{from: L7.{contact}, to: A1.9, function: lamp}}]
    """
    assert (problems_of(railway) == []) is fine


def test_a_spare_lever_takes_any_wire_unless_its_type_says_otherwise() -> None:
    railway = "strips: {A1: }\nlevers: {9: {spare: yes, type: button}, 8: {spare: yes}}\nwires:\n"
    assert problems_of(railway + "  - {from: L8.x, to: A1.1}") == []
    assert problems_of(railway + "  - {from: L9.2, to: A1.1}") == []
    assert problems_of(railway + "  - {from: L9.x, to: A1.1}") == [("bad-end", "wires.0.from")]


def test_the_input_of_a_supply_is_an_end() -> None:
    wires = wires_of("""
        supplies: {PULSE: {kind: pulse}, D: {kind: dc}}
        wires: [{from: D.feed, to: PULSE.in-feed, function: feed, number: X}]
    """)
    assert wires == ["X F D.feed > PULSE.in-feed"]
