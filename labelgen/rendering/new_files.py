"""Writes a file that must not be there yet: a description to begin with is never put over another."""

import os
from pathlib import Path

from labelgen.places import Place
from labelgen.problems import Problem


def write_new(path: Path, content: bytes, *, same_is_fine: bool = False) -> list[Problem]:
    """Writes the file whole, with its folder; one that is there stays. Reports not-our-file and cannot-write.

    `same_is_fine`: a file that is there with that very content is no problem.
    """
    place = Place(file=str(path))
    try:
        if path.exists() or path.is_symlink():
            if same_is_fine and path.is_file() and path.read_bytes() == content:
                return []
            return [
                Problem(
                    code="not-our-file",
                    message=f"there is a {path.name} already, and it stays as it is",
                    hint="Give another name or folder.",
                    place=place,
                )
            ]
        path.parent.mkdir(parents=True, exist_ok=True)
        beside = path.with_name(f".{path.name}.{os.getpid()}")
        beside.write_bytes(content)
        beside.replace(path)
    except OSError as error:
        reason = error.strerror or str(error)
        message = f"{path} could not be written: {reason.lower()}"
        return [Problem(code="cannot-write", message=message, hint="Choose another folder.", place=place)]
    return []
