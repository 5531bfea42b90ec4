"""What was not measured is said once."""

from wiring.wiring_builder import described, wired

from labelgen.checks.check_list import CHECKS, check
from labelgen.checks.measures import guessed_pitches, named, tiny_pitches, unknown_lengths, wide_pitches
from labelgen.problems import CODES

RAILWAY = """
supplies: {PULSE: {kind: pulse, at: [0, 0]}}
strips: {A1: {at: [100, 100], pitch: 9}, A10: , A9: {amps: 3}, A8: {measured: 99}}
points: {P5: {at: [50, 50], strip: A1}}
"""


def test_guessed_pitches_are_told_together() -> None:
    (problem,) = guessed_pitches(described(RAILWAY), wired(RAILWAY)[0])
    assert (problem.code, problem.place.source) == ("pitch-not-measured", "strips.A9")
    assert problem.message.startswith("the pitch of A9, A10 is ")
    measured = RAILWAY.replace(", A10: , A9: {amps: 3}", "")
    assert guessed_pitches(described(measured), wired(measured)[0]) == []


def test_a_strip_that_was_measured_in_centimetres() -> None:
    strips = "strips: {A1: {measured: 11}, A2: {pitch: 1}, A3: {measured: 110}, A4: {pitch: 2.54}, A5: }"
    found = tiny_pitches(described(strips), wired(strips)[0])
    assert [(problem.code, problem.place.source) for problem in found] == [
        ("tiny-pitch", "strips.A1.measured"),
        ("tiny-pitch", "strips.A2.pitch"),
    ]
    assert found[0].message == "the ways of strip A1 would be 1 mm apart"


def test_wires_without_a_length_are_counted() -> None:
    (problem,) = unknown_lengths(described(RAILWAY), wired(RAILWAY)[0])
    assert (problem.code, problem.place.source) == ("no-lengths", "railway")
    # without a panel the lever's three wires cannot be measured; the other four can
    assert "3 of 7 wires have no length" in problem.message
    assert "L5" in problem.message
    placed = RAILWAY + "panels: {Q: {at: [0, 100], exit: [0, 0], levers: {5: [1, 1]}}}"
    assert unknown_lengths(described(placed), wired(placed)[0]) == []


def test_what_has_no_place_is_named() -> None:
    railway = RAILWAY.replace("P5: {at: [50, 50], strip: A1}", "P5: {strip: A1}, P6: {at: [1, 1], strip: A1}")
    placed = railway + "panels: {Q: {at: [0, 100], exit: [0, 0], levers: {5: [1, 1], 6: [1, 2]}}}"
    (problem,) = unknown_lengths(described(placed), wired(placed)[0])
    # P5's two coils and its two returns; A1 and P6 have their places
    assert "4 of 14 wires have no length" in problem.message
    assert "P5" in problem.message
    assert "P6" not in problem.message


def test_a_long_list_is_cut_short() -> None:
    assert named(list("abcdef")) == "a, b, c, d, e, f"
    assert named(list("abcdefgh")) == "a, b, c, d, e, f and 2 more"


def test_every_check_is_run() -> None:
    railway = """
supplies: {PULSE: {kind: pulse}}
strips: {A1: {entry_limit: 1}}
levers: {9: }
points: {P5: }
devices: {5: {kind: twin-coil}}
panels: {Q: {size: [50, 50], tracks: {main: [[1, 1]]}}}
wires:
  - {from: A1.1, to: A1.12, number: x}
  - {from: A1.3, to: A1.11, number: x}
  - {from: A1.8, to: A1.9}
  - {from: A1.9, to: A1.10}
  - {from: A1.10, to: A1.8}
"""
    description = described(railway)
    problems = check(description, wired(railway)[0])
    assert {problem.code for problem in problems} >= {
        "ring", "equal-heads", "repeated-number", "lever-works-nothing", "entry-crowded",
        "pitch-not-measured", "no-lengths", "bad-track",
    }  # fmt: skip
    assert {problem.code for problem in problems} <= CODES.keys()
    assert len(set(CHECKS)) == len(CHECKS)


def test_a_strip_whose_ways_were_not_counted() -> None:
    """231 mm over 11 gaps are 21 mm, over 23 just above 10; 14 mm is what large strips have."""
    strips = (
        "strips: {A1: {measured: 231}, A2: {ways: 24, measured: 500}, A3: {ways: 24, measured: 231}, A4: {pitch: 16},"
        " A5: {pitch: 17}, A6: {amps: 60, pitch: 21}, A7: , A8: {ways: 24, tiers: 2, measured: 231}}"
    )
    found = wide_pitches(described(strips), wired(strips)[0])
    assert [(problem.code, problem.place.source) for problem in found] == [
        ("wide-pitch", "strips.A1.measured"),
        ("wide-pitch", "strips.A2.measured"),
        ("wide-pitch", "strips.A5.pitch"),
        ("wide-pitch", "strips.A8.measured"),
    ]
    assert found[0].message == "the ways of strip A1 would be 21 mm apart"
    assert "about 24 screws in a row are usual, and 12 are meant here, as nothing is said" in found[0].hint
    assert "24 are meant here. Count" in found[1].hint
    assert "to the next" in found[2].hint
    assert "12 are meant here. Count" in found[3].hint, "in one of its two rows"
