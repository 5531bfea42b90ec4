"""A proposed fascia, pasted into the description: it must check, and it must be makeable."""

import re
from itertools import combinations, pairwise
from math import hypot
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from labelgen.data_files import layouts
from labelgen.drawings.fascia.fascia import fascia_drawings
from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.look import Look
from labelgen.model.panel.proposed_panel import ProposedPanel, TooSmall, proposed_panel
from labelgen.pipeline import check_file
from labelgen.problems import has_errors
from labelgen.reading.data_readers import built_in_hardware, built_in_kinds
from labelgen.rendering.panel_block import panel_block
from labelgen.wiring.expansion import expand

OF_THE_PANEL = {
    "bad-track", "point-off-track", "roads-without-point", "lever-without-hole", "route-without-stud", "off-panel",
    "too-close",
}  # fmt: skip
"""What `check` may say of a diagram."""


def proposal(
    size: tuple[float, float] | None = None, **keys: Any
) -> tuple[Description, ProposedPanel | TooSmall | None]:
    base = {"railway": "Marram Quay", "supplies": {"PULSE": {"kind": "pulse"}, "CAB": {"kind": "track"}}}
    strips = {f"A{n}": {"ways": "200"} for n in range(1, 5)}
    description = Description.model_validate({**base, "strips": strips, **keys}).with_parts(built_in_hardware())
    netlist, problems = expand(description, built_in_kinds())
    assert problems == []
    return description, proposed_panel(description, netlist, size)


def found(size: tuple[float, float] | None = None, **keys: Any) -> ProposedPanel:
    panel = proposal(size, **keys)[1]
    assert isinstance(panel, ProposedPanel)
    return panel


def points(*at: tuple[float, float] | None) -> dict[str, Any]:
    return {f"P{n}": {"at": [str(v) for v in one]} if one else {} for n, one in enumerate(at, 1)}


def pasted(folder: Path, description: str, block: str) -> tuple[list[str], list[str]]:
    """The codes of what `check` says, and of what drawing the fascia says, once it is pasted."""
    path = folder / "pasted.yaml"
    path.write_text(f"{description}\n{block}", encoding="utf-8")
    checked, problems = check_file(path)
    assert checked is not None
    assert not has_errors(problems), problems
    drawings, said = fascia_drawings(checked.description, checked.netlist, Look())
    assert drawings
    return [problem.code for problem in problems], [problem.code for problem in said]


def marram_quay_without_a_panel() -> str:
    text = (layouts("railways") / "marram-quay.yaml").read_text(encoding="utf-8")
    without, count = re.subn(r"(?ms)^panels:\n.*?(?=^routes:)", "", text)
    assert count == 1
    return without


def test_the_example_has_a_fascia_as_soon_as_it_is_pasted(tmp_path: Path) -> None:
    text = marram_quay_without_a_panel()
    path = tmp_path / "quay.yaml"
    path.write_text(text, encoding="utf-8")
    checked, _ = check_file(path)
    assert checked is not None
    panel = proposed_panel(checked.description, checked.netlist)
    assert isinstance(panel, ProposedPanel)
    said, drawn = pasted(tmp_path, text, panel_block(panel, checked.description))
    assert not OF_THE_PANEL & set(said)
    assert drawn == []
    assert {*panel.points} == {*checked.description.points}
    assert {*panel.levers} == {"10", "11", "12"}
    assert {*panel.routes} == {*checked.description.routes}


spots = st.tuples(st.integers(0, 3000), st.integers(0, 900))


@settings(max_examples=25, deadline=None)
@given(
    places=st.lists(st.one_of(st.none(), spots), min_size=1, max_size=70),
    spares=st.integers(0, 30),
    boards=st.integers(0, 2),
)
def test_any_railway_can_be_pasted(
    tmp_path_factory: pytest.TempPathFactory, places: list[tuple[int, int] | None], spares: int, boards: int
) -> None:
    keys: dict[str, Any] = {
        "points": points(*places),
        "levers": {f"S{n}": {"spare": "yes"} for n in range(spares)},
        "boards": {f"B{n}": {"size": ["1500", "900"]} for n in range(boards)},
    }
    if boards:
        keys["points"] = {
            id_: {**one, "board": f"B{n % boards}"} for n, (id_, one) in enumerate(keys["points"].items())
        }
        keys["strips"] = {f"A{n}": {"ways": "200", "board": f"B{n % boards}"} for n in range(1, 7)}
        keys["supplies"] = {"PULSE": {"kind": "pulse", "board": "B0"}}
    description, panel = proposal(**keys)
    assert isinstance(panel, ProposedPanel)
    written = description.model_dump(mode="json", by_alias=True, exclude_unset=True)
    folder = tmp_path_factory.mktemp("p")
    said, drawn = pasted(folder, yaml.safe_dump(written), panel_block(panel, description))
    assert not OF_THE_PANEL & set(said)
    assert drawn == []
    whole = [*panel.points.values(), *panel.levers.values()]
    for a, b in combinations(whole, 2):
        assert hypot(a.x - b.x, a.y - b.y) >= 2.5
    for at in whole:
        assert (2 * at.x, 2 * at.y) == (int(2 * at.x), int(2 * at.y))
        assert 1 < at.x < panel.size[0] / 10 - 1
        assert 1 < at.y < panel.size[1] / 10 - 1


