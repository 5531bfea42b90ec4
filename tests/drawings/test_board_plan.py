"""Plans of boards. Judges: pdfplumber for places in the PDF, the rendered page against its flipped self, shapely."""

from io import BytesIO
from pathlib import Path

import numpy as np
import pdfplumber
import pytest
from drawn_extents import assert_within
from panel_railway import text_ink, texts
from plan_railway import CORNERS, EXAMPLE, GENERATED, made, plans
from shapely import STRtree

from labelgen.drawings.board_plan.plan import BoardPlans
from labelgen.lengths import POINTS_PER_MM
from labelgen.model.drawing import Box, Circle, Drawing, Text
from labelgen.model.sheet import Document, Placed, Sheet
from labelgen.rendering.pdf import pdf_bytes
from labelgen.standards.legibility import HEADS_READ_AT_MM, LEAST_MINUTES, cap_height
from labelgen.typefaces import FACES

RAILWAYS = {"example": EXAMPLE, "corners": CORNERS, "generated": GENERATED}


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, list[Drawing]]]:
    folder = tmp_path_factory.mktemp("plans")
    return {name: plans(text, folder) for name, text in RAILWAYS.items()}


def words(drawing: Drawing) -> list[str]:
    return [text.text for text in texts(drawing)]


@pytest.mark.parametrize("name", RAILWAYS)
def test_no_text_touches_another(drawn: dict[str, dict[str, list[Drawing]]], name: str) -> None:
    for pages in drawn[name].values():
        for page in pages:
            written = texts(page)
            ink = [text_ink(text) for text in written]
            pairs = STRtree(ink).query(ink, predicate="dwithin", distance=0.2).T
            assert [(written[a].text, written[b].text) for a, b in pairs if a < b] == [], page.name


@pytest.mark.parametrize("name", RAILWAYS)
def test_nothing_lies_off_the_page(drawn: dict[str, dict[str, list[Drawing]]], name: str) -> None:
    for pages in drawn[name].values():
        for page in pages:
            for shape in page.shapes:
                assert_within(shape, (5, 5, page.width - 5, page.height - 5))


@pytest.mark.parametrize("name", RAILWAYS)
def test_everything_is_legible_at_half_a_metre(drawn: dict[str, dict[str, list[Drawing]]], name: str) -> None:
    """15 minutes of arc (NUREG-0700); texts of a way's patch of colour are letters of a marker, as on that."""
    least = cap_height(HEADS_READ_AT_MM, LEAST_MINUTES)
    for pages in drawn[name].values():
        for text in (text for page in pages for text in texts(page) if len(text.text) > 4):
            assert text.size * FACES[text.face].cap >= least - 0.01, text.text


def test_each_view_says_which_it_is(drawn: dict[str, dict[str, list[Drawing]]]) -> None:
    below, above = drawn["example"]["B1"]
    assert "Seen from below" in words(below)
    assert any("left and right change places" in text for text in words(below))
    assert "Seen from above" in words(above)
    assert {"FRONT EDGE", "to B2", "1:5 on A4: 1 mm here is 5 mm on the board. Print at actual size."} <= set(
        words(below)
    )


@pytest.mark.parametrize(
    ("name", "board", "ids"),
    [
        ("example", "B1", {"S1", "S2", "P3", "P4", "P5A", "P6", "P8", "P9", "YARD", "QUAY", "CAB", "H1", "HARBOUR"}),
        ("example", "B2", {"S3", "P1", "P2", "P5B", "P7", "LAMPS", "LIGHT"}),
        ("corners", "B1", {"S1", "S3", "P1", "P2", "SIG", "PULSE", "DC", "H1", "H2", "QUAY"}),
        ("corners", "B2", {"S2", "P3", "P4", "H3"}),
        ("generated", "B1", {f"P{number}" for number in range(1, 43)} | {"S1", "S11", "PULSE", "H1", "J1-1"}),
    ],
)  # fmt: skip
def test_all_that_stands_on_a_board_is_named(
    drawn: dict[str, dict[str, list[Drawing]]], name: str, board: str, ids: set[str]
) -> None:
    pages = drawn[name][board]
    half = len(pages) // 2
    for view in (pages[:half], pages[half:]):
        assert ids <= set(words(view[0]))
        strips = {id_ for id_ in ids if id_.startswith("S") and id_[1:].isdigit()}
        assert all(sum(words(page).count(id_) for page in view) == 2 for id_ in strips), "on the plan, and enlarged"


