"""Renames and numbers over the years: sections 3, 5.7 and 8."""

from dataclasses import replace
from typing import Any

import pytest
from wiring.recorded_builder import Made, remade
from wiring.wiring_builder import read

from labelgen.model.built.built_labels import PrintedLabel
from labelgen.model.built.record_changes import changes
from labelgen.problems import has_errors

RAILWAY = """
    supplies: {PULSE: {kind: pulse}}
    strips: {A1: {ways: 30}}
"""


def railway(points: str, wires: str = "") -> dict[str, Any]:
    return {**read(RAILWAY), "points": read(points), "wires": read(wires) or []}


def codes(made: Made, changed: dict[str, Any]) -> list[tuple[str, str]]:
    return [(problem.code, problem.place.source) for problem in remade(changed, made.record)[2]]


def test_a_renamed_point_keeps_its_ways_and_numbers_and_its_lever_goes_with_it() -> None:
    before = Made(railway("{P5: {}, P6: {}}"))
    after = before.then(railway("{P50: {was: P5}, P6: {}}"))
    assert after.ways("P50") == before.ways("P5")
    assert after.wires == {
        number: wire.replace("P5.", "P50.").replace("L5.", "L50.") for number, wire in before.wires.items()
    }
    assert after.record.retired == ()


def test_the_word_stays_without_effect_afterwards() -> None:
    after = Made(railway("{P5: {}}")).then(railway("{P50: {was: P5}}"))
    later = after.then(railway("{P50: {was: P5}, P5: {}}"))
    assert after.wires.items() <= later.wires.items()
    assert later.ways("P5") == ["A1.4", "A1.5", "A1.6"]


def test_without_the_word_it_is_another_point() -> None:
    before = Made(railway("{P5: {}}"))
    after = before.then(railway("{P50: {}}"))
    assert not before.wires.keys() & after.wires.keys()
    assert len(after.record.retired) == len(before.wires)


def test_a_lever_that_still_works_something_stays() -> None:
    before = Made(railway("{P5A: {}, P5B: {}}"))
    after = before.then(railway("{P5A: {}, P9: {was: P5B}}"))
    assert {"L5.N A1.1", "A1.1 P5A.N"} <= {*after.wires.values()}
    assert after.ways("P5A") == before.ways("P5A")
    assert "L9.N A1.4" in after.wires.values()


def test_both_ends_of_a_crossover_renamed() -> None:
    before = Made(railway("{P5A: {}, P5B: {}}"))
    after = before.then(railway("{P7A: {was: P5A}, P7B: {was: P5B}}"))
    assert after.wires.keys() == before.wires.keys()
    assert after.wires[1] == "L7.N A1.1"


def test_renamed_apart_the_lever_does_not_know_with_whom_to_go() -> None:
    before = Made(railway("{P5A: {}, P5B: {}}"))
    after = before.then(railway("{P7: {was: P5A}, P8: {was: P5B}}"))
    assert "L7.N A1.1" in after.wires.values()
    assert after.wires.get(1) is None


def test_a_lever_that_is_recorded_already_is_no_new_name() -> None:
    before = Made(railway("{P5: {}, P6: {}}"))
    after = before.then(railway("{P5X: {was: P5, lever: 6}, P6: {}}"))
    assert after.ways("P5X") == ["A1.1", "A1.3"], "the feed is the first group's alone"
    assert after.wires[6] == before.wires[6]


def test_one_thing_has_one_past() -> None:
    before = Made(railway("{P5: {}}"))
    assert codes(before, railway("{P5: {}, P6: {was: P5}}")) == [("repeated-id", "points.P6.was")]
    assert codes(before, railway("{P6: {was: P5}, P7: {was: P5}}")) == [("repeated-id", "points.P7.was")]


def test_a_device_without_a_lever_or_a_way_is_renamed_too() -> None:
    kinds = """
        {clock: {terminals: {p: , m: }, supply: dc, chain: [{function: feed, terminal: p, supply: feed},
          {function: return, terminal: m, supply: return}]}}
    """
    base = {"supplies": read("{LIGHTS: {kind: dc}}"), "strips": {"A1": {}}, "kinds": read(kinds)}
    before = Made({**base, "devices": read("{CLOCK: {kind: clock}, H1: {kind: lamps}}")})
    after = before.then({**base, "devices": read("{HALL: {kind: clock, was: CLOCK}, H2: {kind: lamps, was: H1}}")})
    assert after.wires.keys() == before.wires.keys()
    assert after.record.groups[0].circuit == "H2"


