"""Legends, read back: what is met on a board or in a panel is explained there, and nothing else."""

from io import BytesIO
from typing import Any

import numpy as np
import pytest
from drawn_extents import cap_height, extent
from pypdfium2 import PdfDocument

from labelgen.drawings.legend.legend import WIDTH, legend_drawings
from labelgen.imposition.strip_packing import pack, packing_room
from labelgen.model.description import Description
from labelgen.model.drawing import Box, Drawing, Outline, Text
from labelgen.model.look import CellSize, Look
from labelgen.model.sheet import Document, Placed, Sheet
from labelgen.problems import Problem
from labelgen.reading.data_readers import built_in_kinds, stocks
from labelgen.rendering.pdf import pdf_bytes
from labelgen.standards.functions import DEFAULT_FUNCTIONS
from labelgen.standards.legibility import HEADS_READ_AT_MM, LEAST_MINUTES, SMALLEST_CAP_MM
from labelgen.standards.legibility import cap_height as legible_at
from labelgen.wiring.expansion import expand

A4 = CellSize(**dict(zip(("width", "height"), packing_room(stocks()["a4-1-full"]), strict=True)))
RAILWAY: dict[str, Any] = {
    "railway": "Marram Quay",
    "boards": {"B1": {"name": "Harbour"}, "B2": {}},
    "supplies": {
        "PULSE": {"kind": "pulse", "board": "B1"},
        "CAB": {"kind": "track", "board": "B2"},
        "DC": {"kind": "dc", "board": "B2"},
    },
    "strips": {
        "A1": {"board": "B1", "ways": "12", "measured": "110", "keep": ["12"], "bridges": [["10", "11"]]},
        "A2": {"board": "B2", "ways": "24", "measured": "230"},
    },
    "points": {
        "P1": {"board": "B1"},
        "P2": {"board": "B2", "kind": "stall-motor", "supplies": {"drive": "DC", "rails": "CAB"}},
    },
    "devices": {"H1": {"kind": "lamps", "board": "B2", "supply": "DC"}},
    "panels": {"QUAY": {"board": "B1", "name": "Quay panel"}},
}


def legends(look: Look | None = None, **more: Any) -> tuple[dict[str, Drawing], list[Problem]]:
    keys = {key: value for key, value in {**RAILWAY, **more}.items() if value is not None}
    description = Description.model_validate(keys)
    netlist, problems = expand(description, built_in_kinds())
    assert problems == []
    drawings, found = legend_drawings(description, netlist, look or Look(words=description.words), A4)
    return {drawing.name: drawing for drawing in drawings}, found


def read(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.shapes if isinstance(shape, Text)]


def test_each_board_and_each_panel_has_one() -> None:
    drawings, problems = legends()
    assert problems == []
    assert list(drawings) == ["legend of B1", "legend of B2", "legend of panel QUAY"]
    assert [drawing.board for drawing in drawings.values()] == ["B1", "B2", "B1"]
    assert read(drawings["legend of B1"])[-3:] == ["B1", "Harbour", "legend"] or "Harbour" in read(
        drawings["legend of B1"]
    )


def test_only_the_functions_that_are_met_there_are_explained() -> None:
    drawings, _ = legends()
    names = {place: set(read(drawing)) & DEFAULT_FUNCTIONS.keys() for place, drawing in drawings.items()}
    assert names["legend of B1"] == {"normal", "reverse", "feed", "return", "drive-a", "drive-b"}
    assert names["legend of B2"] >= {"drive-a", "drive-b", "track", "track-return", "frog", "lamp"}
    assert "normal" not in names["legend of B2"]
    assert "normal" in names["legend of panel QUAY"]
    assert "lamp" not in names["legend of panel QUAY"]


