"""The operator's card, read back as a visitor reads it."""

from io import BytesIO
from typing import Any

import pdfplumber
import pytest
from panel_railway import HARBOUR

from labelgen.drawings.lists.operator_card import operator_card
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Text
from labelgen.model.look import Look
from labelgen.model.sheet import Document, Placed, Sheet
from labelgen.problems import Problem
from labelgen.reading.data_readers import built_in_hardware, built_in_kinds
from labelgen.rendering.pdf import pdf_bytes
from labelgen.standards.paper_sizes import PAPERS
from labelgen.typefaces import FACES
from labelgen.wiring.expansion import expand

POINTS = {f"P{n}": {} for n in "1234678"} | {"P5A": {}, "P5B": {}, "P9": {"not_in_use": "burnt coil", "name": "Wharf"}}
RAILWAY: dict[str, Any] = {
    "railway": "Marram Quay",
    "supplies": {"PULSE": {"kind": "pulse"}, "CAB": {"kind": "track"}, "DC": {"kind": "dc"}},
    "strips": {"A1": {"ways": "100"}},
    "levers": {"5": {"name": "Crossover", "normal": "down"}, "10": {"spare": "yes"}, "13": {"type": "button"}},
    "points": POINTS,
    "devices": {
        "YARD": {"kind": "section", "lever": "11", "name": "Goods yard"},
        "QUAY": {"kind": "section", "lever": "12"},
        "U1": {"kind": "uncoupler", "lever": "13", "name": "Uncoupler"},
    },
    "panels": {"HARBOUR": HARBOUR},
    "routes": {"Platform 1": {"2": "normal", "5": "reverse", "1": "normal"}, "Yard": {"5": "normal"}},
}


def card(paper: str = "a4", **more: Any) -> tuple[list[Drawing], list[Problem]]:
    keys = {key: value for key, value in {**RAILWAY, **more}.items() if value is not None}
    description = Description.model_validate(keys).with_parts(built_in_hardware())
    netlist, problems = expand(description, built_in_kinds())
    assert problems == []
    return operator_card(description, netlist, Look(), PAPERS[paper])


def lines(drawings: list[Drawing]) -> list[str]:
    """The lines of text, as another program reads them."""
    pages = [Sheet(width=d.width, height=d.height, placed=(Placed(x=0, y=0, drawing=d),)) for d in drawings]
    with pdfplumber.open(BytesIO(pdf_bytes(Document(title="t", pages=tuple(pages))))) as pdf:
        return [line for page in pdf.pages for line in page.extract_text().splitlines()]


def test_each_route_names_its_button_and_the_levers_in_the_builders_order() -> None:
    said = lines(card()[0])
    assert "1 Platform 1 2 up, 5 up, 1 up" in said  # lever 5 lies down when normal
    assert "2 Yard 5 down" in said


def test_each_lever_says_what_it_works_and_where_its_two_lies_lead() -> None:
    said = lines(card()[0])
    assert "1 P1, points handle up: to “main” handle down: to “goods”" in said
    assert "8 P8, points handle up: to “quay” handle down: to “wharf”" in said
    assert "13 Uncoupler – –" in said


def test_sections_spares_and_what_is_out_of_use_are_said() -> None:
    said = lines(card()[0])
    assert {"11 Goods yard handle down", "12 QUAY handle down"} <= set(said)
    assert "Spare, and working nothing: 10." in said
    assert "P9, Wharf: burnt coil" in said
    assert "9 Wharf, out of use out of use out of use" in said
    assert "When you leave, put every section switch off." in " ".join(said)


def test_a_route_that_cannot_be_set_says_so() -> None:
    said = " ".join(lines(card(routes={"Wharf": {"9": "reverse"}})[0]))
    assert "9 down (out of use)" in said


def test_the_roads_over_a_slip_name_the_levers_for_each_of_them() -> None:
    roads = {"main to quay": {"7": "reverse", "8": "normal"}, "along the main": {"8": "normal", "7": "normal"}}
    said = lines(
        card(points={**POINTS, "P7": {"name": "Slip", "roads": roads}, "P8": {"roads": {"up": {"8": "reverse"}}}})[0]
    )
    assert "Points that depend on each other" in said
    assert {"Slip main to quay 7 down, 8 up", "Slip along the main 8 up, 7 up", "P8 up 8 down"} <= set(said)
    assert "Points that depend on each other" not in lines(card()[0])


def test_signals_say_danger_and_clear() -> None:
    devices = {"S1": {"kind": "semaphore", "lever": "1", "name": "Home"}}
    levers = {"2": {"role": "distant", "type": "latching", "name": "Outer"}}
    said = lines(card(points=None, routes=None, panels=None, devices=devices, levers=levers)[0])
    assert "2 Outer, distant handle up: caution handle down: clear" in said
    assert any(line == "1 Home, stop handle up: danger handle down: clear" for line in said)
    assert "every signal back to danger." in " ".join(said)


