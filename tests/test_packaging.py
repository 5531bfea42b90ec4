"""A built wheel holds all that labelgen needs, and works far from the checkout."""

import os
import subprocess
import sys
from pathlib import Path
from zipfile import ZipFile

import pytest

from labelgen.problems import CODES

TOP = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel of this checkout, built without a network and unpacked as an installer would."""
    folder = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "hatchling", "build", "--target", "wheel", "--directory", str(folder / "built")]
    subprocess.run(build, cwd=TOP, check=True, capture_output=True)
    (wheel,) = (folder / "built").glob("labelgen-*-py3-none-any.whl")
    with ZipFile(wheel) as archive:
        archive.extractall(folder / "installed")
    return folder / "installed"


def run_installed(unpacked: Path, folder: Path, *arguments: str) -> str:
    """Python, with the unpacked wheel before everything else that it could import."""
    environment = {**os.environ, "PYTHONPATH": str(unpacked)}
    done = subprocess.run(
        [sys.executable, *arguments], cwd=folder, env=environment, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_every_data_file_travels_in_the_wheel(unpacked: Path) -> None:
    inside = {
        path.relative_to(unpacked / "labelgen").as_posix()
        for path in unpacked.rglob("*")
        if path.is_file() and path.is_relative_to(unpacked / "labelgen")
    }
    data = [path for name in ("layouts", "fonts") for path in (TOP / name).rglob("*") if path.is_file()]
    wanted = {path.relative_to(TOP).as_posix() for path in data}
    package = [path for path in (TOP / "labelgen").rglob("*") if path.is_file() and "__pycache__" not in path.parts]
    wanted |= {path.relative_to(TOP / "labelgen").as_posix() for path in package}
    assert data
    assert inside == wanted


def test_the_licences_travel_too(unpacked: Path) -> None:
    (info,) = unpacked.glob("*.dist-info")
    licences = {path.name for path in (info / "licenses").rglob("*") if path.is_file()}
    assert licences == {"LICENSE", *(path.name for path in (TOP / "fonts").glob("*-LICENSE.txt"))}


def test_the_wheel_makes_the_example_without_the_checkout(unpacked: Path, tmp_path: Path) -> None:
    where = run_installed(unpacked, tmp_path, "-P", "-c", "import labelgen; print(labelgen.__file__)")
    assert Path(where.strip()).is_relative_to(unpacked)
    run_installed(unpacked, tmp_path, "-P", "-m", "labelgen", "demo", "example")
    assert (tmp_path / "example" / "marram-quay" / "flags.pdf").read_bytes().startswith(b"%PDF-")


def test_the_manual_is_where_the_package_is(unpacked: Path) -> None:
    page = (unpacked / "labelgen" / "manual" / "problems.md").read_text(encoding="utf-8")
    assert page.count("\n## ") == len(CODES)
