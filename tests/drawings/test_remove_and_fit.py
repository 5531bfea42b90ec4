"""The list *remove and fit*: in walking order, every label once, nothing too small to read in poor light."""

from dataclasses import replace

import pytest
from wiring.wiring_builder import built_in_kinds, described, read

from labelgen.drawings.lists.remove_and_fit import remove_and_fit_pages
from labelgen.model.built.built_labels import MadeLabel, PrintedLabel
from labelgen.model.built.built_record import BuiltRecord, BuiltWire
from labelgen.model.built.record_fitting import NewHole, Stop, new_holes, stops
from labelgen.model.drawing import Box, Drawing, Text
from labelgen.model.look import Look
from labelgen.standards.paper_sizes import PAPERS
from labelgen.typefaces import FACES
from labelgen.wiring.expansion import Expansion, expand

RAILWAY = """
boards: {East: {at: [1200, 0]}, West: {}}
supplies: {PULSE: {kind: pulse, board: West}}
strips:
  W10: {board: West}
  W2: {board: West}
  E1: {board: East}
panels: {QUAY: {board: West, shown: Quay box}}
points: {P1: {board: West, strip: W2}, P2: {board: East}}
"""
DESCRIPTION = described(read(RAILWAY))
NETLIST, _ = Expansion(DESCRIPTION, built_in_kinds(), None).netlist()


JOINED = RAILWAY + "plugs: {J1: {boards: [West, East], pins: 9}}\n"


def printed(kind: str, label: str, board: str, says: str = "", issue: str = "A") -> PrintedLabel:
    return PrintedLabel(kind=kind, label=label, board=board, says=says or label, issue=issue, fingerprint="x")


def new(kind: str, label: str, board: str, says: str = "") -> MadeLabel:
    return MadeLabel(now=printed(kind, label, board, says), was=None)


def gone(kind: str, label: str, board: str, says: str = "") -> MadeLabel:
    return MadeLabel(now=None, was=printed(kind, label, board, says))


def found(*changes: MadeLabel, record: BuiltRecord | None = None) -> list[Stop]:
    return stops(DESCRIPTION, NETLIST, record or BuiltRecord(railway="x"), changes)


def test_boards_as_described_strips_in_natural_order_then_what_is_at_none() -> None:
    walked = found(
        new("plates", "1", "West"), new("places", "H1", "West", "labels of hole H1"), new("markers", "W10", "West"),
        new("tags", "W2", "West"), new("markers", "E1", "East"), new("fascia", "QUAY", ""), new("blanks", "99", ""),
    )  # fmt: skip
    assert [(stop.board, stop.strip) for stop in walked] == [
        ("East", "E1"), ("West", "W2"), ("West", "W10"), ("West", ""), ("", "")
    ]  # fmt: skip
    assert [step.called for step in walked[3].steps] == ["labels of hole H1", "plate 1"]
    assert walked[3].steps[1].ends == ("panel Quay box",)


def test_at_a_strip_old_ones_first_then_marker_tag_and_flags_in_order_of_work() -> None:
    wires = {wire.head: wire for wire in NETLIST.wires if wire.start.name in ("W2.1", "L1.N", "L1.R", "L1.F")}
    old = BuiltWire(number=90, head="7N", start="L7.N", finish="W2.5", circuit="7", function="normal")
    changes = [
        new("flags", str(wires["1R"].number), "West", "1R"), new("flags", str(wires["1F"].number), "West", "1F"),
        new("tags", "W2", "West"), new("markers", "W2", "West"), gone("flags", "90", "West", "7N"),
    ]  # fmt: skip
    (stop,) = found(*changes, record=BuiltRecord(railway="x", retired=(old,)))
    assert [step.called for step in stop.steps][:3] == ["#90", "marker W2", "tag W2"]
    assert [step.on.says for step in stop.steps[3:] if step.on] == ["1F", "1R"], "way by way"
    assert stop.steps[0].ends == ("L7.N", "W2.5")
    assert [step.count for step in stop.steps] == [2, 2, 1, 2, 2]


def test_one_flag_of_a_wire_from_board_to_board_is_one() -> None:
    number = next(wire.number for wire in NETLIST.wires if {"W2.2", "E1.2"} == {end.name for end in wire.ends})
    east, west = found(new("flags", f"{number} on West", "West"), new("flags", f"{number} on East", "East"))
    assert (east.board, west.board) == ("East", "West")
    assert east.steps[0].count == west.steps[0].count == 1
    assert east.steps[0].called == f"#{number}"


def test_what_no_record_knows_comes_off_where_its_board_is() -> None:
    (stop,) = found(gone("flags", "N7", "West", "1N"), gone("flags", "#8", "West", "1N"))
    assert (stop.board, stop.strip) == ("West", "")
    assert [step.called for step in stop.steps] == ["#N7", "#8"]


def test_labels_of_a_strip_that_is_gone_come_off_at_it() -> None:
    old = printed("markers", "W9", "West")
    wire = BuiltWire(number=90, head="7N", start="L7.N", finish="W9.5", circuit="7", function="normal")
    record = BuiltRecord(railway="x", printed=(old,), retired=(wire,))
    (stop,) = found(MadeLabel(now=None, was=old), gone("flags", "90", "West", "7N"), record=record)
    assert stop.strip == "W9"
    assert len(stop.steps) == 2


HOLES = {"L1": (5000, 3000, 650), "L2": (25000, 3000, 650)}


