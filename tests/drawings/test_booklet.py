"""The booklet, read back by programs that did not write it: pdfplumber for words, pikepdf for what leads where."""

from collections import Counter
from dataclasses import replace
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any

import pdfplumber
import pikepdf
import pytest
from generated_railways import railway as generated
from shapely import STRtree
from shapely.geometry import box
from shapely.ops import unary_union

from labelgen.data_files import layouts
from labelgen.drawings.booklet.strip_links import in_lanes
from labelgen.makers.booklet import NAME, booklet
from labelgen.making import Checked, Job, Request
from labelgen.pipeline import check_file
from labelgen.problems import Severity
from labelgen.standards.cautions import CAUTIONS
from labelgen.standards.paper_sizes import PAPERS

MM = 72 / 25.4
ODD = """
railway: Samphire Flats
words: american
about: Three boards and everything odd that a strip can have.
boards:
  B1: {size: [1200, 600], at: [0, 0]}
  B2: {size: [1200, 600], right_of: B1, name: Ness}
supplies:
  PULSE: {kind: pulse, board: B1, at: [10, 10]}
  LIGHT: {kind: dc, board: B2, at: [10, 10]}
strips:
  S1: {board: B1, at: [300, 300], ways: 24, shown: "TB1/A", taken: {20: doorbell},
    bridges: [[1, 4, 7], [3, 5], [21, 24]], keep: [19], test_points: [2], way_1: back, panel_side: left}
  S2: {board: B2, at: [300, 300], ways: 24, tiers: 2, panel_side: back}
  S3: {board: B2, at: [600, 300], ways: 4, name: Lamps, way_1: right}
  S4: {board: B2, at: [900, 300], ways: 3, way_1: front, panel_side: right}
plugs:
  J1: {boards: [B1, B2], pins: 25, keep_empty: [13], name: Big plug}
points:
  P1: {name: Goods yard, board: B1, at: [10, 100]}
  P2: {board: B2, at: [10, 100], not_in_use: motor burnt}
  P3: {board: B2, at: [100, 100], strip: S1, swapped: yes}
panels:
  BOX: {board: B1, levers: {row: 2}, size: [300, 60]}
levers:
  9: {spare: yes, panel: BOX}
devices:
  LAMP: {kind: lamps, board: B2, at: [100, 500], name: Quay, strip: S3}
"""


def checked(file: Path) -> Checked:
    found, problems = check_file(file)
    assert found is not None, problems
    return found


def made(of: Checked, request: Request | None = None) -> bytes:
    result = booklet(Job(of, request or Request()))
    assert [problem for problem in result.problems if problem.severity is Severity.ERROR] == []
    return result.files[NAME]


@cache
def example() -> tuple[Checked, bytes]:
    of = checked(layouts("railways") / "marram-quay.yaml")
    return of, made(of)


@pytest.fixture(scope="module")
def odd(tmp_path_factory: pytest.TempPathFactory) -> tuple[Checked, bytes]:
    file = tmp_path_factory.mktemp("odd") / "odd.yaml"
    file.write_text(ODD, encoding="utf-8")
    of = checked(file)
    return of, made(of)


@cache
def pages_said(content: bytes) -> list[str]:
    with pdfplumber.open(BytesIO(content)) as pdf:
        return [page.extract_text() for page in pdf.pages]


@cache
def words_of(content: bytes) -> list[list[dict[str, Any]]]:
    """Page by page, every word with its place, in points from the upper left."""
    with pdfplumber.open(BytesIO(content)) as pdf:
        return [page.extract_words(extra_attrs=["size"]) for page in pdf.pages]


def within(words: list[dict[str, Any]], left: float, top: float, right: float, bottom: float) -> str:
    """The words whose middle is in there."""
    return " ".join(
        word["text"]
        for word in words
        if left <= (word["x0"] + word["x1"]) / 2 <= right and top <= (word["top"] + word["bottom"]) / 2 <= bottom
    )


def rows_said(content: bytes) -> list[list[str]]:
    return [text.splitlines() for text in pages_said(content)]


