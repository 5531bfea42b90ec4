"""The schedule's pages in a real browser: on a phone and on a desk, with scripts and without, light and dark."""

import json
import re
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import zxingcpp
from axe_playwright_python.sync_playwright import Axe
from chromium import PHONE, browser, heard_on, written
from named_railway import named
from PIL import Image
from pypdfium2 import PdfDocument
from rendering.test_html_pages import LONG, NASTY, RIGHT_TO_LEFT, nasty

from labelgen.data_files import layouts
from labelgen.makers.schedule import schedule_files
from labelgen.making import Job, Request
from labelgen.model.netlist import Netlist
from labelgen.model.pulling_order import pulling_order
from labelgen.pipeline import check_file
from labelgen.rendering import html_pages

DESK = {"width": 1280, "height": 900}
TEMPLATES = Path(html_pages.__file__).parent / "templates"
KINDS = ("", "S1", "lever/5", "panel/HARBOUR", "board/B1", "work", "trace")
"""A page of each kind, below the schedule's folder, but for a plug's."""
SMALL_KINDS = ("", "S1", "lever/5", "panel/BOX", "board/B1", "plug/J1", "work", "trace")
"""The same on a railway of two boards, with a plug between them; it is small, for axe-core takes its time."""
SMALLEST_TYPE = """
Math.min(...[...document.body.querySelectorAll("*:not(svg *)")]
  .map(each => parseFloat(getComputedStyle(each).fontSize)))
"""
SMALLEST_TARGET = """
Math.min(...[...document.querySelectorAll("button, select, .tick, .screw, .lead, .far, .doors a, .cards li > a")]
  .filter(each => each.offsetHeight).map(each => each.getBoundingClientRect().height))
"""
WIDTH = "document.documentElement.scrollWidth"
SET_APART = """
for (const one of document.querySelectorAll("body *:not(svg *)")) {
  const size = parseFloat(getComputedStyle(one).fontSize);
  one.style.letterSpacing = `${0.12 * size}px`;
  one.style.wordSpacing = `${0.16 * size}px`; one.style.lineHeight = "1.5";
}
"""
STOP = """
(() => {
  const one = document.activeElement, style = getComputedStyle(one), all = [...document.querySelectorAll("*")];
  const box = one.getBoundingClientRect();
  const seen = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2 && box.width > 1
    && box.top < innerHeight && box.bottom > 0;
  return [all.indexOf(one), seen];
})()
"""
PAPERS = {"light": "rgb(251, 250, 246)", "dark": "rgb(17, 24, 27)"}


@pytest.fixture(scope="module")
def chromium() -> Iterator[Any]:
    with browser() as started:
        yield started


@pytest.fixture(scope="module")
def netlist() -> Netlist:
    checked, _ = check_file(layouts("railways") / "marram-quay.yaml")
    assert checked is not None
    return checked.netlist


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return schedule_of(layouts("railways") / "marram-quay.yaml", tmp_path_factory.mktemp("example"))