@pytest.mark.parametrize("name", ["example", "generated"])
def test_enlarged_strips_are_all_of_one_width(drawn: dict[str, dict[str, list[Drawing]]], name: str) -> None:
    """So that they stand in columns."""
    for page in drawn[name]["B1"]:
        boxes = (shape for shape in page.shapes if isinstance(shape, Box) and shape.stroke_width == 0.35)
        framed = [box for box in boxes if box.height < 20]
        assert framed
        assert max(box.width for box in framed) - min(box.width for box in framed) < 1e-6
        columns = {round(box.x, 3) for box in framed}
        assert len(columns) <= len(framed) / 2 or len(framed) <= 3


def test_what_is_not_drawn_is_said(drawn: dict[str, dict[str, list[Drawing]]]) -> None:
    said = " ".join(text for page in drawn["corners"]["B2"] for text in words(page))
    assert "no place is given for them: P5" in said
    assert "their places lie outside of the board: P6" in said
    assert "wires not drawn:" in said
    unsized = " ".join(text for page in drawn["corners"]["B3"] for text in words(page))
    assert "of the board are not drawn: its size is not given" in unsized
    assert "towards the front" in unsized
    assert "B4" not in drawn["corners"], "nothing on it has a place"


def flipped_apart(below: Drawing, above: Drawing) -> float:
    """The share of the board's dots, an eighth of a mm wide, that are found nowhere within one dot of their place when
    one plan is flipped over: both rendered without their texts.
    """
    shots = []
    for page in (below, above):
        bare = tuple(shape for shape in page.shapes if not isinstance(shape, Text))
        sheet = Sheet(width=page.width, height=page.height, placed=(Placed(x=0, y=0, drawing=_with(page, bare)),))
        content = pdf_bytes(Document(title="plan", pages=(sheet,)))
        ground = next(shape for shape in page.shapes if isinstance(shape, Box) and shape.fill == "#f7f5f0")
        shots.append(_dots(content, ground))
    flipped, other = shots[0][:, ::-1].astype(int), shots[1].astype(int)
    apart = [np.abs(np.roll(flipped, dots, axis=1) - other).max(axis=2) for dots in (-1, 0, 1)]
    return float(np.mean(np.min(apart, axis=0)[:, 2:-2] > 64))


def _with(page: Drawing, shapes: tuple[object, ...]) -> Drawing:
    return Drawing(width=page.width, height=page.height, shapes=shapes, name=page.name, place=page.place)  # type: ignore[arg-type]


def _dots(content: bytes, ground: Box) -> np.ndarray:
    from pypdfium2 import PdfDocument

    dots = 8 / POINTS_PER_MM
    (page,) = PdfDocument(BytesIO(content))
    picture = page.render(scale=dots).to_numpy()[:, :, :3]
    left, top = round(ground.x * 8), round(ground.y * 8)
    return picture[top : top + round(ground.height * 8), left : left + round(ground.width * 8)]


def without_supplies(drawing: Drawing) -> Drawing:
    """Plus and minus on a supply read the same way from both sides, as writing does."""
    return _with(drawing, tuple(s for s in drawing.shapes if getattr(s, "colour", "") != "#ffffff"))


