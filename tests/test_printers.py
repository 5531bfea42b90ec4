"""What printers need is kept for every railway, and looked at only when a printer is named."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typer.testing import CliRunner

from labelgen.command_line import app
from labelgen.model.correction import Correction
from labelgen.printers import correction_of, correction_words, keep_printer, printers_file

HALL = Correction(scale=(1.004016, 1.005025), shift=(-0.9, 0.295))
ROLLER = Correction(shift=(0.5, -0.25), papers=((57, 32),))


def test_printers_are_kept_and_found_again(tmp_path: Path) -> None:
    path = tmp_path / "deep" / "printers.yaml"
    assert keep_printer("hall", HALL, path) == []
    assert keep_printer("roller", ROLLER, path) == []
    assert correction_of("hall", path) == (HALL, [])
    assert correction_of("roller", path) == (ROLLER, [])
    assert keep_printer("hall", ROLLER, path) == []
    assert correction_of("hall", path) == (ROLLER, [])
    assert correction_of("roller", path) == (ROLLER, [])
    assert [one.name for one in path.parent.iterdir()] == ["printers.yaml"]


@given(st.floats(0.9, 1.1), st.floats(0.9, 1.1), st.floats(-25, 25), st.floats(-25, 25))
def test_what_is_written_is_right_to_a_hundredth_of_a_mm_on_the_whole_page(
    across: float, down: float, dx: float, dy: float
) -> None:
    import tempfile

    wanted = Correction(scale=(across, down), shift=(dx, dy))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "printers.yaml"
        assert keep_printer("p", wanted, path) == []
        found, problems = correction_of("p", path)
    assert problems == []
    assert isinstance(found, Correction)
    assert found.at(210, 297) == pytest.approx(wanted.at(210, 297), abs=0.01)


def test_a_printer_that_is_not_known(tmp_path: Path) -> None:
    path = tmp_path / "printers.yaml"
    assert "there is none yet" in str(correction_of("hall", path)[0])
    keep_printer("hall", HALL, path)
    assert "there are hall" in str(correction_of("hull", path)[0])


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("printers: {hall: {scale: 1,004}}", 1),
        ("printers:\n  hall: {scale: 1.5}", 2),
        ("printers:\n  hall: {shift: 3}", 2),
        ("printers:\n  hall: {stretch: 3}", 2),
        ("printers: [\n", 1),
        ("railway: Marram Quay", 1),
        ("", 1),
    ],
)
def test_what_is_broken_is_said_and_never_written_over(tmp_path: Path, text: str, line: int) -> None:
    path = tmp_path / "printers.yaml"
    path.write_text(text, encoding="utf-8")
    for problems in (correction_of("hall", path)[1], keep_printer("hall", HALL, path)):
        (problem,) = problems
        assert problem.code == "printers-unreadable"
        assert problem.place.file == str(path)
        assert problem.place.line == line
    assert path.read_text(encoding="utf-8") == text


def test_what_cannot_be_read_or_written_is_said(tmp_path: Path) -> None:
    (tmp_path / "printers.yaml").mkdir()
    assert [one.code for one in correction_of("hall", tmp_path / "printers.yaml")[1]] == ["printers-unreadable"]
    (tmp_path / "file").write_bytes(b"")
    assert [one.code for one in keep_printer("hall", HALL, tmp_path / "file" / "printers.yaml")] == ["cannot-write"]


def test_the_words_are_those_of_a_description() -> None:
    assert correction_words(HALL) == "scale: [1.004016, 1.005025], shift: [-0.9, 0.295]"
    assert correction_words(Correction(shift=(-0.00001, 0))) == "scale: [1, 1], shift: [0, 0]"


# The commands.


@pytest.fixture
def at_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A home of its own, and a description in it."""
    for name in ("HOME", "XDG_CONFIG_HOME", "APPDATA", "LOCALAPPDATA", "WIN_PD_OVERRIDE_ROAMING_APPDATA"):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "quay.yaml").write_text(
        "railway: Marram Quay\nsupplies: {PULSE: {kind: pulse}}\nstrips: {A1: {measured: 110}}\npoints: {P5: {}}\n"
    )
    return tmp_path


def run(*arguments: object) -> tuple[int, str, str]:
    result = CliRunner().invoke(app, [str(one) for one in arguments])
    return result.exit_code, result.stdout, result.stderr


