"""Droppers, addresses, clamps, plugs, bundles and spares."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks import addresses, bundles, clamps, droppers, plug_practice, spares
from labelgen.checks.check_list import Check
from labelgen.problems import Problem
from labelgen.reading.description_reader import read_description_text


def problems(check: Check, text: str) -> list[Problem]:
    return check(described(text), wired(text)[0])


FEED = (
    "boards: {B: {size: [3000, 600], at: [0, 0]}}\nsupplies: {CAB: {kind: track, at: [0, 0]}}\n"
    "strips: {A1: {at: [100, 300], ways: 2}}\ndevices: {F: {kind: track-feed, at: [%s, 300]}}\nfunctions: {track: %s}\n"
)


@pytest.mark.parametrize(
    ("x", "size", "found"),
    [
        (380, "16/0.2", 0),
        (1100, "16/0.2", 1),
        (1100, "1/0.6", 1),
        (1100, "24/0.2", 0),
        (1100, "thick", 0),
    ],
)
def test_thin_wires_to_the_rails_are_short(x: int, size: str, found: int) -> None:
    told = problems(droppers.long_droppers, FEED % (x, f"{{size: {size}}}"))
    assert [(one.code, one.place.source) for one in told] == [("long-dropper", "devices.F")] * found


def test_the_longest_is_told_and_slack_does_not_count() -> None:
    text = FEED % (1100, "{size: 16/0.2}") + "slack: {strip: 1000, device: 1000, round: 1}\n"
    both = text.replace("functions: {", "functions: {track-return: {size: 7/0.2}, ")
    (problem,) = problems(droppers.long_droppers, both)
    # From way 1, half a pitch of 10 mm left of the middle, to the rail.
    assert problem.message == "wire FT to the rails of F is 16/0.2 and runs 1005 mm"


def test_wires_without_a_length_are_not_judged() -> None:
    text = "supplies: {CAB: {kind: track}}\nstrips: {A1: }\ndevices: {F: {kind: track-feed}}\n"
    text += "functions: {track: {size: 1/0.6}}"
    assert problems(droppers.long_droppers, text) == []


@pytest.mark.parametrize(
    ("runs", "found"),
    [
        (("1-4", "5-8", "9"), []),
        (("5-8", "1-5"), [("D1", "address 5")]),
        (("1-8", "2-3", "4-6"), [("D2", "the addresses 2 to 3"), ("D3", "the addresses 4 to 6")]),
        (("7", "7"), [("D2", "address 7")]),
    ],
)
def test_each_address_belongs_to_one_decoder(runs: tuple[str, ...], found: list[tuple[str, str]]) -> None:
    devices = ", ".join(f"D{n}: {{kind: accessory-bus, addresses: {run}}}" for n, run in enumerate(runs, 1))
    text = f"supplies: {{BUS: {{kind: digital}}}}\nstrips: {{A1: {{ways: 24}}}}\ndevices: {{{devices}}}"
    told = problems(addresses.overlapping_addresses, text)
    assert [one.place.source for one in told] == [f"devices.{device}.addresses" for device, _ in found]
    assert [words in one.message for one, (_, words) in zip(told, found, strict=True)] == [True] * len(found)


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        ("5-", "bad-number"),
        ("a", "bad-number"),
        ("1-2-3", "bad-number"),
        ("0", "out-of-range"),
        ("8-5", "out-of-range"),
        ("2045", "out-of-range"),
        ("[1]", "bad-number"),
    ],
)
def test_what_is_no_run_of_addresses(typed: str, code: str) -> None:
    _, found = read_description_text(f"railway: x\ndevices: {{D: {{kind: accessory-bus, addresses: {typed}}}}}\n")
    assert [one.code for one in found] == [code]


POINTS = "supplies: {PULSE: {kind: pulse}}\nstrips: {A1: {bore: %s}}\npoints: {P5: , P6: }\n"


@pytest.mark.parametrize(
    ("bore", "found"),
    [
        # A bundle of 16 strands of 0.2 mm is 4.61543 × 0.2 = 0.923 mm thick ("Circle packing in a circle"), and two
        # such are twice that: the feed's wire comes in and its link goes out.
        (1.84, 1),
        (1.85, 0),
        (0.9, 1),
    ],
)
def test_what_a_screw_entry_takes(bore: float, found: int) -> None:
    told = problems(clamps.overfull_clamps, POINTS % bore)
    assert [one.place.source for one in told] == ["strips.A1.bore"] * found


def test_the_first_way_that_is_too_full_is_told() -> None:
    (problem,) = problems(clamps.overfull_clamps, POINTS % 1.84)
    assert problem.message == "A1.2 is to hold 16/0.2, 16/0.2, 1.85 mm of copper, in a bore of 1.84 mm"


def test_without_a_bore_nothing_is_said() -> None:
    assert problems(clamps.overfull_clamps, POINTS.replace("{bore: %s}", "")) == []


@pytest.mark.parametrize(
    ("size", "found"),
    [
        ("16/0.2", 0),
        ("7/0.2", 0),
        ("4/0.2", 1),
        ("64/0.2", 1),
        ("1/0.8", 1),
        ("0.5 mm2", 0),
        ("20 AWG", 0),
        ("10 mm2", 1),
        ("thick", 0),
    ],
)
def test_sizes_that_do_not_go_together(size: str, found: int) -> None:
    """A size in mm² or gauge does not say how many strands it has: only its copper is compared."""
    text = (
        POINTS.replace("{bore: %s}", "") + f"wires: [{{from: A1.1/layout, to: A1.11, size: {size}, function: normal}}]"
    )
    assert [one.place.source for one in problems(clamps.unlike_sizes, text)] == ["strips.A1"] * found


JOINT = """
boards: {W: {size: [900, 600], at: [0, 0]}, E: {size: [900, 600], right_of: W}, F: {size: [900, 600], right_of: E}}
supplies: {PULSE: {kind: pulse, board: W}, %s}
strips: {A1: {board: W}, B1: {board: E}}
plugs: {J1: {boards: [W, E], pins: 9, %s}}
points: {P5: {board: W, supply: PULSE}, P6: {board: E, supply: PULSE}}
"""


@pytest.mark.parametrize(
    ("more", "gender", "found"),
    [
        ("", "gender: {W: plug, E: socket}", ["plugs.J1.gender.W"]),
        ("", "gender: {W: plug, E: plug}", ["plugs.J1.gender.W"]),
        ("", "gender: {W: socket, E: plug}", []),
        ("", "gender: {W: socket, E: socket}", []),
        ("", "keep_empty: [9]", []),
    ],
)
def test_pins_that_are_live_when_pulled_apart(more: str, gender: str, found: list[str]) -> None:
    assert [one.place.source for one in problems(plug_practice.live_pins, JOINT % (more, gender))] == found


def test_a_joint_that_is_fed_from_both_sides_cannot_be_right() -> None:
    text = JOINT % ("LIGHT: {kind: dc, board: E}", "gender: {W: plug, E: socket}")
    text += "devices: {H1: {kind: lamps, board: W}}"
    assert problems(plug_practice.live_pins, text) == []


def test_one_pin_is_left_out() -> None:
    (problem,) = problems(plug_practice.plugs_without_empty_pin, JOINT % ("", "gender: {}"))
    assert (problem.code, problem.place.source) == ("no-empty-pin", "plugs.J1")
    assert problems(plug_practice.plugs_without_empty_pin, JOINT % ("", "keep_empty: [9]")) == []
    two = (JOINT % ("", "")).replace("pins: 9", "pins: 2")
    assert problems(plug_practice.plugs_without_empty_pin, two) == []


HOLE = """
boards: {B: {size: [900, 600], at: [0, 0], holes: {H: {at: [300, 300]}}}}
supplies: {BUS: {kind: digital, at: [0, 0]}, LIGHT: {kind: dc, at: [0, 100]}}
strips: {A1: {at: [600, 400], ways: 24}}
devices:
  D1: {kind: accessory-bus, at: [200, 200], above: %s}
  L1: {kind: lamps, at: [400, 200], above: %s}
