"""Symbols are read back from the printed page, by zxing-cpp and by OpenCV, at 300 dpi."""

import re
from dataclasses import replace

import numpy as np
import pytest
from drawings.strip_railway import DEVICE, Side, Wirer, described, end, harbour, wires_of
from hypothesis import given
from hypothesis import strategies as st

from labelgen.drawings.tags.head import Head, columns
from labelgen.drawings.tags.qr import QUIET_MODULES, Matrix
from labelgen.drawings.tags.tags import tag_drawings
from labelgen.drawings.tags.text import numbers_in_runs, split, strip_address
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Drawing, Line, Symbol, Text
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import EndKind, Netlist
from labelgen.model.sheet import Document, Placed, Sheet
from labelgen.problems import Problem
from labelgen.rendering.pdf import pdf_bytes
from labelgen.typefaces import FACES, text_width

A4 = CellSize(width=99.1, height=67.7)
LETTER = CellSize(width=101.6, height=50.8)
FLAT = CellSize(width=99.1, height=38.1)
CELLS = pytest.mark.parametrize("cell", [A4, LETTER, FLAT], ids=["a4", "letter", "flat"])
ADDRESS = "https://marram-quay.example/wiring"


def tags(netlist: Netlist, cell: CellSize = A4, look: Look | None = None, **keys: object) -> list[Drawing]:
    drawings, problems = tag_drawings(described(netlist, **keys), netlist, look or Look(), cell)
    assert problems == []
    return drawings


def troubles(netlist: Netlist, cell: CellSize = A4, look: Look | None = None, **keys: object) -> list[Problem]:
    drawings, problems = tag_drawings(described(netlist, **keys), netlist, look or Look(), cell)
    assert drawings == [] or {problem.code for problem in problems} == {"character-missing"}
    return problems


def symbols(drawing: Drawing) -> list[Symbol]:
    return [shape for shape in drawing.shapes if isinstance(shape, Symbol)]


def words(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.shapes if isinstance(shape, Text)]


def outline(text: Text) -> Rectangle:
    width = text_width(text.text, text.face, text.size) * text.stretch
    left = {"start": text.x, "middle": text.x - width / 2, "end": text.x - width}[text.anchor]
    face = FACES[text.face]
    return Rectangle(left, text.y - face.cap * text.size, width, (face.cap + face.descent) * text.size)


def scanned(drawings: list[Drawing]) -> list[str]:
    """What both readers see on each printed tag."""
    import cv2
    import pypdfium2
    import zxingcpp

    pages = tuple(
        Sheet(width=d.width + 20, height=d.height + 20, placed=(Placed(x=10, y=10, drawing=d),)) for d in drawings
    )
    texts = []
    with pypdfium2.PdfDocument(pdf_bytes(Document(title="tags", pages=pages))) as pdf:
        for page in pdf:
            image = np.ascontiguousarray(page.render(scale=300 / 72).to_numpy()[..., :3].mean(axis=2).astype("uint8"))
            (found,) = zxingcpp.read_barcodes(image, try_invert=False)
            assert found.ec_level in ("M", "Q", "H")
            texts.append(found.text)
            assert cv2.QRCodeDetectorAruco().detectAndDecode(image)[0] == found.text
    return texts


def expected_lines(netlist: Netlist, strip: str) -> dict[str, set[str]]:
    """Way: what it must be joined to, straight from the wires."""
    joined: dict[str, set[str]] = {}
    for wire in wires_of(netlist, strip):
        for here, there in (wire.ends, wire.ends[::-1]):
            if here.kind is EndKind.WAY and here.thing == strip:
                joined.setdefault(here.shown, set()).add(there.shown)
    return joined


def said_lines(texts: list[str]) -> dict[str, set[str]]:
    lines = [line.split(" ") for text in texts for line in text.split("\n")[1:]]
    return {way: set(ends) for way, *ends in lines if re.fullmatch(r".*\.\d+", way)}


def test_a_tag_holds_the_strips_schedule_way_by_way() -> None:
    (text,) = scanned(tags(harbour(points=2, ways=8)))
    assert text == (
        "A1 Marram Quay\n"
        "A1.1 L1.N P1.N\n"
        "A1.2 L1.F PULSE.feed A1.5\n"
        "A1.3 L1.R P1.R\n"
        "A1.4 L2.N P2.N\n"
        "A1.5 L2.F A1.2\n"
        "A1.6 L2.R P2.R\n"
        "Spare: 7-8"
    )


