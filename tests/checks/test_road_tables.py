"""Slips and tandems on several levers, with and without a table of their roads."""

import pytest
from wiring.wiring_builder import described, netlist_of

from labelgen.checks.roads import roads_not_said

SLIP = "tracks: {main: [[2, 5], [22, 5]], quay: [[4, 9], [12, 5], [20, 1]]}"
TANDEM = "tracks: {main: [[2, 5], [22, 5]], left: [[12, 5], [20, 1]], right: [[12, 5], [20, 9]]}"
ROADS = "{P7: {roads: {along: {7: normal, 8: normal}}}, P8: }"


def told(
    points: str = "{P7: , P8: }", tracks: str = SLIP, places: str = "{P7: [12, 5], P8: [12, 5]}", more: str = ""
) -> list[tuple[str, str]]:
    text = (
        f"supplies: {{PULSE: {{kind: pulse}}}}\nstrips: {{A1: {{ways: 20}}}}\npoints: {points}\n"
        f"panels:\n  Q:\n    size: [300, 200]\n    {tracks}\n    points: {places}\n{more}"
    )
    return [(one.place.source, one.message) for one in roads_not_said(described(text), netlist_of(text))]


@pytest.mark.parametrize(
    ("tracks", "form", "called", "roads"),
    [
        (SLIP, "", "a double slip", 4),
        (SLIP, "single-slip", "a single slip", 3),
        (TANDEM, "", "a three-way point", 3),
    ],
)
def test_two_levers_on_one_of_them(tracks: str, form: str, called: str, roads: int) -> None:
    first = f"{{at: [12, 5], form: {form}}}" if form else "[12, 5]"
    ((place, message),) = told(tracks=tracks, places=f"{{P7: {first}, P8: [12, 5]}}")
    assert place == "points.P7"
    assert message == (
        f"P7 and P8 are {called} on levers 7 and 8, and nothing says how both lie for each of its {roads} roads"
    )


def test_a_table_beside_either_point_is_enough() -> None:
    assert told(ROADS) == []
    assert told(ROADS.replace("P7: {", "P0: {").replace("P8: ", "P7: ").replace("P0: {", "P8: {")) == []


def test_one_lever_that_works_both_cannot_lie_wrong() -> None:
    assert told("{P7A: , P7B: }", places="{P7A: [12, 5], P7B: [12, 5]}") == []
    assert told("{P7: {kind: three-way}}", tracks=TANDEM, places="{P7: [12, 5]}") == []
    assert told("{P7: , P8: {lever: none}}") == []


def test_points_apart_depend_on_nothing() -> None:
    apart = "tracks: {main: [[2, 5], [22, 5]], one: [[8, 5], [12, 2]], two: [[14, 5], [18, 2]]}"
    assert told(tracks=apart, places="{P7: [8, 5], P8: [14, 5]}") == []


def test_routes_are_a_table_when_they_name_both_for_every_road() -> None:
    lies = [("normal", "normal"), ("normal", "reverse"), ("reverse", "normal"), ("reverse", "reverse")]
    routes = [f"  R{n}: {{7: {one}, 08: {other}}}\n" for n, (one, other) in enumerate(lies)]
    levers = 'levers: {8: {shown: "08"}}\nroutes:\n'
    assert told(more=levers + "".join(routes)) == []
    ((_, message),) = told(more=levers + "".join(routes[:3]) + "  Half: {7: normal}\n")
    assert message.endswith("and the routes say of 3 of its 4 roads how both lie")


def test_a_point_that_is_described_nowhere_is_another_problem() -> None:
    assert told("{P7: }") == []
