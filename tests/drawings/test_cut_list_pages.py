"""The printed cut list: what is on paper is what the wiring says, and it can be read in poor light."""

import re
from dataclasses import replace
from io import BytesIO

import pdfplumber
import pytest
from drawings.drawn_extents import assert_all_inside, cap_height, texts
from drawings.strip_railway import DEVICE, LEVER, SUPPLY, Wirer, described, end, harbour

from labelgen.drawings.lists.cells import TICK_BOX
from labelgen.drawings.lists.cut_list_pages import cut_list_pages
from labelgen.model.drawing import Box, Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import EndKind, Netlist
from labelgen.model.sheet import Document, Placed, Sheet
from labelgen.problems import Problem
from labelgen.rendering.pdf import pdf_bytes
from labelgen.standards.paper_sizes import PAPERS

Boards = dict[str, object]


def printed(
    netlist: Netlist, *, look: Look | None = None, paper: str = "a4", **keys: object
) -> tuple[list[Drawing], list[Problem]]:
    return cut_list_pages(described(netlist, **keys), netlist, look or Look(), PAPERS[paper])


def pages(netlist: Netlist, *, look: Look | None = None, paper: str = "a4", **keys: object) -> list[Drawing]:
    drawings, problems = printed(netlist, look=look, paper=paper, **keys)
    assert problems == []
    return drawings


def words(netlist: Netlist, **keys: object) -> list[str]:
    return [text.text for page in pages(netlist, **keys) for text in texts(page)]


def panel_wires(netlist: Netlist, **more: object) -> Netlist:
    wires = [replace(wire, **more) if wire.start.kind is LEVER else wire for wire in netlist.wires]  # type: ignore[arg-type]
    return replace(netlist, wires=tuple(wires))


def with_hole(**hole: object) -> Boards:
    return {"boards": {"WEST": {"shown": "West board", "holes": {"H1": {"at": ["0", "0"], **hole}}}}}


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_page_is_the_paper_and_nothing_leaves_it(paper: str) -> None:
    for page in pages(harbour(points=12, ways=36), paper=paper):
        assert (page.width, page.height) == (PAPERS[paper].width, PAPERS[paper].height)
        assert_all_inside(page)


@pytest.mark.parametrize("look", [Look(), Look(mono=True), Look(smallest_cap=4)], ids=["colour", "mono", "large"])
def test_no_capital_is_lower_than_2_5_mm(look: Look) -> None:
    """The least height below a baseboard: common practice, no source."""
    for page in pages(harbour(points=12, ways=36), look=look):
        assert min(cap_height(text) for text in texts(page)) >= max(2.5, look.smallest_cap) - 1e-6
        assert_all_inside(page)


def test_read_back_from_the_pdf() -> None:
    """Every wire once: number, head, size and ends as in the wiring, with pdfplumber as the reader."""
    netlist = harbour(points=12, ways=36)
    drawings = pages(netlist)
    sheets = [Sheet(width=d.width, height=d.height, placed=(Placed(x=0, y=0, drawing=d),)) for d in drawings]
    with pdfplumber.open(BytesIO(pdf_bytes(Document(title="cut list", pages=tuple(sheets))))) as document:
        text = "\n".join(page.extract_text() for page in document.pages)
        heads = [page.extract_text().splitlines()[0] for page in document.pages]
    assert heads == [f"Marram Quay: cut list page {n} of {len(drawings)}" for n in range(1, len(drawings) + 1)]
    row = re.compile(r"^(\d+) (\S+) ([A-Z]+) (\S+) (?:(\d+) )?(?:\d )?(–|\d × [\d.]+) (\S+\.\S+) (\S+\.\S+)$", re.M)
    found = {match[0]: match[1:] for match in ((m[1], *m.groups()[1:]) for m in row.finditer(text))}
    assert len(found) == len(netlist.wires)
    for wire in netlist.wires:
        length = None if wire.length is None else str(wire.length)
        at_strips = sum(end.kind is EndKind.WAY for end in wire.ends)
        ferrule = f"{at_strips} × 0.5" if at_strips else "–"
        ends = (wire.start.name, wire.finish.name)
        assert found[str(wire.number)] == (wire.head, wire.colour, wire.size, length, ferrule, *ends)


