"""The commands as a builder types them: what is printed where, and exit statuses (section 9 of the format)."""

import csv
import io
import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import jsonschema
import pytest
import short_railway
import yaml
from typer.testing import CliRunner, Result

from labelgen.command_line import app
from labelgen.command_options import folder_beside

MADE = {
    "markers.pdf",
    "flags.pdf",
    "tags.pdf",
    "plates.pdf",
    "places.pdf",
    "fascia-BOX.pdf",
    "fascia-BOX.svg",
    "fascia-BOX.dxf",
    "back-BOX.pdf",
    "drilling-BOX.pdf",
    "drilling-BOX.csv",
    "plan-B1.pdf",
    "operator.pdf",
    "legend.pdf",
    "tests.pdf",
    "schedule.pdf",
    "wires.csv",
    "cut-list.csv",
    "cut-list.pdf",
    "schedule/index.html",
    "schedule/T1/index.html",
    "schedule/T2/index.html",
    "schedule/board/B1/index.html",
    "schedule/lever/08/index.html",
    "schedule/lever/1/index.html",
    "schedule/lever/2/index.html",
    "schedule/lever/4/index.html",
    "schedule/panel/BOX/index.html",
    "schedule/trace/index.html",
    "schedule/work/index.html",
}
LAYERS = ("print", "engrave", "cut", "drill")


def run(*arguments: object) -> Result:
    return CliRunner().invoke(app, [str(argument) for argument in arguments])


@pytest.fixture
def railway(tmp_path: Path) -> Path:
    path = tmp_path / "gull-sands.yaml"
    path.write_text(short_railway.TEXT, encoding="utf-8")
    return path


def files_in(folder: Path) -> set[str]:
    found = (path for path in folder.rglob("*") if path.is_file())
    return {str(path.relative_to(folder)) for path in found if not path.name.startswith(".")}


def contents(folder: Path) -> dict[str, bytes]:
    return {name: (folder / name).read_bytes() for name in files_in(folder)}


def test_make_writes_everything_into_a_folder_named_after_the_description(railway: Path) -> None:
    result = run("make", railway)
    assert result.exit_code == 0, result.stderr
    assert files_in(railway.with_suffix("")) == MADE
    for name in ("markers.pdf", "flags.pdf", "tags.pdf", "plates.pdf", "fascia-BOX.pdf", "wires.csv"):
        assert f"{railway.with_suffix('') / name}: " in result.stdout


def test_make_only_and_into(railway: Path, tmp_path: Path) -> None:
    folder = tmp_path / "prints"
    assert run("make", railway, "--into", folder, "--only", "flags,lists").exit_code == 0
    assert files_in(folder) == {"flags.pdf", "wires.csv", "cut-list.csv", "cut-list.pdf"}


def test_what_is_not_made_again_stays(railway: Path) -> None:
    run("make", railway)
    folder = railway.with_suffix("")
    before = (folder / "tags.pdf").read_bytes()
    (folder / "my notes.txt").write_text("mine")
    assert run("make", railway, "--only", "flags").exit_code == 0
    assert files_in(folder) == MADE | {"my notes.txt"}
    assert (folder / "tags.pdf").read_bytes() == before


def test_a_strip_that_is_gone_takes_its_page_with_it(railway: Path) -> None:
    run("make", railway)
    text = railway.read_text(encoding="utf-8").replace("T2: {at: [600, 250], measured: 110, way_1: right}", "")
    railway.write_text(text.replace("pitch: 8", "pitch: 8, ways: 16"), encoding="utf-8")
    assert run("make", railway, "--afresh").exit_code == 0
    assert files_in(railway.with_suffix("")) == MADE - {"schedule/T2/index.html"}


@pytest.mark.parametrize(
    "words",
    [
        ("--only", "stickers"),
        ("--only", ""),
        ("--only", " , "),
        ("--board", ""),
        ("--sheet", ""),
        ("--start", ""),
        ("--again", ""),
        ("--printer", ""),
        ("--sheet", "flags"),
        ("--sheet", "hats=a4-65"),
        ("--sheet", "flags=a4-999"),
        ("--sheet", "flags=a4-24"),
        ("--start", "flags=0"),
        ("--start", "flags=66"),
        ("--start", "flags=two"),
        ("--board", "B9"),
        ("--colour",),
    ],
)
def test_misused_commands_end_with_2_and_write_nothing(railway: Path, words: tuple[str, ...]) -> None:
    result = run("make", railway, *words)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert words[0].strip("-") in result.stderr
    assert not railway.with_suffix("").exists()


