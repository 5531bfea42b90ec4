from collections import Counter
from dataclasses import replace
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_labels import A4_24, A4_65, FULL, label, names

from labelgen.imposition.ink import ink_of
from labelgen.imposition.sheet_filling import begun, fill
from labelgen.lengths import Rectangle
from labelgen.model.correction import Correction
from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline, Symbol, Text
from labelgen.model.sheet import PRINTABLE_EDGE, Sheet, Stock


def cuts(sheet: Sheet) -> list[Line]:
    """The cut lines: those as thin as they are."""
    return [mark for mark in sheet.marks if isinstance(mark, Line) and mark.width == 0.1]


def rule(sheet: Sheet) -> list[Line]:
    return [mark for mark in sheet.marks if isinstance(mark, Line) and mark.width == 0.15]


def test_cells_fill_row_by_row_from_the_chosen_one() -> None:
    labels = [label(38.1, 21.2, str(number)) for number in range(70)]
    sheets, _ = fill(labels, A4_65, start=4)
    assert names(sheets) == [[str(n) for n in range(62)], [str(n) for n in range(62, 70)]]
    first, third = sheets[0].placed[0], sheets[0].placed[2]
    assert (first.x, first.y) == pytest.approx((4.75 + 3 * 40.6, 10.7))
    assert (third.x, third.y) == pytest.approx((4.75, 10.7 + 21.2))
    assert (sheets[1].placed[0].x, sheets[1].placed[0].y) == pytest.approx((4.75, 10.7))
    assert (sheets[0].width, sheets[0].height) == (210, 297)


@pytest.mark.parametrize("start", [0, 66])
def test_a_cell_that_is_not_there_is_a_fault_of_the_caller(start: int) -> None:
    with pytest.raises(ValueError, match="no cell"):
        fill([], A4_65, start=start)


def test_nothing_to_print_makes_no_sheet() -> None:
    assert fill([], A4_65) == ((), [])


def test_the_last_cell_alone_on_a_sheet() -> None:
    sheets, _ = fill([label(38.1, 21.2), label(38.1, 21.2)], A4_65, start=65)
    assert [len(sheet.placed) for sheet in sheets] == [1, 1]


def test_two_flags_share_a_cell_with_one_cut() -> None:
    """38.1 × 10.6 mm, two to a cell of 38.1 × 21.2: each fills its half."""
    sheets, _ = fill([label(38.1, 10.6, name) for name in "ab"], A4_65)
    upper, lower = (placed.outline for placed in sheets[0].placed)
    assert upper == Rectangle(4.75, 10.7, 38.1, 10.6)
    assert (lower.x, lower.y) == pytest.approx((4.75, 21.3))
    (cut,) = cuts(sheets[0])
    assert (cut.x1, cut.y1, cut.x2, cut.y2) == pytest.approx((4.75, 21.3, 42.85, 21.3))


def test_a_lone_flag_is_cut_off_from_the_empty_half() -> None:
    sheets, _ = fill([label(38.1, 10.6)], A4_65)
    (cut,) = cuts(sheets[0])
    assert (cut.y1, cut.y2) == pytest.approx((21.3, 21.3))


def test_a_grid_of_small_labels_has_a_cut_between_any_two() -> None:
    five = [label(20, 16, str(number)) for number in range(5)]
    sheets, _ = fill(five, A4_24)
    parts = [Rectangle(6.5 + c * 64 / 3, 12.5 + r * 17, 64 / 3, 17) for r in range(2) for c in range(3)]
    for placed, part in zip(sheets[0].placed, parts, strict=False):
        assert placed.x - part.x == pytest.approx((64 / 3 - 20) / 2)
        assert placed.y - part.y == pytest.approx(0.5)
    across = [(line.x1, line.x2) for line in cuts(sheets[0]) if line.y1 == line.y2]
    down = sorted((line.x1, line.y1, line.y2) for line in cuts(sheets[0]) if line.x1 == line.x2)
    assert across == [pytest.approx((6.5, 70.5))]
    assert down == [pytest.approx((6.5 + 64 / 3, 12.5, 46.5)), pytest.approx((6.5 + 128 / 3, 12.5, 46.5))]


def test_one_row_of_a_grid_is_cut_off_below_and_between() -> None:
    sheets, _ = fill([label(20, 16), label(20, 16)], A4_24)
    lines = {tuple(round(v, 2) for v in (c.x1, c.y1, c.x2, c.y2)) for c in cuts(sheets[0])}
    assert lines == {(6.5, 29.5, 49.17, 29.5), (27.83, 12.5, 27.83, 29.5), (49.17, 12.5, 49.17, 29.5)}


