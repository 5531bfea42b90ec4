"""Routes: which matrix, which rows and columns, and every wire; worked out by hand from the trade page, section 4."""

from typing import Any

import pytest
from wiring_builder import described, length_of, lines, netlist_of, problems_of, read, wire_texts, wired, wires_of

from labelgen.model.netlist import Netlist
from labelgen.model.panel.routes import row_letter

HARBOUR = """
    boards: {Quay: {size: [1200, 600], at: [0, 0]}}
    supplies: {PULSE: {kind: pulse, at: [100, 550]}}
    strips: {A1: {at: [600, 500], measured: 110}}
    panels:
      MAIN: {at: [600, 600], size: [200, 120], levers: {row: 9}}
    points:
      P5: {name: harbour siding, at: [400, 200]}
      P6: {name: coal road, at: [800, 250]}
"""
ROUTES = """
    routes:
      Harbour: {5: reverse, 6: normal}
      Coal road: {6: reverse, 5: normal}
      Through: {levers: {5: normal, 6: normal}}
"""


def rows_of(netlist: Netlist) -> list[tuple[str, str, str, list[str]]]:
    """Matrix, row, number of the route, and the heads of the coils that it sets."""
    code = {"normal": "N", "reverse": "R"}
    return [
        (
            matrix.id,
            row.letter,
            row.number,
            [f"{c.lever}{code[c.lie]}" for c in matrix.columns if c.number in row.columns],
        )
        for matrix in netlist.matrices
        for row in matrix.rows
    ]


def with_routes(routes: dict[str, Any], railway: str = HARBOUR) -> dict[str, Any]:
    return {**read(railway), "routes": routes}


def test_two_points_and_three_routes_wire_by_wire() -> None:
    """Columns in the order in which routes need them, levers of one route in natural order: 5R 6N 5N 6R."""
    expected = lines("""
        15 F L5.F > ROUTE1.F                ; the lever's feed contact has the feed already
        16 F ROUTE1.F > ROUTE2.F
        17 F ROUTE2.F > ROUTE3.F
        18 1M ROUTE1.M > MATRIX.A
        19 2M ROUTE2.M > MATRIX.B
        20 3M ROUTE3.M > MATRIX.C
        21 5R MATRIX.1 > L5.R
        22 6N MATRIX.2 > L6.N
        23 5N MATRIX.3 > L5.N
        24 6R MATRIX.4 > L6.R
    """)
    assert wires_of(HARBOUR + ROUTES)[14:] == expected


def test_routes_change_no_wire_that_was_there_and_nothing_on_the_strip() -> None:
    before, after = netlist_of(HARBOUR), netlist_of(HARBOUR + ROUTES)
    assert wire_texts(after)[:14] == wire_texts(before)
    assert after.strips == before.strips


def test_the_table_of_diodes() -> None:
    (matrix,) = netlist_of(HARBOUR + ROUTES).matrices
    assert [diode.position for diode in matrix.diodes] == ["A1", "A2", "B3", "B4", "C2", "C3"]
    diodes = netlist_of(HARBOUR + ROUTES).diodes
    assert [(d.anode.name, d.cathode.name) for d in diodes][:3] == [
        ("MATRIX.A", "MATRIX.1"),
        ("MATRIX.A", "MATRIX.2"),
        ("MATRIX.B", "MATRIX.3"),
    ]


def test_what_every_wire_is_for() -> None:
    wires = {wire.number: wire for wire in netlist_of(HARBOUR + ROUTES).wires}
    assert [wires[n].circuit for n in (15, 18, 21)] == ["PULSE", "MATRIX", "5"]
    assert [wires[n].function for n in (15, 18, 21, 22)] == ["feed", "route", "reverse", "normal"]
    assert {wires[n].board for n in range(15, 25)} == {"Quay"}


def test_a_route_that_is_added_at_the_end_moves_nothing_on_the_board() -> None:
    routes = read(ROUTES)["routes"]
    (before,) = netlist_of(with_routes(routes)).matrices
    (after,) = netlist_of(with_routes({**routes, "Yard": {"6": "reverse"}})).matrices
    assert after.rows[:3] == before.rows
    assert after.columns[: len(before.columns)] == before.columns
    assert after.rows[3].columns == (4,)


def test_numbers_pass_over_those_that_routes_have_of_their_own() -> None:
    one = {"5": "normal"}
    routes = {"a": {"levers": one, "number": "2"}, "b": one, "c": one, "d": {"levers": one, "number": "7"}, "e": one}
    assert [number for _, _, number, _ in rows_of(netlist_of(with_routes(routes)))] == ["2", "1", "3", "7", "4"]