class Read:
    """Where the PDF leads to, as pikepdf finds it: pages from 1."""

    def __init__(self, content: bytes) -> None:
        self.pdf = pikepdf.open(BytesIO(content))
        self._numbers = {page.obj.objgen: number for number, page in enumerate(self.pdf.pages, 1)}

    def bookmarks(self) -> list[tuple[int, str, int]]:
        """Level, title and page, in order."""
        found: list[tuple[int, str, int]] = []

        def walk(items: Any, level: int) -> None:
            for item in items:
                found.append((level, item.title, self._page(item.destination)))
                walk(item.children, level + 1)

        with self.pdf.open_outline() as outline:
            walk(outline.root, 0)
        return found

    def links(self) -> list[tuple[int, tuple[float, ...], int, float]]:
        """From which page, where on it (points from the lower left), to which page and height there."""
        found = []
        for number, page in enumerate(self.pdf.pages, 1):
            for note in page.get("/Annots", []):
                assert note.Subtype == "/Link"
                where = tuple(float(corner) for corner in note.Rect)
                found.append((number, where, self._page(note.Dest), float(note.Dest[3])))
        return found

    def _page(self, destination: Any) -> int:
        assert destination[1] == "/XYZ"
        return self._numbers[destination[0].objgen]


def test_bookmarks_lead_to_the_page_that_opens_with_their_title() -> None:
    _, content = example()
    said = pages_said(content)
    marks = Read(content).bookmarks()
    assert [title for level, title, _ in marks if level == 0] == [
        "Marram Quay", "Contents", "How this railway is wired", "Colours, letters and signs", "Strips", "Levers",
        "Devices", "Supplies", "Cut list", "Electrical figures", "Routes", "Test sheets", "Plans",
    ]  # fmt: skip
    assert [title for _, title, _ in marks].count("Strip S2") == 1
    assert {title for level, title, _ in marks if level == 1} >= {
        "Strip S1",
        "Lever 5 Crossover",
        "P1 Goods lines",
        "CAB",
    }
    for _, title, page in marks:
        if title not in ("Strips", "Test sheets", "Plans") and not title.startswith("Plan of"):
            assert title in said[page - 1], title


def test_contents_name_the_pages_on_which_the_chapters_begin() -> None:
    _, content = example()
    said = rows_said(content)
    pages = {title: page for _, title, page in Read(content).bookmarks()}
    listed = [line.rsplit(" ", 1) for line in said[1][2:]]
    assert len(listed) > 15
    for text, page in listed:
        title = max((one for one in pages if text.startswith(one)), key=len)
        assert pages[title] == int(page), text


def test_every_page_but_the_cover_says_its_own_number() -> None:
    _, content = example()
    for number, lines in enumerate(rows_said(content)[1:], 2):
        assert any(line.split()[-1] == str(number) for line in (lines[0], lines[-1])), number


def test_every_link_is_on_a_text_and_leads_to_what_it_says() -> None:
    """A far end in a way table leads to the page, and the row, of that way."""
    _, content = example()
    links, words, height = Read(content).links(), words_of(content), PAPERS["a4"].height * MM
    ways = 0
    for page, (x0, y0, x1, y1), to, top in links:
        said = within(words[page - 1], x0, height - y1, x1, height - y0)
        assert said, (page, x0, y0)
        thing, _, terminal = said.split(",")[0].removeprefix("link to ").rpartition(".")
        if thing in ("S1", "S2", "S3"):
            ways += 1
            assert within(words[to - 1], 0, height - top, 60 * MM, height - top + 8 * MM).split()[0] == terminal, said
    assert len(links) > 250
    assert ways > 80


def test_the_page_beside_a_far_end_is_the_one_it_leads_to() -> None:
    _, content = example()
    words, height, asked = words_of(content), PAPERS["a4"].height * MM, 0
    tables = [any(line.endswith(" page") for line in lines) for lines in rows_said(content)]
    for page, (_, y0, _, y1), to, _ in Read(content).links():
        if tables[page - 1]:
            asked += 1
            assert within(words[page - 1], 0, height - y1, 1000, height - y0).split()[-1] == str(to)
    assert asked > 150