@pytest.fixture(scope="module")
def plugged(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("plugged")
    return schedule_of(named("Quay", folder), folder)


def schedule_of(description: Path, folder: Path) -> Path:
    checked, _ = check_file(description)
    assert checked is not None
    return written(schedule_files(Job(checked, Request())), folder) / "schedule"


def at(schedule: Path, page: str) -> str:
    return (schedule / page / "index.html").as_uri()


def look_at(tab: Any, uri: str, width: int, heard: list[str]) -> None:
    """Nothing but the page itself is loaded, it is no wider than the screen, and its type is large."""
    heard.clear()
    tab.goto(uri)
    assert heard == [uri]
    assert tab.evaluate(WIDTH) <= width, uri
    assert tab.evaluate(SMALLEST_TYPE) >= 16, uri


def no_violation(tab: Any, uri: str, *, colours_alone: bool = False) -> None:
    """axe-core, all its rules: WCAG 2.0 to 2.2, A and AA, and what is good practice besides."""
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
    only = {"type": "rule", "values": ["color-contrast"]} if colours_alone else {"type": "tag", "values": tags}
    found = Axe().run(tab, options={"runOnly": only, "resultTypes": ["violations"]}).response["violations"]
    assert [(one["id"], [node["html"][:200] for node in one["nodes"]]) for one in found] == [], uri


@pytest.mark.parametrize("screen", [PHONE, DESK], ids=["phone", "desk"])
def test_a_page_of_each_kind_on_a_phone_and_on_a_desk(
    chromium: Any, example: Path, plugged: Path, screen: dict[str, int]
) -> None:
    """Light and dark differ in nothing but colours, so the other rules are asked once."""
    tab = chromium.new_page(viewport=screen, color_scheme="light")
    heard = heard_on(tab)
    for page in KINDS:
        look_at(tab, at(example, page), screen["width"], heard)
        assert tab.evaluate(SMALLEST_TARGET) >= (44 if screen is PHONE else 24), page
    for page in SMALL_KINDS:
        tab.emulate_media(color_scheme="light")
        uri = at(plugged, page)
        look_at(tab, uri, screen["width"], heard)
        assert tab.evaluate(SMALLEST_TARGET) >= (44 if screen is PHONE else 24), page
        for scheme, paper in PAPERS.items():
            tab.emulate_media(color_scheme=scheme)
            assert tab.evaluate("getComputedStyle(document.body).backgroundColor") == paper
            no_violation(tab, f"{uri} {scheme}", colours_alone=scheme == "dark")
    tab.close()


def test_on_a_narrow_screen_with_wide_letters_nothing_sticks_out(chromium: Any, example: Path, plugged: Path) -> None:
    """WCAG 2.2, 1.4.10: 320 px are enough; 1.4.12: so are they with the letters and words set apart as it says."""
    tab = chromium.new_page(viewport={"width": 320, "height": 640})
    for uri in [*(at(example, page) for page in KINDS), at(plugged, "plug/J1")]:
        tab.goto(uri)
        assert tab.evaluate(WIDTH) <= 320, uri
        tab.evaluate(SET_APART)
        assert tab.evaluate(WIDTH) <= 320, uri
    tab.close()


def test_by_keyboard_one_goes_everywhere_and_sees_where_one_is(chromium: Any, plugged: Path) -> None:
    """WCAG 2.2, 2.1.1, 2.4.1 and 2.4.7: past the head at once, and through the first ten stops of each page."""
    tab = chromium.new_page(viewport=DESK)
    for page in SMALL_KINDS:
        uri = at(plugged, page)
        tab.goto(uri)
        tab.keyboard.press("Tab")
        assert tab.evaluate("document.activeElement.textContent") == "Skip to the schedule"
        stops = [tab.evaluate(STOP)]
        for _ in range(9):
            tab.keyboard.press("Tab")
            if tab.evaluate("document.activeElement === document.body"):
                break
            stops.append(tab.evaluate(STOP))
        assert len(stops) > 6, uri
        assert all(seen for _, seen in stops), (uri, stops)
        places = [place for place, _ in stops]
        assert places == sorted(places), "in the order in which they are read"
        tab.goto(uri)
        tab.keyboard.press("Tab")
        tab.keyboard.press("Enter")
        assert tab.evaluate("document.activeElement.id") == "main"
    tab.close()


def test_names_of_every_sort_move_nothing_and_run_nothing(chromium: Any, tmp_path: Path) -> None:
    tab = chromium.new_page(viewport=PHONE)
    heard = heard_on(tab)
    for number, name in enumerate((NASTY, RIGHT_TO_LEFT, LONG)):
        schedule = written(nasty(name), tmp_path / str(number)) / "schedule"
        for page in ("", "A1", "lever/1", "board/WEST", "work"):
            look_at(tab, at(schedule, page), PHONE["width"], heard)
        schedule = schedule_of(named(name.lstrip("\u202e"), tmp_path / str(number)), tmp_path / f"{number} named")
        for page in SMALL_KINDS:
            look_at(tab, at(schedule, page), PHONE["width"], heard)
            assert name_in(name.lstrip("\u202e")) in name_in(tab.locator("body").inner_text()), page
        tab.locator("summary").first.click()
        tab.locator(".choices .dead").first.click()
        tab.get_by_text("Measure next").wait_for()
        assert heard == [at(schedule, "trace")]
    tab.close()


def name_in(text: str) -> str:
    """Without what a line may be broken at."""
    return "".join(text.split())


def test_a_script_that_gets_in_does_not_run(chromium: Any, tmp_path: Path) -> None:
    """Even were a text to become an element, the page's own policy stops it."""
    page = next(iter(nasty("x").values())).decode()
    page = page.replace(
        "</main>", "<script>document.title='run'</script><img src=x onerror=\"document.title='run'\"></main>"
    )
    path = tmp_path / "index.html"
    path.write_text(page, encoding="utf-8")
    tab = chromium.new_page()
    tab.goto(path.as_uri())
    assert tab.title() == "x: wiring schedule"
    tab.close()


def test_a_plugs_pins_lead_to_both_ends(chromium: Any, plugged: Path) -> None:
    tab = chromium.new_page(viewport=PHONE)
    for side in (0, 1):
        tab.goto(at(plugged, "plug/J1"))
        tab.locator("tr#pin-1 td").nth(side).locator("a").first.click()
        tab.locator(":target").wait_for()
        assert "/plug/" not in tab.url
    tab.close()


def test_all_can_be_read_without_scripts(chromium: Any, example: Path, plugged: Path, netlist: Netlist) -> None:
    context = chromium.new_context(java_script_enabled=False, viewport=PHONE)
    tab = context.new_page()
    for uri in [*(at(example, page) for page in KINDS), at(plugged, "plug/J1")]:
        tab.goto(uri)
        assert tab.locator("button:visible, input:visible, select:visible, #finder:visible").count() == 0, uri
    tab.goto(at(example, "work"))
    text = tab.locator("main").inner_text()
    assert all(f"wire {wire.number}\n" in text for wire in netlist.wires)
    assert not tab.locator("#tools, #carry").first.is_visible()
    tab.goto(at(example, "trace"))
    assert "Split it in halves." in tab.locator("main").inner_text()
    assert not tab.locator("#finder").is_visible()
    tab.goto(at(example, ""))
    assert not tab.locator("#search").is_visible()
    tab.locator("a", has_text="S1").first.click()
    tab.locator(".strip a.lead", has_text="L3.N").click()
    assert tab.url.endswith("lever/3/index.html#lever-3.N")
    tab.locator("tr:target a.far").first.click()
    assert tab.url.endswith("S1/index.html#way-3")
    context.close()


def test_pages_print(chromium: Any, example: Path) -> None:
    tab = chromium.new_page(color_scheme="dark")
    for page, wanted in (
        ("S1", "As it hangs"),
        ("lever/5", "Its contacts"),
        ("work", "Strip S1"),
        ("trace", "By hand"),
    ):
        tab.goto(at(example, page))
        pdf = PdfDocument(BytesIO(tab.pdf(format="A4", print_background=True)))
        text = " ".join(sheet.get_textpage().get_text_range() for sheet in pdf)
        assert wanted in text
        assert "One wire a screen" not in text, "what is for fingers stays off the paper"
        corner = pdf[0].render().to_pil().convert("RGB").getpixel((5, 5))
        assert corner == (255, 255, 255), "dark is for screens"
    tab.close()


def test_the_strip_is_drawn_as_it_hangs(chromium: Any, example: Path) -> None:
    """Way 1 of S1 is on the left and its panel side in front, seen from above. From below, with way 1 on top, the front
    edge and the panel side are on the right: turn a sheet of paper to see it."""
    tab = chromium.new_page(viewport=PHONE)
    tab.goto(at(example, "S1"))
    assert tab.locator("table.strip thead th").all_inner_texts() == ["Layout side", "Way", "Panel side"]
    assert tab.locator(".front").inner_text() == "front edge of the board →"
    left, middle, right = (tab.locator("table.strip tbody tr").nth(2).locator("td, th").nth(i) for i in range(3))
    assert ("P3.N" in left.inner_text(), middle.inner_text(), "L3.N" in right.inner_text()) == (True, "3", True)
    assert left.bounding_box()["x"] < middle.bounding_box()["x"] < right.bounding_box()["x"]
    tab.close()


def test_ticks_stay_on_the_phone_and_show_what_is_left(chromium: Any, example: Path) -> None:
    context = chromium.new_context(viewport=PHONE)
    tab = context.new_page()
    tab.goto(at(example, "S1"))
    way = tab.locator("#way-3 .panel")
    way.get_by_label("wire 4 at S1.3 fitted").check()
    assert "1 of 26 fitted, 0 tested" in tab.locator("#tools").inner_text()
    tab.goto(at(example, "lever/3"))
    assert not tab.get_by_label("wire 4 at L3.N fitted").is_checked(), "the other end is another tick"
    tab.goto(at(example, "work"))
    row = tab.locator("#wire-4")
    assert row.locator("[data-wire]").all_inner_texts() == ["S1.3\n✓ fitted", "L3.N"]
    tab.goto(at(example, "S1"))
    assert tab.get_by_label("wire 4 at S1.3 fitted").is_checked()
    tab.get_by_label("wire 5 at S1.3 fitted").check()
    tab.get_by_label("Show").select_option("what is not fitted")
    assert not tab.locator("#way-3").is_visible()
    assert tab.locator("#way-4").is_visible()
    tab.get_by_label("Show").select_option("what is not tested")
    assert tab.locator("#way-3").is_visible()
    context.close()


def ticked(chromium: Any, example: Path, base: str = "") -> tuple[Any, Any]:
    """A phone on which some ticks are set, at the page of the work."""
    context = chromium.new_context(viewport=PHONE, accept_downloads=True)
    serve(context, example)
    tab = context.new_page()
    tab.goto("/".join((base, "work", "index.html")) if base else at(example, "work"))
    tab.get_by_role("button", name="One wire a screen", exact=True).click()
    for _ in range(3):
        for box in tab.locator(".walk-end .tick input").all():
            box.check()
        tab.get_by_role("button", name="Next →").click()
    tab.get_by_role("button", name="Close").click()
    return context, tab


def serve(context: Any, example: Path) -> None:
    """The folder at an address, without a network."""
    context.route(
        "https://quay.example/**",
        lambda route: route.fulfill(
            body=(example / re.sub(r"^https://quay\.example/|#.*$", "", route.request.url)).read_bytes(),
            content_type="text/html; charset=utf-8",
        ),
    )


STATES = "[...document.querySelectorAll('.state')].map(each => each.textContent).filter(Boolean).length"


def test_ticks_are_carried_as_a_file(chromium: Any, example: Path, tmp_path: Path) -> None:
    context, tab = ticked(chromium, example)
    with tab.expect_download() as waited:
        tab.get_by_text("Save as a file").click()
    waited.value.save_as(tmp_path / "ticks.json")
    saved = json.loads((tmp_path / "ticks.json").read_text(encoding="utf-8"))
    assert saved["railway"] == "Marram Quay"
    assert len(saved["ticks"]) == 6
    assert set(saved["ticks"].values()) == {3}
    context.close()
    other = chromium.new_context(viewport=PHONE)
    tab = other.new_page()
    tab.goto(at(example, "work"))
    tab.locator("#ticks-file").set_input_files(tmp_path / "ticks.json")
    tab.get_by_text("12 ticks added.").wait_for()
    assert tab.evaluate(STATES) == 6
    for content, answer in (
        (json.dumps({**saved, "railway": "<b>Elsewhere</b>"}), "That file is of another railway: <b>Elsewhere</b>"),
        ("no JSON", "That is no file of ticks."),
        (json.dumps({**saved, "ticks": ["1@S1.1"]}), "That is no file of ticks."),
        (json.dumps({"ticks": saved["ticks"]}), "That is no file of ticks."),
        ("null", "That is no file of ticks."),
        (json.dumps(saved), "All of these were there already."),
    ):
        (tmp_path / "other.json").write_text(content, encoding="utf-8")
        tab.locator("#ticks-file").set_input_files([])
        tab.locator("#ticks-file").set_input_files(tmp_path / "other.json")
        tab.get_by_text(answer, exact=True).wait_for()
    other.close()


def test_ticks_are_carried_as_a_qr(chromium: Any, example: Path) -> None:
    context, tab = ticked(chromium, example, "https://quay.example")
    tab.get_by_role("button", name="Show as a QR and text").click()
    picture = Image.open(BytesIO(tab.locator("svg.qr").screenshot()))
    read = zxingcpp.read_barcode(np.asarray(picture.convert("L")))
    assert read is not None
    assert read.text == tab.get_by_label("The ticks as text").input_value()
    assert read.text.startswith("https://quay.example/work/index.html#ticks=")
    context.close()
    other = chromium.new_context(viewport=PHONE)
    serve(other, example)
    tab = other.new_page()
    tab.goto(read.text)
    assert tab.evaluate(STATES) == 0, "nothing is taken in unasked"
    tab.get_by_role("button", name="Add them").click()
    tab.get_by_text("12 ticks added.").wait_for()
    assert tab.evaluate(STATES) == 6
    other.close()
    other = chromium.new_context(viewport=PHONE)
    tab = other.new_page()
    tab.goto(at(example, "work"))
    tab.get_by_label("Or paste the text").fill(read.text.replace("ticks=", "ticks=f"))
    tab.get_by_role("button", name="Add what I pasted").click()
    tab.get_by_text("That is no text of ticks").wait_for()
    tab.get_by_label("Or paste the text").fill(read.text + "A" * 500)
    tab.get_by_role("button", name="Add what I pasted").click()
    tab.get_by_text("That is no text of ticks").wait_for()
    tab.get_by_label("Or paste the text").fill(read.text)
    tab.get_by_role("button", name="Add what I pasted").click()
    tab.get_by_text("12 ticks added.").wait_for()
    other.close()


@pytest.mark.parametrize("length", [1, 14, 53, 107, 180, 331, 500, 858, 1273])
def test_our_qr_is_read_by_another_program(chromium: Any, length: int) -> None:
    """ISO/IEC 18004, table 7: 1273 bytes are the most that version 25 holds at level L. The decoder is not ours."""
    text = "".join(chr(33 + (number * 7 + length) % 90) for number in range(length))
    script = (TEMPLATES / "qr.js").read_text(encoding="utf-8")
    tab = chromium.new_page()
    rows = tab.evaluate(f"text => {{ {script}; return qrRows(text); }}", text)
    assert tab.evaluate(f"() => {{ {script}; return qrRows('x'.repeat(1274)); }}") is None
    tab.close()
    symbol = 255 * (1 - np.pad(np.array(rows, dtype=np.uint8), 4))
    read = zxingcpp.read_barcode(np.kron(symbol, np.ones((4, 4))).astype(np.uint8))
    assert read is not None
    assert read.text == text


def test_one_wire_a_screen_in_the_order_of_work(chromium: Any, example: Path, netlist: Netlist) -> None:
    tab = chromium.new_page(viewport=PHONE)
    tab.goto(at(example, "work"))
    tab.get_by_role("button", name="One wire a screen", exact=True).click()
    no_violation(tab, "one wire")
    order = [wire for pull in pulling_order(netlist) for wire in pull.wires]
    assert len(order) == len(netlist.wires)
    for wire in order[:12]:
        assert tab.locator(".huge").inner_text().split() == [wire.head, "wire", str(wire.number)]
        assert {end.shown for end in wire.ends} == set(tab.locator(".walk-end > a").all_inner_texts())
        tab.locator(".one").click(position={"x": 5, "y": 5})
    assert tab.evaluate("parseFloat(getComputedStyle(document.querySelector('.huge .head')).fontSize)") > 60
    tab.keyboard.press("ArrowLeft")
    assert f"wire {order[11].number}" in tab.locator(".huge").inner_text()
    tab.keyboard.press("Escape")
    assert not tab.locator("dialog").is_visible()
    tab.get_by_label("One wire a screen from Strip S3 on").click()
    assert tab.locator(".where").inner_text().startswith("Strip S3, through H1 ")
    tab.close()


def test_the_search_finds_wires_things_and_holes(chromium: Any, example: Path) -> None:
    tab = chromium.new_page(viewport=PHONE)
    tab.goto(at(example, ""))
    for wanted, first, target in (
        ("5n", "5N wire 22, L5.N – S2.3", "work/index.html#wire-22"),
        ("p5b", "P5B", "board/B2/index.html#device-P5B"),
        ("strip s3", "Strip S3", "S3/index.html"),
        ("hole h1", "Hole H1 Harbour", "board/B1/index.html#hole-H1"),
        ("wire 73,", "PULSEC wire 73, P3.C – P4.C", "work/index.html#wire-73"),
    ):
        tab.goto(at(example, ""))
        tab.get_by_label("Find a strip").fill(wanted)
        assert tab.locator(".found a").first.inner_text().strip() == first
        tab.locator(".found a").first.click()
        assert tab.url.endswith(target)
        if "#" in target:
            tab.locator(":target").wait_for()
    tab.goto(at(example, ""))
    tab.get_by_label("Find a strip").fill("zzz")
    assert tab.get_by_text("Nothing is called that.").is_visible()
    tab.close()
