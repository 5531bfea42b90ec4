from collections import Counter
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_labels import A4_65, FULL, label, names

from labelgen.imposition.strip_packing import CUT_NOTE, MARGIN, pack
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Drawing, Line, Text
from labelgen.model.sheet import Sheet


def strip(length: float, name: str, line: int, height: float = 14) -> list[Drawing]:
    """The two markers of a strip."""
    return [label(length, height, f"{name} {side}", line=line) for side in ("panel", "layout")]


def cuts(sheet: Sheet) -> list[Line]:
    return [mark for mark in sheet.marks if isinstance(mark, Line) and mark.width == 0.1]


def texts(sheet: Sheet) -> list[Text]:
    return [mark for mark in sheet.marks if isinstance(mark, Text)]


def test_two_markers_of_140_mm_lie_end_to_end_along_the_longer_side() -> None:
    (sheet,), problems = pack(strip(140, "A1", 1) + strip(140, "A2", 2), FULL)
    assert problems == []
    assert {placed.turn for placed in sheet.placed} == {90}
    first, second, third, _ = (placed.outline for placed in sheet.placed)
    assert first == Rectangle(210 - MARGIN - 14, MARGIN, 14, 140)
    assert second == Rectangle(first.x, MARGIN + 140, 14, 140)
    assert (third.x, third.y) == (first.x - 14, MARGIN)


def test_markers_that_gain_nothing_by_it_are_not_turned() -> None:
    (sheet,), _ = pack(strip(95, "A1", 1), FULL)
    assert [(placed.turn, placed.x, placed.y) for placed in sheet.placed] == [(0, 8, 8), (0, 103, 8)]


def test_nothing_makes_no_sheet() -> None:
    assert pack([], FULL) == ((), [])


def test_order_is_kept_but_for_equal_sizes_where_that_saves_paper() -> None:
    markers = [marker for n in range(12) for marker in strip((140, 200)[n % 2], f"A{n}", n)]
    sheets, _ = pack(markers, FULL)
    assert len(sheets) == 2
    flat = [name for page in names(sheets) for name in page]
    for n in range(12):
        at = flat.index(f"A{n} panel")
        assert flat[at + 1] == f"A{n} layout"
    even = [name for name in flat if int(name[1:].split()[0]) % 2 == 0]
    assert even == [m.name for m in markers if int(m.name[1:].split()[0]) % 2 == 0]


def test_as_given_when_grouping_gains_nothing() -> None:
    markers = strip(250, "A1", 1) + strip(100, "A2", 2) + strip(250, "A3", 3)
    sheets, _ = pack(markers, FULL)
    assert names(sheets) == [[marker.name for marker in markers]]


def test_a_marker_longer_than_the_sheet_is_said() -> None:
    good, bad = strip(100, "A1", 1), strip(300, "A2", 5)
    sheets, problems = pack(good + bad, FULL)
    assert names(sheets) == [[marker.name for marker in good]]
    assert [problem.code for problem in problems] == ["label-too-large"] * 2
    assert problems[0].message == "A2 panel is 300.0 × 14.0 mm, but a sheet a4-1-full has room for 281.0 mm"
    assert problems[0].place.line == 5


def test_a_margin_of_the_label_itself_is_kept() -> None:
    inner = replace(FULL, left=12, top=10, width=186, height=277)
    (sheet,), _ = pack(strip(90, "A1", 1), inner)
    assert (sheet.placed[0].x, sheet.placed[0].y) == (12, 10)


def test_of_a_sheet_of_many_labels_only_the_paper_is_used() -> None:
    (sheet,), _ = pack(strip(90, "A1", 1), A4_65)
    assert (sheet.placed[0].x, sheet.placed[0].y) == (8, 8)


@pytest.mark.parametrize("length", [95, 140])
def test_heading_and_rule_stand_clear_of_markers_and_cuts(length: float) -> None:
    markers = [marker for n in range(7) for marker in strip(length, f"A{n}", n)]
    (sheet,), _ = pack(markers, FULL, title="Marram Quay: markers")
    shown = [text.text for text in texts(sheet)]
    assert shown[:3] == ["Marram Quay: markers", CUT_NOTE, "sheet 1 of 1"]
    area = Rectangle(0, 0, 210, 297).inset(MARGIN)
    for text in texts(sheet):
        assert not area.contains(Rectangle(text.x, text.y, 0, 0))
        for cut in cuts(sheet):  # cut lines run out of the sides where no text stands
            low_x, high_x = min(cut.x1, cut.x2), max(cut.x1, cut.x2)
            low_y, high_y = min(cut.y1, cut.y2), max(cut.y1, cut.y2)
            assert not (low_x <= text.x <= high_x and low_y <= text.y <= high_y)
    base = [mark for mark in sheet.marks if isinstance(mark, Line) and mark.width == 0.15][-1]
    assert abs(base.x2 - base.x1) + abs(base.y2 - base.y1) == pytest.approx(100)


lengths = st.sampled_from([60.0, 96.5, 120.0, 140.0, 180.0, 240.0, 281.0])
strips = st.lists(st.tuples(lengths, st.sampled_from([12.0, 16.0]), st.integers(1, 2)), max_size=25)


@settings(max_examples=40)
@given(strips)
def test_markers_lie_inside_never_overlap_and_every_edge_is_a_cut(described: list) -> None:
    markers = [
        m for n, (length, height, count) in enumerate(described) for m in strip(length, f"A{n}", n, height)[:count]
    ]
    sheets, problems = pack(markers, FULL)
    assert problems == []
    assert Counter(p.drawing for s in sheets for p in s.placed) == Counter(markers)
    area = Rectangle(0, 0, 210, 297).inset(MARGIN)
    for sheet in sheets:
        outlines = [placed.outline for placed in sheet.placed]
        assert all(area.contains(outline) for outline in outlines)
        assert not any(a.overlaps(b) for a, b in combinations(outlines, 2))
        for outline in outlines:
            assert all(any(_covers(cut, edge) for cut in cuts(sheet)) for edge in _edges(outline))
            inner = outline.inset(0.01)
            assert not any(_crosses(cut, inner) for cut in cuts(sheet))


def _edges(r: Rectangle) -> list[tuple[float, float, float, float]]:
    return [
        (r.x, r.y, r.right, r.y),
        (r.x, r.bottom, r.right, r.bottom),
        (r.x, r.y, r.x, r.bottom),
        (r.right, r.y, r.right, r.bottom),
    ]


def _covers(cut: Line, edge: tuple[float, float, float, float]) -> bool:
    box = Rectangle(min(cut.x1, cut.x2), min(cut.y1, cut.y2), abs(cut.x2 - cut.x1), abs(cut.y2 - cut.y1))
    return box.contains(Rectangle(edge[0], edge[1], edge[2] - edge[0], edge[3] - edge[1]))


def _crosses(cut: Line, inside: Rectangle) -> bool:
    box = Rectangle(min(cut.x1, cut.x2), min(cut.y1, cut.y2), abs(cut.x2 - cut.x1), abs(cut.y2 - cut.y1))
    return box.overlaps(inside)
