"""Large words on labels that came out narrow and low are told of once for each kind of label."""

from pathlib import Path

import pytest

from labelgen.data_files import layouts
from labelgen.makers.condensed_heads import EASY_CAP_MM, condensed_heads
from labelgen.making import Request
from labelgen.model.drawing import Drawing, Text
from labelgen.pipeline import check_file, label_problems, make
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.typefaces import BOLD, REGULAR, size_for_cap


def label(name: str, *texts: tuple[str, float, float, str]) -> Drawing:
    """Of texts, each with its height in mm, how much it is condensed, and its face."""
    shapes = tuple(
        Text(x=0, y=0, text=text, face=face, size=size_for_cap(cap, face), stretch=stretch)
        for text, cap, stretch, face in texts
    )
    return Drawing(width=38, height=21, shapes=shapes, name=name, place=Place(file=name))


NARROW, LOW = ("THROAT", 1.9, 0.8, BOLD), ("5N", 1.9, 1.0, BOLD)
LARGE, SMALL = ("A1", 3.0, 0.8, BOLD), ("A1.1", 1.5, 0.8, REGULAR)


def messages(use: str, *labels: Drawing, hardest: bool = False) -> list[str]:
    return [one.message for one in condensed_heads(use, labels, hardest=hardest)]


def test_what_is_large_or_wide_or_small_print_is_no_matter() -> None:
    assert messages("fold", label("flag", LARGE, SMALL), label("flag", LOW), label("blank")) == []
    assert messages("fold") == []


def test_the_smallest_is_the_example_and_the_others_are_counted() -> None:
    (said,) = messages(
        "fold", label("flag 1", NARROW, SMALL), label("flag 2", ("QUAY", 1.4, 0.9, BOLD)), label("x", LOW)
    )
    assert said == (
        "the large words on 2 flags had to be made narrow, and lower than 2.5 mm: `QUAY` on the flag 2 is 1.4 mm high"
    )
    (said,) = messages("markers", label("marker A1", LARGE, NARROW))
    assert said.startswith("the large words on 1 marker had")


def test_of_places_the_largest_word_counts_alone() -> None:
    assert messages("places", label("label of CAB", LARGE, NARROW)) == []
    assert len(messages("places", label("label of CAB", NARROW, SMALL), label("nothing"))) == 1


@pytest.mark.parametrize("use", ["wrap", "sleeve"])
def test_words_along_a_wire_are_as_high_as_it_allows(use: str) -> None:
    assert messages(use, label("wrap", NARROW)) == []


def test_of_the_hardest_alone_it_is_known_only_that_there_are_so_many() -> None:
    assert "on at least 1 flag had" in messages("fold", label("flag", NARROW), hardest=True)[0]
    assert "on 1 flag had" in messages("fold", label("flag", NARROW), label("flag", LARGE), hardest=True)[0]


def found(path: Path) -> list[Problem]:
    """What `check --labels` says, when `make` says it as well."""
    checked, _ = check_file(path)
    assert checked is not None
    kinds = frozenset({"flags", "markers", "tags", "plates", "places"})
    made = [one for one in make(checked, Request(only=kinds)).problems if one.code == "text-condensed"]
    said = [one for one in label_problems(checked, drawn=True) if one.code == "text-condensed"]
    assert [(one.code, one.place) for one in made] == [(one.code, one.place) for one in said]
    return made


def test_our_own_railway_has_none() -> None:
    assert found(layouts("railways") / "marram-quay.yaml") == []


def test_a_long_id_is_told_of_and_what_is_shown_instead_mends_it(tmp_path: Path) -> None:
    path = tmp_path / "quay.yaml"
    text = "railway: Marram Quay\nsupplies: {LIGHT: {kind: dc}}\nstrips: {A1: {measured: 110}}\n"
    path.write_text(f"{text}devices: {{QUAY-LAMPS-N: {{kind: lamps}}}}\n", encoding="utf-8")
    (one,) = found(path)
    assert (one.place.line, f"{EASY_CAP_MM:g}" in one.message) == (4, True)
    assert "`shown:`" in one.hint
    path.write_text(f"{text}devices: {{QUAY-LAMPS-N: {{kind: lamps, shown: QL}}}}\n", encoding="utf-8")
    assert found(path) == []
