"""Which file a description may name, and what it may be."""

import os
from pathlib import Path

import pytest

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.spreadsheet_file import Named, load, read_rows

HERE = Place(file="quay.yaml", line=9)
THERE = Place(file="quay.yaml", line=10)


def named(file: str, sheet: str | None = None) -> Named:
    return Named(file=file, called=file, at=HERE, sheet=sheet, sheet_at=THERE)


def refused(folder: Path | None, file: str) -> Problem:
    data, (problem,) = load(folder, named(file))
    assert data is None
    assert problem.place == HERE
    return problem


def not_read(data: bytes) -> Problem:
    grid, (problem,) = read_rows(data, named("wires.csv"))
    assert grid is None
    assert problem.place == HERE
    assert problem.code == "bad-spreadsheet"
    return problem


def test_beside_the_description_or_below_it(tmp_path: Path) -> None:
    (tmp_path / "lists").mkdir()
    (tmp_path / "lists" / "wires.csv").write_bytes(b"here")
    assert load(tmp_path, named("lists/wires.csv")) == (b"here", [])
    assert load(tmp_path, named("./lists/wires.csv")) == (b"here", [])


@pytest.mark.parametrize(
    "file",
    ["../wires.csv", "/etc/hostname", "C:\\wires.csv", "lists/../../wires.csv", "..\\wires.csv", "", " ", "a\0b"],
)
def test_files_elsewhere_are_not_opened(tmp_path: Path, file: str) -> None:
    folder = tmp_path / "railway"
    folder.mkdir()
    (tmp_path / "wires.csv").write_bytes(b"here")
    problem = refused(folder, file)
    assert problem.code == "bad-spreadsheet"
    assert "beside the description" in problem.message


def test_a_link_that_leads_elsewhere_is_not_followed(tmp_path: Path) -> None:
    folder = tmp_path / "railway"
    folder.mkdir()
    (tmp_path / "wires.csv").write_bytes(b"here")
    (folder / "wires.csv").symlink_to(tmp_path / "wires.csv")
    assert refused(folder, "wires.csv").code == "bad-spreadsheet"
    (folder / "round.csv").symlink_to(folder / "round.csv")
    assert refused(folder, "round.csv").code in {"bad-spreadsheet", "file-unreadable", "file-missing"}


def test_what_is_no_file(tmp_path: Path) -> None:
    (tmp_path / "lists").mkdir()
    assert refused(tmp_path, "lists").code == "file-is-folder"
    os.mkfifo(tmp_path / "pipe.csv")
    assert refused(tmp_path, "pipe.csv").code == "file-unreadable"
    assert refused(None, "wires.csv").code == "bad-spreadsheet"
    assert refused(tmp_path, "x" * 300 + ".csv").code == "file-unreadable"
    (tmp_path / "wires.csv").write_bytes(b"here")
    assert refused(tmp_path, "wire.csv").hint == "Did you mean `wires.csv`?"
    assert "own folder" in refused(tmp_path, "something else.xlsx").hint


def test_a_folder_that_is_not_there_names_nothing(tmp_path: Path) -> None:
    assert refused(tmp_path / "nowhere", "wires.csv").code in {"file-missing", "file-unreadable"}


def test_large_files(tmp_path: Path) -> None:
    (tmp_path / "wires.csv").write_bytes(b"x" * 10_000_001)
    assert refused(tmp_path, "wires.csv").code == "file-too-large"
    (tmp_path / "wires.csv").write_bytes(b"x" * 10_000_000)
    assert load(tmp_path, named("wires.csv"))[1] == []


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"", "nothing in"),
        (b" \r\n", "nothing in"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600, "old form .xls"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + "EncryptedPackage".encode("utf-16-le"), "password"),
        (b"PK\x03\x04" + b"\0" * 26 + b"mimetypeapplication/vnd.oasis.opendocument.spreadsheet", "OpenDocument"),
        (b"PK\x03\x04 cut short", "damaged"),
        (b"%PDF-1.7", "a PDF"),
        (b"{\\rtf1 hello}", "a text document"),
        (b"\xef\xbb\xbf <html><table>", "a web page"),
    ],
)
def test_other_forms(data: bytes, what: str) -> None:
    """The first bytes of each form: [MS-CFB] 2.2, [MS-OFFCRYPTO] 2.3.4.4, OpenDocument 1.3 part 2 (3.3)."""
    assert what in not_read(data).message


def test_a_csv_file_has_no_sheets() -> None:
    grid, (problem,) = read_rows(b"from,to\n", named("wires.csv", sheet="As built"))
    assert grid is None
    assert (problem.code, problem.place) == ("bad-spreadsheet", THERE)


def test_what_it_holds_decides_and_not_its_name() -> None:
    grid, problems = read_rows(b"from,to\nA1.1,P5.N\n", named("wires.xlsx"))
    assert problems == []
    assert grid is not None
    assert grid.sheet is None
