"""Panels with many levers, for the tests of back sheets."""

from pathlib import Path

from labelgen.making import Checked
from labelgen.pipeline import check_file


def lever_frame(levers: int, width: int, folder: Path, *, kind: str = "twin-coil", more: str = "") -> Checked:
    """A row of levers, their feed from lever to lever."""
    strips = "".join(f"  S{n}: {{board: B1, at: [{150 * n}, 300], ways: 48, measured: 470}}\n" for n in range(1, 9))
    points = "".join(f"  P{n}: {{board: B1, kind: {kind}}}\n" for n in range(1, levers + 1))
    path = folder / "row.yaml"
    path.write_text(
        "railway: Marram Quay\nboards: {B1: {size: [1500, 600]}}\n"
        "supplies:\n  PULSE: {kind: pulse, board: B1, feed_at: panel}\n"
        f"strips:\n{strips}points:\n{points}"
        f"panels:\n  BOX:\n    board: B1\n    size: [{width}, 200]\n    levers: {{row: 10}}\n{more}",
        encoding="utf-8",
    )
    checked, problems = check_file(path)
    assert checked is not None, problems
    return checked
