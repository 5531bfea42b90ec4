"""How a fascia reads from where the operator stands: heights by visual angle, contrast by WCAG, ink on the paper."""

from dataclasses import replace
from io import BytesIO
from itertools import pairwise
from math import atan, degrees, hypot
from typing import Any

import numpy as np
import pdfplumber
import pypdfium2
import pytest
from panel_railway import HARBOUR, drawn, fascia, harbour_levers, ink_of, lever, text_ink, text_of, texts
from shapely.geometry import LineString, Polygon, box
from shapely.geometry import Point as Dot

from labelgen.drawings.fascia.bleed import with_bleed
from labelgen.drawings.fascia.fascia import fascia_drawings
from labelgen.drawings.fascia.style import DARK, LIGHT, MONO, MONO_DARK, Style, track_width
from labelgen.imposition.tiling import tile
from labelgen.lengths import POINTS_PER_MM
from labelgen.model.description import Description
from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.panel.form import Panel
from labelgen.model.sheet import Document, Placed, Sheet
from labelgen.reading.data_readers import built_in_hardware
from labelgen.rendering.pdf import pdf_bytes
from labelgen.standards.colour_letters import COLOURS
from labelgen.standards.paper_sizes import PAPERS
from labelgen.typefaces import FACES


def pdf_of(drawing: Drawing) -> bytes:
    page = Sheet(width=drawing.width, height=drawing.height, placed=(Placed(x=0, y=0, drawing=drawing),))
    return pdf_bytes(Document(title="t", pages=(page,)))


def pixels(content: bytes, per_mm: float = 4, page: int = 0) -> np.ndarray:
    image = pypdfium2.PdfDocument(content)[page].render(scale=per_mm / POINTS_PER_MM).to_pil().convert("RGB")
    return np.asarray(image).astype(float)