def test_rows_have_letters_that_do_not_look_like_digits() -> None:
    """ISO 5457: grid references leave out I and O."""
    assert "".join(row_letter(index) for index in range(24)) == "ABCDEFGHJKLMNPQRSTUVWXYZ"
    assert [row_letter(index) for index in (24, 25, 47, 48, 24 + 24 * 24)] == ["AA", "AB", "AZ", "BA", "AAA"]


def test_a_stud_has_its_feed_from_the_probe() -> None:
    routes = {"a": {"levers": {"5": "normal"}, "stud": "1"}, "b": {"5": "reverse"}}
    assert wires_of(with_routes(routes))[14:] == lines("""
        15 F L5.F > ROUTE2.F
        16 1M ROUTE1.M > MATRIX.A
        17 2M ROUTE2.M > MATRIX.B
        18 5N MATRIX.1 > L5.N
        19 5R MATRIX.2 > L5.R
    """)


def test_levers_without_a_feed_of_their_own_leave_it_to_the_supply() -> None:
    railway = HARBOUR + "    levers: {5: {type: stud}, 6: {type: stud}}\n"
    wires = wires_of(with_routes({"a": {"5": "normal"}}, railway))
    assert [wire.split(" ", 1)[1] for wire in wires if "ROUTE" in wire] == [
        "F PULSE.feed > ROUTE1.F",
        "1M ROUTE1.M > MATRIX.A",
    ]


def test_a_feed_behind_the_panel_goes_on_from_a_lever_too() -> None:
    railway = read(HARBOUR + ROUTES)
    railway["supplies"]["PULSE"]["feed_at"] = "panel"
    assert "F L5.F > ROUTE1.F" in [wire.split(" ", 1)[1] for wire in wires_of(railway)]


TWO_PANELS = """
    supplies: {PULSE: {kind: pulse}, SIDE: {kind: pulse}}
    strips: {A1: {ways: 40}}
    panels: {EAST: {}, WEST: {}}
    levers: {1: {panel: WEST}, 2: {panel: EAST}, 3: {panel: WEST}}
    points: {P1: {supply: PULSE}, P2: {supply: PULSE}, P3: {supply: SIDE}}
"""


def test_a_matrix_for_each_panel_and_each_supply() -> None:
    routes = {
        "a": {"1": "normal", "2": "normal"},
        "b": {"levers": {"1": "normal"}, "panel": "EAST"},
        "c": {"3": "normal"},
        "d": {"2": "reverse"},
    }
    netlist = netlist_of(with_routes(routes, TWO_PANELS))
    assert rows_of(netlist) == [
        ("MATRIX", "A", "1", ["1N", "2N"]),
        ("MATRIX2", "A", "2", ["1N"]),
        ("MATRIX2", "B", "4", ["2R"]),
        ("MATRIX3", "A", "3", ["3N"]),
    ]
    assert [(m.panel, m.supply) for m in netlist.matrices] == [("WEST", "PULSE"), ("EAST", "PULSE"), ("WEST", "SIDE")]
    # The feed of a panel's buttons comes from the first lever that stands there, each called after its supply.
    feeds = [wire.split(" ", 1)[1] for wire in wire_texts(netlist) if wire.endswith("F") and "ROUTE" in wire]
    assert feeds == [
        "PULSEF L1.F > ROUTE1.F",
        "PULSEF L2.F > ROUTE2.F",
        "PULSEF ROUTE2.F > ROUTE4.F",
        "SIDEF L3.F > ROUTE3.F",
    ]


def test_the_panel_that_draws_a_route_has_it() -> None:
    railway = read(TWO_PANELS)
    railway["panels"]["EAST"] = {"routes": {"a": ["1", "1"]}}
    (matrix,) = netlist_of({**railway, "routes": {"a": {"1": "normal"}}}).matrices
    assert matrix.panel == "EAST"


def test_without_a_panel_the_matrix_is_on_the_board_of_its_first_lever() -> None:
    railway = """
        boards: {E: {}, W: {}}
        supplies: {PULSE: {kind: pulse, board: W}}
        strips: {A1: {board: E}, B1: {board: W}}
        points: {P1: {board: E}, P2: {board: W}}
        routes: {a: {2: normal}, b: {1: normal}}
    """
    (matrix,) = netlist_of(railway).matrices
    assert (matrix.panel, matrix.board) == (None, "W")


