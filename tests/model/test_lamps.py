"""Lamps on a panel: where they are, and what leads to them. Judge of the places: shapely."""

from typing import Any

import pytest
from shapely.geometry import LineString
from shapely.geometry import Point as Dot

from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.lamp_leads import lamp_lead
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.model.panel.holes import PanelHole, panel_holes
from labelgen.model.panel.lamp_places import lamps_without_place
from labelgen.reading.data_readers import built_in_hardware, built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.wiring.expansion import expand

TURNOUT: dict[str, Any] = {
    "size": [200, 100],
    "tracks": {"main": [[2, 5], [18, 5]], "loop": ["P1", [10, 8], [18, 8]]},
    "points": {"P1": [7, 5]},
}


def lever(id_: str, *devices: str) -> LeverPlan:
    return LeverPlan(
        id=id_,
        shown=id_,
        name="",
        type="sprung",
        panel="A",
        board=None,
        normal="up",
        spare=False,
        devices=devices,
        path=("levers", id_),
    )


def lamps(*plans: LeverPlan, **panel: Any) -> dict[str, list[PanelHole]]:
    description = Description.model_validate({"railway": "x", "panels": {"A": panel}}).with_parts(built_in_hardware())
    netlist = Netlist(railway="x", circuits=(), strips=(), levers=plans, wires=(), functions={})
    found: dict[str, list[PanelHole]] = {}
    for hole in panel_holes(description, netlist, "A"):
        if hole.use == "lamp":
            found.setdefault(hole.thing, []).append(hole)
    return found


def test_one_on_each_road_of_a_point_where_fingers_leave_it_free() -> None:
    """19 mm of fingers and 3.8 of lamp: 11.4 mm from the lever's middle, in steps of half a millimetre."""
    found = lamps(lever("1", "P1"), **TURNOUT, lamps="yes")
    assert list(found) == ["P1.normal", "P1.reverse"]
    assert found["P1.normal"][0].at == Point(81.5, 50)
    assert found["P1.normal"][0].diameter == 3.2
    reverse = found["P1.reverse"][0]
    branch = LineString([(70, 50), (100, 80), (180, 80)])
    assert branch.distance(Dot(reverse.at.x, reverse.at.y)) < 1e-9
    assert 11.4 <= branch.project(Dot(reverse.at.x, reverse.at.y)) <= 15.5
    assert reverse.path == ("panels", "A", "lamps")


def test_it_is_clear_of_the_other_road_where_no_lever_stands() -> None:
    for name, (hole,) in lamps(**TURNOUT, lamps="yes").items():
        other = [(70, 50), (100, 80), (180, 80)] if name == "P1.normal" else [(20, 50), (180, 50)]
        assert LineString(other).distance(Dot(hole.at.x, hole.at.y)) >= 1.9 + 2 * 2.1 + 1.3 - 1e-6


def test_it_slides_on_where_something_is_in_the_way() -> None:
    found = lamps(lever("1", "P1"), **TURNOUT, lamps={"roads": "yes", "YARD": [8.2, 5]})
    assert found["P1.normal"][0].at == Point(88, 50)  # bodies of 4 mm, 2 mm apart
    assert list(found) == ["YARD", "P1.normal", "P1.reverse"]


def test_a_place_of_its_own_and_a_row_of_places() -> None:
    found = lamps(lever("1", "P1"), **TURNOUT, lamps={"roads": "yes", "P1.normal": [[9, 5], [10, 5]]})
    assert [hole.at for hole in found["P1.normal"]] == [Point(90, 50), Point(100, 50)]
    assert found["P1.normal"][0].path == ("panels", "A", "lamps", "P1.normal")
    assert len(found["P1.reverse"]) == 1
    assert lamps(lever("1", "P1"), **TURNOUT, lamps="no") == {}


LINK: dict[str, Any] = {
    "size": [300, 120],
    "tracks": {"up": [[2, 4], [28, 4]], "down": [[2, 6], [28, 6]], "link": ["P1A", "P1B"]},
    "points": {"P1A": [10, 4], "P1B": [12, 6]},
}


def test_two_points_of_one_lever_show_the_road_between_them_with_one_lamp() -> None:
    assert list(lamps(lever("1", "P1A", "P1B"), **LINK, lamps="yes")) == ["P1A.normal", "P1A.reverse", "P1B.normal"]


