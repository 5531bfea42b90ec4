"""Routes and matrices that have been built: numbers on the panel and ids on the flags stay with what has them."""

from dataclasses import replace
from typing import Any

import pytest
from wiring.recorded_builder import Made, remade

from labelgen.model.built.built_labels import PrintedLabel
from labelgen.model.built.built_record import BuiltRecord

RAILWAY: dict[str, Any] = {
    "supplies": {"PULSE": {"kind": "pulse"}},
    "strips": {"A1": {"ways": "40"}},
    "panels": {"QUAY": {}, "YARD": {}},
    "points": {f"P{n}": {} for n in range(1, 6)},
}
QUAY: dict[str, Any] = {
    "a": {"levers": {"1": "normal"}, "panel": "QUAY"},
    "b": {"levers": {"2": "normal", "3": "reverse"}, "panel": "QUAY"},
}
YARD: dict[str, Any] = {"c": {"levers": {"4": "reverse"}, "panel": "YARD"}}


def railway(routes: dict[str, Any], **more: Any) -> dict[str, Any]:
    return {**RAILWAY, **more, "routes": routes}


def numbers(made: Made) -> dict[str, str]:
    return {row.route: row.number for matrix in made.netlist.matrices for row in matrix.rows}


def matrices(made: Made) -> dict[str, list[str]]:
    """Id: its routes, each with its diodes."""
    return {
        matrix.id: [f"{row.route} {row.letter}{column}" for row in matrix.rows for column in row.columns]
        for matrix in made.netlist.matrices
    }


FIRST = Made(railway({**QUAY, **YARD}))


def test_at_first_they_come_in_order() -> None:
    assert numbers(FIRST) == {"a": "1", "b": "2", "c": "3"}
    assert matrices(FIRST) == {"MATRIX": ["a A1", "b B2", "b B3"], "MATRIX2": ["c A1"]}


def test_a_route_that_is_taken_out_leaves_the_others_their_numbers() -> None:
    after = FIRST.then(railway({"b": QUAY["b"], **YARD}))
    assert numbers(after) == {"b": "2", "c": "3"}
    new_wires = [wire for number, wire in after.wires.items() if number not in FIRST.wires]
    assert new_wires == ["L2.F ROUTE2.F"], "one wire closes the gap from button to button"
    new = after.then(railway({"d": {"levers": {"5": "normal"}, "panel": "QUAY"}, "b": QUAY["b"], **YARD}))
    assert numbers(new) == {"b": "2", "c": "3", "d": "4"}, "1 is still on somebody's panel"
    back = new.then(railway({**QUAY, **YARD}))
    assert numbers(back)["a"] == "1"
    assert matrices(back)["MATRIX"][0] == "a A1"


def test_a_matrix_that_is_taken_out_leaves_the_others_their_ids() -> None:
    after = FIRST.then(railway(YARD))
    assert matrices(after) == {"MATRIX2": ["c A1"]}
    assert after.wires.items() <= FIRST.wires.items()
    back = after.then(railway({**YARD, **QUAY}))
    assert matrices(back) == matrices(FIRST)


def test_a_new_matrix_gets_an_id_that_none_had() -> None:
    more = {"panels": {"QUAY": {}, "YARD": {}, "DOCK": {}}}
    after = FIRST.then(railway({"d": {"levers": {"5": "normal"}, "panel": "DOCK"}, **YARD}, **more))
    assert matrices(after) == {"MATRIX3": ["d A1"], "MATRIX2": ["c A1"]}


def test_a_panel_or_supply_that_is_called_otherwise_keeps_its_matrix() -> None:
    routes = {name: {**route, "panel": "SHED" if route["panel"] == "YARD" else "QUAY"} for name, route in
              {**YARD, **QUAY}.items()}  # fmt: skip
    after = FIRST.then(railway(routes, panels={"QUAY": {}, "SHED": {}}))
    assert matrices(after) == {"MATRIX2": ["c A1"], "MATRIX": ["a A1", "b B2", "b B3"]}
    assert {one.id: one.panel for one in after.record.matrices} == {"MATRIX": "QUAY", "MATRIX2": "SHED"}


def test_a_number_of_its_own_is_kept_when_it_is_no_longer_written() -> None:
    own = Made(railway({"a": {**QUAY["a"], "number": "7"}, "b": QUAY["b"]}))
    assert numbers(own) == {"a": "7", "b": "1"}
    assert numbers(own.then(railway(QUAY))) == {"a": "7", "b": "1"}


def problems_after(made: Made, changed: dict[str, Any]) -> list[tuple[str, str]]:
    return [(one.code, one.place.source) for one in remade(changed, made.record)[2]]