def luminance(colour: str) -> float:
    """WCAG 2.1, relative luminance, written out from its definition."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a: str, b: str) -> float:
    """WCAG 2.1, contrast ratio."""
    high, low = sorted((luminance(a), luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("style", [LIGHT, DARK, MONO, MONO_DARK])
def test_texts_have_a_contrast_of_4_5_and_lines_of_3(style: Style) -> None:
    ground = style.paper or "#FFFFFF"
    for text in (style.ink, style.soft, style.accent, style.grid_ink):
        assert contrast(ground, text) >= 4.5
    assert contrast(style.platform, style.soft) >= 4.5
    for line in (style.track, style.accent, style.platform_edge):
        assert contrast(ground, line) >= 3


def minutes(height_mm: float, distance_mm: float) -> float:
    """NUREG-0700, 1.3.1-4: the angle under which a height is seen."""
    return 60 * degrees(2 * atan(height_mm / 2 / distance_mm))


def heights(drawing: Drawing) -> dict[str, float]:
    """Height in mm of each figure or capital of the PDF, from its ink as another program paints it."""
    content = pdf_of(drawing)
    per_mm = 10
    page = pixels(content, per_mm).mean(axis=2)
    found = {}
    with pdfplumber.open(BytesIO(content)) as pdf:
        for char in pdf.pages[0].chars:
            if char["text"] not in "123478EHILMTPRC" or not char["upright"]:
                continue
            box = [round(char[k] / POINTS_PER_MM * per_mm) for k in ("top", "bottom", "x0", "x1")]
            cut = page[box[0] - 5 : box[1], box[2] + 1 : box[3]]
            rows = np.flatnonzero((np.abs(cut - cut[0, 0]) > 100).any(axis=1))
            found[f"{char['text']} {char['x0']:.0f} {char['top']:.0f}"] = (rows[-1] - rows[0] + 1) / per_mm
    return found


@pytest.mark.parametrize("distance", [500, 700, 1200])
def test_numbers_and_names_are_seen_under_the_angles_that_are_asked_for(distance: int) -> None:
    plans = [lever("1", "P1", name="Loop"), lever("2", "P2", name="Iron Mill")]
    panel: dict[str, Any] = {
        "size": [360, 120],
        "view_from": distance,
        "tracks": {"main": [[2, 7], [34, 7]], "loop": ["P1", [14, 10], "P2"]},
        "points": {"P1": [8, 7], "P2": [26, 7]},
    }
    drawing = drawn(plans, **panel)
    measured = heights(drawing)
    number = [height for key, height in measured.items() if key[0] in "12"]
    assert len(number) == 2
    assert all(20 <= minutes(height, distance) <= 23 for height in number)  # ISO 9241-3: 20 to 22 preferred
    title = [height for key, height in measured.items() if key[0] in "MQ"]
    assert max(minutes(height, distance) for height in title) >= 20
    assert len(measured) > 5
    assert min(minutes(height, distance) for height in measured.values()) >= 10.5  # read by leaning in


@pytest.mark.parametrize(
    ("distance", "grid", "least", "most"),
    [(700, 10, 20, 30.1), (700, 4, 11, 30.1), (1500, 20, 12, 30.1), (300, 10, 12, 30.1)],
)
def test_tracks_are_as_thick_as_is_seen_well_and_never_touch(
    distance: float, grid: float, least: float, most: float
) -> None:
    width = track_width(Panel(view_from=distance, grid=grid))
    assert least <= minutes(width, distance) <= most
    assert width < grid


def tone_values(drawing: Drawing) -> np.ndarray:
    """Of each pixel how much of it the four inks cover together, in per cent: with as much black as may be."""
    rgb = pixels(pdf_of(drawing)) / 255
    black = 1 - rgb.max(axis=2)
    chroma = (rgb.max(axis=2, keepdims=True) - rgb) / np.maximum(rgb.max(axis=2, keepdims=True), 1e-9)
    return 100 * (black + chroma.sum(axis=2))


def test_a_light_fascia_is_bare_paper_and_a_dark_one_spares_it() -> None:
    light = tone_values(drawn(harbour_levers(), **HARBOUR))
    dark = tone_values(drawn(harbour_levers(), **{**HARBOUR, "style": "dark"}))
    assert light.mean() <= 20
    assert dark.mean() <= 110
    assert np.percentile(dark, 95) <= 120  # half of the 240 % that newsprint bears (ISO 12647-3)
    grey = tone_values(drawn(harbour_levers(), look=Look(mono=True), **{**HARBOUR, "style": "dark"}))
    assert grey.mean() <= 70


RING: dict[str, Any] = {"size": [100, 60], "levers": {"5": [5, 3]}}


def at_distance(drawing: Drawing, radius: float, turn: float) -> tuple[int, ...]:
    """The colour at an angle (0 to the right, clockwise) around the hole of lever 5."""
    image = pixels(pdf_of(drawing), 20)
    x, y = 50 + radius * np.cos(np.radians(turn)), 30 + radius * np.sin(np.radians(turn))
    return tuple(int(value) for value in image[round(y * 20), round(x * 20)])


def test_a_lever_has_a_ring_in_its_colour_outside_of_the_washer() -> None:
    plan = lever("5")
    drawing, problems = fascia([plan], levers_keys={"5": {"colour": "red/yellow"}}, **RING)
    assert problems == []
    assert drawing is not None
    radius = 11.5 / 2 + 0.45  # half of the washer of layouts/hardware/miniature-toggle.yaml, and half of the ring
    red, green, blue = at_distance(drawing, radius, -90)
    assert red > 150 > max(green, blue)
    red, green, blue = at_distance(drawing, radius, 90)
    assert min(red, green) > 150 > blue
    assert at_distance(drawing, 11.5 / 2 - 0.6, -90) == (255, 255, 255)
    number = text_ink(text_of(drawing, "5"))
    assert number.distance(Dot(50, 30)) >= radius + 0.45 + 0.75


def test_in_black_and_white_there_are_no_rings() -> None:
    keys = {"5": {"colour": "red"}}
    mono, _ = fascia([lever("5")], look=Look(mono=True), levers_keys=keys, **RING)
    colour, _ = fascia([lever("5")], levers_keys=keys, **RING)
    assert mono is not None
    assert colour is not None
    rings = [[s for s in d.shapes if isinstance(s, Circle) and s.radius > 5] for d in (mono, colour)]
    assert [len(found) > 0 for found in rings] == [False, True]


def test_the_grid_is_shown_with_the_number_of_every_fifth_line_only_when_asked() -> None:
    plain = drawn(harbour_levers(), **HARBOUR)
    squared = drawn(harbour_levers(), look=Look(grid=True), **HARBOUR)
    lines = [s for s in squared.shapes if isinstance(s, Line) and s.colour == LIGHT.grid]
    assert sorted({s.x1 for s in lines if s.x1 == s.x2}) == [10 * n for n in range(1, 36)]
    assert sorted({s.y1 for s in lines if s.y1 == s.y2}) == [10 * n for n in range(1, 16)]
    numbers = [text for text in texts(squared) if text.colour == LIGHT.grid_ink]
    along = {text.text: text.x for text in numbers if text.y < 5}
    assert {text: 10 * int(text) for text in along} == {text: round(x) for text, x in along.items()}
    assert {text.text for text in numbers} == {"5", "10", "15", "20", "25", "30", "35"}
    added = [shape for shape in squared.shapes if shape in lines or shape in numbers]
    assert [shape for shape in squared.shapes if shape not in added] == [*plain.shapes]


def test_very_small_squares_have_only_every_fifth_line() -> None:
    drawing = drawn([lever("1")], look=Look(grid=True), size=[100, 60], grid=1, levers={"1": [50, 30]})
    lines = [s for s in drawing.shapes if isinstance(s, Line) and s.colour == LIGHT.grid]
    assert len({s.x1 for s in lines if s.x1 == s.x2}) == 19


@pytest.mark.parametrize("style", ["light", "dark"])
def test_bleed_is_ground_beyond_the_trim_line_with_marks_outside_of_it(style: str) -> None:
    keys = {**HARBOUR, "style": style}
    drawing = drawn(harbour_levers(), **keys)
    assert with_bleed(drawing, Panel.model_validate(keys), Look()) is drawing
    bled = with_bleed(drawing, Panel.model_validate({**keys, "bleed": "3"}), Look())
    out = (bled.width - drawing.width) / 2
    assert out == pytest.approx((bled.height - drawing.height) / 2)
    image, whole = pixels(pdf_of(bled), 10), pixels(pdf_of(drawing), 10)
    for dx in (-2.8, drawing.width + 2.8):
        at = image[round((out + 80) * 10), round((out + dx) * 10)]
        assert np.abs(at - whole[800, 30]).max() <= 1
    corner = round((out - 3.4) * 10)
    assert image[:corner, :corner].min() == 255
    marks = [s for s in bled.shapes if isinstance(s, Line) and s.width == 0.1]
    ends = {(round(s.x1 - out, 6), round(s.y1 - out, 6)) for s in marks}
    assert ends == {
        (x + dx, y + dy)
        for x, sx in ((0, -1), (360, 1))
        for y, sy in ((0, -1), (160, 1))
        for dx, dy in ((3.5 * sx, 0), (0, 3.5 * sy))
    }
    assert all(0 <= v <= max(bled.width, bled.height) for s in marks for v in (s.x1, s.y1, s.x2, s.y2))


def test_corner_screws_are_drawn_where_they_go_and_the_title_keeps_clear_of_them() -> None:
    drawing = drawn(harbour_levers(), **{**HARBOUR, "screws": {"inset": 9, "diameter": 4}})
    found = {(s.x, s.y) for s in drawing.shapes if isinstance(s, Circle) and s.radius == 2 and s.stroke}
    assert found == {(x, y) for x in (9, 351) for y in (9, 151)}
    title = text_ink(text_of(drawing, "Marram Quay"))
    assert min(title.distance(Dot(x, y)) for x, y in found) >= 4 + 2.5


def test_exits_are_written_beside_the_ends_of_their_tracks() -> None:
    panel = {**HARBOUR, "texts": {}, "exits": {"to Sandhaven": [34.5, 6], "Mole": [2, 12], "nowhere": [90, 90]}}
    drawing = drawn(harbour_levers(), **panel)
    ink = [text_ink(text) for text in texts(drawing) if text.text in ("to", "Sandhaven", "to Sandhaven")]
    assert min(one.distance(Dot(345, 60)) for one in ink) < 15
    assert text_ink(text_of(drawing, "Mole")).distance(Dot(20, 120)) < 15
    assert "nowhere" not in {text.text for text in texts(drawing)}


SIXTY: dict[str, Any] = {
    "size": [1200, 240],
    "tracks": {"main": [[2, 10], [118, 10]], "branch": [[2, 18], [118, 18]]},
    "levers": {str(n): [3 + 3.9 * ((n - 1) % 30), 10 if n <= 30 else 18] for n in range(1, 61)},
}


@pytest.mark.parametrize("style", ["light", "dark"])
def test_a_panel_of_1200_mm_with_60_levers(style: str) -> None:
    drawing = drawn([lever(str(n), name="Road") for n in range(1, 61)], **{**SIXTY, "style": style})
    numbers = {text.text for text in texts(drawing)}
    assert {str(n) for n in range(1, 61)} <= numbers
    assert len(tile(drawing, PAPERS["a4"])) >= 5
    assert len(tile(drawing, PAPERS["a1"])) == 2


def test_tiles_put_together_are_the_one_page_of_a_plotter() -> None:
    drawing = drawn(harbour_levers(), **{**HARBOUR, "style": "dark"})
    (whole,) = tile(drawing, PAPERS["a2"])
    sheets = tile(drawing, PAPERS["a4"])
    assert len(sheets) > 1
    per_mm = 8
    page = pixels(pdf_bytes(Document(title="t", pages=(whole,))), per_mm)
    at = whole.placed[0]
    put = np.zeros((160 * per_mm, 360 * per_mm, 3))
    known = np.zeros((160 * per_mm, 360 * per_mm), dtype=bool)
    for sheet in sheets:
        assert sheet.window is not None
        clean = Sheet(width=sheet.width, height=sheet.height, placed=sheet.placed, window=sheet.window)
        image = pixels(pdf_bytes(Document(title="t", pages=(clean,))), per_mm)
        placed, window = sheet.placed[0], sheet.window
        dx, dy = round(placed.x * per_mm), round(placed.y * per_mm)
        x1, y1 = max(0, round(window.x * per_mm) + 2 - dx), max(0, round(window.y * per_mm) + 2 - dy)
        x2, y2 = round(window.right * per_mm) - 2 - dx, round(window.bottom * per_mm) - 2 - dy
        put[y1:y2, x1:x2] = image[y1 + dy : y2 + dy, x1 + dx : x2 + dx]
        known[y1:y2, x1:x2] = True
    assert known[3:-3, 3:-3].all()
    left, top = round(at.x * per_mm), round(at.y * per_mm)
    one = page[top : top + 160 * per_mm, left : left + 360 * per_mm]
    difference = np.abs(one - put).max(axis=2)[known]
    assert (difference > 128).mean() < 0.01  # edges may lie a part of a pixel off
    assert put.std() > 20


def test_lever_5_is_the_largest_5_and_nearest_to_its_hole() -> None:
    """What lets it be found in a second: one large number at one hole, and nothing as large but other numbers."""
    drawing = drawn(harbour_levers(), **HARBOUR)
    fives = sorted((text for text in texts(drawing) if text.text == "5"), key=lambda text: -text.size)
    assert hypot(fives[0].x - 200, fives[0].y - 60) < 16
    assert all(a.size > 1.25 * b.size for a, b in pairwise(fives))


def test_nothing_but_the_ground_reaches_the_edge() -> None:
    drawing = drawn(harbour_levers(), **{**HARBOUR, "style": "dark"})
    inner = [s for s in drawing.shapes if not (isinstance(s, Box) and s.width > 359)]
    assert inner
    for shape in inner:
        if isinstance(shape, Outline) and shape.closed:
            continue
        left, top, right, bottom = ink_of(shape).bounds
        assert left > 1
        assert top > 1
        assert right < 359
        assert bottom < 159


def test_a_lever_in_a_slot_has_a_ring_that_follows_the_slot() -> None:
    keys = {"5": {"colour": "red"}}
    drawing, problems = fascia([lever("5")], levers_keys=keys, hardware={"5": "passing-lever"}, **RING)
    assert problems == []
    assert drawing is not None
    (slot,) = (s for s in drawing.shapes if isinstance(s, Box) and s.height == 26)  # layouts/hardware/passing-lever
    assert (slot.x + slot.width / 2, slot.y + slot.height / 2) == (50, 30)
    assert not [s for s in drawing.shapes if isinstance(s, Circle) and s.radius > 5]
    (ring,) = (s for s in drawing.shapes if isinstance(s, Box) and s.stroke == COLOURS["RD"].paint)
    core = LineString([(50, 19), (50, 41)])  # 30 mm are covered, 8 mm wide: the slot and 2 mm all round
    outline = box(ring.x, ring.y, ring.x + ring.width, ring.y + ring.height)
    assert ring.radius == ring.width / 2
    assert outline.bounds == pytest.approx(core.buffer(4 + 0.45).bounds)


def test_the_two_colours_of_a_slot_are_its_upper_and_its_lower_half() -> None:
    for slot, turned in (("up", False), ("left", True)):
        keys = {"5": {"colour": "blue/black", "normal": slot}}
        plan = replace(lever("5"), normal=slot)
        drawing, _ = fascia([plan], levers_keys=keys, hardware={"5": "passing-lever"}, **RING)
        assert drawing is not None
        halves = [Polygon(s.runs[0]) for s in drawing.shapes if isinstance(s, Outline) and s.fill]
        core = LineString([(39, 30), (61, 30)] if turned else [(50, 19), (50, 41)])
        band = core.buffer(4.9, quad_segs=200).difference(core.buffer(4, quad_segs=200))
        assert halves[0].union(halves[1]).symmetric_difference(band).area < 0.002 * band.area
        assert halves[0].bounds[3] == halves[1].bounds[1] == 30


def test_what_an_exit_leads_to_stands_straight_on_from_its_arrow() -> None:
    panel: dict[str, Any] = {"size": [240, 60], "tracks": {"main": [[4, 3], [20, 3]]}, "exits": {"to Ness": [4, 3]}}
    ink = text_ink(text_of(drawn([lever("1")], **panel, levers={"1": [12, 3]}), "to Ness"))
    assert ink.bounds[2] < 40
    assert abs((ink.bounds[1] + ink.bounds[3]) / 2 - 30) < 1


def test_a_lamp_that_stands_on_nothing_says_what_it_shows() -> None:
    panel: dict[str, Any] = {
        "size": [160, 60],
        "levers": {"1": [3, 3]},
        "lamps": {"BANK": [8, 3], "CAB": [[11, 3], [12, 3]]},
    }
    given = {
        "railway": "x",
        "panels": {"HARBOUR": panel},
        "supplies": {"BANK": {"kind": "pulse"}, "CAB": {"kind": "track"}},
    }
    description = Description.model_validate(given).with_parts(built_in_hardware())
    netlist = Netlist(railway="x", circuits=(), strips=(), levers=(lever("1"),), wires=(), functions={})
    drawings, problems = fascia_drawings(description, netlist, Look())
    assert problems == []
    written = {text.text: text_ink(text) for text in texts(drawings["HARBOUR"])}
    assert written["BANK ready"].distance(Dot(80, 30)) < 4
    assert written["CAB"].distance(Dot(120, 30)) < 4


def test_numbers_stay_large_where_one_of_them_finds_no_place() -> None:
    crowded = {"tracks": {f"t{n}": [[12, 0.6 * n], [23, 0.6 * n]] for n in range(1, 10)}}
    panel: dict[str, Any] = {"size": [240, 60], **crowded, "levers": {"1": [4, 3], "2": [8, 3], "3": [18, 3]}}
    drawing, problems = fascia([lever("1"), lever("2"), lever("3")], **panel)
    assert [problem.code for problem in problems] == ["text-does-not-fit"]
    assert drawing is not None
    number = text_of(drawing, "1")
    assert FACES[number.face].cap * number.size == pytest.approx(4.48, abs=0.02)


def test_the_buttons_of_a_lever_stand_in_a_row_with_one_number() -> None:
    row = replace(lever("5"), type="buttons", buttons=("left", "centre", "right"))
    drawing = drawn([row], **RING)
    assert [text.text for text in texts(drawing)].count("5") == 1
    holes = sorted({(s.x, s.y) for s in drawing.shapes if isinstance(s, Circle) and s.stroke})
    assert holes == [(37, 30), (50, 30), (63, 30)]  # 13 mm for a finger: layouts/hardware/push-button-7


def test_lamps_are_bare_holes_on_their_tracks() -> None:
    panel: dict[str, Any] = {"size": [120, 60], "tracks": {"main": [[2, 3], [10, 3]]}, "lamps": {"PULSE": [6, 3]}}
    drawing = drawn([lever("1")], **panel, levers={"1": [3, 3]})
    circles = [s for s in drawing.shapes if isinstance(s, Circle) and (s.x, s.y) == (60, 30)]
    assert {s.fill for s in circles} == {"#FFFFFF"}
    assert min(s.radius for s in circles) < 3
