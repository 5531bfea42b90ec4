from itertools import pairwise
from typing import Any

import numpy as np
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_labels import label

from labelgen.imposition.tiling import HEAD, MARGIN, OVERLAP, tile, tile_letter
from labelgen.lengths import MM_PER_INCH, Rectangle
from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline, Shape, Text
from labelgen.model.sheet import Document, Placed, Sheet
from labelgen.rendering.pdf import pdf_bytes
from labelgen.standards.paper_sizes import PAPERS

A4 = PAPERS["a4"]
DPI = MM_PER_INCH * 8
"""Eight pixels a millimetre, so that whole millimetres fall on whole pixels."""


def painted(page: Sheet) -> np.ndarray:
    content = pdf_bytes(Document(title="t", pages=(page,)))
    return np.asarray(pypdfium2.PdfDocument(content)[0].render(scale=DPI / 72).to_pil().convert("L")).astype(int)


def crosses(sheet: Sheet, window: Rectangle) -> set[tuple[float, float]]:
    """Where the middles of the crosses are."""
    lines = [m for m in sheet.marks if isinstance(m, Line) and m.width == 0.1]
    inside = [m for m in lines if window.contains(Rectangle(m.x1, m.y1, m.x2 - m.x1, m.y2 - m.y1))]
    return {((m.x1 + m.x2) / 2, (m.y1 + m.y2) / 2) for m in inside}


def test_a_small_drawing_stands_in_the_middle_of_one_portrait_page() -> None:
    (sheet,) = tile(label(194, 281), A4)
    assert (sheet.width, sheet.height, sheet.window) == (210, 297, None)
    assert (sheet.placed[0].x, sheet.placed[0].y) == (8, 8)


def test_a_wide_drawing_turns_the_page() -> None:
    (sheet,) = tile(label(281, 120, "fascia Harbour"), A4)
    assert (sheet.width, sheet.height) == (297, 210)
    assert (sheet.placed[0].x, sheet.placed[0].y) == (8, 45)
    assert next(mark.text for mark in sheet.marks if isinstance(mark, Text)) == "fascia Harbour"


def test_a_millimetre_more_takes_tiles() -> None:
    assert len(tile(label(282, 120), A4)) == 2
    assert len(tile(label(282, 120), PAPERS["a3"])) == 1


def fascia() -> Drawing:
    """Fine detail all over, so that a shift of a fraction of a millimetre shows."""
    shapes: list[Shape] = [Box(x=0, y=0, width=420, height=250, fill="#eeeeee")]
    shapes += [Line(x1=x, y1=0, x2=x / 2 + 100, y2=250, width=0.5) for x in range(5, 420, 20)]
    shapes += [Circle(x=x, y=y, radius=4, stroke="#31397F") for x in range(10, 420, 30) for y in range(10, 250, 30)]
    shapes.append(Text(x=210, y=130, text="Marram Quay", face="B612-Bold", size=40, anchor="middle", colour="#B52E44"))
    return label(420, 250, "fascia Harbour", shapes=tuple(shapes))


def test_tiles_put_together_are_the_drawing() -> None:
    drawing = fascia()
    whole = painted(Sheet(width=420, height=250, placed=(Placed(x=0, y=0, drawing=drawing),)))
    sheets = tile(drawing, A4)
    assert len(sheets) > 2
    seen = np.zeros(whole.shape, dtype=bool)
    for sheet in sheets:
        assert sheet.window is not None
        image = painted(Sheet(width=sheet.width, height=sheet.height, placed=sheet.placed, window=sheet.window))
        at, window = sheet.placed[0], sheet.window
        dx, dy = round(at.x * 8), round(at.y * 8)
        left, top = round((window.x - at.x) * 8) + 2, round((window.y - at.y) * 8) + 2
        right, bottom = round((window.right - at.x) * 8) - 2, round((window.bottom - at.y) * 8) - 2
        part = image[top + dy : bottom + dy, left + dx : right + dx]
        # half a pixel of the page may be added, so that edges are painted a little differently
        difference = np.abs(part - whole[top:bottom, left:right])
        assert (difference > 128).mean() < 0.01
        seen[top:bottom, left:right] = True
        outside = image.copy()
        outside[top + dy - 4 : bottom + dy + 4, left + dx - 4 : right + dx + 4] = 255
        assert outside.min() == 255
    assert seen[3:-3, 3:-3].all()


