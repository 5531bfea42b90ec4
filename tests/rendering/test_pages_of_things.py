"""What stands on the pages of levers, plugs, panels and boards, and where the pages of tools are."""

from itertools import pairwise
from pathlib import Path

import pytest
from read_pages import Page, led_to

from labelgen.data_files import layouts
from labelgen.makers.schedule import schedule_files
from labelgen.making import Checked, Job, Request
from labelgen.model.copper_tree import CopperTree, Part, Point
from labelgen.model.netlist import Side
from labelgen.pipeline import check_file
from labelgen.problems import has_errors

TWO_BOARDS = """
railway: Marram Quay
boards: {B1: {name: Quay, size: [1200, 600], at: [0, 0], holes: {H1: {at: [600, 570], diameter: 8}}},
         B2: {size: [1200, 600], right_of: B1}}
supplies: {PULSE: {kind: pulse, board: B1, at: [60, 60]}, DC: {kind: dc, board: B1, at: [90, 60]}}
panels: {BOX: {board: B1, at: [600, 600], size: [300, 60], levers: {row: 3}}}
strips:
  work: {board: B1, at: [300, 300], measured: 110}
  Trace: {board: B2, at: [300, 300], measured: 110, way_1: front, panel_side: right}
levers: {5: {name: Crossover}, 9: {spare: yes}}
points:
  P1: {board: B1, at: [200, 200], not_in_use: coil burnt out}
  P5A: {board: B1, at: [220, 200]}
  P5B: {board: B2, at: [100, 200], swapped: yes}
devices:
  SERVO: {kind: servo, board: B2, at: [400, 200], strip: Trace, lever: none, addresses: 17-20, supply: DC}
plugs:
  J1: {boards: [B1, B2], pins: 12, keep_empty: [3], at: {B1: [1190, 300], B2: [10, 300]},
       gender: {B1: socket, B2: plug}}
"""


def checked(text: str, folder: Path) -> Checked:
    path = folder / "railway.yaml"
    path.write_text(text, encoding="utf-8")
    found, problems = check_file(path)
    assert found is not None
    assert not has_errors(problems), problems
    return found


def read(found: Checked) -> dict[str, Page]:
    return {path: Page(content) for path, content in schedule_files(Job(found, Request())).items()}


@pytest.fixture(scope="module")
def two(tmp_path_factory: pytest.TempPathFactory) -> tuple[Checked, dict[str, Page]]:
    text = TWO_BOARDS.replace("  SERVO: {kind: servo", "  SERVO: {kind: lamps")
    found = checked(text, tmp_path_factory.mktemp("two"))
    return found, read(found)


@pytest.fixture(scope="module")
def example() -> dict[str, Page]:
    found, _ = check_file(layouts("railways") / "marram-quay.yaml")
    assert found is not None
    return read(found)


def test_tools_keep_out_of_the_way_of_strips_that_are_called_like_them(two: tuple[Checked, dict[str, Page]]) -> None:
    """Even where a file system does not tell capitals from small letters."""
    pages = two[1]
    assert {"schedule/work/index.html", "schedule/work-/index.html", "schedule/trace-/index.html"} <= pages.keys()
    assert "Strip work" in pages["schedule/work/index.html"].words()
    assert "Work through the wires" in pages["schedule/work-/index.html"].words()
    assert len({path.casefold() for path in pages}) == len(pages)


def test_all_links_of_real_railways_lead_somewhere(
    two: tuple[Checked, dict[str, Page]], example: dict[str, Page]
) -> None:
    for pages in (two[1], example):
        followed = 0
        for path, page in pages.items():
            for link in page.of("a"):
                target, id_ = led_to(path, str(link["href"]))
                assert target in pages, (path, link)
                assert not id_ or id_ in pages[target].text_by_id, (path, link)
                followed += 1
        assert followed > 300


def test_no_page_asks_for_anything_from_elsewhere(
    two: tuple[Checked, dict[str, Page]], example: dict[str, Page]
) -> None:
    for pages in (two[1], example):
        for path, page in pages.items():
            assert not {"link", "img", "iframe", "form", "object", "base", "embed"} & {tag for tag, _ in page.tags}, (
                path
            )
            for tag, attributes in page.tags:
                assert not {"src", "srcset", "style", "xlink:href", "action"} & attributes.keys(), path
                assert tag != "use" or str(attributes["href"]).startswith("#m"), path


