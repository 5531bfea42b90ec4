"""A file that must not be there yet is written whole, or not at all."""

import errno
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

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


def refusing(number: int) -> Callable[..., None]:
    def refuse(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    return refuse


def test_what_cannot_be_written_is_a_problem_and_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_bytes(b"x")
    assert codes(tmp_path / "file" / "mine.yaml") == ["cannot-write"]
    monkeypatch.setattr(os, "fsync", refusing(errno.ENOSPC))
    assert codes(tmp_path / "mine.yaml") == ["cannot-write"]
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_it_is_on_the_disk_before_it_has_its_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    done: list[str] = []
    for name in ("fsync", "link"):
        monkeypatch.setattr(os, name, noted(done, name, getattr(os, name)))
    assert codes(tmp_path / "mine.yaml") == []
    assert done == ["fsync", "link", "fsync"]


def noted(done: list[str], name: str, real: Callable[..., None]) -> Callable[..., None]:
    def call(*arguments: Any, **options: Any) -> None:
        done.append(name)
        real(*arguments, **options)

    return call


@pytest.mark.parametrize("links", [True, False])
def test_one_that_comes_at_the_last_instant_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, links: bool) -> None:
    path = tmp_path / "mine.yaml"
    real = os.fsync if links else refusing(errno.EPERM)

    def late(*arguments: Any, **options: Any) -> None:
        path.write_bytes(b"the builder's")
        real(*arguments, **options)

    monkeypatch.setattr(os, "fsync" if links else "link", late)
    assert codes(path) == ["not-our-file"]
    assert path.read_bytes() == b"the builder's"
    assert [found.name for found in tmp_path.iterdir()] == ["mine.yaml"]


def test_a_disk_without_second_names_is_written_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "link", refusing(errno.EPERM))
    assert codes(tmp_path / "mine.yaml") == []
    assert [path.read_bytes() for path in tmp_path.iterdir()] == [b"new"]
