"""Parts that are too close to each other, and panels that are too thick for them. Distances by hand from the parts."""

import re
from typing import Any

from labelgen.checks.hole_room import hole_room
from labelgen.model.description import Description
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.model.panel.routes import Matrix, MatrixRow
from labelgen.problems import Problem, Severity
from labelgen.reading.data_readers import built_in_hardware


def lever(id_: str, *devices: str, type_: str = "sprung") -> LeverPlan:
    return LeverPlan(
        id=id_,
        shown=id_,
        name="",
        type=type_,
        panel="QUAY",
        board=None,
        normal="up",
        spare=False,
        devices=devices,
        path=("levers", id_),
    )


def said(*plans: LeverPlan, **panel: Any) -> list[Problem]:
    routes = {name: {"1": "normal"} for name in panel.get("routes", ())}
    description = Description.model_validate({"railway": "x", "panels": {"QUAY": panel}, "routes": routes})
    rows = tuple(
        MatrixRow(letter="A", route=route, number="1", stud=False, columns=(), path=("routes", route))
        for route in panel.get("routes", ())
    )
    matrix = Matrix(id="MATRIX", panel="QUAY", supply="PULSE", board=None, rows=rows, columns=())
    netlist = Netlist(
        railway="x", circuits=(), strips=(), levers=plans, wires=(), functions={}, matrices=(matrix,) if rows else ()
    )
    return hole_room(description.with_parts(built_in_hardware()), netlist)


def test_nuts_and_bodies_of_levers() -> None:
    """Washers of 11.5 mm need 12.5; bodies of 13 mm square need 15, to the side or up and down."""
    (nuts,) = said(lever("1"), lever("2"), levers={"1": [5, 5], "2": [6.2, 5]})
    assert nuts.code == "lever-without-hole"
    assert nuts.message == "the holes of levers 1 and 2 are 12 mm apart, and their nuts need 12.5 mm"
    (bodies,) = said(lever("1"), lever("2"), levers={"1": [5, 5], "2": [6.4, 5]})
    assert bodies.message == "the holes of levers 1 and 2 are 14 mm apart, and their bodies behind the panel need 15 mm"


def test_levers_on_each_other_are_said_once_with_the_worst_of_them() -> None:
    """11, 10 and 12 mm where nuts need 12.5 and bodies 15, and fingers 19: one and a half millimetres more a square."""
    frame = {"1": [5, 5], "2": [6.1, 5], "3": [7.1, 5], "4": [8.3, 5], "5": [15, 5]}
    (problem,) = said(*map(lever, frame), levers=frame, size=[200, 100])
    assert problem.message == (
        "the holes of levers 2 and 3 are 10 mm apart, and their nuts need 12.5 mm;"
        " 2 more pairs of levers are too close on panel QUAY"
    )
    assert problem.hint == (
        "`grid: 19` on a panel of 380 × 190 mm would do; or give one of each two another square under the panel's"
        " `levers:`."
    )
    assert said(*map(lever, frame), levers=frame, size=[380, 190], grid=19) == []
    del frame["4"]
    (problem,) = said(*map(lever, frame), levers=frame)
    assert problem.message.endswith("; 1 more pair of levers is too close on panel QUAY")


def test_a_row_of_many_levers_is_said_once() -> None:
    """240 levers in 1,200 mm, 5 mm each: 239 + 238 pairs touch, and fingers reach the 237 next but two."""
    problem, fingers = said(*(lever(str(n)) for n in range(240)), levers={"row": "5"}, size=[1200, 100])
    assert problem.message == (
        "the holes of levers 0 and 1 are 5 mm apart, and their nuts need 12.5 mm;"
        " 476 more pairs of levers are too close on panel QUAY"
    )
    assert problem.hint.startswith("Give one of each two"), "no panel at most twice as large would do"
    assert fingers.message.endswith("; and 234 more")


def test_fingers_are_said_once_with_the_worst_pairs_and_the_size_that_would_do() -> None:
    """A frame at 15 mm: 19 are wanted, so 1.27 times as large; 13 mm a square do."""
    frame = {str(n): [5 + 1.5 * n, 5] for n in range(6)}
    (problem,) = said(*map(lever, frame), levers=frame, size=[200, 100])
    assert problem.code == "too-close"
    assert problem.severity is Severity.CAUTION
    assert problem.message == (
        "on panel QUAY there is little room: levers 0 and 1: 15 mm apart, fingers need 19; levers 1 and 2: 15 mm apart,"
        " fingers need 19; levers 2 and 3: 15 mm apart, fingers need 19; and 2 more"
    )
    assert problem.hint.startswith("`grid: 13` on a panel of 260 × 130 mm would do; or give one of each two another")
    assert said(*map(lever, frame), levers=frame, size=[260, 130], grid=13) == []


def test_a_frame_of_sixty_levers_at_twenty_millimetres_has_room() -> None:
    assert said(*(lever(str(n)) for n in range(60)), levers={"row": "5"}, size=[1200, 100]) == []


def test_passing_levers_stand_side_by_side() -> None:
    """A slot of 4 × 26 mm covers 8 × 30; its bracket of 12 mm needs 14."""
    plans = (lever("1", type_="passing"), lever("2", type_="passing"))
    assert said(*plans, levers={"1": [5, 5], "2": [6.4, 5]}) == []
    (problem,) = said(*plans, levers={"1": [5, 5], "2": [6.3, 5]})
    assert "bodies behind the panel need 14 mm" in problem.message
    (above,) = said(*plans, levers={"1": [5, 5], "2": [5, 8]})
    assert "their nuts need 31 mm" in above.message