def test_pages_have_titles_of_their_own_and_headings_that_follow_one_another(
    two: tuple[Checked, dict[str, Page]], example: dict[str, Page]
) -> None:
    """WCAG 2.2, 2.4.2 and 1.3.1: a reader of the tabs, and one of the headings, can tell where they are."""
    for pages in (two[1], example):
        assert len({page.words().partition(" Skip to")[0] for page in pages.values()}) == len(pages)
        for path, page in pages.items():
            levels = [int(tag[1]) for tag, _ in page.tags if tag in ("h1", "h2", "h3", "h4")]
            assert levels[0] == 1, path
            assert levels.count(1) == 1, path
            assert all(after - before <= 1 for before, after in pairwise(levels)), path


def test_every_end_of_every_wire_can_be_ticked_on_some_page(two: tuple[Checked, dict[str, Page]]) -> None:
    found, pages = two
    ends = {f"{wire.number}@{end.name}" for wire in found.netlist.wires for end in wire.ends}
    own = {path: page for path, page in pages.items() if "/work-/" not in path}
    for some in (own.values(), [pages["schedule/work-/index.html"]]):
        ticked = {
            str(attributes["data-wire"]) for page in some for _, attributes in page.tags if "data-wire" in attributes
        }
        assert ticked == ends


def test_a_levers_page(example: dict[str, Page], two: tuple[Checked, dict[str, Page]]) -> None:
    words = example["schedule/lever/5/index.html"].words()
    assert "Lever 5 Crossover Extra-low voltage only." in words
    assert "Panel Harbour panel HARBOUR Kind springs back to the middle Normal is up" in words
    assert words.index("Its contacts") < words.index("What it works P5A"), "what is needed at the screws comes first"
    assert "Route It lies 1 Platform 1 normal" in words
    assert "lever 5 normal" in words.partition("Figures of its throw")[2]
    assert "Computed, not measured." in words
    assert "← Lever 4 All levers Lever 6 →" in words, words[-900:-500]
    assert "Figures" not in two[1]["schedule/lever/5/index.html"].words(), "there is nothing to compute from"
    assert "Out of use: coil burnt out" in two[1]["schedule/lever/1/index.html"].words()
    assert "It is a spare: nothing yet." in two[1]["schedule/lever/9/index.html"].words()


def test_a_strips_page_has_the_figures_of_what_is_wired_there(tmp_path: Path) -> None:
    text = """\
railway: Marram Quay
boards: {Staithe: {size: [1500, 700]}}
supplies:
  PULSE: {kind: pulse, at: [100, 650], volts: 24, microfarads: 4700}
  LIGHT: {kind: dc, at: [100, 600], volts: 12}
strips: {T1: {at: [700, 600], measured: 110}, T2: {at: [1200, 600], measured: 110}}
points: {P1: {at: [300, 250], strip: T1}, P2: {at: [900, 250], strip: T2}}
devices: {H1: {kind: lamps, at: [1000, 100], strip: T2, milliamps: 500}}
panels: {BOX: {at: [700, 700], size: [250, 120], levers: {row: 6}}}
"""
    found, _ = check_file_of(text, tmp_path)
    pages = read(found)
    first, second = (pages[f"schedule/{strip}/index.html"].words() for strip in ("T1", "T2"))
    assert "lever 1 normal" in first.partition("Figures of the throws wired here")[2]
    assert "lever 2" not in first.partition("Figures of the throws wired here")[2]
    assert "Steady current" not in first
    assert "lever 2 reverse" in second.partition("Figures of the throws wired here")[2]
    (load,) = found.figures.loads
    assert load.device == "H1"
    assert f"{load.amps:.2f} {load.volts:.1f}" in second.partition("Figures of the loads wired here")[2]
    amps = {wire.number: wire.amps for wire in found.figures.wires}
    ways = {way.number for strip in found.netlist.strips for way in strip.ways
            if any(wire.number in amps for side in Side for wire in way.entry(side))}  # fmt: skip
    current = second.partition("Steady current, at most Way Current")[2]
    assert ways
    assert all(f"{way} {load.amps:.2f} A" in current for way in ways)


