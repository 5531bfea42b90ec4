"""What `check` says of labels: what does not suit without drawing; with `--labels` also what cannot be read."""

from pathlib import Path

import pytest

from labelgen.label_problems import HARDEST, hardest
from labelgen.making import Request
from labelgen.pipeline import check_file, label_problems, make

RAILWAY = "railway: Marram Quay\nsupplies: {PULSE: {kind: pulse}}\nstrips: {A1: {measured: 110}}\npoints: {P5: {}}\n"


def told(folder: Path, more: str, *, drawn: bool) -> list[tuple[str, int]]:
    path = folder / "quay.yaml"
    path.write_text(RAILWAY.replace("points: {P5: {}}\n", "") + more, encoding="utf-8")
    checked, problems = check_file(path)
    assert checked is not None
    assert not [problem for problem in problems if problem.severity == "error"]
    found = label_problems(checked, drawn=drawn)
    if drawn:
        kinds = frozenset({"flags", "markers", "tags", "plates", "places"})
        made = {problem.code for problem in make(checked, Request(only=kinds)).problems if problem.severity == "error"}
        assert {problem.code for problem in found} == made  # what `make` would refuse, and nothing else
    return sorted({(problem.code, problem.place.line) for problem in found})


LONG = "harbour branch junction signal cabin and coal merchants siding " * 6


@pytest.mark.parametrize(
    ("more", "from_measures", "from_drawing"),
    [
        ("points: {P5: }\n", [], []),
        (f"points: {{P5: {{lever: 5}}}}\nlevers: {{5: {{name: {LONG}}}}}\n", [], [("text-does-not-fit", 5)]),
        (
            "points: {P5: }\nprinting: {flags: wrap}\nfunctions: {normal: {size: 10 mm²}}\n",
            [("flag-unsuited", 5)],
            [("flag-unsuited", 5)],
        ),
        (
            "points: {P5: }\nfunctions: {normal: {size: 1/0.1, flags: sleeve}}\nprinting: {smallest_text: 1.6}\n",
            [("flag-unsuited", 5)],
            [("flag-unsuited", 5)],
        ),
        (
            "points: {P5: }\nsheets: {places: a4-189-25x10}\n",
            [("label-too-large", 5)],
            [("label-too-large", 5)],
        ),
        ("points: {P5: }\nsheets: {flags: a4-270-18x10}\n", [], [("label-too-large", 5)]),
    ],
)
def test_what_is_said(
    tmp_path: Path, more: str, from_measures: list[tuple[str, int]], from_drawing: list[tuple[str, int]]
) -> None:
    assert told(tmp_path, more, drawn=False) == from_measures
    assert told(tmp_path, more, drawn=True) == from_drawing


def test_the_hardest_are_the_longest_in_their_own_order() -> None:
    words = [*("ab" * n for n in range(20)), "é"]
    assert hardest(words, str) == tuple("ab" * n for n in range(20 - HARDEST, 20))
    assert hardest([], str) == ()
