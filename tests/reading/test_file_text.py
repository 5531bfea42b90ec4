"""What can be wrong with a file before anyone looks at what it says."""

import os
from pathlib import Path

import pytest

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.file_text import LARGEST_BYTES, read_bytes
from labelgen.reading.yaml_nodes import read_yaml


def only_problem(path: Path) -> Problem:
    document, problems = read_yaml(path)
    assert document is None
    assert len(problems) == 1
    assert problems[0].place == Place(file=str(path))
    return problems[0]


def test_a_missing_file_names_the_nearest(tmp_path: Path) -> None:
    (tmp_path / "marram-quay.yaml").write_text("railway: x\n")
    problem = only_problem(tmp_path / "maram-quay.yaml")
    assert problem.code == "file-missing"
    assert "marram-quay.yaml" in problem.hint


def test_the_ending_may_be_forgotten(tmp_path: Path) -> None:
    (tmp_path / "q.yaml").write_text("railway: x\n")
    assert "q.yaml" in only_problem(tmp_path / "q").hint


@pytest.mark.parametrize("name", ["other.yaml", "no-such-folder/quay.yaml"])
def test_a_missing_file_that_looks_like_nothing(tmp_path: Path, name: str) -> None:
    problem = only_problem(tmp_path / name)
    assert problem.code == "file-missing"
    assert "spelled" in problem.hint


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    assert only_problem(tmp_path).code == "file-is-folder"


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert only_problem(tmp_path / "pipe").code == "file-unreadable"


@pytest.mark.parametrize("name", ["a\0b", "x" * 5000])
def test_names_that_no_file_can_have(tmp_path: Path, name: str) -> None:
    assert only_problem(tmp_path / name).code in ("file-unreadable", "file-missing")


def test_a_file_that_may_not_be_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "quay.yaml"
    path.write_text("railway: x\n")

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    problem = only_problem(path)
    assert problem.code == "file-unreadable"
    assert "Permission denied" in problem.hint


def test_a_file_of_fifty_megabytes_is_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "quay.yaml"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    monkeypatch.delattr(Path, "open")
    problem = only_problem(path)
    assert problem.code == "file-too-large"
    assert "50.0 MB" in problem.message


def test_bytes_beyond_the_limit() -> None:
    source, problems = read_bytes(b"#" * (LARGEST_BYTES + 1), "quay.yaml")
    assert (source, [one.code for one in problems]) == (None, ["file-too-large"])


def test_what_was_typed_is_what_is_shown(tmp_path: Path) -> None:
    path = tmp_path / "quay.yaml"
    path.write_bytes("\ufeffrailway: x\r\np:\r\n\ta: \u202e1\r\n".encode())
    _, problems = read_yaml(path)
    assert [(one.code, one.place.line, one.place.column) for one in problems] == [
        ("tab", 3, 1),
        ("odd-character", 3, 5),
    ]
    assert {one.place.source for one in problems} == {"\ta: \u202e1"}