def test_a_button_too_close_for_fingers_but_not_its_nut() -> None:
    """Toggle 19, button 13: 16 mm. What nuts need is said by the checks of routes."""
    (problem,) = said(lever("1"), levers={"1": [5, 5]}, routes={"Yard": [6.5, 5]})
    assert said(lever("1"), levers={"1": [5, 5]}, routes={"Yard": [6, 5]}) == []
    assert "lever 1 and the button of route Yard: 15 mm apart, fingers need 16" in problem.message


def test_lamps_on_each_other_and_on_a_screw() -> None:
    """Lamps of 3 mm cover 3.8: 4.8 apart; their bodies of 4 mm need 6. A screw's head of 6.8 mm."""
    (problem,) = said(lamps={"A": [[5, 5], [5.5, 5]]}, size=[200, 100])
    assert "the lamp A and the lamp A: 5 mm apart, their bodies behind the panel need 6" in problem.message
    (problem,) = said(lamps={"A": [1.2, 0.8]}, screws="yes", size=[200, 100])
    assert "the lamp A and corner screw 1: 4 mm apart, what is screwed in there needs 6.3" in problem.message


def test_a_lamp_that_finds_no_room_and_no_size_that_would_do() -> None:
    tracks = {"main": [[1, 5], [19, 5]], "loop": ["P1", "P2"]}
    points = {"P1": [5, 5], "P2": [5.5, 4.5]}
    tracks["up"] = [[1, 4.5], [19, 4.5]]
    (problem,) = said(
        lever("1", "P1"), tracks=tracks, points=points, lamps="yes", size=[200, 100], levers={"1": [9, 8]}
    )
    assert "the lamp P1.reverse finds no room on its road" in problem.message
    assert problem.hint.startswith("Give one of each two")


def test_a_panel_that_is_thicker_than_the_bushes_hold() -> None:
    keys: dict[str, Any] = {"levers": {"1": [5, 5], "2": [9, 5]}, "hardware": {"2": "standard-toggle"}}
    plans = (lever("1"), lever("2"))
    assert said(*plans, **keys) == []
    assert said(*plans, **keys, thickness=5) == []
    (problem,) = said(*plans, **keys, thickness=6)
    assert problem.code == "panel-too-thick"
    assert problem.message.endswith("hold: miniature-toggle 5 mm")
    (problem,) = said(*plans, **keys, thickness="8.5")
    assert problem.message.endswith("hold: miniature-toggle 5 mm, standard-toggle 8 mm")


def test_one_lever_moves_rather_than_a_whole_panel_grows() -> None:
    """Two of six are 10 mm apart; 19 mm are wanted for fingers, so two squares."""
    frame = {"1": [5, 5], "2": [6, 5], "3": [9, 5], "4": [13, 5], "5": [17, 5], "6": [17, 9]}
    (problem,) = said(*map(lever, frame), levers=frame, size=[200, 100], texts={"Quay": [1, 1]})
    assert "holes of levers 1 and 2 are 10 mm apart" in problem.message
    found = re.match(r"`levers: \{2: \[([\d.]+), ([\d.]+)\]\}` at the panel would do; or give", problem.hint)
    assert found is not None
    moved = {**frame, "2": [float(found[1]), float(found[2])]}
    assert said(*map(lever, frame), levers=moved, size=[200, 100]) == []


def test_what_stands_in_a_row_or_has_no_room_nearby_is_not_moved() -> None:
    plans = [lever(str(n)) for n in range(12)]
    row = {"row": "5"}
    (problem, *_) = said(*plans, levers=row, size=[130, 100])
    assert "levers: {" not in problem.hint
    narrow = {"1": [1, 1], "2": [2, 1], "3": [4, 1], "4": [8, 1], "5": [12, 1]}
    (problem,) = said(*map(lever, narrow), levers=narrow, size=[160, 20])
    assert "levers: {" not in problem.hint


def test_the_lever_moves_where_the_other_is_a_route() -> None:
    """A button of a route keeps its square: it is the lever that moves away from it, clear of the tracks."""
    frame = {"1": [5, 5], "2": [12, 5], "3": [16, 5]}
    (problem,) = said(
        *map(lever, frame), levers=frame, routes={"Yard": [6.5, 5]}, size=[200, 100], tracks={"up": [[1, 7], [19, 7]]}
    )
    found = re.match(r"`levers: \{1: \[([\d.]+), ([\d.]+)\]\}` at the panel would do", problem.hint)
    assert found is not None
    assert abs(float(found[2]) - 7) > 0.5


def test_one_move_may_clear_two_pairs_and_four_are_too_many() -> None:
    """Lever 2 stands between two others; where four of sixteen would have to move, the panel grows."""
    far = {str(n): [3 + 4 * n, 15] for n in range(4, 9)}
    frame = {"1": [5, 5], "2": [6, 5], "3": [7, 5], **far}
    (problem,) = said(*map(lever, frame), levers=frame, size=[400, 200])
    found = re.match(r"`levers: \{2: \[([\d.]+), ([\d.]+)\]\}`", problem.hint)
    assert found is not None
    assert said(*map(lever, frame), levers={**frame, "2": [float(x) for x in found.groups()]}, size=[400, 200]) == []
    pairs = {str(2 * n + k): [5 + 8 * n + k, 5] for n in range(4) for k in (0, 1)} | {
        str(n): [2 + 4 * (n - 8), 15] for n in range(8, 16)
    }
    (problem,) = said(*map(lever, pairs), levers=pairs, size=[400, 200])
    assert problem.hint.startswith("`grid: 19`")