def windows(sheets: tuple[Sheet, ...]) -> list[Rectangle]:
    """What each tile shows of the drawing."""
    shown = []
    for sheet in sheets:
        assert sheet.window is not None
        at = sheet.placed[0]
        shown.append(Rectangle(sheet.window.x - at.x, sheet.window.y - at.y, sheet.window.width, sheet.window.height))
    return shown


@settings(max_examples=40)
@given(st.floats(100, 1500), st.floats(290, 900), st.sampled_from(["a4", "letter", "a3"]))
def test_tiles_cover_the_drawing_with_10_mm_in_common(width: float, height: float, paper: str) -> None:
    sheets = tile(label(width, height), PAPERS[paper])
    if len(sheets) == 1 and sheets[0].window is None:
        return
    shown = windows(sheets)
    xs, ys = sorted({round(w.x, 6) for w in shown}), sorted({round(w.y, 6) for w in shown})
    assert len(xs) * len(ys) == len(sheets)
    assert (xs[0], ys[0]) == (0, 0)
    assert xs[-1] + shown[0].width == pytest.approx(width)
    assert ys[-1] + shown[0].height == pytest.approx(height)
    for steps, size in ((xs, shown[0].width), (ys, shown[0].height)):
        for a, b in pairwise(steps):
            assert a + size - b == pytest.approx(OVERLAP)
    for sheet in sheets:
        assert sheet.window is not None
        room = Rectangle(MARGIN, MARGIN + HEAD, sheet.width - 2 * MARGIN, sheet.height - 2 * MARGIN - HEAD)
        assert room.contains(sheet.window)


def test_neighbours_carry_the_same_crosses_at_whole_millimetres() -> None:
    sheets = tile(fascia(), A4)
    found = []
    for sheet, shown in zip(sheets, windows(sheets), strict=True):
        assert sheet.window is not None
        at = sheet.placed[0]
        found.append({(round(x - at.x, 6), round(y - at.y, 6)) for x, y in crosses(sheet, sheet.window)})
        assert all(x == int(x) and y == int(y) for x, y in found[-1])
        assert all(shown.contains(Rectangle(x, y, 0, 0)) for x, y in found[-1])
    columns = len({round(w.x, 3) for w in windows(sheets)})
    for index, places in enumerate(found):
        if (index + 1) % columns:
            assert len(places & found[index + 1]) >= 2
        if index + columns < len(found):
            assert len(places & found[index + columns]) >= 2


def test_each_tile_is_named_and_shown_in_the_key() -> None:
    sheets = tile(fascia(), A4)
    columns = len({round(w.x, 3) for w in windows(sheets)})
    for index, sheet in enumerate(sheets):
        row, column = divmod(index, columns)
        words = [mark.text for mark in sheet.marks if isinstance(mark, Text)]
        assert words[0] == f"{'AB'[row]}{column + 1}"
        assert words[1] == "fascia Harbour"
        assert f"sheet {index + 1} of {len(sheets)}" in words[2]
        key = [mark for mark in sheet.marks if isinstance(mark, Box)]
        assert [box.fill is not None for box in key] == [n == index for n in range(len(sheets))]
        for mark in (*key, *(m for m in sheet.marks if isinstance(m, Text))):
            assert sheet.window is not None
            assert not sheet.window.contains(Rectangle(mark.x, mark.y, 0, 0))


def test_every_tile_has_a_rule_of_100_mm() -> None:
    for sheet in tile(fascia(), A4):
        base: Any = [m for m in sheet.marks if isinstance(m, Line) and m.width == 0.15][-1]
        assert base.x2 - base.x1 == pytest.approx(100)


