"""README.md does what it says: its commands run, its tables are what comes out, its links lead somewhere."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parent.parent
README = (TOP / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
SHELL = [body for language, body in BLOCKS if language == "sh"]
SET_UP = SHELL[:2]


def shell(command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """A command as a reader types it, with `labelgen` found in the environment that runs the tests."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    environment = {**os.environ, "PATH": path}
    return subprocess.run(
        ["sh", "-eu", "-c", command], cwd=folder, env=environment, capture_output=True, text=True, check=False
    )


def table(under: str) -> list[list[str]]:
    """The cells of the first table below a heading, without its head."""
    section = README.split(f"## {under}\n", 1)[1].split("\n## ", 1)[0]
    rows = [line for line in section.splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in row.strip("|").split("|")] for row in rows[2:]]


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What the README's first command makes, without the set-up in front of it."""
    folder = tmp_path_factory.mktemp("demo")
    command = SET_UP[0].split("&&")[1].strip().removeprefix(".venv/bin/")
    done = shell(command, folder)
    assert done.returncode == 0, done.stderr
    return folder / "marram-quay" / "marram-quay"


@pytest.fixture(scope="module")
def reader(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[subprocess.CompletedProcess[str]]]:
    """A folder in which everything that the README shows was typed in, in order, and how each command went."""
    folder = tmp_path_factory.mktemp("reader")
    for language, body in BLOCKS:
        name = re.match(r"# (\S+\.yaml)\n", body)
        if language == "yaml" and name:
            (folder / name[1]).write_text(body, encoding="utf-8")
    lines = [line for block in SHELL[2:] for line in block.splitlines()]
    return folder, [shell(line, folder) for line in lines]


def test_the_job_stands_first_then_the_two_commands() -> None:
    title, job, first, second, *_ = README.split("\n\n")
    assert title == "# labelgen"
    assert not job.startswith(("#", "```", "|", "-")), "one paragraph that states the job comes first"
    assert [first, second] == [f"```sh\n{body}```" for body in SET_UP]
    assert all(body.count("\n") == 1 for body in SET_UP), "each is one line, alone in its block"


def test_ci_calls_the_second_command() -> None:
    script = (TOP / ".ci" / "run").read_text(encoding="utf-8")
    assert script.startswith("#!/usr/bin/env bash\n")
    calls = [line for line in script.splitlines() if "tests/" in line]
    assert calls == [SET_UP[1].strip()]


@pytest.mark.parametrize("command", SET_UP)
def test_the_scripts_of_the_set_up_are_there(command: str) -> None:
    scripts = re.findall(r"sh (tests/\w+)", command)
    assert scripts
    for script in scripts:
        assert subprocess.run(["sh", "-n", str(TOP / script)], check=False).returncode == 0


def test_every_other_command_runs(reader: tuple[Path, list[subprocess.CompletedProcess[str]]]) -> None:
    _, runs = reader
    assert runs
    failed = {run.args[-1]: run.stderr for run in runs if run.returncode != 0}
    assert not failed


def test_the_wires_shown_are_the_wires_found(reader: tuple[Path, list[subprocess.CompletedProcess[str]]]) -> None:
    folder, _ = reader
    found = json.loads(shell("labelgen wires harbour.yaml --json", folder).stdout)["wires"]
    shown = [row[:4] for row in table("A small example")]
    assert [[str(wire["number"]), wire["head"], wire["from"], wire["to"]] for wire in found] == shown


def test_the_files_listed_are_the_files_made(demo: Path) -> None:
    patterns = [
        name.replace("PANEL", "*").replace("BOARD", "*")
        for row in table("What comes out")
        for name in re.findall(r"`(.+?)`", row[0])
    ]
    missing = [pattern for pattern in patterns if not list(demo.glob(pattern))]
    made = [path for path in demo.iterdir() if path.is_file() and not path.name.startswith(".")]
    unlisted = [path.name for path in made if not any(path.match(pattern) for pattern in patterns)]
    assert (missing, unlisted) == ([], [])


def test_the_commands_listed_are_the_commands_there_are(tmp_path: Path) -> None:
    rows = table("The commands")
    listed = [re.findall(r"labelgen (\w+)", row[0])[0] for row in rows]
    helped = shell("labelgen --help", tmp_path).stdout
    commands = helped.split("Commands", 1)[1]
    assert sorted(listed) == sorted(set(re.findall(r"^\W*([a-z]+)\s", commands, re.MULTILINE)))


def test_the_options_listed_are_understood(tmp_path: Path) -> None:
    for row in table("The commands"):
        name = re.findall(r"labelgen (\w+)", row[0])[0]
        helped = shell(f"labelgen {name} --help", tmp_path).stdout
        for option in re.findall(r"--[a-z-]+", row[1]):
            assert option in helped, f"labelgen {name} {option}"


@pytest.mark.parametrize(
    "page", ["README.md", "DEVELOPERS.md", "labelgen/manual/description.md", "labelgen/manual/problems.md"]
)
def test_links_lead_somewhere(page: str) -> None:
    text = (TOP / page).read_text(encoding="utf-8")
    links = re.findall(r"\]\(([^)#]+)", text)
    assert [link for link in links if not ((TOP / page).parent / link).exists()] == []
