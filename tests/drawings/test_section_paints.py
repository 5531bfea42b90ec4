"""Colours of sections. Judge: coloraide, for CIEDE2000, colour blindness by three models, and contrast by WCAG 2.1."""

from itertools import combinations, pairwise

import pytest
from coloraide import Color

from labelgen.drawings.fascia.section_paints import CORES, ON_DARK, ON_LIGHT, Paint, section_paints
from labelgen.drawings.fascia.style import DARK
from labelgen.model.look import Look
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.graph import track_graph
from labelgen.model.tracks.sections import track_sections

EYES = [
    None,
    *((kind, "machado") for kind in ("protan", "deutan")),
    *((kind, "vienot") for kind in ("protan", "deutan")),
    ("tritan", "brettel"),
]


def seen(paint: str, eyes: tuple[str, str] | None) -> Color:
    return Color(paint) if eyes is None else Color(paint).filter(eyes[0], method=eyes[1]).convert("srgb").clip()


@pytest.mark.parametrize("eyes", EYES)
@pytest.mark.parametrize(("paints", "least"), [(ON_LIGHT, 21), (ON_DARK, 17)])
def test_any_two_are_told_apart(paints: tuple[str, ...], least: float, eyes: tuple[str, str] | None) -> None:
    apart = [seen(a, eyes).delta_e(seen(b, eyes), method="2000") for a, b in combinations(paints, 2)]
    assert min(apart) >= least


@pytest.mark.parametrize(("paints", "ground"), [(ON_LIGHT, "#FFFFFF"), (ON_DARK, DARK.paper)])
def test_each_stands_out_from_the_ground(paints: tuple[str, ...], ground: str) -> None:
    assert min(Color(paint).contrast(ground, method="wcag21") for paint in paints) >= 3


def painted(count: int, *, mono: bool = False, **keys: object) -> tuple[Paint, ...]:
    """The paints of one long line that is cut so often."""
    cuts = [[n, 0] for n in range(1, count)]
    panel = Panel.model_validate({"tracks": {"a": [[0, 0], [count, 0]]}, "breaks": cuts, **keys})
    return section_paints(panel, Look(mono=mono), track_sections(panel, track_graph(panel)), "#123456")


def test_without_being_asked_all_are_alike() -> None:
    assert set(painted(5)) == {Paint(colour="#123456")}


@pytest.mark.parametrize(("style", "paints"), [("light", ON_LIGHT), ("dark", ON_DARK)])
def test_a_few_sections_have_each_its_own(style: str, paints: tuple[str, ...]) -> None:
    found = painted(6, section_colours="yes", style=style)
    assert {paint.colour for paint in found} == set(paints)
    assert {paint.core for paint in found} == {""}


def test_many_share_them_but_no_neighbours_do() -> None:
    found = painted(20, section_colours="yes")
    assert all(a != b for a, b in pairwise(found))


def test_in_black_the_form_of_the_line_tells() -> None:
    found = painted(6, mono=True, section_colours="yes")
    assert [paint.core for paint in found] == list(CORES)
    assert {paint.colour for paint in found} == {"#123456"}


def test_past_the_last_colour_they_come_again_with_a_core() -> None:
    lines = {f"t{n}": [[0, n], [20, n + 0.01 * n]] for n in range(7)}
    across = {f"u{n}": [[n * 2 + 1, -1], [n * 2 + 1, 9]] for n in range(7)}
    rays = {f"r{n}": [[-10 * n - 5, 30], [30 - n, -10 + 2 * n]] for n in range(9)}
    panel = Panel.model_validate({"tracks": {**lines, **across, **rays}, "section_colours": "yes"})
    sections = track_sections(panel, track_graph(panel))
    paints = section_paints(panel, Look(), sections, "#123456")
    assert all(paints[a] != paints[b] for a, b in sections.neighbours)
    assert any(paint.core for paint in paints)
