"""Feeds, gaps, loops and blocks on the diagram of a panel."""

import pytest
from wiring.wiring_builder import described, netlist_of

from labelgen.checks.track_feeds import track_feed_problems

WIRING = """
supplies: {DRIVE: {kind: dc}, CAB: {kind: track}, CAB2: {kind: track}, PULSE: {kind: pulse}}
strips: {A1: {ways: 60}}
points:
  P5: {kind: stall-motor, supplies: {rails: CAB}}
  P6: {kind: twin-coil}
devices:
  MAIN: {kind: dropper, supply: CAB}
  BACK: {kind: dropper, supply: CAB}
  OTHER: {kind: dropper, supply: CAB2}
  LOOP: {kind: reversing-loop, lever: 9, supply: CAB}
  DET: {kind: block-detector, supply: CAB}
  SEEN: {kind: dropper, supply: DET}
  REV: {kind: auto-reverser, supply: CAB}
  TURNED: {kind: dropper, supply: REV}
"""


def told(diagram: str) -> list[tuple[str, str, str]]:
    text = f"{WIRING}panels:\n  Q:\n    size: [300, 200]\n    grid: 10\n    {diagram}"
    found = track_feed_problems(described(text), netlist_of(text))
    return [(one.code, one.place.source.removeprefix("panels.Q."), one.message) for one in found]


def codes(diagram: str) -> list[str]:
    return [code for code, _, _ in told(diagram)]


LEADS = "tracks: {main: [[2, 6], [26, 6]], siding: [[10, 6], [14, 2], [26, 2]]}"


def with_point(point: str, feeds: str, breaks: str = "[]") -> str:
    return f"{LEADS}\n    points: {{{point}: [10, 6]}}\n    breaks: {breaks}\n    feeds: {{{feeds}}}"


def test_a_feed_at_the_toe_is_right() -> None:
    assert told(with_point("P5", "MAIN: [4, 6]")) == []


@pytest.mark.parametrize("place", ["[20, 6]", "[20, 2]", "[12, 4]"])
def test_a_feed_behind_a_live_crossing(place: str) -> None:
    ((code, at, message),) = told(with_point("P5", f"MAIN: {place}"))
    assert (code, at) == ("feed-at-crossing", "feeds.MAIN")
    assert "behind the live crossing of P5" in message


def test_a_crossing_that_is_not_switched_may_be_fed_from_behind() -> None:
    assert told(with_point("P6", "MAIN: [20, 6]")) == []


def test_a_gap_between_makes_it_right() -> None:
    assert told(with_point("P5", "MAIN: [4, 6], BACK: [20, 2]", "[[16, 2]]")) == []
    assert codes(with_point("P5", "MAIN: [[4, 6], [14.5, 2]]", "[[16, 2]]")) == ["feed-at-crossing", "stretch-unfed"]


def test_the_feed_is_found_through_other_points_and_round_a_loop() -> None:
    through = f"{LEADS}\n    points: {{P5: [10, 6], P6: [18, 6]}}\n    feeds: {{MAIN: [24, 6]}}"
    through = through.replace("siding:", "branch: [[18, 6], [22, 9], [26, 9]], siding:")
    assert codes(through) == ["feed-at-crossing"]
    oval = (
        "tracks: {ring: [[4, 2], [20, 2], [20, 8], [4, 8], [4, 2]], spur: [P5, [14, 5], [18, 5]]}\n"
        "    points: {P5: [10, 2]}\n    feeds: {MAIN: [6, 2]}"
    )
    assert codes(oval) == ["feed-at-crossing"]
    assert codes(f"{oval}\n    breaks: [[12, 8]]") == []


def test_a_stretch_that_nothing_feeds() -> None:
    line = "tracks: {main: [[2, 6], [26, 6]]}\n    breaks: [[10, 6], [18, 6]]\n    "
    ((code, at, message),) = told(f"{line}feeds: {{MAIN: [4, 6], BACK: [20, 6]}}")
    assert (code, at) == ("stretch-unfed", "tracks.main")
    assert message == "nothing feeds the stretch of track main between [10, 6] and [18, 6]"
    assert told(f"{line}feeds: {{MAIN: [[4, 6], [12, 6]], BACK: [20, 6]}}") == []
    assert told(f"{line}feeds: {{MAIN: [4, 6], BACK: [20, 6]}}\n    sections: {{LOOP: [12, 6]}}") == []
    assert told(f"{line}sections: {{MAIN: [4, 6]}}") == [], "where no feeds are written, none are missed"


