"""A file that must not be there yet is written whole, or not at all."""

from pathlib import Path

import pytest

from labelgen.rendering.new_files import write_new


def codes(path: Path, content: bytes = b"new", *, same_is_fine: bool = False) -> list[str]:
    return [problem.code for problem in write_new(path, content, same_is_fine=same_is_fine)]


def test_it_is_written_with_its_folder(tmp_path: Path) -> None:
    path = tmp_path / "a" / "b" / "mine.yaml"
    assert codes(path) == []
    assert path.read_bytes() == b"new"
    assert [found.name for found in path.parent.iterdir()] == ["mine.yaml"]


def test_one_that_is_there_stays(tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    path.write_bytes(b"old")
    assert codes(path) == ["not-our-file"]
    assert codes(path, same_is_fine=True) == ["not-our-file"]
    assert codes(path, b"old", same_is_fine=True) == []
    assert codes(path, b"old") == ["not-our-file"]
    assert path.read_bytes() == b"old"


def test_a_folder_or_a_dangling_link_in_its_place_is_not_ours(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "nowhere")
    assert codes(tmp_path / "folder", same_is_fine=True) == ["not-our-file"]
    assert codes(tmp_path / "link") == ["not-our-file"]


def test_what_cannot_be_written_is_a_problem(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").write_bytes(b"x")
    assert codes(tmp_path / "file" / "mine.yaml") == ["cannot-write"]

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    assert codes(tmp_path / "mine.yaml") == ["cannot-write"]
    assert not (tmp_path / "mine.yaml").exists()