def test_weak_throws_are_said(example: dict[str, Page], tmp_path: Path) -> None:
    assert "Weak:" not in example["schedule/lever/3/index.html"].words()
    text = (layouts("railways") / "marram-quay.yaml").read_text(encoding="utf-8")
    found, _ = check_file_of(text.replace("microfarads: 4700", "microfarads: 470"), tmp_path)
    assert "Weak: under 0.25 J may not throw it." in read(found)["schedule/lever/3/index.html"].words()


def check_file_of(text: str, folder: Path) -> tuple[Checked, object]:
    (folder / "quay.yaml").write_text(text, encoding="utf-8")
    found, problems = check_file(folder / "quay.yaml")
    assert found is not None
    return found, problems


def test_a_plugs_page(two: tuple[Checked, dict[str, Page]]) -> None:
    found, pages = two
    page = pages["schedule/plug/J1/index.html"]
    words = page.words()
    assert "Plug J1 Board, with the socket Quay B1 Board, with the plug B2" in words
    assert page.words("pin-3") == "3 kept empty: no pin here"
    plug = found.netlist.plug_by_id["J1"]
    assert any(pin.state == "used" for pin in plug.pins)
    for pin in plug.pins:
        said = page.words(f"pin-{pin.number}")
        for wire in pin.wires:
            far = next(end for end in wire.ends if end.thing != "J1")
            assert far.shown in said
            assert f"wire {wire.number}" in said
        assert pin.state != "spare" or said == f"{pin.number} spare"


def test_a_panels_page(example: dict[str, Page]) -> None:
    page = example["schedule/panel/HARBOUR/index.html"]
    words = page.words()
    assert "Harbour panel Panel HARBOUR Board Harbour B1 Fascia 360 × 160 mm" in words
    assert "Button 1 Platform 1 lever 1 normal, lever 2 normal, lever 5 normal Diodes at A1, A2, A3" in words
    assert "MATRIX" in words.partition("Boards with diodes")[2]
    assert "the button of route Yard" in words.partition("Holes Holes of panel")[2]


def test_a_boards_page(two: tuple[Checked, dict[str, Page]]) -> None:
    page = two[1]["schedule/board/B1/index.html"]
    words = page.words()
    assert "Quay Board B1 Size 1200 × 600 mm Strips 1" in words
    assert "J1 to B2" in words
    assert "drilled 8 mm" in page.words("hole-H1")
    assert "worked by lever 1; solenoid point motor" in page.words("device-P1")
    assert "direct current" in words
    beyond = two[1]["schedule/board/B2/index.html"]
    assert "normal and reverse change places at this one" in beyond.words("device-P5B")
    assert "addresses 17 to 20" in beyond.words("device-SERVO")


def test_a_strip_that_runs_from_front_to_back(two: tuple[Checked, dict[str, Page]]) -> None:
    """Way 1 in front, the panel side on the right, seen from above. Turned over, it is on the left; turned by half a
    circle, so that way 1 comes to the top, on the right again."""
    words = two[1]["schedule/Trace/index.html"].words()
    assert "↑ front edge of the board" in words
    assert "Layout side Way Panel side" in words


def test_the_same_bytes_in_whatever_order_a_set_is_gone_through(monkeypatch: pytest.MonkeyPatch) -> None:
    """A set of texts has another order in each run of Python."""
    found, _ = check_file(layouts("railways") / "marram-quay.yaml")
    assert found is not None
    beyond = CopperTree.beyond
    made = []
    for turned in (False, True):

        def ordered(tree: CopperTree, start: Point, without: Part, turned: bool = turned) -> list[Point]:
            return sorted(beyond(tree, start, without), reverse=turned)

        monkeypatch.setattr(CopperTree, "beyond", ordered)
        made.append(schedule_files(Job(found, Request())))
    assert made[0] == made[1]