MEASURED = ("sheets", "a4-65", "--measured", "199.2x278.6", "--off", "0.8,-0.4")


def test_the_lines_to_paste_do_what_the_kept_printer_does(at_home: Path) -> None:
    status, pasted, _ = run(*MEASURED)
    assert (status, pasted) == (0, "printing: {scale: [1.004016, 1.005025], shift: [-0.899, 0.295]}\n")
    assert not (at_home / "home").exists(), "without a name nothing is kept"
    assert run(*MEASURED, "--printer", "hall")[0] == 0
    assert printers_file().is_relative_to(at_home / "home")
    assert run("make", "quay.yaml", "--only", "flags", "--printer", "hall", "--into", "kept")[0] == 0
    description = (at_home / "quay.yaml").read_text(encoding="utf-8")
    (at_home / "other").mkdir()
    (at_home / "other" / "quay.yaml").write_text(description + pasted, encoding="utf-8")
    assert run("make", "other/quay.yaml", "--only", "flags", "--into", "by-hand")[0] == 0
    kept, by_hand = ((at_home / name / "flags.pdf").read_bytes() for name in ("kept", "by-hand"))
    assert kept == by_hand
    assert run("make", "quay.yaml", "--only", "flags", "--into", "plain")[0] == 0
    assert (at_home / "plain" / "flags.pdf").read_bytes() != kept


def test_without_the_option_no_byte_changes(at_home: Path) -> None:
    labels = ("make", "quay.yaml", "--only", "flags,markers,tags,plates", "--into")
    run(*labels, "before")
    run(*MEASURED, "--printer", "hall")
    run(*labels, "after")
    files = sorted(path.relative_to(at_home / "before") for path in (at_home / "before").rglob("*.pdf"))
    assert files
    for name in files:
        assert (at_home / "before" / name).read_bytes() == (at_home / "after" / name).read_bytes(), name
    printers_file().write_text("broken: [", encoding="utf-8")
    assert run(*labels, "after")[0] == 0
    status, _, told = run(*labels, "after", "--printer", "hall")
    assert (status, "printers-unreadable" in told) == (1, True)


def test_misuse_is_said(at_home: Path) -> None:
    assert run("make", "quay.yaml", "--printer", "hall")[::2] == (
        2,
        "labelgen: --printer: nothing is kept of a printer hall; there is none yet "
        "(labelgen sheets ID --measured … --printer hall)\n",
    )
    assert run("sheets", "a4-65", "--measured", "1x1")[0] == 2
    assert run("sheets", "a4-65", "--off", "x")[0] == 2
    assert [path.name for path in at_home.iterdir()] == ["quay.yaml"]


def test_a_page_that_proves_what_is_kept(at_home: Path) -> None:
    run(*MEASURED, "--printer", "hall")
    assert run("sheets", "a4-65", "--printer", "hall")[:2] == (
        0,
        "test-a4-65-38x21-hall.pdf: print it at actual size and hold it against a sheet of labels\n",
    )
    run("sheets", "a4-65")
    plain, proof = ((at_home / f"test-a4-65-38x21{name}.pdf").read_bytes() for name in ("", "-hall"))
    assert plain != proof


def test_own_stock_is_listed_and_tested(at_home: Path) -> None:
    with (at_home / "quay.yaml").open("a") as file:
        file.write("stocks:\n  drum: {paper: roll, size: [40, 40], shape: round}\n")
    listed = run("sheets", "--file", "quay.yaml")[1]
    assert [line.split()[:2] for line in listed.splitlines() if line.startswith(("drum", "roll-"))] == [
        ["roll-1-57x32", "roll"],
        ["drum", "roll"],
    ]
    assert "40 × 40 round" in listed
    assert run("sheets", "drum", "--file", "quay.yaml")[0] == 0
    assert (at_home / "test-drum.pdf").exists()
    assert run("sheets", "drum")[0] == 2
    assert run("sheets", "--file", "nowhere.yaml")[0] == 1


@pytest.mark.parametrize("name", ["Office laser", "Büro", "P[1]", "a: b", "../x", ""])
def test_a_name_that_is_no_word_is_refused_before_anything_is_kept(name: str, at_home: Path) -> None:
    status, _, told = run(*MEASURED, "--printer", name)
    assert status == 2
    assert "one word of letters" in told
    assert not (at_home / "home").exists()
