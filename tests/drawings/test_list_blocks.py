"""A list on pages: nothing leaves its column or its page, nothing is lost, headings are said again."""

from collections.abc import Sequence

import pytest
from drawings.drawn_extents import assert_all_inside, assert_within, cap_height, text_extent, texts
from hypothesis import given, settings
from hypothesis import strategies as st

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.blocks import INDENT, Band, Column, Row, Setting, grid, paragraph, space, table, title
from labelgen.drawings.lists.cells import CAP, NOTHING, TICK_BOX, Ticks, Words, WriteIn
from labelgen.drawings.lists.pages import HEAD_RULE, MARGIN, ListPaper, Piece, list_pages
from labelgen.model.drawing import Box, Drawing, Line, Text
from labelgen.model.look import Look
from labelgen.places import Place
from labelgen.standards.paper_sizes import PAPERS

A4 = ListPaper(paper=PAPERS["a4"], railway="Marram Quay", title="cut list")


def lettering() -> Lettering:
    return Lettering(label="cut list", place=Place(file=""), look=Look(), hint="")


def setting(told: Lettering | None = None, width: float = A4.room.width) -> Setting:
    return Setting(cap=CAP, left=A4.room.x, width=width, lettering=told or lettering())


def pages(pieces: Sequence[Piece], on: ListPaper = A4) -> list[Drawing]:
    return list_pages(pieces, on, lettering())


def words(page: Drawing) -> list[str]:
    return [text.text for text in texts(page)]


def rows(*cells: str) -> list[Row]:
    return [Row(cells=(Words(text=text),)) for text in cells]


NAMES = st.text(alphabet="ABCDEFGMWgij0123456789-_./ ", min_size=1, max_size=60).map(str.strip).filter(bool)


@given(NAMES, st.floats(12, 80))
def test_a_text_stays_in_its_cell_and_says_all_of_itself(text: str, width: float) -> None:
    lines = Words(text=text).lines(CAP, width)
    assert "".join("".join(line.text.split()) for line in lines) == "".join(text.split())
    for line in lines:
        assert line.width <= width + 1e-6
        assert line.cap == pytest.approx(CAP)


def test_a_name_is_broken_at_its_joints() -> None:
    lines = Words(text="DISCHARGE-UNIT-FOR-THE-QUAY.feed").lines(CAP, 34)
    assert [line.text for line in lines] == ["DISCHARGE-UNIT-", "FOR-THE-QUAY.", "feed"]


def test_a_little_too_long_is_condensed() -> None:
    (line,) = Words(text="Coal road").lines(CAP, 0.9 * Words(text="Coal road").width(CAP))
    assert line.stretch == pytest.approx(0.9)


def test_headings_and_band_again_on_the_next_page() -> None:
    numbers = [str(number) for number in range(60)]
    pieces = list(table([Column(heading="no.")], [Band(text="Strip S1", right="60 wires"), *rows(*numbers)], setting()))
    first, second = pages(pieces)
    assert words(first)[2:5] == ["no.", "Strip S1", "60 wires"]
    assert words(second)[2:4] == ["no.", "Strip S1, continued"]
    assert [text for page in (first, second) for text in words(page) if text.isdigit()] == numbers
    assert words(first)[:2] == ["Marram Quay: cut list", "page 1 of 2"]
    assert words(second)[1] == "page 2 of 2"
    for page in (first, second):
        assert_all_inside(page)


def test_a_table_without_rows_says_nothing() -> None:
    assert not list(table([Column(heading="Part"), Column(heading="How many", grows=True)], [], setting()))
    assert not list(grid(Band(text="Red"), [Column(heading="")], [], setting()))


def test_a_table_of_bands_alone_has_no_headings() -> None:
    (only,) = pages(list(table([Column(heading="Part")], [Band(text="Strip A1")], setting())))
    assert "Strip A1" in words(only)
    assert "Part" not in words(only)


@pytest.mark.parametrize("count", range(20, 120, 7))
def test_a_table_does_not_end_with_a_line_alone_on_a_page(count: int) -> None:
    """A widow, as printers call it: common practice, no source."""
    lines = [str(number) for number in range(count)]
    made = pages(list(table([Column(heading="no.")], rows(*lines), setting())))
    on_each = [sum(word.isdigit() for word in words(page)) for page in made]
    assert sum(on_each) == count
    assert len(made) == 1 or on_each[-1] >= 3
    assert [word for page in made for word in words(page) if word.isdigit()] == lines


