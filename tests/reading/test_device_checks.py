"""What is said of one device must agree with itself."""

from pathlib import Path

import pytest

from labelgen.reading.description_reader import read_description, read_description_text

HEAD = "railway: Marram Quay\nsupplies: {PULSE: {kind: pulse}}\nstrips: {A1: {}}\n"


def told(things: str) -> list[tuple[str, int, int]]:
    found = read_description_text(HEAD + things)[1]
    return [(problem.code, problem.place.line, problem.place.column) for problem in found]


@pytest.mark.parametrize("ways", ["[4, 5, 6]", "[3, 4, 5]"])
def test_way_and_ways_together(ways: str) -> None:
    assert told(f"points: {{P5: {{strip: A1, way: 3, ways: {ways}}}}}\n") == [("bad-ways", 4, 31)]
    assert told(f"devices: {{H1: {{kind: twin-coil, way: 3, ways: {ways}}}}}\n") == [("bad-ways", 4, 38)]


@pytest.mark.parametrize("keys", ["way: 3", "ways: [3, 4, 5]", "ways: []"])
def test_one_of_them(keys: str) -> None:
    assert told(f"points: {{P5: {{strip: A1, {keys}}}}}\n") == []


@pytest.mark.parametrize(("ways", "codes"), [("3, 4, 5", []), ("4, 5, 6", ["bad-ways"])])
def test_a_spreadsheet_may_have_both_if_they_agree(tmp_path: Path, ways: str, codes: list[str]) -> None:
    """labelgen itself fills both columns of a list that it gives back."""
    (tmp_path / "points.csv").write_text(f'id,strip,way,ways\nP5,A1,3,"{ways}"\n', encoding="utf-8")
    (tmp_path / "quay.yaml").write_text(f"{HEAD}device_list: points.csv\n", encoding="utf-8")
    assert [problem.code for problem in read_description(tmp_path / "quay.yaml")[1]] == codes