def test_the_fewest_tiles_decide_how_the_pages_lie() -> None:
    assert {(s.width, s.height) for s in tile(label(500, 180), A4)} == {(297, 210)}
    assert {(s.width, s.height) for s in tile(label(180, 500), A4)} == {(210, 297)}


@pytest.mark.parametrize(("row", "letters"), [(0, "A"), (25, "Z"), (26, "AA"), (27, "AB"), (701, "ZZ"), (702, "AAA")])
def test_rows_have_letters(row: int, letters: str) -> None:
    assert tile_letter(row) == letters


def spoilt(sheets: tuple[Sheet, ...], drawing: Drawing) -> list[tuple[float, float]]:
    """The crosses that lie on something other than the drawing's ground."""
    found = []
    ink = painted(Sheet(width=drawing.width, height=drawing.height, placed=(Placed(x=0, y=0, drawing=drawing),)))
    for sheet in sheets:
        assert sheet.window is not None
        at = sheet.placed[0]
        for x, y in crosses(sheet, sheet.window):
            left, top = round((x - at.x - 2) * 8), round((y - at.y - 2) * 8)
            if np.ptp(ink[top : top + 32, left : left + 32]) > 40:
                found.append((x, y))
    return found


def lettered(gap: float) -> Drawing:
    """Rows of letters and lines all over a coloured ground, as far apart as that."""
    shapes: list[Shape] = [Box(x=0, y=0, width=420, height=250, fill="#435560")]
    for y in range(10, 245, round(gap)):
        shapes.append(Text(x=5, y=y, text="Harbour siding " * 9, face="B612-Bold", size=5, colour="#ffffff"))
        shapes.append(Line(x1=5, y1=y + 2, x2=415, y2=y + 2, width=1, colour="#ffffff"))
    shapes.append(Box(x=0.1, y=0.1, width=419.8, height=249.8, stroke="#888888"))
    return label(420, 250, "fascia Harbour", shapes=tuple(shapes))


def test_crosses_stand_where_nothing_is_drawn() -> None:
    drawing = lettered(20)
    sheets = tile(drawing, A4)
    assert len(sheets) > 2
    assert spoilt(sheets, drawing) == []


def test_where_all_is_full_the_crosses_stand_as_they_would_on_bare_paper() -> None:
    full = label(420, 250, "f", shapes=tuple(Line(x1=0, y1=y, x2=400, y2=y, width=3) for y in range(0, 250, 4)))
    bare = label(420, 250, "f", shapes=(Circle(x=300, y=60, radius=1, stroke="#000000"),))

    def places(drawing: Drawing) -> list[set[tuple[float, float]]]:
        return [crosses(sheet, sheet.window) for sheet in tile(drawing, A4) if sheet.window]

    assert places(full) == places(bare)


def test_grid_lines_from_edge_to_edge_are_no_obstacle() -> None:
    lines = [Line(x1=x, y1=0, x2=x, y2=250, width=0.1) for x in range(0, 421, 2)]
    lines += [Line(x1=0, y1=y, x2=420, y2=y, width=0.1) for y in range(0, 251, 2)]
    outline = Outline(runs=(((5, 5), (415, 5), (415, 245)),), stroke="#000000", stroke_width=4)
    drawing = label(420, 250, "f", shapes=(*lines, outline))
    without = label(420, 250, "f", shapes=(outline,))
    for one, other in zip(tile(drawing, A4), tile(without, A4), strict=True):
        assert one.window is not None
        assert crosses(one, one.window) == crosses(other, one.window)


def test_the_key_names_each_tile() -> None:
    sheets = tile(fascia(), A4)
    names = [next(m.text for m in sheet.marks if isinstance(m, Text)) for sheet in sheets]
    for sheet in sheets:
        said = [m.text for m in sheet.marks if isinstance(m, Text)]
        assert said[4:-1] == names
