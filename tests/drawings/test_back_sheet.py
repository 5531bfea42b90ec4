"""Back sheets: what stands where, judged by shapely."""

from itertools import combinations
from pathlib import Path

import pytest
from back_railway import lever_frame
from shapely.geometry import LineString, box

from labelgen.drawings.back.list import back_list
from labelgen.drawings.back.parts import BackPart, back_parts
from labelgen.drawings.back.placing import Laid, number_place, tab_radius
from labelgen.drawings.back.sheet import LEGEND, back_drawings
from labelgen.drawings.back.wires import free_wires
from labelgen.lengths import Point, Rectangle
from labelgen.making import Checked
from labelgen.model.drawing import Drawing, Outline, Text
from labelgen.model.look import Look
from labelgen.pipeline import check_file
from labelgen.standards.paper_sizes import PAPERS

LOOK = Look()


def sheet(checked: Checked, look: Look = LOOK) -> Drawing:
    drawings, problems = back_drawings(checked.description, checked.netlist, look)
    assert problems == []
    return drawings["BOX"]


def parts_of(checked: Checked) -> tuple[BackPart, ...]:
    return back_parts(checked.description, checked.netlist, "BOX")


def words(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.shapes if isinstance(shape, Text)]


def described(text: str, folder: Path) -> Checked:
    path = folder / "box.yaml"
    path.write_text(text, encoding="utf-8")
    checked, problems = check_file(path)
    assert checked is not None, problems
    return checked


