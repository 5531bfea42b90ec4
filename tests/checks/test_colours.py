"""Colours of the builder's own that are taken for others."""

import pytest
from wiring.wiring_builder import described, netlist_of

from labelgen.checks.colours import colours_alike, several_colours
from labelgen.data_files import layouts
from labelgen.pipeline import check_file
from labelgen.problems import Problem, Severity
from labelgen.standards.colour_letters import COLOURS
from labelgen.standards.colour_vision import LEAST_APART, SEEN_BY, least_difference

TEXT = "supplies: {PULSE: {kind: pulse}}\nstrips: {A1: }\npoints: {P5: , P6: }\n"


def problems(more: str = "") -> list[Problem]:
    text = TEXT + more
    return colours_alike(described(text), netlist_of(text))


def told(more: str = "") -> list[tuple[str, str]]:
    return [(one.place.source, one.message) for one in problems(more)]


@pytest.mark.parametrize("palette", ["own", "nem605"])
def test_the_colour_sets_themselves_are_not_judged(palette: str) -> None:
    assert told(f"palette: {palette}\n") == []


@pytest.mark.parametrize("name", ["marram-quay", "starter"])
def test_our_own_railways_have_none(name: str) -> None:
    found = check_file(layouts("railways") / f"{name}.yaml")[1]
    assert "colours-alike" not in {one.code for one in found}


def test_a_colour_far_from_all_others_is_passed_over() -> None:
    assert told("functions: {normal: white}") == []


def test_the_pair_is_named_and_what_still_tells_it_apart() -> None:
    (problem,) = problems("functions: {normal: red}")
    assert (problem.code, problem.severity) == ("colours-alike", Severity.CAUTION)
    assert problem.message == "normal and feed are both red"
    assert problem.place.source == "functions.normal.colour"
    assert "the code letter and the pattern still tell them apart" in problem.hint


def test_only_the_letter_is_left_where_the_patterns_are_equal_too() -> None:
    (problem,) = problems("functions: {normal: {colour: red, pattern: solid}}")
    assert "only the code letter tells them apart" in problem.hint


def test_the_place_is_that_of_a_colour_which_the_builder_wrote() -> None:
    """`feed` comes after `normal`, and is the one that was changed."""
    assert told("functions: {feed: yellow}") == [("functions.feed.colour", "normal and feed are both yellow")]


def test_a_pair_of_ones_own_is_told_once() -> None:
    found = told("functions: {normal: white, reverse: white}")
    assert found == [("functions.reverse.colour", "normal and reverse are both white")]


def test_over_another_colour_set_the_builders_own_is_judged_too() -> None:
    """There the return is black (NEM 605, table 1)."""
    assert told("palette: nem605\nfunctions: {normal: black}") == [
        ("functions.normal.colour", "normal and return are both black")
    ]


def test_two_colours_on_one_wire_tell_it_from_each_of_them() -> None:
    assert told("functions: {normal: red/yellow, reverse: red/white}") == [], "feed is red"
    assert told("functions: {normal: red/blue, reverse: blue/red}") == [
        ("functions.reverse.colour", "normal and reverse are both red/blue")
    ], "a wire turns"


def test_paints_that_some_eyes_take_for_one_name_those_eyes(monkeypatch: pytest.MonkeyPatch) -> None:
    """The twelve are all far enough apart, so the limit is raised to where the nearest of these are not."""
    apart, vision = least_difference((COLOURS["VT"].paint,), (COLOURS["BU"].paint,))
    assert apart >= LEAST_APART
    monkeypatch.setattr("labelgen.checks.colours.LEAST_APART", apart + 0.001)
    (message,) = [message for _, message in told("functions: {normal: violet}") if "reverse" in message]
    assert message == f"normal (violet) and reverse (blue) look alike to {SEEN_BY[vision]}"


def test_what_no_wire_has_is_not_judged() -> None:
    assert told("functions: {lamp: red}") == []


def test_a_function_without_a_colour_is_like_no_other() -> None:
    bell = "wires: [{from: A1.10, to: A1.11, function: bell}]\nfunctions: {normal: white, bell: {code: Q}}"
    assert "bell" in {wire.function for wire in netlist_of(TEXT + bell).wires}
    assert told(bell) == []


def test_for_a_black_and_white_printer_patterns_are_judged() -> None:
    mono = "printing: {mono: yes}\n"
    assert told(f"{mono}functions: {{normal: red}}") == []
    (problem,) = problems(f"{mono}functions: {{normal: {{pattern: solid}}}}")
    assert problem.place.source == "functions.normal.pattern"
    assert problem.message == "normal and feed have one and the same pattern, solid"
    assert "only the code letter tells them apart" in problem.hint
    assert told("functions: {normal: {pattern: solid}}") == []


def odd(more: str) -> list[tuple[str, str]]:
    text = TEXT + more
    found = several_colours(described(text), netlist_of(text))
    return [(one.place.source, one.message) for one in found]


def test_a_wire_in_the_colour_of_another_function() -> None:
    (found,) = odd("wires: [{from: L5.N, to: A1.1, colour: red}]\n")
    assert found == ("wires.0.colour", "wire 1 (5N) is red, as feed is, and most others of normal are yellow")


def test_several_such_wires_are_told_of_once() -> None:
    pink = "{from: L5.N, to: A1.1, colour: pink}, {from: L5.R, to: A1.3, colour: pink}"
    ((_, message),) = odd(f"wires: [{pink}]\n")
    assert message.startswith("wire 1 (5N) is pink, and most others of normal are")
    assert message.endswith("; 1 more wire likewise")
    ((_, message),) = odd(f"wires: [{pink}, {{from: L6.R, to: A1.6, colour: pink}}]\n")
    assert message.endswith("; 2 more wires likewise")


def test_what_is_always_wired_so_is_one_colour() -> None:
    """As-built lists say a colour at every wire, and none of them is ours."""
    ends = ["L5.N, to: A1.1", "A1.1, to: P5.N", "L6.N, to: A1.4", "A1.4, to: P6.N"]
    assert odd("wires: [" + ", ".join(f"{{from: {one}, colour: pink}}" for one in ends) + "]\n") == []
    assert odd("wires: [{from: L5.N, to: A1.1, colour: yellow}]\n") == []
    assert odd("printing: {mono: yes}\nwires: [{from: L5.N, to: A1.1, colour: red}]\n") == []
