"""Where there is no room on a fascia: what size of panel would do; and holes that have slid along their roads."""

from typing import Any

from panel_railway import drawn, fascia, lever, text_ink, text_of, texts
from shapely.geometry import Point as Dot

from labelgen.model.drawing import Circle


def roads(apart: float, many: int = 8) -> dict[str, Any]:
    tracks = {f"road {n}": [[0, 2 + apart * n], [20, 2 + apart * n]] for n in range(many)}
    return {"size": [200, 100], "tracks": tracks, "levers": {"5": [10, 5]}}


def test_a_number_without_a_place_is_told_what_size_would_do_and_that_does() -> None:
    _, (problem,) = fascia([lever("5")], **roads(0.9))
    assert problem.hint.startswith("`grid: ")
    grid, rest = problem.hint.removeprefix("`grid: ").split("` on a panel of ")
    width, height = rest.split(" mm would do")[0].split(" × ")
    assert fascia([lever("5")], **{**roads(0.9), "grid": grid, "size": [width, height]})[1] == []
    smaller = {"grid": int(grid) - 1, "size": [int(width) - 20, int(height) - 10]}
    assert fascia([lever("5")], **{**roads(0.9), **smaller})[1] != []


def test_where_twice_the_size_would_not_do_that_is_said() -> None:
    _, (problem,) = fascia([lever("5")], **roads(0.3, 24))
    assert "twice as large would not do" in problem.hint


def test_a_lever_that_slid_along_its_road_bears_one_number_at_its_hole() -> None:
    tracks: dict[str, Any] = {
        "main": [[2, 8], [30, 8]],
        "up": ["P1", [14, 4], [30, 4]],
        "down": ["P2", [15.2, 12], [30, 12]],
    }
    drawing = drawn(
        [lever("1", "P1"), lever("2", "P2")], size=[320, 160], tracks=tracks, points={"P1": [10, 8], "P2": [11.2, 8]}
    )
    holes = sorted(s.x for s in drawing.shapes if isinstance(s, Circle) and s.stroke and s.radius < 4)
    assert holes == [96.5, 115.5]
    assert sorted(text.text for text in texts(drawing)) == ["1", "2", "Marram Quay"]
    assert text_ink(text_of(drawing, "1")).distance(Dot(96.5, 80)) < 9


def test_a_section_name_goes_with_its_switch_when_that_slid() -> None:
    drawing = drawn(
        [lever("11", "YARD"), lever("12", "QUAY")],
        size=[320, 160],
        tracks={"main": [[2, 8], [30, 8]]},
        sections={"YARD": [10, 8], "QUAY": [11, 8]},
        breaks=[[10.5, 8]],
    )
    number, name = text_ink(text_of(drawing, "12")), text_ink(text_of(drawing, "Quay"))
    assert number.distance(name) < 4


def test_texts_on_one_line_do_not_read_as_one() -> None:
    """Two names on one height are at least 1.8 mm apart: more than a space is wide."""
    plans = [lever(str(n), name="Wharf siding") for n in range(1, 5)]
    drawing = drawn(
        plans, size=[200, 100], tracks={"a": [[1, 8], [19, 8]]}, levers={str(n): [4 + 2.4 * n, 4] for n in range(1, 5)}
    )
    inks = [text_ink(text) for text in texts(drawing)]
    for n, one in enumerate(inks):
        for other in inks[n + 1 :]:
            level = one.bounds[1] < other.bounds[3] and other.bounds[1] < one.bounds[3]
            assert not level or one.distance(other) >= 1.8 - 1e-6
