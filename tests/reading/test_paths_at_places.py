"""What stands at a place: the way back from places to paths."""

from pathlib import Path as File

import pytest

from labelgen.places import NoPlaces, Path, Place, Places
from labelgen.reading.description_reader import read_description, read_description_text

TEXT = """\
railway: x
strips:
  A1: {ways: 12, taken: {7: a bell, 08: x}}
  A2:

    bridges: [[1, 4]]
  A3:
wires:
  - {from: A1.1, to: A1.2}
  - from: A1.3
    to: A1.4
points: {P5: {name: "Siding"}}
"""


def places(text: str = TEXT) -> Places:
    description, problems = read_description_text(text, "quay.yaml")
    assert description is not None, problems
    return description.places


PATHS: list[Path] = [
    ("railway",),
    ("strips",),
    ("strips", "A1"),
    ("strips", "A1", "ways"),
    ("strips", "A1", "taken", "08"),
    ("strips", "A2"),
    ("strips", "A2", "bridges", 0, 1),
    ("strips", "A3"),
    ("wires", 0),
    ("wires", 1, "to"),
    ("points", "P5", "name"),
]


@pytest.mark.parametrize("path", PATHS)
def test_what_has_a_place_is_found_there(path: Path) -> None:
    found = places()
    assert found.path_at(found.of_key(path))[: len(path)] == path
    assert found.path_at(found.of_value(path))[: len(path)] == path


@pytest.mark.parametrize(
    ("line", "column", "path"),
    [
        (3, 3, ("strips", "A1")),
        (3, 16, ("strips", "A1")),  # a comma
        (3, 26, ("strips", "A1", "taken", "7")),
        (3, 43, ("strips", "A1")),  # behind the last bracket but one
        (6, 5, ("strips", "A2", "bridges")),
        (9, 5, ("wires", 0)),
        (10, 5, ("wires", 1, "from")),
        (12, 30, ("points",)),
        (99, 1, ()),
    ],
)
def test_by_line_and_column(line: int, column: int, path: Path) -> None:
    assert places().path_at(Place(file="quay.yaml", line=line, column=column)) == path


def test_another_file_has_none() -> None:
    assert places().path_at(Place(file="quay.built.yaml", line=3, column=3)) == ()
    assert NoPlaces().path_at(Place(file="description")) == ()


def test_where_a_mistake_was_mended_before_it() -> None:
    """The reader puts quotes round the name, and reads on with what stands behind it."""
    text = "railway: x\npoints:\n  P1: {name: a}\n  P2: {lever:9}\nstrips: {A1: {}}\n"
    description, problems = read_description_text(text, "quay.yaml")
    assert [one.code for one in problems] == ["missing-space"]
    assert description is not None
    place = description.place_of_key("strips", "A1")
    assert (place.line, place.column) == (5, 10)
    assert description.places.path_at(place) == ("strips", "A1")
    assert description.places.path_at(description.place_of("points", "P2", "lever")) == ("points", "P2", "lever")


def test_a_cell_belongs_to_the_entry_of_its_row(tmp_path: File) -> None:
    (tmp_path / "points.csv").write_text("id,name\nP1,first\nP2,second\n", encoding="utf-8")
    file = tmp_path / "quay.yaml"
    file.write_text("railway: x\ndevice_list: points.csv\npoints: {P9: {}}\n", encoding="utf-8")
    description, _ = read_description(file)
    assert description is not None
    found = description.places
    assert found.path_at(found.of_value(("points", "P2", "name"))) == ("points", "P2")
    assert found.path_at(found.of_key(("points", "P9"))) == ("points", "P9")