def test_another_sheet_and_a_part_used_one(railway: Path) -> None:
    result = run("make", railway, "--only", "plates", "--sheet", "plates=a4-21", "--start", "plates=20")
    assert result.exit_code == 0, result.stderr
    assert "4 lever plates on 2 sheets a4-21-64x38" in result.stdout


@pytest.mark.parametrize("command", ["check", "make", "wires"])
def test_an_error_ends_with_1_and_writes_nothing(railway: Path, command: str) -> None:
    railway.write_text(short_railway.TEXT.replace("kind: lamps", "kind: lampz"), encoding="utf-8")
    result = run(command, railway)
    assert result.exit_code == 1
    said = result.stdout if command == "check" else result.stderr
    assert "lampz" in said
    assert "line 28" in said
    assert "lamps" in said
    assert "Traceback" not in result.output
    assert files_in(railway.parent) == {"gull-sands.yaml"}


@pytest.mark.parametrize("command", ["check", "make", "wires"])
def test_missing_files_and_folders(tmp_path: Path, command: str) -> None:
    for path in (tmp_path / "nothing.yaml", tmp_path):
        result = run(command, path)
        assert result.exit_code == 1
        assert "Traceback" not in result.output
    assert list(tmp_path.iterdir()) == []


FIGURED = """\
railway: Marram Quay
boards: {B1: {size: [1200, 600], at: [0, 0]}}
supplies:
  PULSE: {kind: pulse, at: [60, 60], volts: 24, microfarads: 4700}
  LIGHT: {kind: dc, at: [60, 200], volts: 12}
strips: {S1: {at: [600, 400], measured: 110}}
points: {P5: {at: [900, 200], supply: PULSE}}
devices: {H1: {kind: lamps, supply: LIGHT, at: [300, 200], milliamps: 100}}
"""


def test_check_with_figures(tmp_path: Path) -> None:
    file = tmp_path / "figured.yaml"
    file.write_text(FIGURED, encoding="utf-8")
    figures = json.loads(run("check", file, "--figures", "--json").stdout)["figures"]
    assert [(throw["lever"], throw["lie"]) for throw in figures["throws"]] == [("5", "normal"), ("5", "reverse")]
    first = figures["throws"][0]
    assert first["stored_joules"] == pytest.approx(4700e-6 * 24**2 / 2)
    assert first["peak_amps"] == pytest.approx(24 / first["loop_ohms"])
    assert first["coils"][0]["share"] == pytest.approx(4.5 / first["loop_ohms"])
    assert [load["device"] for load in figures["loads"]] == ["H1"]
    said = run("check", file, "--figures").stdout
    assert f"{first['loop_ohms']:.2f}" in said
    assert "wires without a length" in said  # those of the lever, whose panel is not described
    assert "H1.L" in said
    assert "LIGHT" in said
    assert "figures" not in json.loads(run("check", file, "--json").stdout)


def test_no_figures_of_what_is_wrong(tmp_path: Path) -> None:
    file = tmp_path / "wrong.yaml"
    file.write_text(FIGURED.replace("supply: LIGHT", "supply: LIGTH"), encoding="utf-8")
    result = run("check", file, "--figures", "--json")
    assert result.exit_code == 1
    assert "figures" not in json.loads(result.stdout)


def test_check_as_json(railway: Path) -> None:
    good = json.loads(run("check", railway, "--json").stdout)
    assert set(good) == {"problems", "accepted"}
    assert not [problem for problem in good["problems"] if problem["severity"] == "error"]
    railway.write_text(short_railway.TEXT.replace("kind: lamps", "kind: lampz"), encoding="utf-8")
    result = run("check", railway, "--json")
    assert result.exit_code == 1
    errors = [problem for problem in json.loads(result.stdout)["problems"] if problem["severity"] == "error"]
    assert [(problem["line"], problem["column"]) for problem in errors] == [(28, 17)]
    keys = {"code", "severity", "message", "hint", "file", "line", "column"}
    assert all(set(problem) == keys for problem in errors)