def test_labels_of_other_sizes_start_another_cell_and_keep_their_order() -> None:
    labels = [label(38.1, 10.6, "a"), label(30, 20, "b"), label(38.1, 10.6, "c"), label(38.1, 10.6, "d")]
    sheets, _ = fill(labels, A4_65)
    assert names(sheets) == [["a", "b", "c", "d"]]
    middle = sheets[0].placed[1].outline
    assert (middle.x + middle.width / 2, middle.y + middle.height / 2) == pytest.approx((4.75 + 40.6 + 19.05, 21.3))


sizes = st.tuples(st.floats(5, 64), st.floats(5, 34))


@given(st.lists(st.tuples(sizes, st.integers(1, 5)), max_size=12), st.integers(1, 24))
def test_labels_stay_in_their_cells_and_never_overlap(groups: list, start: int) -> None:
    labels = [label(*size) for size, count in groups for _ in range(count)]
    sheets, _ = fill(labels, A4_24, start=start)
    assert Counter(p.drawing for sheet in sheets for p in sheet.placed) == Counter(labels)
    for sheet in sheets:
        outlines = [placed.outline for placed in sheet.placed]
        assert not any(a.overlaps(b, slack=1e-6) for a, b in combinations(outlines, 2))
        cells = [A4_24.cell(index).inset(-0.01) for index in range(A4_24.count)]
        assert all(any(cell.contains(outline) for cell in cells) for outline in outlines)
        used = [Rectangle(cut.x1, cut.y1, cut.x2 - cut.x1, cut.y2 - cut.y1) for cut in cuts(sheet)]
        assert not any(outline.inset(0.02).overlaps(line) for outline in outlines for line in used)


def test_a_label_that_is_too_large_names_sheets_that_would_do() -> None:
    good, large = label(38.1, 21.2, "flag 1"), label(60, 30, "tag A1", line=7)
    sheets, problems = fill(
        [large, good, label(60, 30, "tag A2", line=8), label(80, 30, "tag B", line=9)],
        A4_65,
        stocks=[FULL, A4_65, A4_24],
    )
    assert names(sheets) == [["flag 1"]]
    first, second = (problem for problem in problems if problem.code == "label-too-large")
    assert first.place.line == 7
    assert first.message.startswith("tag A1 (60.0 × 30.0 mm) and 1 more of that size do not fit")
    assert "a4-24-64x34, a4-1-full" in first.hint
    assert second.message.startswith("tag B (80.0 × 30.0 mm) does not fit")
    assert "a4-1-full" in second.hint


def test_where_no_sheet_would_do_that_is_said() -> None:
    _, (problem,) = fill([label(400, 300)], A4_65, stocks=[FULL])
    assert "No sheet" in problem.hint


def test_ink_near_the_edge_is_one_caution_that_names_the_cells() -> None:
    _, (problem,) = fill([label(38.1, 21.2, line=number) for number in range(1, 66)], A4_65)
    assert problem.code == "near-paper-edge"
    assert "labels 1, 5, 6, 10, 11, 15, 16, 20 and 18 more" in problem.message
    assert problem.place.line == 1
    inset = Box(x=0.3, y=0.3, width=37.5, height=20.6, fill="#000000")
    assert fill([label(38.1, 21.2, shapes=(inset,))] * 65, A4_65)[1] == []
    _, (shifted,) = fill([label(38.1, 21.2, shapes=(inset,))], A4_65, correction=Correction(shift=(-0.2, 0)))
    assert "label 1 comes" in shifted.message


def test_white_and_unpainted_shapes_are_no_ink() -> None:
    white = Box(x=0, y=0, width=38.1, height=21.2, fill="#FFFFFF")
    blank = Box(x=0, y=0, width=38.1, height=21.2)
    assert fill([label(38.1, 21.2, shapes=(white, blank))], A4_65)[1] == []


def test_the_check_rule_is_100_mm_and_outside_of_all_cells() -> None:
    (sheet,), _ = fill([label(38.1, 21.2)], A4_65)
    base = rule(sheet)[-1]
    assert base.x2 - base.x1 == pytest.approx(100)
    ticks = sorted(line.x1 for line in rule(sheet)[:-1])
    assert [b - a for a, b in pairwise(ticks)] == pytest.approx([10] * 10)
    for line in rule(sheet):
        assert min(line.y1, line.y2) >= PRINTABLE_EDGE
        assert max(line.y1, line.y2) < A4_65.top
    texts = [mark.text for mark in sheet.marks if isinstance(mark, Text)]
    assert texts == ["100 mm – print at actual size", "a4-65-38x21 – sheet 1 of 1"]


ROUND = replace(A4_24, id="a4-24-34x34-round", shape="round", width=34, pitch_x=66.5, left=21.5)