def test_points_follow_each_other_as_on_the_boards_and_never_steeper_than_45_degrees() -> None:
    panel = found(points=points((2000, 100), (100, 500), (900, 100), None, (1000, 800)))
    order = [corner for corner in panel.tracks["main"] if isinstance(corner, str)]
    assert order == ["P2", "P3", "P5", "P1", "P4"]
    xs = [panel.points[point].x for point in order]
    assert xs == sorted(xs)
    assert panel.points["P2"].y > panel.points["P3"].y
    corners = [panel.points[c] if isinstance(c, str) else c for c in panel.tracks["main"]]
    for a, b in pairwise(corners):
        assert abs(b.y - a.y) <= abs(b.x - a.x) + 1e-9


def test_boards_stand_where_they_are() -> None:
    boards = {"B1": {"size": ["1000", "500"]}, "B2": {"right_of": "B1"}, "B3": {"at": ["-800", "0"]}}
    given_points = {
        "P1": {"board": "B2", "at": ["10", "100"]},
        "P2": {"board": "B1", "at": ["900", "100"]},
        "P3": {"board": "B3", "at": ["700", "100"]},
    }
    strips = {f"A{n}": {"board": f"B{n}"} for n in range(1, 4)}
    supplies = {"PULSE": {"kind": "pulse", "board": "B1"}}
    panel = found(boards=boards, points=given_points, strips=strips, supplies=supplies)
    assert [corner for corner in panel.tracks["main"] if isinstance(corner, str)] == ["P3", "P2", "P1"]


def test_many_points_on_a_narrow_panel_turn_at_its_end() -> None:
    panel = found((400, 300), points=points(*[(100 * n, 100) for n in range(20)]))
    assert len({at.y for at in panel.points.values()}) == 2
    assert panel.size == (400, 300)


def test_a_size_that_is_too_small_says_what_would_do() -> None:
    given_points = points(*[(100 * n, 100) for n in range(40)])
    small = proposal((250, 150), points=given_points)[1]
    assert isinstance(small, TooSmall)
    assert small.size[0] == 250
    assert isinstance(proposal(small.size, points=given_points)[1], ProposedPanel)
    narrow = proposal((90, 400), points=points((1, 1)))[1]
    assert isinstance(narrow, TooSmall)
    assert isinstance(proposal(narrow.size, points=points((1, 1)))[1], ProposedPanel)


def test_a_panel_without_tracks_keeps_its_name_size_and_place() -> None:
    panels = {"BOX": {"name": "John's panel", "size": ["500", "200"], "at": ["5", "6"], "exit": ["20", "9"]}}
    description, panel = proposal(points=points((1, 1), (500, 1)), panels=panels)
    assert isinstance(panel, ProposedPanel)
    block = panel_block(panel, description)
    again = yaml.safe_load(block)["panels"]["BOX"]
    assert {key: again[key] for key in ("name", "size", "at", "exit")} == {
        "name": "John's panel", "size": [500, 200], "at": [5, 6], "exit": [20, 9],
    }  # fmt: skip
    assert "takes the place" in block


def test_a_panel_with_tracks_is_left_alone_and_what_is_on_it() -> None:
    drawn: dict[str, Any] = {"BOX": {"tracks": {"main": [["1", "1"], ["9", "1"]]}, "points": {"P1": ["4", "1"]}}}
    keys: dict[str, Any] = {"points": points((1, 1), (500, 1)), "panels": drawn}
    assert proposal(**keys)[1] is None  # the only panel has them all
    drawn["PANEL"] = {"board": None}
    keys["levers"] = {"2": {"panel": "PANEL"}}
    description, panel = proposal(**keys)
    assert isinstance(panel, ProposedPanel)
    assert (panel.id, {*panel.points}) == ("PANEL", {"P2"})
    assert "There is a `panels:` already" in panel_block(panel, description)


def test_a_new_panel_has_an_id_of_its_own() -> None:
    panel = found(points=points((1, 1)), devices={"panel": {"kind": "section"}})
    assert panel.id == "PANEL2"


def test_nothing_to_show_gives_nothing() -> None:
    assert proposal()[1] is None


def test_levers_alone_stand_in_rows() -> None:
    panel = found((240, 200), levers={f"{n}": {"spare": "yes"} for n in range(1, 15)})
    assert panel.tracks == {}
    assert panel.levers["1"].y < panel.levers["14"].y
    assert panel.levers["2"] == panel.levers["1"] + Point(2.5, 0)