def test_boxes_for_the_cut_the_two_flags_and_the_last_screw() -> None:
    netlist = harbour(points=1)
    boxes = [
        shape for page in pages(netlist) for shape in page.shapes if isinstance(shape, Box) and shape.width == TICK_BOX
    ]
    buying = 4 + 1 + 1  # four kinds of wire, one of ferrule, one of strip
    assert len(boxes) == buying + 4 * len(netlist.wires)


def test_no_boxes_for_flags_on_a_link() -> None:
    one, two = (
        sum(
            isinstance(shape, Box) and shape.width == TICK_BOX
            for page in pages(harbour(points=n))
            for shape in page.shapes
        )
        for n in (1, 2)
    )
    assert two - one == 4 * 6 + 2  # six wires more, and the link


def test_what_to_buy() -> None:
    said = words(harbour(points=2))
    assert said[said.index("RDBU red-blue") if "RDBU red-blue" in said else said.index("RD red") :][:3] == [
        "RD red", "16/0.2", "4",
    ]  # fmt: skip
    assert said.count("1 × 10 m") == 4
    assert "1 wire has no length and is left out of these lengths: measure in place, and buy for that too." in said
    at = said.index("0.5 mm²")
    assert said[at : at + 4] == ["0.5 mm²", "8 mm", "13", "16/0.2"]
    at = said.index("12-way")
    assert said[at : at + 4] == ["12-way", "5 A", "1", "A1"]


def test_several_wires_without_length() -> None:
    said = words(panel_wires(harbour(points=1), length=None))
    assert any(text.startswith("4 wires have no length and are left out") for text in said)


def test_of_wires_without_any_length_nothing_is_added_up() -> None:
    netlist = harbour(points=1)
    said = words(replace(netlist, wires=(replace(netlist.wires[0], length=None),)))
    at = said.index("YE yellow")
    assert said[at : at + 6] == ["YE yellow", "16/0.2", "1", "–", "–", "–"]
    band = said.index("Strip A1 on WEST")
    assert said[band + 1] == "1 wire"


def test_a_wire_longer_than_any_reel_is_told() -> None:
    netlist = harbour(points=1)
    said = " ".join(words(replace(netlist, wires=(replace(netlist.wires[0], length=120_000),))))
    assert "Wire 1 (1N), 120.0 m, is longer than any usual reel and on none here: buy it by the metre." in said


def test_a_wire_of_no_colour_and_no_size() -> None:
    netlist = harbour(points=1)
    said = words(replace(netlist, wires=(replace(netlist.wires[0], size="", colour=""),)))
    at = said.index("1N")
    assert said[at : at + 6] == ["1N", "–", "–", "300", "–", "L1.N"]
    assert "ferrules" not in said


def test_two_colours_on_one_wire() -> None:
    netlist = harbour(points=1)
    assert "RDBU red-blue" in words(replace(netlist, wires=(replace(netlist.wires[0], colour="RDBU"),)))


def test_many_strips_are_not_all_named() -> None:
    wirer = Wirer()
    for number in range(1, 65):
        wirer.strip(f"S{number}")
    wirer.point("1", "P1", "S1", 1)
    said = " ".join(words(wirer.netlist()))
    assert "S60 and 4 more" in said
    assert "S61" not in said


def test_in_black_and_white_colours_are_letters_and_patterns() -> None:
    netlist = harbour(points=1)
    drawings = pages(netlist, look=Look(mono=True))
    painted = {getattr(shape, "fill", None) for page in drawings for shape in page.shapes}
    assert painted <= {None, "#ffffff", "#FFFFFF", "#000000", "#0B0B0B", "#e2e2e2"}
    assert "YE yellow" in words(netlist, look=Look(mono=True))


def test_grouped_by_strip_and_hole() -> None:
    said = words(panel_wires(harbour(points=2, shown={"A1": "TB1/A"}), holes=("H1",)), **with_hole(shown="Hole 7"))
    bands = [text for text in said if text.startswith("Strip")]
    assert bands == ["Strip TB1/A on WEST, through Hole 7", "Strip TB1/A on WEST", "Strip TB1/A on WEST: links"]