def fascia(holes: dict[str, tuple[int, ...]], was: dict[str, tuple[int, ...]] | None) -> MadeLabel:
    now = replace(printed("fascia", "QUAY", "West"), holes=holes)
    return MadeLabel(now=now, was=None if was is None else replace(now, holes=was))


def test_new_holes_are_measured_from_two_old_ones() -> None:
    (hole,) = new_holes([fascia({**HOLES, "L3": (15000, 4000, 600)}, HOLES)])
    assert (hole.mark, hole.diameter, hole.side, hole.moves) == ("L3", 6.0, "below", False)
    assert [mark for mark, _ in hole.froms] == ["L1", "L2"]
    assert [length for _, length in hole.froms] == pytest.approx([100.4988, 100.4988], abs=1e-3)


def test_a_hole_that_is_called_otherwise_is_no_new_one_and_one_that_moves_is() -> None:
    assert not list(new_holes([fascia({"L1": HOLES["L1"], "L20": HOLES["L2"]}, HOLES)]))
    (hole,) = new_holes([fascia({**HOLES, "L2": (26000, 3000, 650)}, HOLES)])
    assert (hole.moves, hole.froms) == (True, ()), "only one old hole stays"


def test_a_first_fascia_is_drilled_by_its_template() -> None:
    assert not list(new_holes([fascia(HOLES, None), fascia(HOLES, {})]))


def pages(*changes: MadeLabel, holes: tuple[NewHole, ...] = (), look: Look | None = None) -> list[Drawing]:
    drawn, problems = remove_and_fit_pages(DESCRIPTION, NETLIST, look or Look(), PAPERS["a4"], (found(*changes), holes))
    assert not problems
    return drawn


def texts(drawn: list[Drawing]) -> list[Text]:
    return [shape for page in drawn for shape in page.shapes if isinstance(shape, Text)]


def test_every_label_has_its_boxes_and_no_capital_is_lower_than_2_5_mm() -> None:
    changes = [new("plates", str(n), "West") for n in range(60)] + [gone("tags", "W2", "West")]
    drawn = pages(*changes, holes=tuple(new_holes([fascia({**HOLES, "L3": (15000, 4000, 600)}, HOLES)])))
    assert len(drawn) > 1
    boxes = [
        shape for page in drawn for shape in page.shapes if isinstance(shape, Box) and shape.stroke and not shape.fill
    ]
    assert len(boxes) == 61 + 1
    assert min(text.size * FACES[text.face].cap for text in texts(drawn)) >= 2.5 - 1e-9
    said = [text.text for text in texts(drawn)]
    assert "0 off, 60 on" in said
    assert "100.5" in said
    assert [page.name for page in drawn] == [f"remove and fit, page {n}" for n in range(1, len(drawn) + 1)]


def test_where_there_are_not_two_old_holes_the_edges_serve() -> None:
    holes = tuple(new_holes([fascia({**HOLES, "L2": (26000, 3000, 650)}, HOLES)]))
    said = [text.text for text in texts(pages(new("plates", "1", "West"), holes=holes))]
    assert {"the left edge", "260.0", "the upper edge", "30.0", "its old hole stays empty"} <= {*said}


def test_without_anything_to_do_there_is_no_list() -> None:
    assert remove_and_fit_pages(DESCRIPTION, NETLIST, Look(), PAPERS["a4"], ([], [])) == ([], [])


def test_a_stop_says_whether_it_is_a_plug_or_a_strip() -> None:
    changes = [new("tags", "W2", "West"), new("tags", "J1", "West")]
    plugs = replace(NETLIST, plugs=expand(described(read(JOINED)), built_in_kinds())[0].plugs)
    before = BuiltRecord(railway="x", printed=(printed("tags", "J1", "West"),))
    walked = stops(DESCRIPTION, plugs, before, changes)
    drawn, _ = remove_and_fit_pages(DESCRIPTION, plugs, Look(), PAPERS["a4"], (walked, ()))
    bands = {text.text for text in texts(drawn)}
    assert {"West: strip W2", "West: plug J1"} <= bands


def test_every_sticker_is_counted() -> None:
    """A section's two rails, a hole's two faces, as many as were printed; of an older record as many as go on now."""
    rails = replace(printed("places", "TC", "West", "feed of TC, rails A and B", "B"), pieces=2)
    old = printed("places", "TC", "West", "feed of TC, rail A")
    (stop,) = found(
        MadeLabel(now=rails, was=old), new("places", "H1", "West", "labels of hole H1"), gone("places", "P9", "West"),
    )  # fmt: skip
    counts = [[step.count_of(side) for side in (step.off, step.on) if side is not None] for step in stop.steps]
    assert sorted(counts) == [[1], [2], [2, 2]]
    pages, problems = remove_and_fit_pages(DESCRIPTION, NETLIST, Look(), PAPERS["a4"], ([stop], []))
    assert problems == []
    assert "3 off, 4 on" in [text.text for page in pages for text in page.shapes if isinstance(text, Text)]


def test_what_belongs_to_a_plug_is_done_at_the_plug() -> None:
    walked = found(
        new("markers", "J1 on West", "West", "J1"), new("places", "J1 on West", "West", "labels of plug J1"),
        record=BuiltRecord(railway="x", printed=(printed("markers", "J1 on West", "West"),)),
    )  # fmt: skip
    assert [(stop.strip, [step.called for step in stop.steps]) for stop in walked] == [
        ("J1", ["marker J1", "labels of plug J1"])
    ]