def test_nothing_shares_a_round_cell_and_all_lies_within_it() -> None:
    """An oval of half axes a, b holds a rectangle of half sides x, y if (x/a)² + (y/b)² is 1 at most."""
    sheets, problems = fill([label(11, 11, name) for name in "abc"], ROUND)
    assert (problems, cuts(sheets[0])) == ([], [])
    assert [p.x + p.drawing.width / 2 for p in sheets[0].placed] == pytest.approx([38.5, 105, 171.5])
    assert fill([label(24.04, 24.04)], ROUND)[1] == []
    assert fill([label(30, 16)], ROUND)[1] == [], "30² + 16² = 34²"
    (problem,) = fill([label(30, 16.1)], ROUND, stocks=[ROUND, A4_24])[1]
    assert (problem.code, "a4-24-64x34" in problem.hint) == ("label-too-large", True)


@given(st.floats(1, 60), st.floats(1, 60))
def test_what_fills_the_room_of_an_oval_is_held_by_it(width: float, height: float) -> None:
    oval = replace(ROUND, width=width, height=height)
    across, down = oval.room
    assert across / 2 == pytest.approx(width / 2 * 2**0.5 / 2)
    (sheet,), problems = fill([label(across, down)], oval)
    assert problems == []
    at, cell = sheet.placed[0].outline, oval.cell(0)
    for x, y in ((at.x, at.y), (at.right, at.bottom)):
        from_middle = (x - cell.x - width / 2) / (width / 2), (y - cell.y - height / 2) / (height / 2)
        assert from_middle[0] ** 2 + from_middle[1] ** 2 == pytest.approx(1)


ROLL = replace(
    FULL, id="roll-1-57x32", paper="roll", paper_width=57, paper_height=32, width=57, height=32, pitch_x=57, pitch_y=32
)


def test_a_roll_has_one_label_a_page_and_no_marks() -> None:
    white_edge = (Box(x=2, y=2, width=53, height=28, fill="#000000"),)
    sheets, problems = fill([label(57, 32, name, shapes=white_edge) for name in "ab"], ROLL)
    assert [(sheet.width, sheet.height, sheet.marks) for sheet in sheets] == [(57, 32, ()), (57, 32, ())]
    assert (names(sheets), problems) == ([["a"], ["b"]], [])
    (problem,) = fill([label(57, 32)], ROLL)[1]
    assert "within 1.5 mm" in problem.message


def test_equal_sizes_come_together_where_that_saves_a_sheet() -> None:
    """Alternating, 26 labels take a cell each and two sheets of 24; by size, 13 take 3 cells and 13 take 13."""
    labels = [label((20, 40)[n % 2], 16, str(n)) for n in range(26)]
    assert [len(sheet.placed) for sheet in fill(labels, A4_24)[0]] == [26]
    few = labels[:6]
    assert names(fill(few, A4_24)[0]) == [[drawing.name for drawing in few]], "the order stays where nothing is saved"


