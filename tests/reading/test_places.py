"""Where keys and values stand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.places import Path
from labelgen.reading.node_tree import Document
from labelgen.reading.source_text import Draft, SourceText
from labelgen.reading.yaml_nodes import read_yaml_text

TEXT = """\ufeff# Marram Quay
railway: "Marram 𝄞uay"
strips:
  A1: {ways: 12, taken: {7: 門鈴 bell, 08: x}}
  A2:
    bridges: [[1, 4], [2,
      3]]
wires:
  - {from: A1.1, to: A1.2}
  - from: A1.3
    to:
note: |
  one
  two
"""


def document() -> Document:
    found, problems = read_yaml_text(TEXT, "quay.yaml")
    assert problems == []
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("path", "key", "value"),
    [
        ((), (2, 1, 22), (2, 1, 22)),
        (("railway",), (2, 1, 7), (2, 10, 13)),
        (("strips",), (3, 1, 6), (3, 1, 6)),
        (("strips", "A1"), (4, 3, 2), (4, 7, 38)),
        (("strips", "A1", "ways"), (4, 8, 4), (4, 14, 2)),
        (("strips", "A1", "taken", 7), (4, 26, 1), (4, 29, 7)),
        (("strips", "A1", "taken", "08"), (4, 38, 2), (4, 42, 1)),
        (("strips", "A1", "pitch"), (4, 3, 2), (4, 3, 2)),
        (("strips", "A1", "ways", "x"), (4, 8, 4), (4, 14, 2)),
        (("strips", "A2", "bridges", 0, 1), (6, 19, 1), (6, 19, 1)),
        (("strips", "A2", "bridges", 1), (6, 23, 3), (6, 23, 3)),
        (("strips", "A2", "bridges", 5), (6, 5, 7), (6, 5, 7)),
        (("strips", "A9", "ways"), (3, 1, 6), (3, 1, 6)),
        (("wires", 0, "to"), (9, 18, 2), (9, 22, 4)),
        (("wires", 1), (10, 5, 10), (10, 5, 10)),
        (("wires", 1, "to"), (11, 5, 2), (11, 5, 2)),
        (("note",), (12, 1, 4), (12, 7, 1)),
        (("nothing",), (2, 1, 22), (2, 1, 22)),
    ],
)
def test_line_column_and_length(path: Path, key: tuple[int, int, int], value: tuple[int, int, int]) -> None:
    """Counted by hand: columns in characters, wide ones and those beyond the first plane as one."""
    places = document().places
    for place, expected in ((places.of_key(path), key), (places.of_value(path), value)):
        assert (place.line, place.column, place.length) == expected
        assert place.source == TEXT.removeprefix("\ufeff").split("\n")[place.line - 1]
        assert place.file == "quay.yaml"


@given(st.text(alphabet=st.sampled_from("abé門𝄞\n\t "), max_size=40), st.data())
def test_a_place_is_where_the_character_is(text: str, data: st.DataObject) -> None:
    source = SourceText(text, "quay.yaml")
    index = data.draw(st.integers(0, len(text)))
    place = source.place(index, index + 1)
    assert place.line == text.count("\n", 0, index) + 1
    assert place.column == index - text.rfind("\n", 0, index)
    assert place.source == text.split("\n")[place.line - 1]


@given(st.text(max_size=20), st.data())
def test_a_draft_knows_where_its_characters_came_from(text: str, data: st.DataObject) -> None:
    source = SourceText(text, "quay.yaml")
    places = data.draw(st.lists(st.tuples(st.integers(0, len(text)), st.just("+")), max_size=5))
    draft = Draft(source).mended(places[:2]).mended(places[2:])
    assert len(draft.text) == len(text) + len(places)
    kept = [index for index in range(len(draft.text)) if draft.text[index] != "+"]
    for index in kept:
        assert draft.text[index] == text[draft.original(index)]