def test_wires_as_table_csv_and_json_agree(railway: Path) -> None:
    wires = json.loads(run("wires", railway, "--json").stdout)["wires"]
    rows = list(csv.DictReader(io.StringIO(run("wires", railway, "--csv").stdout.lstrip("\ufeff"))))
    table = run("wires", railway).stdout
    assert len(wires) == len(rows)
    assert [str(wire["number"]) for wire in wires] == [row["number"] for row in rows]
    for wire in wires:
        assert wire["from"] in table
        assert wire["to"] in table
    assert f"{len(wires)} wires" in table
    assert run("wires", railway, "--csv", "--json").exit_code == 2


def test_lever_08_is_not_lever_8(railway: Path) -> None:
    wires = json.loads(run("wires", railway, "--json").stdout)["wires"]
    assert {wire["circuit"] for wire in wires} == {"1", "2", "08", "4", "LAMPS", "PULSE", "CAB", "LIGHT"}


def test_new_begins_a_description_that_has_no_errors_and_never_overwrites(tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    assert run("new", path).exit_code == 0
    assert run("check", path).exit_code == 0
    assert run("make", path).exit_code == 0
    path.write_text("railway: mine")
    assert run("new", path).exit_code == 1
    assert path.read_text() == "railway: mine"


def test_demo_makes_the_example(tmp_path: Path) -> None:
    folder = tmp_path / "here"
    assert run("demo", folder).exit_code == 0
    assert {"flags.pdf", "markers.pdf", "tags.pdf", "wires.csv"} <= files_in(folder / "marram-quay")
    assert run("demo", folder).exit_code == 0
    (folder / "marram-quay.yaml").write_text("railway: changed by its builder")
    assert run("demo", folder).exit_code == 1
    assert (folder / "marram-quay.yaml").read_text() == "railway: changed by its builder"


def test_sheets_lists_the_stocks_and_makes_a_test_page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    listed = run("sheets").stdout
    assert "a4-65-38x21" in listed
    assert "us-30-67x25" in listed
    result = run("sheets", "a4-65")
    assert result.exit_code == 0
    assert (tmp_path / "test-a4-65-38x21.pdf").read_bytes().startswith(b"%PDF-")
    assert run("sheets", "a5-1").exit_code == 2


def test_the_schema_accepts_the_examples_as_an_editor_reads_them(tmp_path: Path) -> None:
    schema = json.loads(run("schema").stdout)
    run("new", tmp_path / "mine.yaml")
    for text in (short_railway.TEXT, (tmp_path / "mine.yaml").read_text(encoding="utf-8")):
        jsonschema.validate(json.loads(json.dumps(yaml.safe_load(text), default=str)), schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({"railway": "x", "stripes": {}}, schema)


def test_the_same_description_gives_the_same_bytes(railway: Path, tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    for folder, seed in ((one, "1"), (other, "2")):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": f"Etc/GMT+{seed}"}
        command = [sys.executable, "-m", "labelgen", "make", str(railway), "--into", str(folder)]
        subprocess.run(command, env=environment, check=True, capture_output=True)
    for name in MADE:
        assert (one / name).read_bytes() == (other / name).read_bytes(), name


def test_a_kill_leaves_the_old_files_or_the_new_ones(railway: Path, tmp_path: Path) -> None:
    folder = railway.with_suffix("")
    run("make", railway)
    old = contents(folder)
    railway.write_text(short_railway.TEXT.replace("West loop", "East loop"), encoding="utf-8")
    run("make", railway, "--into", tmp_path / "clean")
    new = contents(tmp_path / "clean")
    assert new != old
    for fifths in range(1, 9):
        command = [sys.executable, "-m", "labelgen", "make", str(railway)]
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(fifths / 5)
        process.send_signal(signal.SIGKILL)
        process.wait()
        assert contents(folder) in (old, new), fifths
    assert run("make", railway).exit_code == 0
    assert contents(folder) == new
    assert not [path for path in railway.parent.iterdir() if path.name.startswith(".")]


def test_a_reader_that_stops_listening_ends_it_quietly(railway: Path) -> None:
    pipe = f"{sys.executable} -m labelgen wires {railway} | head -n 1"
    result = subprocess.run(["sh", "-c", pipe], capture_output=True, text=True, check=True)
    assert result.stderr == ""


@pytest.mark.parametrize(
    ("line", "said"),
    [("sheets: {flags: nonsense}", "no label sheet `nonsense`"), ("schedule: example.org/wiring", "schedule")],
)
def test_check_finds_what_make_would_refuse(railway: Path, line: str, said: str) -> None:
    railway.write_text(f"{short_railway.TEXT}{line}\n", encoding="utf-8")
    result = run("check", railway)
    assert result.exit_code == 1
    assert said in result.stdout


def test_the_labels_of_one_board_are_those_of_its_panel_too(railway: Path) -> None:
    run("make", railway)
    whole = railway.with_suffix("")
    result = run("make", railway, "--board", "B1", "--into", railway.parent / "one")
    assert result.exit_code == 0, result.stderr
    for name in ("flags.pdf", "plates.pdf", "fascia-BOX.pdf"):
        assert (railway.parent / "one" / name).read_bytes() == (whole / name).read_bytes()


def test_a_full_disk_is_said_without_a_traceback(railway: Path) -> None:
    command = f"{sys.executable} -m labelgen wires {railway} --csv > /dev/full"
    result = subprocess.run(["sh", "-c", command], capture_output=True, text=True, check=False)
    assert result.returncode == 1
    assert result.stderr == "labelgen: no space left on device\n"


def test_the_grid_is_on_the_fascia_only_when_it_is_asked_for(railway: Path) -> None:
    assert run("make", railway, "--only", "fascia").exit_code == 0
    svg = railway.with_suffix("") / "fascia-BOX.svg"
    plain = svg.read_text(encoding="utf-8")
    assert run("make", railway, "--only", "fascia", "--grid").exit_code == 0
    squared = svg.read_text(encoding="utf-8")
    layers = {name: [text.split(f'id="{name}"')[1].split("</g>")[0] for text in (plain, squared)] for name in LAYERS}
    assert layers["print"][1].count("<line") > layers["print"][0].count("<line") + 20
    assert all(layers[name][0] == layers[name][1] for name in LAYERS if name != "print")
    assert run("make", railway, "--only", "fascia").exit_code == 0
    assert svg.read_text(encoding="utf-8") == plain


def test_a_proposed_panel_goes_to_standard_output_and_can_be_pasted(railway: Path) -> None:
    bare = yaml.safe_load(short_railway.TEXT)
    bare.pop("panels")
    railway.write_text(yaml.safe_dump(bare), encoding="utf-8")
    result = run("panel", railway, "--size", "400x200")
    assert result.exit_code == 0, result.stderr
    assert yaml.safe_load(result.stdout)["panels"]["PANEL"]["size"] == [400, 200]
    railway.write_text(railway.read_text(encoding="utf-8") + result.stdout, encoding="utf-8")
    assert run("check", railway).exit_code == 0
    again = run("panel", railway)
    assert (again.exit_code, again.stdout) == (1, "")
    assert "on a panel already" in again.stderr


@pytest.mark.parametrize(
    ("size", "said"),
    [("400", "such as 360x160"), ("ax3", "such as 360x160"), ("0x40", "such as 360x160"), ("100x50", "would do")],
)
def test_a_size_that_cannot_be_is_a_misuse(railway: Path, size: str, said: str) -> None:
    bare = yaml.safe_load(short_railway.TEXT)
    bare.pop("panels")
    railway.write_text(yaml.safe_dump(bare), encoding="utf-8")
    result = run("panel", railway, "--size", size)
    assert (result.exit_code, result.stdout) == (2, "")
    assert said in result.stderr


def test_a_panel_is_not_proposed_of_a_description_with_errors(railway: Path) -> None:
    railway.write_text("railway: [", encoding="utf-8")
    assert run("panel", railway).exit_code == 1


@pytest.mark.parametrize("option", ["--again", "--start", "--sheet"])
def test_a_kind_of_label_twice_behind_one_option_is_misused(option: str, railway: Path) -> None:
    result = run("make", railway, option, "flags=9,flags=20")
    assert result.exit_code == 2
    assert "flags stands there twice" in result.stderr


@pytest.mark.parametrize("number", ["9" * 5000, "0", "1000"])
def test_cells_and_sizes_of_any_length_are_read_or_refused(number: str, railway: Path) -> None:
    assert run("make", railway, "--start", f"flags={number}").exit_code == 2
    assert run("panel", railway, "--size", f"{number}00x{number}00").exit_code == 2


@pytest.mark.parametrize(("name", "folder"), [("a.b.yaml", "a.b"), ("my.railway", "my.railway-made"), ("q", "q-made")])
def test_the_folder_is_named_as_the_description_without_its_ending(name: str, folder: str) -> None:
    assert folder_beside(Path("x") / name) == Path("x") / folder