@pytest.mark.parametrize(
    ("name", "board"), [("example", "B1"), ("example", "B2"), ("corners", "B1"), ("corners", "B2")]
)
def test_the_plan_from_below_is_that_from_above_flipped_over(
    drawn: dict[str, dict[str, list[Drawing]]], name: str, board: str
) -> None:
    pages = drawn[name][board]
    below, above = (without_supplies(page) for page in (pages[0], pages[len(pages) // 2]))
    assert flipped_apart(below, above) < 0.0003
    assert flipped_apart(above, above) > 0.005, "the judge sees the difference"


@pytest.mark.parametrize(("view", "mirrored"), [(0, True), (1, False)])
def test_places_are_to_scale(tmp_path: Path, view: int, mirrored: bool) -> None:
    """Read back from the PDF: the middle of each ring lies where the description says, to 0.05 mm on paper."""
    with pdfplumber.open(BytesIO(made(EXAMPLE, tmp_path, "B1")["plan-B1.pdf"])) as document:
        page = document.pages[view]
        mm = [(*(value / POINTS_PER_MM for value in (c["x0"], c["top"], c["x1"], c["bottom"])), c) for c in page.curves]
        ground = next(r for r in page.rects if r["width"] / POINTS_PER_MM == pytest.approx(240, abs=0.5))
    left, top = ground["x0"] / POINTS_PER_MM, ground["top"] / POINTS_PER_MM
    middles = [((x1 + x2) / 2 - left, (y1 + y2) / 2 - top) for x1, y1, x2, y2, _ in mm]
    places = {
        "P3": (560, 180),
        "P4": (420, 230),
        "P5A": (1130, 230),
        "P6": (1010, 280),
        "P9": (300, 420),
        "H1": (700, 540),
    }
    for x, y in places.values():
        there = ((1200 - x if mirrored else x) / 5, y / 5)
        assert min(abs(a - there[0]) + abs(b - there[1]) for a, b in middles) < 0.05


def test_ways_of_a_strip_are_to_scale(drawn: dict[str, dict[str, list[Drawing]]]) -> None:
    """110.5 mm from the first screw of S1 to the last one's, way 1 at the left, panel side in front."""
    above = drawn["example"]["B1"][1]
    ground = next(s for s in above.shapes if isinstance(s, Box) and s.fill == "#f7f5f0")
    pitch = 110.5 / 11 / 5
    cells = [s for s in above.shapes if isinstance(s, Box) and s.width == pytest.approx(pitch) and s.height < 3]
    x = sorted(cell.x + cell.width / 2 - ground.x for cell in cells)[:12]
    assert x == pytest.approx([(420 - 110.5 / 2) / 5 + pitch * number for number in range(12)])
    dots = [s.x - ground.x for s in above.shapes if isinstance(s, Circle) and s.radius < 0.4]
    assert any(dot == pytest.approx(x[0]) for dot in dots), "a dot at way 1"


def test_a_strip_seen_from_below_counts_the_other_way(drawn: dict[str, dict[str, list[Drawing]]]) -> None:
    for page, wanted in zip(drawn["example"]["B2"], (range(12, 0, -1), range(1, 13)), strict=True):
        numbers = [t for t in texts(page) if t.text.isdigit() and t.face == "B612-Bold" and t.y > 150]
        assert [int(t.text) for t in sorted(numbers, key=lambda t: t.x)] == list(wanted)


def test_the_wires_of_each_run_are_counted(drawn: dict[str, dict[str, list[Drawing]]]) -> None:
    """31 wires go through the only hole; 11 of them come from strip S3 on the other board."""
    counts = words(drawn["example"]["B1"][0])
    assert {"31", "20"} <= set(counts)
    assert "11" in words(drawn["example"]["B2"][0])
    assert any(text.startswith("31 wires: 11T, 11Ts, 3N") for text in counts)


def test_the_same_description_gives_the_same_bytes(tmp_path: Path) -> None:
    assert made(CORNERS, tmp_path) == made(CORNERS, tmp_path)


def test_one_board_alone_is_as_it_is_among_all(tmp_path: Path) -> None:
    everything = made(EXAMPLE, tmp_path)
    assert sorted(everything) == ["plan-B1.pdf", "plan-B2.pdf"]
    assert made(EXAMPLE, tmp_path, "B2") == {"plan-B2.pdf": everything["plan-B2.pdf"]}


def test_at_actual_size_ways_are_written_in_their_places(tmp_path: Path) -> None:
    text = EXAMPLE + "\nprinting: {plan: full}\n"
    with pdfplumber.open(BytesIO(made(text, tmp_path, "B2")["plan-B2.pdf"])) as document:
        assert len(document.pages) > 30
        said = " ".join(page.extract_text() for page in document.pages[: len(document.pages) // 2])
    assert {"S3", "7R", "5N", "2N", "12"} <= set(said.split())


def test_boards_without_anything_are_offered_no_plan(tmp_path: Path) -> None:
    from plan_railway import checked_of

    from labelgen.model.look import Look

    checked = checked_of(CORNERS, tmp_path)
    assert BoardPlans(checked.description, checked.netlist, Look()).boards() == ["B1", "B2", "B3"]