@pytest.mark.parametrize(
    ("hole", "room"),
    [
        ({}, "6 wires, bundle 4.8 mm: drill 6.2 mm"),
        ({"diameter": "20"}, "6 wires, bundle 4.8 mm, hole 20 mm: 4 % full, at most 40 %"),
        ({"diameter": "6"}, "6 wires, bundle 4.8 mm, hole 6 mm: 43 % full, too small; drill 6.2 mm"),
    ],
)
def test_what_goes_through_a_hole(hole: dict[str, object], room: str) -> None:
    """Figures by hand: six wires of 1.6 mm are 3 × 1.6 thick; 6 × 2.56 mm² of the hole's square; √(15.36 / 0.4)."""
    said = words(panel_wires(harbour(points=2), holes=("H1",)), **with_hole(**hole))
    at = said.index("Hole H1 in WEST")
    assert said[at + 1] == room
    assert said[at + 2 : at + 14] == ["1", "1N", "3", "1F", "4", "1R", "6", "2N", "8", "2F", "9", "2R"]


@pytest.mark.parametrize(
    ("hole", "said"), [({}, "more than one hole"), ({"diameter": "20"}, "too small; make another")]
)
def test_a_hole_that_no_drill_makes_large_enough(hole: dict[str, object], said: str) -> None:
    netlist = panel_wires(harbour(points=40, ways=120), holes=("H1",))
    assert any(text.startswith("120 wires") and text.endswith(said) for text in words(netlist, **with_hole(**hole)))


def test_a_wire_of_no_size_in_a_hole_is_counted() -> None:
    netlist = panel_wires(harbour(points=1), holes=("H1",))
    netlist = replace(netlist, wires=(replace(netlist.wires[0], size=""), *netlist.wires[1:]))
    assert "3 wires (1 of no size), bundle 3.2 mm: drill 4.1 mm" in words(netlist, **with_hole())


def test_off_which_reel() -> None:
    """Nine metres and nine, and a metre: two reels of 10 m, of which one is used up."""
    netlist = harbour(points=1)
    lengths = {1: 9_000, 2: 9_000, 4: 9_000, 5: 1_000}
    wires = [
        replace(wire, length=lengths[int(wire.number)], colour="YE") for wire in netlist.wires if wire.number in lengths
    ]
    said = words(replace(netlist, wires=tuple(wires)))
    assert "2 × 10 m" not in said
    assert "3 × 10 m" in said
    at = said.index("YE 16/0.2 reel 1")
    assert said[at : at + 6] == ["YE 16/0.2 reel 1", "10 m reel, all used", "1", "9000", "5", "1000"]
    at = said.index("YE 16/0.2 reel 2")
    assert said[at + 1] == "10 m reel, 1.0 m left over"
    assert "reel" in said


def test_cautions_stand_before_the_work() -> None:
    said = words(harbour(points=1))
    assert said.index("To buy") < said.index("Before you start") < said.index("To cut, in order of pulling")
    assert any("Discharge the capacitor bank" in text for text in said)


def test_at_no_strip() -> None:
    wirer = Wirer()
    wirer.wire("", "lamp", end(SUPPLY, "LIGHT", "feed"), end(DEVICE, "LAMPS", "L"), board="EAST")
    wirer.wire("", "lamp", end(SUPPLY, "LIGHT", "return"), end(DEVICE, "LAMPS", "C"), board=None)
    wirer.chain, wirer.returns = [], []
    said = words(wirer.netlist(), strips={})
    assert [text for text in said if text.startswith("No strip")] == ["No strip", "No strip on EAST"]
    assert "12-way" not in said


def test_without_wires_there_is_no_list() -> None:
    assert printed(replace(harbour(), wires=())) == ([], [])


def test_a_character_that_no_face_has_is_told() -> None:
    drawings, problems = printed(harbour(points=1, shown={"A1": "TB\U0001f682"}))
    assert {problem.code for problem in problems} == {"character-missing"}
    assert all("\U0001f682" not in text.text for page in drawings for text in texts(page))