def test_pins_go_with_the_name() -> None:
    base = read("""
        boards: {West: {}, East: {}}
        supplies: {PULSE: {kind: pulse, board: East}}
        strips: {A1: {board: East}}
        panels: {QUAY: {board: West}}
        plugs: {J1: {boards: [West, East], pins: 12}}
    """)
    before = Made({**base, "points": read("{P5: {board: East}}")})
    after = before.then({**base, "points": read("{P1: {board: East}, P50: {board: East, was: P5}}")})
    pins = {f"{one.start} {one.finish}": one.pins for one in after.record.pins}
    assert [pins[f"L50.{contact} A1.{way}"] for contact, way in (("N", 1), ("F", 2), ("R", 3))] == [
        one.pins for one in before.record.pins
    ]
    assert len({*pins.values()}) == 6
    assert after.wires.keys() >= before.wires.keys()


def test_a_listed_wire_keeps_its_pins_too() -> None:
    base = read("""
        boards: {West: {}, East: {}}
        supplies: {PULSE: {kind: pulse, board: East}}
        strips: {A1: {board: East}, B1: {board: West}}
        panels: {QUAY: {board: West}}
        plugs: {J1: {boards: [West, East], pins: 12}}
        wires: [{from: B1.12, to: A1.12, function: feed}]
    """)
    before = Made({**base, "points": read("{P5: {board: East}}")})
    after = before.then({**base, "points": read("{P1: {board: East}, P5: {board: East}}")})
    assert before.wires.items() <= after.wires.items()
    assert {one.pins for one in before.record.pins} <= {one.pins for one in after.record.pins}


# Numbers.


def test_the_builders_number_stays_when_the_list_no_longer_says_it() -> None:
    before = Made(railway("{P5: {}}", "[{from: L5.N, to: A1.1, number: W17}]"))
    after = before.then(railway("{P5: {}}", "[{from: L5.N, to: A1.1}]"))
    assert before.wires == after.wires
    assert after.wires["W17"] == "L5.N A1.1"


def test_a_number_of_ours_that_the_builder_replaces_is_retired() -> None:
    before = Made(railway("{P5: {}}"))
    after = before.then(railway("{P5: {}}", "[{from: L5.N, to: A1.1, number: W17}]"))
    assert [wire.number for wire in after.record.retired] == [1]
    assert before.wires.items() - after.wires.items() == {(1, "L5.N A1.1")}


def test_new_numbers_pass_those_of_the_builder() -> None:
    before = Made(railway("{P5: {}}", "[{from: L5.N, to: A1.1, number: 8}]"))
    after = before.then(railway("{P5: {}, P6: {}}", "[{from: L5.N, to: A1.1, number: 8}]"))
    new = sorted(wire.number for wire in after.record.wires if wire.number not in before.wires)
    assert new == [7, 9, 10, 11, 12, 13, 14]


@pytest.mark.parametrize("number", [1, 7])
def test_the_builder_cannot_give_a_number_that_another_wire_has_or_had(number: int) -> None:
    """7 was the return to P5, 1 is still the first wire of P4."""
    before = Made(railway("{P4: {}, P5: {}}")).then(railway("{P4: {}}"))
    gone = next(wire.number for wire in before.record.retired)
    chosen = number if number == 1 else gone
    listed = f"[{{from: A1.29, to: A1.30, number: {chosen}}}]"
    assert codes(before, railway("{P4: {}}", listed)) == [("repeated-number", "wires.0.number")]


def test_recorded_wires_come_first_and_in_their_order() -> None:
    before = Made(railway("{P5: {}}"))
    after = before.then(railway("{P4: {}, P5: {}}"))
    assert [wire.number for wire in after.netlist.wires] == list(range(1, 15))
    assert list(after.wires)[:7] == list(before.wires)


# What came, went and moved.


def test_changes_against_nothing_are_everything() -> None:
    made = Made(railway("{P5: {}}"))
    found = changes(None, made.record)
    assert (len(found.came), found.went, found.moved) == (7, (), ())
    assert not changes(made.record, made.record)


def test_changes_name_what_moved() -> None:
    before = Made(railway("{P5: {}}"))
    moved = before.then(railway("{P5: {strip: A1, way: 7, accepted: {moved: a burnt way}}}"))
    found = changes(before.record, moved.record)
    assert [(move.what, move.was, move.now) for move in found.moved] == [
        ("P5 normal", "A1.1", "A1.7"),
        ("P5 feed", "A1.2", "A1.8"),
        ("P5 reverse", "A1.3", "A1.9"),
    ]
    assert [wire.number for wire in found.went] == [1, 2, 3, 4, 5, 6]
    assert {wire.start for wire in found.came} == {"L5.N", "L5.F", "L5.R", "A1.7", "A1.9", "PULSE.feed"}


def test_changes_name_pins_that_are_others() -> None:
    """The plug through which it ran is gone."""
    base = """
        boards: {{West: {{}}, East: {{}}}}
        supplies: {{CAB: {{kind: track, board: West}}}}
        strips: {{A1: {{board: West}}}}
        plugs: {{{plug}: {{boards: [West, East], pins: 12}}}}
        devices: {{S1: {{kind: section, lever: none, board: East, strip: A1}}}}
    """
    before = Made(read(base.format(plug="J1")))
    after = before.then(read(base.format(plug="J2")))
    found = changes(before.record, after.record)
    assert before.record.pins
    assert [(move.was[:3], move.now[:3]) for move in found.moved] == [("J1.", "J2.")] * len(before.record.pins)