@pytest.mark.parametrize(
    ("more", "lever", "why"),
    [
        ("levers: {9: }", "9", "it works nothing"),
        ("devices: {S: {kind: section, lever: 9}}\nsupplies: {T: {kind: track}}", "9", "which no pulse sets"),
        ("points: {P9: {kind: three-way}}", "9", "just one contact"),
        ("levers: {9: {type: latching}}\npoints: {P9: }", "9", "it is latching"),
    ],
)
def test_levers_that_no_route_can_set(more: str, lever: str, why: str) -> None:
    railway = {"supplies": {"PULSE": {"kind": "pulse"}}, "strips": {"A1": {"ways": "60"}}}
    for key, table in read(more).items():
        railway[key] = {**railway.get(key, {}), **table}
    railway["points"] = {"P1": None, **railway.get("points", {})}  # type: ignore[dict-item]
    netlist, problems = wired({**railway, "routes": {"a": {"1": "normal", lever: "normal"}}})
    assert [problem.code for problem in problems] == ["route-cannot-drive"]
    assert why in problems[0].message
    assert problems[0].place.source == f"routes.a.{lever}"
    assert rows_of(netlist) == [("MATRIX", "A", "1", ["1N"])]


def test_one_button_has_one_supply() -> None:
    assert problems_of(with_routes({"a": {"1": "normal", "3": "normal"}}, TWO_PANELS)) == [
        ("route-cannot-drive", "routes.a.3")
    ]


def test_what_cannot_be_known_is_left_to_the_reading_stage() -> None:
    routes = {"a": {"77": "normal", "5": "up"}, "b": {"levers": {}}, "c": {"levers": {"5": "normal"}, "panel": "NONE"}}
    netlist = netlist_of(with_routes(routes))
    assert rows_of(netlist) == [("MATRIX", "A", "3", ["5N"])]


def test_a_lever_may_be_named_as_it_is_painted_and_then_its_wires_are_called_so() -> None:
    railway = HARBOUR + "    levers: {5: {shown: 05X}}\n"
    netlist = netlist_of(with_routes({"a": {"05X": "normal"}}, railway))
    output = netlist.wires[-1]
    assert (output.head, output.stem, output.finish.shown) == ("5N", "05X", "L05X.N")


def test_a_listed_wire_may_be_one_of_a_routes() -> None:
    listed = '    wires: [{from: L5.R, to: MATRIX.1, number: "77"}, {from: ROUTE1.M, to: MATRIX.A, number: "78"}]\n'
    wires = netlist_of(HARBOUR + ROUTES + listed).wires
    assert len(wires) == 24
    assert [str(wire.number) for wire in wires if wire.listed is not None] == ["78", "77"]


@pytest.mark.parametrize("end", ["MATRIX.D", "MATRIX.5", "MATRIX2.A", "ROUTE1.X", "ROUTE9.F"])
def test_terminals_that_no_matrix_has(end: str) -> None:
    listed = f"    wires: [{{from: L5.R, to: {end}}}]\n"
    assert problems_of(HARBOUR + ROUTES + listed) == [("bad-end", "wires.0.to")]


def test_lengths_are_known_where_buttons_and_matrix_have_places() -> None:
    """Squares of 10 mm: button at (40, 40), matrix at (100, 60): 60 + 20, and 150 at each end, up to 50: 400."""
    railway = read(HARBOUR + ROUTES)
    railway["panels"]["MAIN"] |= {"routes": {"Harbour": ["4", "4"]}, "matrix": ["10", "6"]}
    netlist = netlist_of(railway)
    assert length_of(netlist, "ROUTE1.M", "MATRIX.A") == 400
    # Lever 5 in the row, in the first half of 200 mm: (50, 90); 50 + 30 + 300 = 380.
    assert length_of(netlist, "MATRIX.1", "L5.R") == 400
    assert length_of(netlist, "ROUTE2.M", "MATRIX.B") is None
    assert all(length_of(netlist_of(HARBOUR + ROUTES), "MATRIX.1", f"L5.{c}") is None for c in "R")


def test_a_wire_to_a_lever_on_another_board_runs_through_the_plug() -> None:
    railway = """
        boards: {E: {}, W: {}}
        supplies: {PULSE: {kind: pulse, board: W}}
        strips: {A1: {board: E}, B1: {board: W}}
        panels: {PE: {board: E}, PW: {board: W}}
        levers: {1: {panel: PE}, 2: {panel: PW}}
        points: {P1: {board: E}, P2: {board: W}}
        plugs: {J1: {boards: [E, W], pins: 9}}
        routes: {a: {levers: {1: normal, 2: normal}, panel: PW}}
    """
    wires = [wire.split(" ", 1)[1] for wire in wires_of(railway)]
    (first,) = [wire for wire in wires if "MATRIX.1" in wire]
    assert first.startswith("1N MATRIX.1 > J1.")
    assert f"1N {first.split('> ')[1]} > L1.N" in wires
    assert "2N MATRIX.2 > L2.N" in wires


def test_the_short_form_and_the_long_one_mean_the_same() -> None:
    short, long = (
        described(HARBOUR + "    routes: {a: {5: normal}}\n"),
        described(HARBOUR + "    routes: {a: {levers: {5: normal}}}\n"),
    )
    assert short.routes["a"].levers == long.routes["a"].levers == {"5": "normal"}