@given(st.lists(st.tuples(st.sampled_from([10, 20, 30, 60]), st.sampled_from([8, 16, 30])), max_size=80))
def test_never_more_sheets_than_one_label_a_cell(sizes: list[tuple[int, int]]) -> None:
    sheets, _ = fill([label(*size) for size in sizes], A4_24)
    assert len(sheets) <= -(-len(sizes) // 24)


def test_a_sheet_that_was_begun_is_drawn_in_letters() -> None:
    labels = [label(38.1, 21.2)] * 40
    picture = begun(labels, A4_65, 64).splitlines()
    assert picture[0] == "sheet 1, from label 64    sheet 2, to label 38"
    assert picture[1] == ". . . . .                 # # # # #"
    assert picture[8] == ". . . . .                 # # # o o"
    assert picture[13] == ". . . # #                 o o o o o"
    assert picture[14] == ". gone   # printed now   o left over"
    assert begun(labels, A4_65, 1) == begun([], A4_65, 5) == ""
    assert "sheet 2" not in begun(labels, A4_65, 20)


@given(st.integers(1, 40), st.integers(1, 40), st.data())
def test_the_picture_fits_a_terminal_and_counts_right(columns: int, rows: int, data: st.DataObject) -> None:
    stock = replace(A4_65, columns=columns, rows=rows, pitch_x=4, pitch_y=4, width=4, height=4)
    start = data.draw(st.integers(2, stock.count)) if stock.count > 1 else 1
    count = data.draw(st.integers(1, stock.count))
    picture = begun([label(4, 4)] * count, stock, start)
    lines = picture.splitlines()[1:-1]
    assert all(len(line) <= 80 for line in lines)
    if start > 1:
        assert "".join(lines).count("#") == count if count <= stock.count - start + 1 else len(lines) == rows


def small_sheet(sheet: Sheet) -> list[Box]:
    return [mark for mark in sheet.marks if isinstance(mark, Box)]


def test_a_begun_sheet_has_a_small_picture_in_its_margin_and_no_other_has() -> None:
    first, second = fill([label(38.1, 21.2)] * 60, A4_65, start=17)[0]
    outline, *cells = small_sheet(first)
    assert len(cells) == 49
    assert outline.y >= PRINTABLE_EDGE - 1e-9
    assert outline.y + outline.height <= A4_65.top
    assert outline.width / outline.height == pytest.approx(210 / 297)
    assert {box.fill for box in cells} == {"#000000"}
    scale = outline.height / 297
    assert ((cells[0].x - outline.x) / scale, (cells[0].y - outline.y) / scale) == pytest.approx((45.35, 74.3))
    assert any(isinstance(mark, Text) and mark.text == "labels 17 to 65 of 65" for mark in first.marks)
    assert small_sheet(second) == []
    assert small_sheet(fill([label(38.1, 21.2)], A4_65)[0][0]) == []
    (one,) = fill([label(38.1, 21.2)], A4_65, start=9)[0]
    assert any(isinstance(mark, Text) and mark.text == "label 9 of 65" for mark in one.marks)


def test_where_no_margin_has_room_there_is_no_picture() -> None:
    tight = replace(A4_24, top=0, pitch_y=37, left=9, pitch_x=64)
    (sheet,) = fill([label(20, 20)] * 3, tight, start=2)[0]
    assert small_sheet(sheet) == []


NARROW = replace(FULL, id="side", width=190, height=290, pitch_x=190, pitch_y=290, left=10, top=3.5)


def test_the_check_rule_goes_down_a_side_where_only_a_side_has_room() -> None:
    (sheet,), _ = fill([label(190, 290)], NARROW)
    base = rule(sheet)[-1]
    assert (base.x1, abs(base.y2 - base.y1)) == (base.x2, pytest.approx(100))
    assert PRINTABLE_EDGE <= base.x1 < NARROW.left
    assert [mark.text for mark in sheet.marks if isinstance(mark, Text)] == ["100 mm – print at actual size"]


def test_without_room_there_is_no_rule() -> None:
    (sheet,), _ = fill([label(100, 100)], FULL)
    assert rule(sheet) == []


def ink_shapes(*shapes: object) -> Drawing:
    return label(50, 50, shapes=shapes)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("shape", "wanted"),
    [
        (Line(x1=5, y1=5, x2=10, y2=5, width=2), Rectangle(4, 4, 7, 2)),
        (Box(x=5, y=6, width=7, height=8, stroke="#000000", stroke_width=1), Rectangle(4.5, 5.5, 8, 9)),
        (Circle(x=10, y=10, radius=3, fill="#ff0000"), Rectangle(7, 7, 6, 6)),
        (Outline(runs=(((1, 2), (3, 4)), ((5, 0), (6, 1))), fill="#000000"), Rectangle(1, 0, 5, 4)),
        (Symbol(x=1, y=2, module=0.5, rows=((True, False),) * 3), Rectangle(1, 2, 1, 1.5)),
    ],
)
def test_ink_of_shapes(shape: object, wanted: Rectangle) -> None:
    found = ink_of(ink_shapes(shape))
    assert found is not None
    assert (found.x, found.y, found.width, found.height) == pytest.approx(
        (wanted.x, wanted.y, wanted.width, wanted.height)
    )


@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
@pytest.mark.parametrize("turn", [0, 90])
def test_ink_of_text_holds_all_that_is_printed(anchor: str, turn: float) -> None:
    """Painted by pypdfium2: no dark dot outside of it."""
    import numpy as np
    import pypdfium2

    from labelgen.model.sheet import Document, Placed
    from labelgen.rendering.pdf import pdf_bytes

    text = Text(x=25, y=25, text="Ågj", face="B612-Regular", size=5, anchor=anchor, turn=turn)  # type: ignore[arg-type]
    drawn = ink_shapes(text)
    ink = ink_of(drawn)
    assert ink is not None
    page = Sheet(width=50, height=50, placed=(Placed(x=0, y=0, drawing=drawn),))
    image = (
        pypdfium2.PdfDocument(pdf_bytes(Document(title="t", pages=(page,))))[0].render(scale=10 * 25.4 / 72).to_pil()
    )
    dark = np.argwhere(np.asarray(image.convert("L")) < 128) / 10
    (top, left), (bottom, right) = dark.min(axis=0), dark.max(axis=0)
    assert ink.inset(-0.1).contains(Rectangle(left, top, right - left, bottom - top))
    assert not ink.inset(1.5).contains(Rectangle(left, top, right - left, bottom - top))


def test_nothing_has_no_ink() -> None:
    assert ink_of(ink_shapes(Box(x=0, y=0, width=1, height=1))) is None


def test_a_stock_is_a_grid() -> None:
    """The last cell of a published sheet ends where the margin begins."""
    last = A4_65.cell(64)
    assert (last.right, last.bottom) == pytest.approx((210 - 4.75, 297 - 10.7))
    assert isinstance(A4_65, Stock)