@CELLS
@pytest.mark.parametrize("ways", [12, 24, 60])
def test_every_wire_is_in_the_symbols_whatever_the_cell(cell: CellSize, ways: int) -> None:
    netlist = harbour(points=ways // 3, ways=ways, shown={"A1": "TB1/A"})
    drawings = tags(netlist, cell)
    texts = scanned(drawings)
    assert said_lines(texts) == expected_lines(netlist, "A1")
    for index, text in enumerate(texts, start=1):
        title = text.split("\n")[0]
        assert title.startswith("TB1/A Marram Quay")
        assert len(texts) == 1 or re.search(rf", ways? [\d-]+ of {ways}, {index}/{len(texts)}$", title)


@CELLS
def test_with_an_address_there_is_one_symbol_a_strip(cell: CellSize) -> None:
    wirer = Wirer()
    for index, strip in enumerate(("A1", "b-2"), start=1):
        wirer.strip(strip, 36)
        for point in range(12):
            wirer.point(f"{index}{point}", f"P{index}{point}", strip, 1 + 3 * point)
    drawings = tags(wirer.netlist(), cell, schedule=ADDRESS)
    with_symbol = [drawing for drawing in drawings if symbols(drawing)]
    assert [drawing.name.split()[1] for drawing in with_symbol] == ["A1", "b-2"]
    read = scanned(with_symbol)
    assert [text.lower() for text in read] == [f"{ADDRESS}/a1/", f"{ADDRESS}/b-2/"]
    assert [text.split("/", 3)[3] for text in read] == ["wiring/A1/", "wiring/b-2/"]


def test_scheme_and_host_are_capitals_only_where_the_symbol_becomes_smaller() -> None:
    assert strip_address("https://marram-quay.example", "A1") == "HTTPS://MARRAM-QUAY.EXAMPLE/A1/"
    assert strip_address("http://a.b/", "A1") == "http://a.b/A1/"  # version 1 or 2 either way
    assert (
        strip_address("https://pat@marram-quay-harbour.example", "A1") == "HTTPS://pat@MARRAM-QUAY-HARBOUR.EXAMPLE/A1/"
    )
    assert strip_address("https://straße-am-hafen.example", "A1") == "https://straße-am-hafen.example/A1/"


@pytest.mark.parametrize("wanted", ["address", "text", "both"])
def test_the_builder_chooses_what_the_symbols_hold(wanted: str) -> None:
    texts = scanned(tags(harbour(), schedule=ADDRESS, printing={"tags": wanted}))
    kinds = ["address" if text.lower().startswith("https") else "text" for text in texts]
    assert kinds == (["address", "text"] if wanted == "both" else [wanted])


@CELLS
@pytest.mark.parametrize("keys", [{}, {"schedule": ADDRESS}], ids=["text", "address"])
def test_all_ways_stand_there_in_words(cell: CellSize, keys: dict[str, object]) -> None:
    netlist = harbour(points=8, ways=24)
    said = [text for drawing in tags(netlist, cell, **keys) for text in words(drawing)]
    for way in netlist.strips[0].ways:
        assert str(way.number) in said
        assert way.head in said
    ends = " ".join(said).replace(",", "").split()
    for wire in wires_of(netlist, "A1"):
        for here, there in (wire.ends, wire.ends[::-1]):
            assert here.kind is not EndKind.WAY or there.shown in ends


@CELLS
@pytest.mark.parametrize("keys", [{}, {"schedule": ADDRESS}], ids=["text", "address"])
def test_nothing_leaves_the_tag_or_enters_a_quiet_zone(cell: CellSize, keys: dict[str, object]) -> None:
    netlist = harbour(points=8, ways=24)
    for drawing in tags(netlist, cell, **keys):
        label = Rectangle(0, 0, cell.width, cell.height)
        texts = [outline(shape) for shape in drawing.shapes if isinstance(shape, Text)]
        rules = [Rectangle(s.x1, s.y1, s.x2 - s.x1, s.width) for s in drawing.shapes if isinstance(s, Line)]
        assert all(label.inset(1).contains(text) for text in texts + rules)
        for text in texts:
            assert not any(text.overlaps(other) for other in texts if other is not text)
        for symbol in symbols(drawing):
            side = (len(symbol.rows) + 2 * QUIET_MODULES) * symbol.module
            quiet = QUIET_MODULES * symbol.module
            zone = Rectangle(symbol.x - quiet, symbol.y - quiet, side, side)
            assert label.contains(zone)
            assert not any(zone.overlaps(other) for other in texts + rules)
            assert symbol.module >= 0.3386  # 4 dots at 300 dpi
            dots = symbol.module * 300 / 25.4
            assert dots == pytest.approx(round(dots))
            assert len(symbol.rows) <= 77  # version 15


@pytest.mark.parametrize("smallest", [1.31, 1.6, 2.0])
def test_nothing_is_smaller_than_asked(smallest: float) -> None:
    for drawing in tags(harbour(), look=Look(smallest_cap=smallest), schedule=ADDRESS):
        for shape in drawing.shapes:
            if isinstance(shape, Text):
                assert FACES[shape.face].cap * shape.size >= smallest - 1e-9
                assert shape.stretch >= 0.8


def test_the_tag_says_where_it_belongs() -> None:
    netlist = harbour(shown={"A1": "TB1/A"})
    (drawing,) = tags(netlist, schedule=ADDRESS)
    said = words(drawing)
    assert {"TB1/A", "Harbour board", "Fed by PULSE", "Scan for its schedule"} <= set(said)
    assert "".join(text for text in said if "/" in text and "TB1" not in text) == "marram-quay.example/wiring/A1/"
    assert "Marram Quay · Extra-low voltage only" in said
    assert (drawing.name, drawing.board, drawing.width, drawing.height) == ("tag TB1/A", "WEST", 99.1, 67.7)


def test_spare_kept_taken_and_bridged_ways() -> None:
    wirer = Wirer()
    wirer.strip("A1", 12)
    wirer.point("1", "P1", "A1", 1)
    wirer.taken = {("A1", 7): "doorbell  of the\nharbour office", ("A1", 8): "siren"}
    wirer.kept = {("A1", 11), ("A1", 12)}
    wirer.wire("X", "lamp", wirer.way("A1", 8, Side.LAYOUT), end(DEVICE, "X", "1"))
    netlist = wirer.netlist()
    netlist = replace(netlist, strips=(replace(netlist.strips[0], bridges=((1, 4),)),))
    (drawing,) = tags(netlist)
    (text,) = scanned([drawing])
    assert text.split("\n")[4:] == [
        "A1.7 doorbell of the harbour office",
        "A1.8 siren X.1",
        "Bridged: 1+4",
        "Spare: 4-6, 9-10",
        "Kept free: 11-12",
    ]
    said = words(drawing)
    assert {"doorbell of the harbour office", "siren", "X.1", "Spare: 4–6, 9–10", "Kept free: 11–12"} <= set(said)


def test_a_strip_with_nothing_on_it_still_has_a_tag() -> None:
    (text,) = scanned(tags(harbour(points=0, ways=3)))
    assert text == "A1 Marram Quay\nSpare: 1-3"


def test_parts_name_their_ways_and_stand_alone() -> None:
    drawings = tags(harbour(points=20, ways=60), LETTER)
    assert len(drawings) > 2
    for index, drawing in enumerate(drawings, start=1):
        assert len(symbols(drawing)) == 1
        part = next(text for text in words(drawing) if text.endswith(f"of 60, {index}/{len(drawings)}"))
        assert drawing.name == f"tag A1 {part}"


@given(st.integers(1, 200), st.data())
def test_a_strip_is_split_without_loss(ways: int, data: st.DataObject) -> None:
    strip = harbour(points=0, ways=ways).strips[0]
    parts = split(strip, data.draw(st.integers(1, ways)))
    assert [way for part in parts for way in part.ways] == list(strip.ways)
    lengths = [len(part.ways) for part in parts]
    assert max(lengths) - min(lengths) <= 1


@given(st.sets(st.integers(1, 60)))
def test_runs_of_numbers_say_the_same_numbers(numbers: set[int]) -> None:
    said = numbers_in_runs(sorted(numbers))
    spelled = set()
    for run in filter(None, said.split(", ")):
        first, _, last = run.partition("–")
        spelled |= set(range(int(first), int(last or first) + 1))
    assert spelled == numbers
    assert said.count(",") <= len(numbers)


@pytest.mark.parametrize(
    "address",
    ["ftp://quay.example/x", "quay.example", "https://", "https:///x", "https://quay.example/x y", "javascript:x",
     "https://quay.example/?a=1", "https://quay.example/#a", "https://quay.example:port/", "https://[/", "http://a\x00b/"],
)  # fmt: skip
def test_an_address_that_is_none_is_said_so(address: str) -> None:
    (problem,) = troubles(harbour(), schedule=address)
    assert problem.code == "wrong-type"
    assert repr(address) in problem.message


@pytest.mark.parametrize("wanted", ["address", "both"])
def test_tags_cannot_hold_an_address_that_is_not_given(wanted: str) -> None:
    (problem,) = troubles(harbour(), printing={"tags": wanted})
    assert problem.code == "missing-key"


@pytest.mark.parametrize("keys", [{}, {"schedule": ADDRESS}], ids=["text", "address"])
def test_a_cell_that_is_too_small_is_a_problem(keys: dict[str, object]) -> None:
    (problem,) = troubles(harbour(), CellSize(width=38.1, height=21.2), **keys)
    assert problem.code == "label-too-large"
    assert "38.1 × 21.2 mm" in problem.message


def test_an_end_that_cannot_be_legible_in_words_is_a_problem() -> None:
    wirer = Wirer()
    wirer.strip("A1", 2)
    wirer.wire("X", "lamp", wirer.way("A1", 1, Side.LAYOUT), end(DEVICE, "lamp-" * 20, "1"))
    (problem,) = troubles(wirer.netlist())
    assert problem.code == "text-does-not-fit"
    assert "strip A1" in problem.message


def test_words_of_a_taken_way_that_are_too_long_are_a_problem() -> None:
    wirer = Wirer()
    wirer.strip("A1", 2)
    wirer.taken = {("A1", 1): "doorbell" * 20}
    (problem,) = troubles(wirer.netlist(), schedule=ADDRESS)
    assert problem.code == "text-does-not-fit"


def test_a_text_too_long_for_any_symbol_is_a_problem() -> None:
    wirer = Wirer()
    wirer.strip("A1", 1)
    wirer.taken = {("A1", 1): "x " * 400}
    (problem,) = troubles(wirer.netlist())
    assert problem.code == "label-too-large"


def test_a_title_that_cannot_be_legible_is_a_problem() -> None:
    wide = harbour(shown={"A1": "W" * 80})
    assert [p.code for p in troubles(wide)] == ["label-too-large"]
    assert [p.code for p in troubles(wide, schedule=ADDRESS)] == ["label-too-large"]


@pytest.mark.parametrize("head", [Head(title="W" * 80), Head(title="A1", part="ways of a strip " * 8)])
def test_a_head_above_the_words_must_be_legible_too(head: Head) -> None:
    assert list(columns(head, A4, Look())) == []
    assert list(columns(Head(title="A1", part="ways 9–16 of 16, 2/2"), A4, Look()))


def test_long_names_give_way_to_what_must_be_there() -> None:
    netlist = harbour(points=8, ways=24)
    long = "of the harbour company's northern basin and its fish dock " * 2
    boards = {"WEST": {"name": long}}
    keys = {"schedule": f"{ADDRESS}/{'very-' * 12}long", "boards": boards}
    first, *others = tags(netlist, LETTER, **keys)
    assert others
    for drawing in (first, *others):
        assert not any("northern basin" in text for text in words(drawing))
    assert "Scan for its schedule" in words(first)
    assert not any("very-" in text for text in words(first))


def test_a_long_railway_name_leaves_the_caution() -> None:
    netlist = replace(harbour(), railway="The Marram Quay Harbour Railway & Fish Dock Tramway " * 2)
    (drawing,) = tags(netlist, schedule=ADDRESS)
    assert "Extra-low voltage only" in words(drawing)


def test_characters_that_no_typeface_has_are_a_problem() -> None:
    problems = troubles(harbour(shown={"A1": "港1"}), schedule=ADDRESS)
    assert {problem.code for problem in problems} == {"character-missing"}
    assert all("U+6E2F" in problem.message for problem in problems)


def test_long_cells_of_the_table_break_between_ends() -> None:
    wirer = Wirer()
    wirer.strip("A1", 3)
    for index in range(9):
        wirer.wire("X", "lamp", wirer.way("A1", 1, Side.LAYOUT), end(DEVICE, f"quay-lamp-{index}", "plus"))
    (drawing,) = tags(wirer.netlist())
    lines = [text for text in words(drawing) if "quay-lamp" in text]
    assert len(lines) > 1
    assert all(line.endswith(",") for line in lines[:-1])
    assert " ".join(lines) == ", ".join(f"quay-lamp-{index}.plus" for index in range(9))


def test_the_same_netlist_gives_the_same_tags() -> None:
    assert tags(harbour()) == tags(harbour())


def test_rows_are_whole_squares() -> None:
    rows: Matrix = symbols(tags(harbour())[0])[0].rows
    assert {len(row) for row in rows} == {len(rows)}
