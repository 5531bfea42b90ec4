"""What wires, levers and things are called: nothing twice, nothing for nothing."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks.names import equal_heads, idle_levers, painted_alike, repeated_numbers, working_spares
from labelgen.problems import Problem


def heads(railway: str) -> list[Problem]:
    return equal_heads(described(railway), wired(railway)[0])


LAMPS = """
supplies: {D: {kind: dc}}
strips: {A1: }
kinds: {switched: {terminals: {L: }, supply: dc, lever_type: on-off,
        group: [{function: lamp, contact: 1, terminal: L}]}}
"""


def test_a_lever_and_a_device_of_one_id() -> None:
    (problem,) = heads(LAMPS + "devices: {11: {kind: lamps}, H1: {kind: switched, lever: 11}}")
    assert (problem.code, problem.place.source) == ("equal-heads", "devices.11")
    assert problem.message == "wires of lever 11 and of the device 11 would both be called 11L"


def test_a_lever_that_works_a_device_of_its_own_id_is_one_circuit() -> None:
    assert heads(LAMPS + "devices: {11: {kind: switched, lever: 11}}") == []


def test_a_head_that_no_wire_bears_is_nobodys() -> None:
    """Without a lever there is no wire ZF, and the chain alone is called so."""
    railway = "supplies: {Z: {kind: pulse}, D: {kind: dc}}\nstrips: {A1: }\ndevices: {Z1: {kind: twin-coil}}"
    assert heads(railway) == []


def test_said_once_for_each_pair() -> None:
    railway = "supplies: {A: {kind: pulse}}\nstrips: {A1: }\npoints: {P5: }\ndevices: {5: {kind: twin-coil}}"
    assert len(heads(railway)) == 1  # 5N, 5F and 5R


@pytest.mark.parametrize("lever", ["PULSE", "P"])
def test_a_lever_and_a_chain(lever: str) -> None:
    """With two supplies the chain of PULSE is called PULSEF, and so is the feed of a lever PULSE."""
    railway = f"""
supplies: {{PULSE: {{kind: pulse}}, D: {{kind: dc}}}}
strips: {{A1: }}
points: {{X: {{lever: {lever}}}, P5: , P6: }}
"""
    expected = ["wires of lever PULSE and of the supply PULSE would both be called PULSEF"]
    assert [problem.message for problem in heads(railway)] == (expected if lever == "PULSE" else [])


def test_two_chains_of_one_code_are_told_apart() -> None:
    railway = "supplies: {D: {kind: dc}, CAB: {kind: track}}\nstrips: {A1: }\nfunctions: {track: {code: L}}\n"
    railway += "devices: {H1: {kind: lamps}, S1: {kind: section, lever: 1}}"
    assert {wire.head for wire in wired(railway)[0].wires} >= {"DL", "CABL"}
    assert heads(railway) == []


def test_marks_that_run_together() -> None:
    """1 + F + the mark N, and lever 1F + N."""
    railway = """
supplies: {A: {kind: pulse}}
strips: {A1: }
kinds: {odd: {terminals: {T: }, supply: pulse, lever_type: on-off,
        group: [{function: feed, mark: N, contact: 1, terminal: T}]}}
points: {P1F: }
devices: {X: {kind: odd, lever: 1}}
"""
    assert [problem.message for problem in heads(railway)] == [
        "wires of lever 1 and of lever 1F would both be called 1FN"
    ]


def test_listed_wires_share_the_head_of_what_they_join() -> None:
    railway = "supplies: {A: {kind: pulse}}\nstrips: {A1: }\npoints: {P5: }\nwires: [{from: A1.1, to: A1.9}]"
    assert heads(railway) == []


def test_numbers_that_the_builder_gave_twice() -> None:
    railway = """
strips: {A1: }
wires:
  - {from: A1.1, to: A1.2, number: 12}
  - {from: A1.3, to: A1.4}
  - {from: A1.5, to: A1.6, number: 012}
  - {from: A1.7, to: A1.8, number: 12}
"""
    (problem,) = repeated_numbers(described(railway), wired(railway)[0])
    assert (problem.code, problem.place.source) == ("repeated-number", "wires.3.number")
    assert problem.message == "wire number 12 is given twice: A1.1 to A1.2, and A1.7 to A1.8"


def test_a_lever_that_works_nothing() -> None:
    railway = """
