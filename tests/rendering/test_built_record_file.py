"""The record's file: whole or not at all, and over no other run's."""

import os
from pathlib import Path

import pytest

from labelgen.rendering.built_record_file import RecordFile, alone


def written(path: Path, content: bytes, seen: bytes | None = None) -> list[str]:
    file = RecordFile(path, seen)
    problems = file.stage(content) or file.put_in_place()
    file.discard()
    return [problem.code for problem in problems]


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_a_first_and_a_second_time(tmp_path: Path) -> None:
    path = tmp_path / "quay.built.yaml"
    assert written(path, b"one") == []
    assert path.read_bytes() == b"one"
    assert written(path, b"two", seen=b"one") == []
    assert path.read_bytes() == b"two"
    assert names(tmp_path) == {"quay.built.yaml"}


def test_nothing_is_in_place_before_it_is_put_there(tmp_path: Path) -> None:
    path = tmp_path / "quay.built.yaml"
    file = RecordFile(path, None)
    assert file.stage(b"new") == []
    assert not path.exists()
    file.discard()
    assert names(tmp_path) == set()


def test_what_is_the_same_is_not_written_again(tmp_path: Path) -> None:
    path = tmp_path / "quay.built.yaml"
    path.write_bytes(b"one")
    before = path.stat()
    assert written(path, b"one", seen=b"one") == []
    assert (path.stat().st_ino, path.stat().st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


def test_what_another_run_has_written_since_stays(tmp_path: Path) -> None:
    path = tmp_path / "quay.built.yaml"
    path.write_bytes(b"theirs")
    assert written(path, b"ours", seen=b"earlier") == ["cannot-write"]
    assert written(path, b"ours", seen=None) == ["cannot-write"]
    assert path.read_bytes() == b"theirs"
    assert names(tmp_path) == {"quay.built.yaml"}


def test_unless_it_is_the_very_same(tmp_path: Path) -> None:
    path = tmp_path / "quay.built.yaml"
    path.write_bytes(b"alike")
    assert written(path, b"alike", seen=None) == []


def test_what_a_killed_run_left_is_cleared_and_what_a_living_one_stages_is_not(tmp_path: Path) -> None:
    gone = os.fork()
    if gone == 0:
        os._exit(0)
    os.waitpid(gone, 0)
    for number in (gone, os.getppid(), 1):
        (tmp_path / f".quay.built.yaml.{number}").write_bytes(b"staged")
    (tmp_path / ".quay.built.yaml.mine").write_bytes(b"the builder's")
    written(tmp_path / "quay.built.yaml", b"one")
    assert names(tmp_path) == {
        "quay.built.yaml",
        ".quay.built.yaml.mine",
        f".quay.built.yaml.{os.getppid()}",
        ".quay.built.yaml.1",
    }


def test_a_run_of_our_own_that_was_interrupted(tmp_path: Path) -> None:
    path = tmp_path / "quay.built.yaml"
    RecordFile(path, None).stage(b"half")
    assert written(path, b"whole") == []
    assert names(tmp_path) == {"quay.built.yaml"}


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    assert written(tmp_path / "nowhere" / "quay.built.yaml", b"one") == ["cannot-write"]


def test_a_folder_in_its_place(tmp_path: Path) -> None:
    path = tmp_path / "quay.built.yaml"
    path.mkdir()
    assert written(path, b"one") == ["cannot-write"]
    assert names(tmp_path) == {"quay.built.yaml"}


def test_a_link_is_followed(tmp_path: Path) -> None:
    (tmp_path / "there").mkdir()
    path = tmp_path / "quay.built.yaml"
    path.symlink_to(tmp_path / "there" / "kept.yaml")
    assert written(path, b"one") == []
    assert path.is_symlink()
    assert path.read_bytes() == b"one"


def test_without_the_means_to_lock_work_goes_on(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with alone(tmp_path / "nothing"):
        pass
    monkeypatch.setitem(__import__("sys").modules, "fcntl", None)
    assert written(tmp_path / "quay.built.yaml", b"one") == []