def test_a_sentence_is_broken_evenly_and_never_condensed() -> None:
    said = "Switch on: the lamp stays dark, or glows for what is on; bright is a short."
    width = 0.9 * Words(text=said).width(CAP)
    lines = Words(text=said).lines(CAP, width)
    assert [line.stretch for line in lines] == [1, 1]
    assert " ".join(line.text for line in lines) == said
    assert lines[1].width > 0.7 * lines[0].width
    (name,) = Words(text="Harbour station throat").lines(CAP, 0.9 * Words(text="Harbour station throat").width(CAP))
    assert name.stretch < 1


def test_a_word_too_long_for_its_column_is_broken_in_a_sentence_too() -> None:
    said = "a b c d e f g " + "w" * 40
    assert "".join(line.text for line in Words(text=said).lines(CAP, 30)).replace(" ", "") == said.replace(" ", "")


def test_a_band_is_not_left_alone_at_the_foot() -> None:
    for count in range(34, 40):
        numbers = [f"a{number}" for number in range(count)]
        content = [*rows(*numbers), Band(text="Strip S2"), *rows("b0", "b1")]
        first, *_ = pages(list(table([Column(heading="no.")], content, setting())))
        assert words(first)[-1] != "Strip S2"


@settings(max_examples=30)
@given(st.lists(st.sampled_from(["row", "band", "title", "words"]), min_size=30, max_size=70))
def test_pages_are_filled_and_never_overfilled(kinds: list[str]) -> None:
    made = {
        "row": lambda: [*table([Column(heading="")], rows("x"), setting())],
        "band": lambda: [*table([Column(heading="")], [Band(text="Strip"), *rows("x")], setting())],
        "title": lambda: [title("To buy", setting())],
        "words": lambda: [paragraph("Switch off. " * 30, setting())],
    }
    pieces = [piece for kind in kinds for piece in made[kind]()]
    drawn = pages(pieces)
    for page in drawn:
        assert_all_inside(page)
        room = A4.room
        for text in texts(page)[2:]:
            assert_within(text, (room.x, room.y - 0.3, room.right, room.bottom))  # round letters stand a hair higher
    assert sum(words(page).count("x") for page in drawn) == kinds.count("row") + kinds.count("band")


def test_a_column_that_grows_takes_what_is_left() -> None:
    columns = [Column(heading="mm", align="end"), Column(heading="from", grows=True), Column(heading="to", grows=True)]
    cells = (Words(text="1250"), Words(text="PULSE.feed"), Words(text="A1.2"))
    (page,) = pages(list(table(columns, [Row(cells=cells)], setting())))
    found = {text.text: text for text in texts(page)}
    assert found["1250"].anchor == "end"
    assert found["from"].x == found["PULSE.feed"].x
    assert text_extent(found["1250"])[2] == pytest.approx(text_extent(found["mm"])[2], abs=0.4)
    assert found["to"].x > found["PULSE.feed"].x + A4.room.width / 4


def test_a_long_name_does_not_push_the_others_off() -> None:
    columns = [Column(heading="wire", most=20), Column(heading="from", grows=True), Column(heading="to", grows=True)]
    long = "ENGINE-SHED-" * 5
    row = Row(cells=(Words(text=long), Words(text=long), Words(text="A1.2")))
    (page,) = pages(list(table(columns, [row], setting())))
    assert_all_inside(page)
    last = next(text for text in texts(page) if text.text == "A1.2")
    assert text_extent(last)[2] < A4.room.right


def test_a_sentence_where_a_name_should_be_is_reported() -> None:
    told = lettering()
    list(table([Column(heading="", most=20)], rows("quay " * 60), setting(told)))
    assert [problem.code for problem in told.problems] == ["text-does-not-fit"]