supplies: {A: {kind: pulse}}
strips: {A1: }
levers: {5: {name: quay}, 7: {name: wharf}, 9: {spare: yes}}
points: {P5: }
"""
    (problem,) = idle_levers(described(railway), wired(railway)[0])
    assert (problem.code, problem.place.source, problem.message) == (
        "lever-works-nothing", "levers.7", "lever 7 works nothing",
    )  # fmt: skip
    assert problem.hint.startswith("Write `spare: yes`")


def test_a_lever_that_was_written_with_its_l() -> None:
    railway = "supplies: {A: {kind: pulse}}\nstrips: {A1: }\nlevers: {L5: {name: quay}, L6: }\npoints: {P5: }\n"
    one, other = idle_levers(described(railway), wired(railway)[0])
    assert one.hint.startswith("Lever 5 is written `5:` here")
    assert other.hint.startswith("Write `spare: yes`"), "there is no lever 6"


@pytest.mark.parametrize(
    ("things", "place"),
    [
        ("strips: {A1: {shown: TB}, A2: {shown: TB}}", "strips.A2.shown"),
        ("strips: {A1: {shown: A2}, A2: }", "strips.A1.shown"),  # the other is known by its id
        ("strips: {A1: {shown: X}}\nboards: {W: {shown: X}}", "strips.A1.shown"),
        ("levers: {5: {shown: 7}, 7: {spare: yes}}", "levers.5.shown"),
        ("levers: {5: {shown: V}, 7: {shown: v}}", "levers.7.shown"),
        ("strips: {A1: {shown: a2}, A2: {shown: TB}}", "strips.A1.shown"),  # lists may still say A2
        ("strips: {A1: {shown: L5}}\nlevers: {5: {spare: yes}}", "strips.A1.shown"),
        ("strips: {A1: {shown: LV}}\nlevers: {5: {spare: yes, shown: V}}", "levers.5.shown"),
        ("strips: {LV: }\nlevers: {5: {spare: yes, shown: V}}", "levers.5.shown"),
        ("strips: {A1: {shown: L5}}\nsupplies: {P: {kind: pulse}}\npoints: {P5: }", "strips.A1.shown"),
        ("boards: {W: {holes: {H1: {at: [1, 1], shown: A1}}}}\nstrips: {A1: }", "boards.W.holes.H1.shown"),
    ],
)
def test_two_things_that_are_painted_alike(things: str, place: str) -> None:
    found = painted_alike(described(things), wired(things)[0])
    assert [(problem.code, problem.place.source) for problem in found] == [("repeated-id", place)]


@pytest.mark.parametrize(
    "things",
    [
        "strips: {A1: {shown: TB}, A2: {shown: TB2}}",
        "strips: {A1: {shown: A1}}",
        "levers: {5: {shown: 5}, 7: {shown: V}}",
        "strips: {A1: {shown: 5}}\nlevers: {5: {spare: yes}}",  # levers have a space of their own
    ],
)
def test_things_that_are_not_painted_alike(things: str) -> None:
    assert painted_alike(described(things), wired(things)[0]) == []


def test_two_things_that_changed_their_names() -> None:
    """A list that says A1.3 could mean either."""
    things = "strips: {A1: {shown: A2}, A2: {shown: A1}}"
    found = painted_alike(described(things), wired(things)[0])
    assert [problem.place.source for problem in found] == ["strips.A1.shown", "strips.A2.shown"]
    assert found[0].message == "A1 is shown as A2, and A2 is called so too"


def test_a_spare_that_works_something() -> None:
    railway = "supplies: {A: {kind: pulse}}\nstrips: {A1: }\npoints: {P5: }\nlevers: {5: {spare: yes}, 7: {spare: yes}}"
    netlist = wired(railway)[0]
    (problem,) = working_spares(described(railway), netlist)
    assert (problem.code, problem.place.source) == ("spare-lever-works", "levers.5.spare")
    assert problem.message == "lever 5 is called a spare, and works P5"
    assert [lever.spare for lever in netlist.levers] == [False, True], "its plate must not say so"


@pytest.mark.parametrize("shown", ["MATRIX", "Route1"])
def test_nothing_is_painted_with_the_name_of_what_routes_bring(shown: str) -> None:
    railway = f"""
        supplies: {{PULSE: {{kind: pulse}}}}
        strips: {{A1: {{shown: {shown}}}}}
        points: {{P1: , P2: }}
        routes: {{Yard: {{1: normal, 2: reverse}}}}
    """
    (problem,) = painted_alike(described(railway), wired(railway)[0])
    assert (problem.code, problem.place.source) == ("repeated-id", "strips.A1.shown")