"""


@pytest.mark.parametrize(
    ("bus", "lamps", "found"), [("yes", "yes", 1), ("yes", "no", 0), ("no", "yes", 0), ("no", "no", 0)]
)
def test_a_bus_runs_by_itself(bus: str, lamps: str, found: int) -> None:
    told = problems(bundles.boosters_with_others, HOLE % (bus, lamps))
    assert [one.place.source for one in told] == ["boards.B.holes.H"] * found


def test_a_railway_without_digital_has_no_bus() -> None:
    text = HOLE.replace("kind: digital", "kind: track").replace("accessory-bus", "track-feed")
    assert problems(bundles.boosters_with_others, text % ("yes", "yes")) == []


@pytest.mark.parametrize(
    ("strip", "found"), [("ways: 3", 1), ("ways: 4", 0), ("ways: 4, keep: [4]", 0), ("ways: 4, taken: {4: bell}", 1)]
)
def test_a_way_to_spare(strip: str, found: int) -> None:
    text = f"supplies: {{PULSE: {{kind: pulse}}}}\nstrips: {{A1: {{{strip}}}}}\npoints: {{P5: }}"
    assert [one.code for one in problems(spares.full_strips, text)] == ["no-spare-ways"] * found


def test_spare_ways_are_told_of_once() -> None:
    strips = ", ".join(f"A{number}: {{ways: 3}}" for number in range(1, 10))
    points = ", ".join(f"P{number}: " for number in range(1, 10))
    text = f"supplies: {{PULSE: {{kind: pulse}}}}\nstrips: {{{strips}}}\npoints: {{{points}}}"
    (problem,) = problems(spares.full_strips, text)
    assert problem.message == "there is not one spare way on A1, A2, A3, A4, A5, A6 and 3 more"


FRAME = """
supplies: {PULSE: {kind: pulse}}
strips: {A1: {ways: 60}}
panels: {Q: {levers: {row: 4}}}
points: {%s}
levers: {%s}
"""


@pytest.mark.parametrize(
    ("points", "levers", "gaps"),
    [
        ("P1: , P2: , P3: ", "", None),
        ("P1: , P2: , P4: ", "", "3"),
        ("P1: , P2: , P4: ", "3: {spare: yes}", None),
        ("P1: , P2: , P3: , P4: , P7: , P8: ", "", "5, 6"),
        ("P1: , P40: ", "", None),
        ("PA: , PB: ", "", None),
        ("", "", None),
    ],
)
def test_a_gap_in_a_row_of_levers(points: str, levers: str, gaps: str | None) -> None:
    told = problems(spares.gaps_in_frames, FRAME % (points, levers))
    assert [one.message.rpartition("leave out ")[2] for one in told] == ([gaps] if gaps else [])
    assert problems(spares.gaps_in_frames, (FRAME % (points, levers)).replace("levers: {row: 4}", "name: mosaic")) == []


def test_levers_of_another_panel_are_no_gap() -> None:
    text = FRAME % ("P1: , P2: , P3: ", "2: {panel: OTHER}")
    assert (
        problems(
            spares.gaps_in_frames,
            text.replace("panels: {", "panels: {OTHER: {}, ").replace("P1: , P2", "P1: {panel: Q}, P2"),
        )
        == []
    )