# Laid out anew.


def test_afresh_only_what_is_printed_stays() -> None:
    """The flags of wire 9 (lever 6, reverse) are stuck on: its group stays, and its number."""
    before = Made(railway("{P5: {}, P6: {}}"))
    printed = replace(before.record, printed=(PrintedLabel(kind="flags", label="9"),)).only_printed()
    after = Made(railway("{P4: {}, P5: {}, P6: {}}"), printed)
    assert after.wires[9] == before.wires[9] == "L6.R A1.6"
    assert after.ways("P6") == before.ways("P6")
    assert after.ways("P4") == ["A1.1", "A1.2", "A1.3"]
    assert after.ways("P5") == ["A1.7", "A1.8", "A1.9"]


def test_a_printed_marker_holds_its_strip() -> None:
    before = Made(railway("{P5: {}, P6: {}}")).then(railway("{P6: {}}"))
    record = replace(before.record, printed=(PrintedLabel(kind="markers", label="A1"),))
    after = Made(railway("{P4: {}, P6: {}}"), record.only_printed())
    assert after.ways("P6") == before.ways("P6")
    assert after.ways("P4") == ["A1.7", "A1.8", "A1.9"]
    on_the_strip = {(number, wire) for number, wire in before.wires.items() if "A1." in wire}
    assert on_the_strip <= after.wires.items()


def test_a_printed_piece_of_a_chain_is_joined_to_the_supply_again() -> None:
    before = Made(railway("{P4: {}, P5: {}, P6: {}}"))
    (number,) = [number for number, wire in before.wires.items() if wire == "P5.C P6.C"]
    printed = replace(before.record, printed=(PrintedLabel(kind="flags", label=str(number)),)).only_printed()
    after = Made(railway("{P4: {}, P5: {}, P6: {}}"), printed)
    assert after.wires[number] == "P5.C P6.C"
    assert after.chain("PULSE", "return") == {"PULSE.return P4.C", "P4.C P5.C", "P5.C P6.C"}


def test_what_is_retired_and_printed_is_never_given_again() -> None:
    before = Made(railway("{P5: {}, P6: {}}")).then(railway("{P5: {}}"))
    printed = replace(before.record, printed=(PrintedLabel(kind="flags", label="10"),)).only_printed()
    assert [wire.number for wire in printed.retired] == [10]
    after = Made(railway("{P5: {}, P6: {}}"), printed)
    assert 10 not in after.wires


EVERYTHING = """
    boards: {West: {}, East: {right_of: West}}
    supplies: {PULSE: {kind: pulse, board: West}}
    strips: {A1: {board: West}, B1: {board: East}}
    plugs: {J1: {boards: [West, East], pins: 25}}
    levers: {6: {}}
    points: {P5: {board: West}, P6: {board: West}, P8: {board: East}}
"""


@pytest.mark.parametrize(
    ("old", "new", "ends"),
    [
        ("supplies: {PULSE: {kind", "supplies: {BANK: {was: PULSE, kind", ("PULSE.", "BANK.")),
        ("strips: {A1: {board", "strips: {Q9: {was: A1, board", ("A1.", "Q9.")),
        ("plugs: {J1: {boards", "plugs: {D1: {was: J1, boards", ("J1.", "D1.")),
        ("levers: {6: {}}", "levers: {60: {was: 6}}", ("L6.", "L60.")),
    ],
)
def test_whatever_is_renamed_nothing_moves(old: str, new: str, ends: tuple[str, str]) -> None:
    """P5 is gone since: its ways and pins are spare, and stay so under the new name."""
    gone = EVERYTHING.replace("P5: {board: West}, ", "")
    before = Made(read(EVERYTHING)).then(read(gone))
    renamed = gone.replace(old, new).replace("P6: {", "P6: {lever: 60, " if "60" in new else "P6: {")
    assert renamed != gone
    after = before.then(read(renamed))
    assert after.wires == {number: wire.replace(*ends) for number, wire in before.wires.items()}
    assert len(after.record.retired) == len(before.record.retired)
    assert len(after.record.spare) == len(before.record.spare) > 0
    assert after.then(read(renamed)).record == after.record
    _, without, problems = remade(read(renamed.replace("was:", "name:")), before.record)
    is_another = len(without.retired) > len(before.record.retired)
    assert is_another or has_errors(problems), "without the word it is another thing"


def test_two_strips_cannot_both_be_what_was_one() -> None:
    before = Made(read(EVERYTHING))
    twice = EVERYTHING.replace("{A1: {board: West}", "{A2: {board: West, was: A1}, A3: {board: West, was: A1}")
    assert ("repeated-id", "strips.A3.was") in codes(before, read(twice))