def test_a_function_says_its_colour_and_size_in_words() -> None:
    drawings, _ = legends(functions={"normal": {"colour": "red/blue", "size": "7/0.2"}, "reverse": "GY"})
    said = read(drawings["legend of B1"])
    assert "red-blue RDBU, 7/0.2" in said
    assert "grey GY, 16/0.2" in said
    american, _ = legends(functions={"reverse": "GY"}, words="american")
    assert "gray GY, 16/0.2" in read(american["legend of B1"])


@pytest.mark.parametrize(
    ("place", "seen", "means"),
    [
        ("legend of B1", "1N", "lever 1, N for normal"),
        ("legend of B1", "L1.N", "lever 1, contact N"),
        ("legend of B1", "A1.1", "strip A1, way 1"),
        ("legend of B1", "P1.N", "P1, its terminal N"),
        ("legend of B2", "H1L", "H1 (it has no lever), L for lamp"),
        ("legend of B2", "2A", "lever 2, A for drive-a"),
        ("legend of B2", "T", "a chain, T for track"),
        ("legend of panel QUAY", "N, R, F", "lever contacts: normal, reverse, feed"),
        ("legend of panel QUAY", "A, B", "the two arms of a changeover lever"),
    ],
)
def test_what_is_seen_stands_beside_what_it_means(place: str, seen: str, means: str) -> None:
    drawings, _ = legends()
    said = read(drawings[place])
    assert means in said
    assert said[said.index(means) - 1] == seen
    written = {shape.text: shape for shape in drawings[place].shapes if isinstance(shape, Text)}
    one, other = written[seen], written[means]
    assert one.y == pytest.approx(other.y)
    assert one.x < other.x


def test_painted_names_are_those_that_are_explained() -> None:
    points = {"P1": {"board": "B1", "shown": "No. 1", "terminals": {"N": "left"}}}
    drawings, _ = legends(
        points=points, levers={"1": {"shown": "I"}}, devices=None, supplies={"PULSE": {"kind": "pulse", "board": "B1"}}
    )
    said = read(drawings["legend of B1"])
    assert "No. 1, its terminal left" in said
    assert "twin-coil: left coil that sets normal; C shared end; R" in " ".join(said)
    assert "lever I, contact N" in said


def test_own_kinds_keep_their_own_words() -> None:
    own = {"bell": {"terminals": {"1": "baseboards", "2": None}, "supply": "dc", "group": [
        {"function": "lamp", "terminal": "1", "chain": "feed"}], "chain": [
        {"function": "return", "terminal": "2", "supply": "return"}]}}  # fmt: skip
    drawings, _ = legends(kinds=own, devices={"H1": {"kind": "bell", "board": "B2", "supply": "DC"}}, words="american")
    assert "bell: 1 baseboards" in read(drawings["legend of B2"])
    assert "vee frog" in " ".join(read(drawings["legend of B2"]))


def test_signs_are_explained_where_they_are_met() -> None:
    drawings, _ = legends()
    first, second = (" ".join(read(drawings[place])) for place in ("legend of B1", "legend of B2"))
    assert "a bridge" in first
    assert "kept free" in first
    assert "exchange" not in first
    assert "exchange" in second
    assert "kept free" not in second
    assert "Signs" not in " ".join(read(drawings["legend of panel QUAY"]))


def test_a_strip_with_nothing_to_explain_has_no_signs() -> None:
    drawings, _ = legends(
        strips={"A1": {"board": "B1", "ways": "3", "measured": "20"}}, points={"P1": {"board": "B1"}}, devices=None
    )
    assert "Signs on the markers" not in read(drawings["legend of B1"])


def test_without_boards_there_is_one_for_the_railway() -> None:
    drawings, problems = legends(
        boards=None, supplies={"PULSE": {"kind": "pulse"}}, strips={"A1": {"ways": "12"}}, points={"P1": {}},
        devices=None, panels=None,
    )  # fmt: skip
    assert problems == []
    assert list(drawings) == ["legend of Marram Quay"]
    assert "lever contacts: normal, reverse, feed" in read(drawings["legend of Marram Quay"])