@pytest.mark.parametrize("key", ["number", "stud"])
def test_a_number_that_another_route_has_is_refused(key: str) -> None:
    new = {"levers": {"5": "normal"}, "panel": "QUAY", key: "2"}
    assert problems_after(FIRST, railway({**QUAY, **YARD, "d": new})) == [("route-stud-taken", f"routes.d.{key}")]


def test_a_number_that_is_free_again_is_given_when_told() -> None:
    new = {"d": {"levers": {"5": "normal"}, "panel": "QUAY", "number": "1"}}
    after = FIRST.then(railway({**new, "b": QUAY["b"], **YARD}))
    assert numbers(after) == {"b": "2", "c": "3", "d": "1"}
    assert {route.name for route in after.record.routes} == {"b", "c", "d"}
    back = after.then(railway({**new, **QUAY, **YARD}))
    assert numbers(back)["a"] == "4", "its old number is another's now"


def test_a_thing_that_is_called_as_a_kept_number_is_refused() -> None:
    after = FIRST.then(railway(YARD))
    changed = railway(YARD, strips={"A1": {"ways": "40"}, "Route3": {}})
    assert problems_after(after, changed) == [("bad-id", "strips.Route3")]


def test_a_record_that_knows_no_routes_numbers_them_in_order() -> None:
    old = replace(FIRST.record, routes=(), matrices=())
    assert numbers(Made(railway({**QUAY, **YARD}), old)) == numbers(FIRST)
    assert matrices(Made(railway({**QUAY, **YARD}), old)) == matrices(FIRST)


def afresh(*labels: tuple[str, str]) -> BuiltRecord:
    printed = tuple(PrintedLabel(kind=kind, label=label) for kind, label in labels)
    return replace(FIRST.record, printed=printed).only_printed()


def test_afresh_a_fascia_keeps_the_numbers_that_stand_on_it() -> None:
    routes = {"d": {"levers": {"5": "normal"}, "panel": "QUAY"}, **YARD, **QUAY}
    assert numbers(Made(railway(routes), afresh())) == {"d": "1", "c": "2", "a": "3", "b": "4"}
    assert numbers(Made(railway(routes), afresh(("fascia", "QUAY")))) == {"a": "1", "b": "2", "d": "3", "c": "4"}
    assert afresh(("fascia", "QUAY")).matrices == FIRST.record.matrices[:1]


def test_afresh_a_flag_keeps_the_number_that_stands_on_it() -> None:
    (number,) = [number for number, wire in FIRST.wires.items() if wire == "ROUTE3.M MATRIX2.A"]
    made = Made(railway({**YARD, **QUAY}), afresh(("flags", str(number))))
    assert numbers(made) == {"c": "3", "a": "1", "b": "2"}
    assert made.wires[number] == "ROUTE3.M MATRIX2.A"


def feeds(made: Made) -> list[str]:
    return [wire for wire in made.wires.values() if "ROUTE" in wire and ".F" in wire and ".M" not in wire]


BUTTONS = {str(n): {"levers": {str(n): "normal"}, "panel": "QUAY"} for n in range(1, 5)}


def test_the_feed_of_the_buttons_is_never_threaded_anew() -> None:
    first = Made(railway(BUTTONS))
    assert feeds(first) == ["L1.F ROUTE1.F", "ROUTE1.F ROUTE2.F", "ROUTE2.F ROUTE3.F", "ROUTE3.F ROUTE4.F"]
    gap = first.then(railway({name: BUTTONS[name] for name in "134"}))
    assert feeds(gap) == ["L1.F ROUTE1.F", "ROUTE3.F ROUTE4.F", "ROUTE1.F ROUTE3.F"]
    back = gap.then(railway(BUTTONS))
    assert feeds(back) == [*feeds(gap), "L1.F ROUTE2.F"], "no button before it has room"
    end = gap.then(railway({name: BUTTONS[name] for name in "14"}))
    assert feeds(end) == ["L1.F ROUTE1.F", "ROUTE1.F ROUTE4.F"]
    assert feeds(end.then(railway({name: BUTTONS[name] for name in "124"})))[-1] == "L1.F ROUTE2.F"


def test_the_feed_stays_where_it_is_taken_when_the_route_sets_another_lever() -> None:
    first = Made(railway(BUTTONS))
    other = {**BUTTONS, "1": {"levers": {"5": "normal"}, "panel": "QUAY"}}
    assert feeds(first.then(railway(other))) == feeds(first)


def test_a_piece_that_is_cut_off_is_joined_by_one_wire() -> None:
    first = Made(railway(BUTTONS))
    assert feeds(first.then(railway({name: BUTTONS[name] for name in "234"}))) == [
        "ROUTE2.F ROUTE3.F", "ROUTE3.F ROUTE4.F", "L2.F ROUTE2.F",
    ]  # fmt: skip