def test_a_railways_long_name_is_made_smaller_and_a_chapter_is_reported() -> None:
    told = lettering()
    long = ListPaper(
        paper=PAPERS["a4"], railway="Marram Quay and the Harbour Tramway of the Lower Estuary " * 2, title="x"
    )
    (page,) = list_pages([space(5)], long, told)
    assert told.problems == []
    assert_all_inside(page)
    (page,) = list_pages([space(5)], ListPaper(paper=PAPERS["a4"], railway="Quay " * 90, title="x"), told)
    assert [problem.code for problem in told.problems] == ["text-does-not-fit"]
    assert words(page) == ["page 1 of 1"]


def test_a_grid_runs_from_left_to_right() -> None:
    entries = [(Ticks(), Words(text=str(number))) for number in range(30)]
    columns = [Column(heading=""), Column(heading="", align="end")]
    (page,) = pages(list(grid(Band(text="Hole H1"), columns, entries, setting())))
    found = [text for text in texts(page) if text.text.isdigit()]
    assert [text.text for text in found] == [str(number) for number in range(30)]
    lines = sorted({text.y for text in found})
    assert [sum(text.y == y for text in found) for y in lines[:-1]] == [sum(text.y == lines[0] for text in found)] * (
        len(lines) - 1
    )
    assert len(lines) < 5
    assert_all_inside(page)


def test_an_entry_that_is_wider_than_the_page_has_a_line_of_its_own() -> None:
    entries = [(Words(text="W" * 200),), (Words(text="x"),)]
    told = lettering()
    list(grid(Band(text="Hole H1"), [Column(heading="")], entries, setting(told)))
    assert told.problems == []


def test_a_grid_goes_on_under_its_band() -> None:
    entries = [(Words(text=f"{number:04}"),) for number in range(900)]
    first, second, *_ = pages(
        list(grid(Band(text="Hole H1", right="900 wires"), [Column(heading="")], entries, setting()))
    )
    assert words(first)[2:4] == ["Hole H1", "900 wires"]
    assert words(second)[2] == "Hole H1, continued"


def test_a_long_band_is_broken() -> None:
    (page,) = pages(
        list(table([Column(heading="")], [Band(text="Harbour " * 20, right="9 wires"), *rows("x")], setting()))
    )
    lines = [text for text in texts(page) if text.text.startswith("Harbour")]
    assert len(lines) > 1
    (band,) = [shape for shape in page.shapes if isinstance(shape, Box)]
    for line in lines:
        assert_within(line, (band.x, band.y, band.x + band.width, band.y + band.height))
    assert (
        max(text_extent(line)[2] for line in lines)
        < text_extent(next(t for t in texts(page) if t.text == "9 wires"))[0]
    )


def test_boxes_and_lines_to_write_on() -> None:
    columns = [Column(heading="cut"), Column(heading="flags"), Column(heading="mm", align="end"), Column(heading="in")]
    (page,) = pages(list(table(columns, [Row(cells=(Ticks(), Ticks(count=2), WriteIn(), NOTHING))], setting())))
    boxes = [shape for shape in page.shapes if isinstance(shape, Box)]
    assert [(box.width, box.height) for box in boxes] == [(TICK_BOX, TICK_BOX)] * 3
    lines = [shape for shape in page.shapes if isinstance(shape, Line) and shape.y1 == shape.y2]
    assert [line.x2 - line.x1 < 15 for line in lines].count(True) == 1
    assert_all_inside(page)


def test_everything_is_large_enough_for_poor_light() -> None:
    """2.5 mm at least: common practice below a baseboard, no source."""
    pieces = [
        title("To buy", setting()),
        paragraph("Switch off.", setting()),
        *table([Column(heading="no.")], rows("1"), setting()),
    ]
    (page,) = pages(pieces)
    assert min(cap_height(text) for text in texts(page)) >= 2.5


def test_the_head_stands_clear_of_the_paper_s_edge() -> None:
    (page,) = pages([space(5)])
    head = [text for text in texts(page) if isinstance(text, Text)]
    assert all(text_extent(text)[1] > 5 and text_extent(text)[3] < HEAD_RULE for text in head)
    assert all(text_extent(text)[0] >= MARGIN - 0.5 for text in head)
    assert INDENT > 0


def test_no_pages_of_nothing() -> None:
    assert pages([]) == []


def test_a_last_title_is_still_printed() -> None:
    (page,) = pages([title("To buy", setting())])
    assert "To buy" in words(page)