def test_a_board_without_wires_has_none() -> None:
    drawings, _ = legends(boards={"B1": {}, "B2": {}, "B3": {}})
    assert "legend of B3" not in drawings


def test_everything_is_on_the_card_and_can_be_read() -> None:
    drawings, _ = legends()
    least = legible_at(HEADS_READ_AT_MM, LEAST_MINUTES)
    for drawing in drawings.values():
        assert drawing.width == WIDTH
        assert drawing.height <= A4.height / 2
        for shape in drawing.shapes:
            left, top, right, bottom = extent(shape)
            assert left >= 4.5
            assert top >= 3
            assert right <= WIDTH - 4.5
            assert bottom <= drawing.height - 2
            if isinstance(shape, Text) and shape.text not in "–⇄0123456789":
                assert cap_height(shape) >= least * 0.99 or len(shape.text) == 1
                assert cap_height(shape) >= SMALLEST_CAP_MM


def test_all_usual_cards_are_of_one_height_so_that_cuts_are_straight() -> None:
    drawings, _ = legends()
    assert len({drawing.height for drawing in drawings.values()}) == 1


def test_a_fuller_card_is_taller_and_the_fullest_goes_on_on_another() -> None:
    kinds = {
        f"bell{n}": {
            "terminals": {"1": f"hammer of the bell that rings when a train comes in on road {n}", "2": "shared"},
            "supply": "dc",
            "group": [{"function": "lamp", "terminal": "1", "chain": "feed"}],
            "chain": [{"function": "return", "terminal": "2", "supply": "return"}],
        }
        for n in range(24)
    }  # fmt: skip
    devices = {f"H{n}": {"kind": f"bell{n}", "board": "B2", "supply": "DC"} for n in range(24)}
    strips = {**RAILWAY["strips"], "A3": {"board": "B2", "ways": "100", "measured": "990"}}
    drawings, problems = legends(kinds=kinds, devices=devices, strips=strips)
    assert problems == []
    tall = [drawing for name, drawing in drawings.items() if name.startswith("legend of B2")]
    assert [drawing.name for drawing in tall] == ["legend of B2, 1/2", "legend of B2, 2/2"]
    assert A4.height / 2 < tall[0].height <= A4.width
    pages, told = pack(list(drawings.values()), stocks()["a4-1-full"])
    assert told == []
    assert sum(len(page.placed) for page in pages) == len(drawings)


def test_four_usual_cards_share_a_page() -> None:
    drawings, _ = legends(boards={"B1": {}, "B2": {}})
    four = [*drawings.values(), *drawings.values()][:4]
    assert len(pack(four, stocks()["a4-1-full"])[0]) == 1


def test_a_black_and_white_printer_gets_black_white_and_grey() -> None:
    drawings, _ = legends(Look(mono=True))
    fills = {s.fill for d in drawings.values() for s in d.shapes if isinstance(s, (Box, Outline)) and s.fill}
    assert {fill.lower() for fill in fills} <= {"#ffffff", "#000000"}


def _grey(drawing: Drawing) -> np.ndarray:
    page = Sheet(width=drawing.width, height=drawing.height, placed=(Placed(x=0, y=0, drawing=drawing),))
    content = pdf_bytes(Document(title="t", pages=(page,)))
    return np.asarray(PdfDocument(BytesIO(content))[0].render(scale=300 / 72).to_pil().convert("L"))


def test_on_a_copy_in_black_and_white_every_block_has_both() -> None:
    """Printed, copied with a threshold at half grey: letters and patterns are still seen."""
    drawings, _ = legends()
    for drawing in drawings.values():
        copied = _grey(drawing) < 128
        blocks = [s for s in drawing.shapes if isinstance(s, Box) and s.stroke and s.width > 8 and s.height > 6]
        assert blocks
        for block in blocks:
            x, y, right, bottom = (round(v * 300 / 25.4) for v in (
                block.x + 0.3, block.y + 0.3, block.x + block.width - 0.3, block.y + block.height - 0.3))  # fmt: skip
            dark = copied[y:bottom, x:right].mean()
            assert 0.03 < dark < 0.97