@pytest.mark.parametrize("number", [0, 1], ids=["example", "odd"])
def test_every_wire_has_its_number_in_the_booklet_at_both_ends(odd: tuple[Checked, bytes], number: int) -> None:
    """Number, head and far end stand in one line of the way, lever, device, supply or plug tables."""
    of, content = (example(), odd)[number]
    marks = Read(content).bookmarks()
    first = next(page for _, title, page in marks if title == "Strips")
    last = next(page for _, title, page in marks if title == "Cut list")
    lines = [line.split() for page in rows_said(content)[first - 1 : last - 1] for line in page]
    for wire in of.netlist.wires:
        for end in wire.ends:
            if end.kind in ("route", "matrix"):
                continue
            far = wire.finish if end is wire.start else wire.start
            shown = far.shown.split()
            assert any(
                str(wire.number) in line and wire.head in line and any(shown[-1] == word.rstrip(",") for word in line)
                for line in lines
            ), wire


def test_a_strip_s_ways_are_all_in_its_table_and_in_its_picture(odd: tuple[Checked, bytes]) -> None:
    _, content = odd
    said = pages_said(content)
    pages = {title: page for _, title, page in Read(content).bookmarks()}
    picture = said[pages["Strip TB1/A"] - 1]
    table = said[pages["Strip TB1/A"]]
    for text in ("doorbell", "kept free", "a test point", "bridged with 4, 7", "to way 18: spare"):
        assert text in picture + table
    assert "fed by PULSE" in picture
    assert "The thick line below is the board’s front edge" in picture
    assert all(any(line.split()[0] == str(way) for line in table.splitlines()) for way in (1, 2, 3, 10, 19, 20))


@pytest.mark.parametrize(
    ("strip", "front", "panel"),
    [
        ("TB1/A", "below", "right"),
        ("S2", "on the right", "left"),
        ("S3", "on the left", "left"),
        ("S4", "above", "right"),
    ],
)
def test_a_picture_shows_a_strip_as_it_hangs(odd: tuple[Checked, bytes], strip: str, front: str, panel: str) -> None:
    """Worked out by hand: a strip's edges as seen from above, mirrored, and turned until way 1 is on top."""
    _, content = odd
    page = next(page for _, title, page in Read(content).bookmarks() if title == f"Strip {strip}")
    assert f"The thick line {front} is the board" in pages_said(content)[page - 1].replace("\n", " ")
    words = words_of(content)[page - 1]
    sides = next(
        [a["text"], c["text"]] for a, b, c in zip(words, words[1:], words[2:], strict=False) if b["text"] == "side"
    )
    assert sides[0 if panel == "left" else 1] == "panel"


def test_what_is_odd_is_said(odd: tuple[Checked, bytes]) -> None:
    _, content = odd
    said = "\n".join(pages_said(content))
    for text in (
        "Out of use: motor burnt.",
        "Normal and reverse change places at this motor.",
        "Spare: it works nothing.",
        "PULSE: the description does not say volts and microfarads.",
        "LIGHT: the description does not say volts.",
        "kept empty",
        "to pin 25: spare",
        "joined by one plug, J1",
        "Colors, letters and signs",
        "No line voltage on the layout",
    ):
        assert text in said, text
    assert "No figures" in said
    assert "colour" not in said


def test_the_cover_bears_the_same_cautions_as_the_pages() -> None:
    _, content = example()
    cover = pages_said(content)[0].replace("\n", " ")
    for what, _ in CAUTIONS:
        assert what in cover
    assert "2 boards · 3 strips · 12 levers · 98 wires" in cover


