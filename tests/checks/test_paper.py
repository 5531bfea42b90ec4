"""How far a wire list agrees with the rules: counted by hand on one point, which makes 7 wires (section 5.3)."""

from pathlib import Path

from labelgen.checks.paper import agreement, paper_and_rules
from labelgen.pipeline import check_file
from labelgen.problems import Problem

TOP = """\
railway: Marram Quay
boards: {West: {size: [1200, 600]}}
supplies: {PULSE: {kind: pulse}}
strips: {A1: {measured: 110}}
points: {P5: , P6: }
"""
ALL_OF_5 = "L5.N,A1.1\nA1.1,P5.N\nL5.F,A1.2\nL5.R,A1.3\nP5.R,A1.3\nPULSE.return,P5.C\nP6.C,P5.C\n"


def found(folder: Path, rows: str, more: str = "") -> tuple[list[Problem], tuple[int, ...]]:
    (folder / "wires.csv").write_text(f"from,to\n{rows}", encoding="utf-8")
    path = folder / "quay.yaml"
    path.write_text(f"{TOP}wire_list: wires.csv\n{more}", encoding="utf-8")
    checked, problems = check_file(path)
    assert checked is not None
    (paper,) = checked.description.papers
    one = agreement(paper, checked.netlist)
    notes = [problem for problem in problems if problem.code == "paper-and-rules"]
    assert notes == paper_and_rules(checked.description, checked.netlist)
    return notes, (one.made, one.same, one.missing, one.extra, one.known, one.devices)


def test_a_list_that_knows_one_point(tmp_path: Path) -> None:
    (note,), counts = found(tmp_path, f"{ALL_OF_5}A1.11,A1.12\nA1.10,\nL6.N,\n")
    assert counts == (14, 7, 7, 1, 1, 2)
    assert note.message == (
        "of the 14 wires that the rules make, 7 are in wires.csv and 7 are not; it lists 1 more; "
        "1 of 2 devices has every wire on paper; 2 wires go nowhere on paper"
    )
    assert note.place.line == 6


def test_an_empty_list(tmp_path: Path) -> None:
    (note,), counts = found(tmp_path, "A1.10,\n")
    assert counts == (14, 0, 14, 0, 0, 2)
    assert note.message.endswith("0 of 2 devices have every wire on paper; 1 wire goes nowhere on paper")


def test_one_wire_reads_as_one(tmp_path: Path) -> None:
    (note,), _ = found(tmp_path, "L5.N,A1.1\n")
    assert "1 is in wires.csv and 13 are not" in note.message
    assert "nowhere" not in note.message


def test_a_wire_of_the_description_is_not_on_paper(tmp_path: Path) -> None:
    _, counts = found(tmp_path, "A1.1,P5.N\n", "wires: [{from: L5.N, to: A1.1}, {from: A1.11, to: A1.12}]\n")
    assert counts == (14, 1, 13, 0, 0, 2)


def test_rows_without_ends(tmp_path: Path) -> None:
    (tmp_path / "wires.csv").write_text("number,from,to\n1,A1.11,A1.12\n2,,\n", encoding="utf-8")
    path = tmp_path / "quay.yaml"
    for rows, words in (
        ("2,,\n", "1 row names no end and is passed over"),
        ("2,,\n3,,\n", "2 rows name no end and are"),
    ):
        (tmp_path / "wires.csv").write_text(f"number,from,to\n1,A1.11,A1.12\n{rows}", encoding="utf-8")
        path.write_text(f"{TOP}wire_list: wires.csv\n", encoding="utf-8")
        assert [words in one.message for one in check_file(path)[1] if one.code == "paper-and-rules"] == [True]


def test_no_list_no_note(tmp_path: Path) -> None:
    path = tmp_path / "quay.yaml"
    (tmp_path / "points.csv").write_text("id\nP7\n", encoding="utf-8")
    path.write_text(f"{TOP}device_list: points.csv\n", encoding="utf-8")
    assert "paper-and-rules" not in {one.code for one in check_file(path)[1]}


def test_a_list_with_the_very_wires_of_the_rules_is_not_spoken_of(tmp_path: Path) -> None:
    both = ALL_OF_5 + "L6.N,A1.4\nA1.4,P6.N\nL6.F,A1.5\nL6.R,A1.6\nP6.R,A1.6\nPULSE.feed,A1.2\nA1.2,A1.5\n"
    notes, counts = found(tmp_path, both)
    assert counts == (14, 14, 0, 0, 2, 2)
    assert notes == []
    assert len(found(tmp_path, f"{both}L6.N,\n")[0]) == 1, "a wire that goes nowhere is worth a word"