@pytest.mark.parametrize("what", ["boards", "panels"])
def test_a_name_that_cannot_be_printed_is_told_at_its_place(what: str) -> None:
    named = {"boards": {"B1": {"name": "🏗"}, "B2": {}}, "panels": {"QUAY": {"board": "B1", "name": "🏗"}}}
    _, problems = legends(**{what: named[what]})
    assert {problem.code for problem in problems} == {"character-missing"}


def test_a_name_that_finds_no_room_is_left_out_and_an_id_is_told() -> None:
    drawings, problems = legends(boards={"B1": {"name": "x" * 300}, "B2": {}})
    assert problems == []
    assert read(drawings["legend of B1"])[:2] == ["B1", "legend"]
    drawings, problems = legends(boards={"B1": {"shown": "x" * 60, "name": "Harbour"}, "B2": {}})
    assert problems == []
    assert "Harbour" not in read(drawings[f"legend of {'x' * 60}"])
    _, problems = legends(boards={"B1": {"shown": "x" * 300, "name": "Harbour"}, "B2": {}})
    assert [problem.code for problem in problems] == ["text-does-not-fit"]


def test_a_long_end_has_its_meaning_below_it() -> None:
    name = "HARBOUR_LOOP_POINT"
    drawings, problems = legends(points={name: {"board": "B1", "lever": "1"}}, devices=None)
    assert problems == []
    written = {shape.text: shape for shape in drawings["legend of B1"].shapes if isinstance(shape, Text)}
    seen, means = written[f"{name}.N"], written[f"{name}, its terminal N"]
    assert means.y > seen.y + cap_height(seen)
    assert cap_height(seen) >= legible_at(HEADS_READ_AT_MM, LEAST_MINUTES) * 0.99


def test_a_word_that_is_wider_than_the_card_is_told() -> None:
    kind = {"terminals": {"1": "x" * 200, "2": "shared"}, "supply": "dc",
            "group": [{"function": "lamp", "terminal": "1", "chain": "feed"}],
            "chain": [{"function": "return", "terminal": "2", "supply": "return"}]}  # fmt: skip
    _, problems = legends(kinds={"bell": kind}, devices={"H1": {"kind": "bell", "board": "B2", "supply": "DC"}})
    assert [problem.code for problem in problems] == ["text-does-not-fit"]


def test_what_else_a_board_and_a_panel_may_have() -> None:
    """A test point, fixing holes, a head with a mark, routes with their diodes, and a wire of the builder's own."""
    strip = {"board": "B1", "ways": "12", "measured": "110", "test_points": ["1"], "fixing": "60"}
    drawings, problems = legends(
        strips={"A1": strip},
        supplies={"PULSE": {"kind": "pulse", "board": "B1"}, "CAB": {"kind": "track", "board": "B1"}},
        points={"P1": {"board": "B1"}},
        devices={"YARD": {"kind": "section", "lever": "11", "board": "B1"}},
        routes={"Main": {"1": "normal"}},
        wires=[{"from": "A1.11", "to": "A1.12", "function": "feed"}],
    )
    assert problems == []
    board, panel = (" ".join(read(drawings[place])) for place in ("legend of B1", "legend of panel QUAY"))
    assert "a test point: hold the meter here" in board
    assert "a hole that the strip is screwed down by" in board
    assert "lever 11, T for track; s says which of several" in board
    assert "1M route 1, M for route" in panel
    assert "button of route 1, contact M" in panel or "button of route 1, contact F" in panel
    assert "the diodes of the routes, terminal" in panel
    assert "button of route" not in board