def test_figures_are_those_of_the_railway() -> None:
    of, content = example()
    page = next(page for _, title, page in Read(content).bookmarks() if title == "Electrical figures")
    said = pages_said(content)[page - 1]
    bank = of.figures.banks[0]
    assert f"{bank.stored_joules:.2f} {bank.seconds_to_full:.1f} {int(bank.throws_a_minute or 0)}" in said
    throw, coil = of.figures.throws[0], of.figures.throws[0].weakest
    assert f"{throw.shown} {throw.lie} {coil.device}.{coil.terminal} {coil.joules:.2f} {coil.share:.0%}"[:-1] in said
    assert f"{throw.loop_ohms:.2f} {throw.peak_amps:.1f} {throw.time_constant_ms:.1f}" in said


def test_a_strips_chapter_has_the_figures_of_what_is_wired_there() -> None:
    of, content = example()
    starts = {title: page for _, title, page in Read(content).bookmarks()}
    of_strip = [starts[f"Strip {strip.shown}"] for strip in of.netlist.strips]
    ends = [*of_strip[1:], starts["Levers"]]
    pages = [page.replace("\n", " ") for page in pages_said(content)]
    for strip, start, end in zip(of.netlist.strips, of_strip, ends, strict=True):
        said = " ".join(pages[start - 1 : end - 1])
        here = {c.lever for c in of.netlist.circuits for group in c.groups if group.strip == strip.id}
        elsewhere = {lever.id for lever in of.netlist.levers} - here
        thrown = [throw for throw in of.figures.throws if throw.lever in here]
        assert thrown
        for throw in thrown:
            assert f"{throw.shown} {throw.lie} {throw.weakest.joules:.2f} J to {throw.weakest.device}" in said
        assert not any(f"lever {lever} normal" in said.partition("Electrical figures")[2] for lever in elsewhere)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("mono", [False, True], ids=["colour", "mono"])
def test_every_page_has_the_size_of_its_paper(paper: str, mono: bool) -> None:
    of, _ = example()
    printing = of.description.printing.model_copy(update={"paper": paper})
    described = of.description.model_copy(update={"printing": printing})
    content = made(replace(of, description=described, worked_out={}), Request(mono=mono))
    wanted = sorted((PAPERS[paper].width, PAPERS[paper].height))
    for page in pikepdf.open(BytesIO(content)).pages:
        size = sorted(float(side) / MM for side in page.mediabox[2:])
        assert size == pytest.approx(wanted, abs=0.01)


def assert_nothing_overlaps(content: bytes, before: int) -> tuple[float, float, float]:
    """Judge: shapely, on the words as pdfplumber finds them, by their capitals. Returns how far they reach: left edge,
    right edge, lower edge."""
    reach = []
    for number, words in enumerate(words_of(content)[1 : before - 1], 2):
        bodies = [box(w["x0"], w["top"] + 0.2 * w["size"], w["x1"], w["bottom"] - 0.25 * w["size"]) for w in words]
        inner = [body.buffer(-0.2) for body in bodies]
        for one, other in STRtree(inner).query(inner, predicate="intersects").T:
            assert one == other, (number, words[one]["text"], words[other]["text"])
        reach.append(unary_union(bodies).bounds)
    lefts, _, rights, bottoms = zip(*reach, strict=True)
    return min(lefts), max(rights), max(bottoms)


def test_no_two_texts_overlap_and_none_leaves_its_page(odd: tuple[Checked, bytes]) -> None:
    """Pictures of panels and plans have tests of their own."""
    for content, paper in ((example()[1], PAPERS["a4"]), (odd[1], PAPERS["letter"])):
        plans = next(page for _, title, page in Read(content).bookmarks() if title == "Plans")
        left, right, bottom = assert_nothing_overlaps(content, plans)
        assert left >= 15 * MM
        assert right <= (paper.width - 15) * MM
        assert bottom <= (paper.height - 10) * MM


def test_no_capital_is_lower_than_2_5_mm_but_in_pictures() -> None:
    """For eyes over sixty: common practice, no source. B612's capitals are 0.76 em high."""
    _, content = example()
    marks = Read(content).bookmarks()
    first = next(page for _, title, page in marks if title == "How this railway is wired")
    routes = next(page for _, title, page in marks if title == "Routes")
    sizes = Counter(
        round(word["size"] * 0.76 / MM, 2)
        for number, words in enumerate(words_of(content), 1)
        if first <= number < routes and number != first + 1
        for word in words
    )
    assert min(sizes) >= 2.5
    assert sizes.most_common(1)[0][0] == pytest.approx(2.8, abs=0.01)


