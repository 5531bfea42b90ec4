"""What spoils a task, found by its nets: the same as when the power is followed through each fault by itself."""

from pathlib import Path

import generated_railways
import pytest

from labelgen.data_files import layouts
from labelgen.making import Checked
from labelgen.pipeline import check_file
from labelgen.problems import has_errors
from labelgen.tracing.faults import joined_or_exchanged
from labelgen.tracing.spoilers import Spoilers
from labelgen.tracing.working import Working

CASES = Path(__file__).parents[1] / "checks" / "cases"


def compare(railway: Checked, every: int = 1) -> int:
    working = Working(railway.description, railway.netlist)
    faults = list(joined_or_exchanged(railway.netlist, working))
    spoilers = Spoilers(working, faults)
    tasks = [task for action in working.actions for task in working.tasks(action)][::every]
    for task in tasks:
        one_by_one = {fault for fault in faults if not working.works(task, fault.change)}
        assert spoilers.of(task) == one_by_one, task
    return len(tasks)


def checked(path: Path) -> Checked | None:
    found, problems = check_file(path)
    return None if has_errors(problems) else found


def test_the_example() -> None:
    example = checked(layouts("railways") / "marram-quay.yaml")
    assert example is not None
    assert compare(example) > 30


def test_two_boards_with_plugs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(generated_railways, "POINTS_A_BOARD", 10)
    path = tmp_path / "twenty.yaml"
    path.write_text(generated_railways.railway(20), encoding="utf-8")
    twenty = checked(path)
    assert twenty is not None
    assert compare(twenty, 3) > 10


def test_every_fourth_good_case() -> None:
    """Of kinds and oddities: diode matrices, crossings, contacts of their own, supplies on supplies."""
    good = [checked(path) for path in sorted(CASES.glob("*/good.yaml"))[::4]]
    assert sum(compare(railway) for railway in good if railway is not None) > 100