@pytest.mark.parametrize(("levers", "width"), [(12, 500), (60, 1200)])
def test_a_frame_has_every_wire_beside_its_lever(
    levers: int, width: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No block on a part, a number, another block or a leader, and none over the edge."""
    seen: list[dict[str, Laid]] = []
    import labelgen.drawings.back.sheet as module

    real = module.lay_blocks
    monkeypatch.setattr(module, "lay_blocks", lambda *given: seen.append(real(*given)) or seen[-1])
    checked = lever_frame(levers, width, tmp_path)
    drawn = words(sheet(checked))
    (laid,) = seen
    assert len(laid) == levers
    for wire in checked.netlist.wires:
        ends = [end for end in wire.ends if end.kind == "lever"]
        assert drawn.count(str(wire.number)) >= len(ends)
    blocks = {mark: _box(one.place) for mark, one in laid.items()}
    parts = {part.mark: part for part in parts_of(checked)}
    taken = [*(_box(part.body) for part in parts.values()), *(_box(number_place(part)) for part in parts.values())]
    panel = box(0, 0, width, 200)
    for block in blocks.values():
        assert panel.contains(block)
        assert not any(block.intersects(one) for one in taken)
    assert not any(a.intersects(b) for a, b in combinations(blocks.values(), 2))
    for mark, one in laid.items():
        for start, end in one.leaders:
            leader = LineString([(start.x, start.y), (end.x, end.y)])
            assert not any(leader.crosses(block) for other, block in blocks.items() if other != mark)
            assert not any(leader.intersects(_box(part.body)) for other, part in parts.items() if other != mark)


def _box(place: Rectangle) -> object:
    return box(place.x, place.y, place.right, place.bottom)


def test_what_finds_no_room_stands_in_the_list(tmp_path: Path) -> None:
    checked = lever_frame(12, 160, tmp_path)
    drawn = words(sheet(checked))
    wires = [wire for wire in checked.netlist.wires if any(end.kind == "lever" for end in wire.ends)]
    missing = [wire for wire in wires if str(wire.number) not in drawn]
    assert missing
    pages, problems = back_list(checked.description, checked.netlist, LOOK, PAPERS["a4"], "BOX")
    assert problems == []
    listed = [text for page in pages for text in words(page)]
    assert all(str(wire.number) in listed for wire in wires)


def test_a_feed_runs_straight_from_lever_to_lever(tmp_path: Path) -> None:
    checked = lever_frame(12, 500, tmp_path)
    wires = free_wires(parts_of(checked), [], Rectangle(0, 0, 500, 200))
    assert len(wires) == 11
    assert {len(wire.path) for wire in wires} == {2}


CHANGEOVERS = """
railway: Marram Quay
supplies:
  DRIVE: {kind: dc, feed_at: panel}
  CAB: {kind: track}
strips: {S1: {ways: 48, measured: 470}}
levers: {"2": {normal: down}}
points:
  P1: {kind: stall-motor, supplies: {drive: DRIVE, rails: CAB}, name: Harbour}
  P2: {kind: stall-motor, supplies: {drive: DRIVE, rails: CAB}}
  P3: {kind: stall-motor, supplies: {drive: DRIVE, rails: CAB}}
panels:
  BOX:
    size: [300, 160]
    levers: {"1": [6, 3], "2": [15, 10], "3": [24, 4]}
    lamps: {CAB: [20, 13]}
"""


def test_wires_pass_no_part_number_or_foreign_tab(tmp_path: Path) -> None:
    parts = [part for part in parts_of(described(CHANGEOVERS, tmp_path)) if part.hole.part is not None]
    wires = free_wires(parts, [], Rectangle(0, 0, 300, 160))
    assert len(wires) == 4
    for wire in wires:
        line = LineString([(at.x, at.y) for at in wire.path])
        ends = [Point(*line.coords[0]), Point(*line.coords[-1])]
        for part in parts:
            own = any(part.at + tab.at in ends for tab in part.tabs)
            assert own or not line.intersects(_box(part.body))
            assert not part.short or not line.intersects(_box(number_place(part)))
            for tab in part.tabs:
                if (at := part.at + tab.at) not in ends:
                    distance = LineString(line).distance(LineString([(at.x, at.y), (at.x, at.y + 1e-9)]))
                    assert distance > tab_radius(part) + 0.3
        assert all(a[0] == b[0] or a[1] == b[1] for a, b in zip(line.coords, line.coords[1:], strict=False))


def test_a_changeover_is_explained_and_its_jumpers_drawn(tmp_path: Path) -> None:
    checked = described(CHANGEOVERS, tmp_path)
    assert [len(part.jumpers()) for part in parts_of(checked) if part.lever is not None] == [2, 2, 2]
    pages, _ = back_list(checked.description, checked.netlist, LOOK, PAPERS["a4"], "BOX")
    said = " ".join(text for page in pages for text in words(page))
    assert "two jumpers crosswise" in said
    assert "lower left" in said
    assert "upper left" in said
    assert "Lever 1: Harbour" in said
    assert "no wire in the description" in said  # of the lamp, whose supply is all that is known


@pytest.mark.parametrize("mono", [False, True])
def test_a_lamp_shows_the_colour_of_its_lead(tmp_path: Path, *, mono: bool) -> None:
    checked = described(CHANGEOVERS, tmp_path)
    (lamp,) = (part for part in parts_of(checked) if part.hole.use == "lamp")
    assert [contact.lead for contact in lamp.contacts] == [
        checked.netlist.functions["lamp"].colour,
        checked.netlist.functions["return"].colour,
    ]
    assert "LAMP1  CAB" in words(sheet(checked, Look(mono=mono)))


def test_a_wire_without_room_is_only_in_the_list(tmp_path: Path) -> None:
    parts = parts_of(described(CHANGEOVERS, tmp_path))
    assert free_wires(parts, [Rectangle(0, 0, 300, 160)], Rectangle(0, 0, 300, 160)) == []
    assert free_wires(parts, [], Rectangle(0, 0, 100, 160)) == []


def test_a_toggle_that_moves_sideways_is_turned(tmp_path: Path) -> None:
    text = CHANGEOVERS.replace("normal: down", "normal: left").replace(
        "[300, 160]", "[300, 160]\n    hardware: {levers: standard-toggle}"
    )
    bodies = {part.short: part.body for part in parts_of(described(text, tmp_path)) if part.lever is not None}
    assert (bodies["1"].width, bodies["1"].height) == (bodies["2"].height, bodies["2"].width) == (18, 30)


def test_without_a_size_or_holes_there_is_no_sheet(tmp_path: Path) -> None:
    checked = described("railway: Marram Quay\npanels: {BOX: {size: [200, 100]}, BARE: {}}\n", tmp_path)
    assert back_drawings(checked.description, checked.netlist, LOOK) == ({}, [])


ROUTES = """
railway: Marram Quay
supplies: {PULSE: {kind: pulse}}
strips: {S1: {ways: 24, measured: 230}}
points: {P1: {}, P2: {}}
devices: {PROBE: {kind: probe, panel: BOX}}
panels:
  BOX:
    size: [200, 120]
    levers: {"1": [5, 5], "2": [12, 5]}
    routes: {Quay: [4, 10], Yard: [15, 10]}
    matrix: [10, 10]
    hardware: {routes: PART}
routes:
  Quay: {levers: {1: normal, 2: normal}, KEY: 1}
  Yard: {levers: {1: reverse, 2: normal}, KEY: 2}
"""


def test_buttons_of_routes(tmp_path: Path) -> None:
    text = ROUTES.replace("KEY", "number").replace("PART", "push-button-7")
    checked = described(text, tmp_path)
    routes = [part for part in parts_of(checked) if part.hole.use == "route"]
    assert [part.short for part in routes] == ["1", "2"]
    assert [[contact.tab.contact for contact in part.contacts] for part in routes] == [["F", "M"]] * 2
    assert all(contact.wires for part in routes for contact in part.contacts)
    assert "MATRIX" in words(sheet(checked))


def test_studs_of_routes_have_one_wire_and_their_feed_from_the_probe(tmp_path: Path) -> None:
    checked = described(ROUTES.replace("KEY", "stud").replace("PART", "stud-4"), tmp_path)
    routes = [part for part in parts_of(checked) if part.hole.use == "route"]
    assert [[contact.tab.contact for contact in part.contacts] for part in routes] == [["M"], ["M"]]
    pages, _ = back_list(checked.description, checked.netlist, LOOK, PAPERS["a4"], "BOX")
    assert any("probe" in text for page in pages for text in words(page))


def test_a_panel_without_levers(tmp_path: Path) -> None:
    checked = described("railway: Marram Quay\npanels: {BOX: {size: [200, 100], screws: yes}}\n", tmp_path)
    assert back_list(checked.description, checked.netlist, LOOK, PAPERS["a4"], "BOX") == ([], [])
    assert LEGEND in words(sheet(checked))
    panel = "panels: {BOX: {size: [200, 100], lamps: {CAB: [5, 5]}}}"
    lamps = described(f"railway: Marram Quay\nsupplies: {{CAB: {{kind: track}}}}\n{panel}\n", tmp_path)
    (page,), _ = back_list(lamps.description, lamps.netlist, LOOK, PAPERS["a4"], "BOX")
    assert not any("seesaw" in text for text in words(page))
    narrow = described("railway: Marram Quay\npanels: {BOX: {size: [60, 40], screws: yes}}\n", tmp_path)
    assert words(sheet(narrow)) == []


def test_the_legend_stands_where_there_is_room(tmp_path: Path) -> None:
    """Along the lower edge; on a panel so narrow that the arrow of its exit is in the way there, along the upper."""
    text = "railway: Marram Quay\npanels: {BOX: {size: [%s, 60], screws: {inset: 10}}}\n"
    for width, lower in ((200, True), (80, False)):
        (legend,) = (one for one in sheet(described(text % width, tmp_path)).shapes if isinstance(one, Text))
        assert (legend.y > 50) is lower
    crowded = described((text % 80).replace("inset: 10", "inset: 3"), tmp_path)
    assert words(sheet(crowded)) == []


def test_things_beside_a_lever_without_lamp_holes_are_listed(tmp_path: Path) -> None:
    text = CHANGEOVERS.replace(
        "P1: {kind: stall-motor, supplies: {drive: DRIVE, rails: CAB}",
        "P1: {kind: stall-motor-lamps, supplies: {drive: DRIVE, rails: CAB, lamps: DRIVE}",
    )
    checked = described(text, tmp_path)
    (one,) = (part for part in parts_of(checked) if part.short == "1")
    assert {contact.tab.contact for contact in one.loose} == {"lamp-N", "lamp-R", "lamp-C"}
    pages, _ = back_list(checked.description, checked.netlist, LOOK, PAPERS["a4"], "BOX")
    assert [text for page in pages for text in words(page)].count("beside it") == 3
    with_holes = described(text.replace("{CAB: [20, 13]}", "{P1.normal: [20, 13], P1.reverse: [22, 13]}"), tmp_path)
    (one,) = (part for part in parts_of(with_holes) if part.short == "1")
    assert one.loose == ()
    lamps = [part for part in parts_of(with_holes) if part.hole.use == "lamp"]
    heads = [[soldered.wire.head for contact in lamp.contacts for soldered in contact.wires] for lamp in lamps]
    assert heads == [["1Ln", "1C"], ["1Lr", "1C"]]
    assert all(s.far.thing == "S1" for lamp in lamps for contact in lamp.contacts for s in contact.wires)


BUTTONS = """
railway: Marram Quay
boards: {B1: {size: [1200, 600]}}
supplies: {PULSE: {kind: pulse, board: B1}}
strips: {S1: {board: B1, ways: 24}}
levers: {5: {type: buttons}, 6: {type: stud}}
points:
  P4: {kind: three-way, board: B1}
  P5: {board: B1}
  P6: {board: B1}
devices: {PROBE: {kind: probe, panel: BOX}}
panels: {BOX: {size: [200, 120], levers: {"4": [6, 5], "5": [14, 5], "6": [10, 9]}}}
"""


def test_each_button_of_a_lever_has_its_contact_and_a_link_to_the_feed_of_the_one_before(tmp_path: Path) -> None:
    checked = described(BUTTONS, tmp_path)
    parts = {part.mark: part for part in parts_of(checked)}
    assert list(parts) == ["L4LEFT", "L4CENTRE", "L4RIGHT", "L5N", "L5R", "L6N", "L6R"]
    named = {mark: [contact.tab.contact for contact in part.contacts] for mark, part in parts.items()}
    assert named["L4CENTRE"] == ["F", "centre"]
    assert named["L6N"] == ["N"]
    fed = {mark: bool(part.contacts[0].wires) for mark, part in parts.items() if len(part.contacts) == 2}
    assert fed == {"L4LEFT": True, "L4CENTRE": False, "L4RIGHT": False, "L5N": True, "L5R": False}
    assert all(part.contacts[-1].wires for part in parts.values())
    links = [
        shape.runs[0] for shape in sheet(checked).shapes if isinstance(shape, Outline) and shape.stroke == "#000000"
    ]
    for one, other in (("L4LEFT", "L4CENTRE"), ("L4CENTRE", "L4RIGHT"), ("L5N", "L5R")):
        ends = [parts[mark].at + parts[mark].contacts[0].tab.at for mark in (one, other)]
        assert any((run[0], run[-1]) == tuple((at.x, at.y) for at in ends) for run in links), (one, other)
    pages, _ = back_list(checked.description, checked.netlist, LOOK, PAPERS["a4"], "BOX")
    said = [text for page in pages for text in words(page)]
    assert {"link from F of L4LEFT", "link from F of L4CENTRE", "link from F of L5N"} <= set(said)