def test_one_board_has_what_is_of_it_alone() -> None:
    of, _ = example()
    content = made(of, Request(board="B2"))
    titles = [title for _, title, _ in Read(content).bookmarks()]
    assert "Strip S3" in titles
    assert not {"Strip S1", "Strip S2"} & set(titles)
    assert "P1 Goods lines" in titles
    assert "P3 Release" not in titles
    assert len(Read(content).links()) > 50


def test_the_file_says_what_it_is_and_may_be_printed_on_both_sides() -> None:
    """ISO 32000-1, tables 28, 150 and 317."""
    _, content = example()
    pdf = pikepdf.open(BytesIO(content))
    assert str(pdf.docinfo["/Title"]) == "Marram Quay: schedule"
    assert "harbour terminus" in str(pdf.docinfo["/Subject"])
    assert pdf.Root.PageMode == "/UseOutlines"
    assert pdf.Root.ViewerPreferences.Duplex == "/DuplexFlipLongEdge"


def test_the_same_railway_gives_the_same_bytes() -> None:
    of, content = example()
    assert made(replace(of, worked_out={})) == content


def test_a_large_railway_grows_in_step(tmp_path: Path) -> None:
    """Two and a half times the points, no more than as many times the pages and links; in the contents its strips
    stand side by side."""
    counts = []
    for points in (24, 60):
        file = tmp_path / f"{points}.yaml"
        file.write_text(generated(points), encoding="utf-8")
        content = made(checked(file))
        read = Read(content)
        counts.append((len(read.pdf.pages), len(read.links())))
    pages = {title: page for _, title, page in read.bookmarks() if title.startswith("Strip ")}
    listed = " ".join(pages_said(content)[1].split())
    assert len(pages) > 12
    assert all(f"{title} {page}" in listed for title, page in pages.items())
    assert counts[1][0] < 2.7 * counts[0][0]
    assert counts[1][1] < 2.7 * counts[0][1]


def test_a_railway_without_anything_has_a_booklet_all_the_same(tmp_path: Path) -> None:
    file = tmp_path / "bare.yaml"
    file.write_text("railway: Bare\n", encoding="utf-8")
    said = "\n".join(pages_said(made(checked(file))))
    assert "Bare is one piece: no boards are described." in said
    assert "The description names no supplies." in said


def test_long_names_are_broken_or_shortened_and_never_refused(tmp_path: Path) -> None:
    """With letters of 4 mm: nothing is refused, and nothing overlaps."""
    name = "The Great Samphire Flats and Sandhaven Harbour Joint Light Railway and Steamship Company"
    text = ODD.replace("railway: Samphire Flats", f"railway: {name}").replace("Goods yard", name)
    text = text.replace('shown: "TB1/A"', 'shown: "STATION-THROAT-TERMINAL-BLOCK/A"')
    file = tmp_path / "long.yaml"
    file.write_text(text + "printing: {smallest_text: 4}\n", encoding="utf-8")
    content = made(checked(file))
    plans = next(page for _, title, page in Read(content).bookmarks() if title == "Plans")
    assert_nothing_overlaps(content, 6)
    assert plans > 20
    assert "…" in "".join(pages_said(content))


@pytest.mark.parametrize(
    ("spans", "lanes"),
    [
        ([((1, 0), (4, 0)), ((4, 1), (7, 0))], [0, 0]),
        ([((1, 0), (4, 1)), ((4, 0), (7, 0))], [0, 1]),
        ([((1, 0), (9, 0)), ((2, 0), (3, 0)), ((4, 0), (5, 0))], [0, 1, 1]),
    ],
)
def test_links_that_meet_have_lanes_of_their_own(spans: list[Any], lanes: list[int]) -> None:
    assert [lane for _, lane in in_lanes(spans, range(len(spans)))] == lanes