def test_one_stretch_and_two_supplies() -> None:
    line = "tracks: {main: [[2, 6], [26, 6]]}\n    "
    assert told(f"{line}feeds: {{MAIN: [4, 6], BACK: [20, 6]}}") == []
    ((code, at, message),) = told(f"{line}feeds: {{MAIN: [4, 6], OTHER: [20, 6]}}")
    assert (code, at) == ("feeds-differ", "feeds.OTHER")
    assert message == "MAIN feeds one and the same stretch from CAB, and OTHER from CAB2"
    parted = f"{line}breaks: [[10, 6]]\n    feeds: {{MAIN: [4, 6], OTHER: [20, 6]}}"
    assert told(parted) == []
    section = f"{line}feeds: {{MAIN: [4, 6]}}\n    sections: {{OTHER: [20, 6]}}"
    assert codes(section) == ["feeds-differ"]


@pytest.mark.parametrize("feeds", ["SEEN: [4, 6], MAIN: [20, 6]", "MAIN: [20, 6], SEEN: [4, 6]"])
def test_a_dropper_on_the_wrong_side_of_a_detector(feeds: str) -> None:
    line = "tracks: {main: [[2, 6], [26, 6]]}\n    "
    ((code, _, message),) = told(f"{line}feeds: {{{feeds}}}")
    assert code == "detector-passed-by"
    assert message == "MAIN feeds the stretch that DET watches from CAB, past the detector"
    assert told(f"{line}breaks: [[10, 6]]\n    feeds: {{{feeds}}}") == []


def loop(breaks: str, one_rail: str, key: str = "sections: {LOOP: [14, 6]}") -> str:
    line = "tracks: {main: [[2, 6], [26, 6]]}"
    return f"{line}\n    breaks: {breaks}\n    one_rail: {one_rail}\n    {key}"


def test_a_loop_whose_rails_are_both_cut() -> None:
    assert told(loop("[[10, 6], [18, 6]]", "{A: []}")) == []


@pytest.mark.parametrize("key", ["sections: {LOOP: [14, 6]}", "sections: {TURNED: [14, 6]}"])
def test_a_loop_with_a_rail_that_goes_through(key: str) -> None:
    ((code, at, message),) = told(loop("[[10, 6], [18, 6]]", "{B: [[18, 6]]}", key))
    assert (code, at.split(".")[0]) == ("loop-not-isolated", "sections")
    assert "the break at [18, 6] cuts one of them only" in message


def test_a_loop_without_any_break() -> None:
    ((code, at, message),) = told(loop("[]", "{A: []}", "feeds: {LOOP: [14, 6]}"))
    assert (code, at) == ("loop-not-isolated", "feeds.LOOP")
    assert "no break parts them" in message


def test_a_plain_section_may_have_one_rail_cut() -> None:
    assert told(loop("[[10, 6], [18, 6]]", "{A: [[10, 6], [18, 6]]}", "sections: {MAIN: [14, 6]}")) == []


@pytest.mark.parametrize("device", ["DET", "SEEN"])
@pytest.mark.parametrize(
    ("one_rail", "found"),
    [
        ("{A: [[10, 6], [18, 6]]}", []),
        ("{A: [[10, 6]]}", []),
        ("{A: [[10, 6]], B: [[18, 6]]}", ["gaps-in-both-rails"]),
        ("{B: [[10, 6]], A: [[18, 6]]}", ["gaps-in-both-rails"]),
        ("{A: [[10, 6]], B: [[22, 6]]}", []),
    ],
)
def test_the_gaps_of_blocks_that_are_watched(device: str, one_rail: str, found: list[str]) -> None:
    """The last one is beyond the block."""
    breaks = "[[10, 6], [18, 6], [22, 6]]"
    assert codes(loop(breaks, one_rail, f"sections: {{{device}: [14, 6]}}")) == found


def test_gaps_of_what_nobody_watches_are_free() -> None:
    assert told(loop("[[10, 6], [18, 6]]", "{A: [[10, 6]], B: [[18, 6]]}", "sections: {MAIN: [14, 6]}")) == []


def test_a_panel_that_says_nothing_of_feeds_and_rails_is_not_looked_at() -> None:
    assert told("tracks: {main: [[2, 6], [26, 6]]}\n    breaks: [[10, 6]]\n    sections: {LOOP: [4, 6]}") == []