def test_two_levers_on_a_short_road_have_their_lamps_beside_it() -> None:
    plans = (lever("1", "P1A"), lever("2", "P1B"))
    found = lamps(*plans, **LINK, lamps="yes")
    assert list(found) == ["P1A.normal", "P1A.reverse", "P1B.normal", "P1B.reverse"]
    road, others = (
        LineString([(100, 40), (120, 60)]),
        LineString([(20, 40), (280, 40)]).union(LineString([(20, 60), (280, 60)])),
    )
    for name in ("P1A.reverse", "P1B.reverse"):
        place = Dot(found[name][0].at.x, found[name][0].at.y)
        assert 1.9 + 2.1 + 0.9 < road.distance(place) < others.distance(place) - 0.9, name
    first, second = (Dot(found[name][0].at.x, found[name][0].at.y) for name in ("P1A.reverse", "P1B.reverse"))
    assert road.project(first) < road.length / 2 < road.project(second)


def test_two_levers_on_a_very_short_road_leave_no_room_for_lamps() -> None:
    plans = (lever("1", "P1A"), lever("2", "P1B"))
    short = {**LINK, "grid": 8}
    found = lamps(*plans, **short, lamps="yes")
    assert list(found) == ["P1A.normal", "P1B.normal"]
    panel = Description.model_validate({"railway": "x", "panels": {"A": {**short, "lamps": "yes"}}}).panels["A"]
    assert lamps_without_place(panel, plans, found) == ["P1A.reverse", "P1B.reverse"]
    assert lamps_without_place(panel.model_copy(update={"lamps": {}}), plans, found) == []


def test_a_panel_of_unknown_size_has_lamps_too_and_one_at_the_edge_none() -> None:
    assert len(lamps(**{**TURNOUT, "size": None}, lamps="yes")) == 2
    assert list(lamps(**{**TURNOUT, "size": [200, 51]}, lamps="yes")) == ["P1.normal"]  # above the line
    assert list(lamps(**{**TURNOUT, "size": [74, 100]}, lamps="yes")) == []


def test_a_three_way_that_is_one_point_has_a_lamp_on_each_of_its_three_roads() -> None:
    panel = {
        "size": [240, 140],
        "tracks": {"main": [[2, 7], [22, 7]], "l": ["P1", [13, 3], [22, 3]], "r": ["P1", [13, 11], [22, 11]]},
        "points": {"P1": [9, 7]},
    }
    found = lamps(lever("1", "P1"), **panel, lamps="yes")
    assert list(found) == ["P1.normal", "P1.reverse", "P1.third"]
    at = [hole.at for (hole,) in found.values()]
    assert [at[0].y == 70, at[1].y < 65, at[2].y > 75] == [True] * 3  # the left one, seen from the toe, is above


WIRED = """
railway: Marram Quay
supplies: {PULSE: {kind: pulse}, LIGHT: {kind: dc}, CAB: {kind: track}}
strips: {A1: {ways: 60}}
points:
  P5: {kind: twin-coil-lamps, lever: 5}
  P6: {}
devices:
  P7L: {kind: panel-lamps, lever: 17}
  SIG: {kind: lamps, supply: LIGHT}
  YARD: {kind: section, lever: 11}
panels: {QUAY: {size: [200, 100], lamps: {LAMPS}}}
"""


@pytest.fixture(scope="module")
def netlist() -> Netlist:
    description, problems = read_description_text(
        WIRED.replace("{LAMPS}", "{P5.normal: [1, 1], YARD: [9, 7], PULSE: [3, 2]}")
    )
    assert description is not None, problems
    return expand(description, built_in_kinds())[0]


@pytest.mark.parametrize(
    ("name", "ends", "shared"),
    [
        ("P5.normal", [("L5.lamp-N", "n")], 1),
        ("P5.reverse", [("L5.lamp-R", "r")], 1),
        ("P7L.normal", [("P7L.N", "n")], 0),
        ("P7L.R", [("P7L.R", "r")], 0),
        ("SIG", [("SIG.L", "")], 0),
        ("P6.normal", [], 0),
        ("YARD", [], 0),
        ("PULSE", [], 0),
    ],
)
def test_what_leads_to_a_lamp(netlist: Netlist, name: str, ends: list[tuple[str, str]], shared: int) -> None:
    lead = lamp_lead(netlist, name)
    assert [
        next(end.name for end in wire.ends if end.name == at) for wire, (at, _) in zip(lead.wires, ends, strict=True)
    ] == [at for at, _ in ends]
    assert [wire.mark for wire in lead.wires] == [mark for _, mark in ends]
    assert len(lead.shared) == shared
    assert lead.function is not None
    assert lead.colour == netlist.functions["lamp"].colour != ""


def test_without_the_function_there_is_no_colour() -> None:
    bare = Netlist(railway="x", circuits=(), strips=(), levers=(), wires=(), functions={})
    assert lamp_lead(bare, "PULSE").colour == ""
