"""Matrices that have been built: what is soldered stays where it is, whatever becomes of the list of routes."""

from typing import Any

from wiring.recorded_builder import Made

RAILWAY: dict[str, Any] = {
    "supplies": {"PULSE": {"kind": "pulse"}},
    "strips": {"A1": {"ways": "40"}},
    "panels": {"MAIN": {}},
    "points": {f"P{n}": {} for n in range(1, 6)},
}
ROUTES: dict[str, Any] = {
    "a": {"levers": {"1": "normal", "2": "normal"}, "number": "1"},
    "b": {"levers": {"1": "normal", "3": "reverse"}, "number": "2"},
    "c": {"levers": {"4": "reverse"}, "number": "3"},
}


def made(routes: dict[str, Any], before: Made | None = None) -> Made:
    railway = {**RAILWAY, "routes": routes}
    return Made(railway) if before is None else before.then(railway)


def diodes(one: Made) -> dict[str, list[str]]:
    """Route: where its diodes are."""
    (matrix,) = one.netlist.matrices
    return {row.route: [f"{row.letter}{column}" for column in row.columns] for row in matrix.rows}


def test_a_route_that_is_taken_out_leaves_a_gap() -> None:
    first = made(ROUTES)
    assert diodes(first) == {"a": ["A1", "A2"], "b": ["B1", "B3"], "c": ["C4"]}
    second = made({"b": ROUTES["b"], "c": ROUTES["c"]}, first)
    assert diodes(second) == {"b": ["B1", "B3"], "c": ["C4"]}
    assert [column.number for column in second.netlist.matrices[0].columns] == [1, 3, 4]


def test_what_is_new_comes_behind_all_that_ever_was_and_a_coil_that_comes_back_to_its_own_column() -> None:
    second = made({"b": ROUTES["b"]}, made(ROUTES))
    third = made({"new": {"levers": {"2": "normal", "5": "reverse"}, "number": "9"}, "b": ROUTES["b"]}, second)
    assert diodes(third) == {"b": ["B1", "B3"], "new": ["D2", "D5"]}
    assert {number: wire for number, wire in third.wires.items() if number in second.wires} == second.wires


def test_routes_in_another_order_change_nothing() -> None:
    first = made(ROUTES)
    second = made(dict(reversed(ROUTES.items())), first)
    assert diodes(second) == diodes(first)
    assert second.wires == first.wires


def test_a_route_that_changes_its_levers_keeps_its_row() -> None:
    changed = {**ROUTES, "c": {"levers": {"2": "reverse"}, "number": "3"}}
    assert diodes(made(changed, made(ROUTES))) == {"a": ["A1", "A2"], "b": ["B1", "B3"], "c": ["C5"]}


def test_wires_through_plugs_keep_their_columns_too() -> None:
    railway: dict[str, Any] = {
        "boards": {"E": {}, "W": {}},
        "supplies": {"PULSE": {"kind": "pulse", "board": "W"}},
        "strips": {"A1": {"board": "E"}, "B1": {"board": "W"}},
        "panels": {"PE": {"board": "E"}, "PW": {"board": "W"}},
        "levers": {"1": {"panel": "PE"}, "2": {"panel": "PW"}},
        "points": {"P1": {"board": "E"}, "P2": {"board": "W"}},
        "plugs": {"J1": {"boards": ["E", "W"], "pins": "20"}},
    }
    one = {"levers": {"2": "normal"}, "panel": "PW", "number": "1"}
    two = {"levers": {"1": "normal", "2": "reverse"}, "panel": "PW", "number": "2"}
    first = Made({**railway, "routes": {"one": one, "two": two}})
    assert diodes(first) == {"one": ["A1"], "two": ["B2", "B3"]}
    second = first.then({**railway, "routes": {"two": two}})
    assert diodes(second) == {"two": ["B2", "B3"]}