def test_the_usual_cautions_stand_first() -> None:
    said = " ".join(lines(card()[0])[1:7])
    for words in ("turns everything off", "Open nothing", "never move points under a train", "One lever at a time"):
        assert words in said


def test_a_small_railway_has_a_card_of_a5_and_a_large_one_of_a4() -> None:
    (small,), problems = card(points={"P5A": {}}, devices=None, panels=None, routes=None, levers=None)
    assert problems == []
    assert (small.width, small.height) == (148, 210)
    large, _ = card(points={f"P{n}": {} for n in range(1, 41)}, devices=None, panels=None, routes=None, levers=None,
                    strips={"A1": {"ways": "200"}})  # fmt: skip
    assert len(large) > 1
    assert {(page.width, page.height) for page in large} == {(210, 297)}
    (letter,), _ = card("letter", points={"P5A": {}}, devices=None, panels=None, routes=None, levers=None)
    assert (letter.width, letter.height) == (215.9, 279.4)


@pytest.mark.parametrize(("paper", "distance"), [("a4", 500), ("letter", 600)])
def test_the_type_is_large(paper: str, distance: int) -> None:
    """ISO 9241-3: 20 minutes of arc at the distance from which it is read (the running head is no part of it)."""
    drawings, _ = card(paper, points={"P5A": {}}, devices=None, panels=None, routes=None, levers=None)
    texts = [shape for shape in drawings[0].shapes if isinstance(shape, Text)]
    caps = sorted(text.size * FACES[text.face].cap for text in texts if text.y > 18)
    assert caps[0] >= distance * 20 / 60 * 0.01745 * 0.999


def test_without_levers_there_is_no_card() -> None:
    assert card(points=None, devices=None, panels=None, routes=None, levers=None) == ([], [])


def test_sections_alone_have_no_table_of_levers_and_what_is_out_of_use_may_have_no_name() -> None:
    devices = {"YARD": {"kind": "section", "lever": "11", "not_in_use": "loose rail"}}
    said = lines(card(points=None, devices=devices, panels=None, routes=None, levers=None)[0])
    assert "Levers" not in said
    assert {"11 YARD, out of use handle down", "YARD: loose rail"} <= set(said)


def test_three_buttons_are_neither_normal_nor_reverse() -> None:
    points = {"P5": {"kind": "three-way"}}
    said = lines(card(points=points, devices=None, panels=None, levers=None, routes=None)[0])
    assert "5 P5, points press left, centre, right" in said


def test_a_crossover_says_where_both_of_its_points_lead() -> None:
    """A track may be called `up`: in quotes it is no handle."""
    panel = {
        "size": [300, 200],
        "tracks": {"up": [[1, 6], [20, 6]], "down": [[1, 9], [20, 9]], "crossover": ["P5A", "P5B"]},
        "points": {"P5A": [8, 6], "P5B": [11, 9]},
    }
    said = " ".join(
        lines(card(points={"P5A": {}, "P5B": {}}, devices=None, panels={"HARBOUR": panel}, levers=None, routes=None)[0])
    )
    for words in ("handle up: P5A to", "“up”, P5B to", "“down”", "down: P5A and P5B to", "“crossover”"):
        assert words in said


def test_buttons_of_a_three_way_say_to_which_track() -> None:
    panel = {
        "size": [300, 200],
        "tracks": {
            "main": [[1, 6], [20, 6]], "north": ["P5", [11, 3], [20, 3]], "south": ["P5", [11, 9], [20, 9]],
        },
        "points": {"P5": [8, 6]},
    }  # fmt: skip
    points = {"P5": {"kind": "three-way"}}
    said = " ".join(lines(card(points=points, devices=None, panels={"HARBOUR": panel}, levers=None, routes=None)[0]))
    assert "press left: to “north”, centre: to “main”, right: to “south”" in said


def test_positions_of_a_rotary_switch_say_what_they_show() -> None:
    devices = {
        "S1": {"kind": "signal-3-aspect", "lever": "1", "name": "Home"},
        "S2": {"kind": "signal-4-aspect", "lever": "2", "name": "Outer"},
    }
    said = " ".join(lines(card(points=None, routes=None, panels=None, devices=devices, levers=None)[0]))
    assert "1 Home, stop turn to red, yellow, green" in said
    assert "double: shows second yellow and" in said


def test_of_two_buttons_the_left_one_is_normal() -> None:
    levers = {"5": {"type": "buttons"}}
    said = lines(card(points={"P5": {}}, devices=None, panels=None, levers=levers, routes={"Out": {"5": "reverse"}})[0])
    assert any(line.endswith("Out 5 right button") for line in said)
    assert any("left button right button" in line for line in said)
    studs = card(points={"P5": {}}, devices=None, panels=None, levers={"5": {"type": "stud"}}, routes=None)[0]
    assert any("left stud right stud" in line for line in lines(studs))
