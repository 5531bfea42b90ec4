"""tests/install does what is missing, and nothing else. Its helpers (Python, pip, apt, sudo) are stand-ins here."""

import os
import shutil
import subprocess
from collections.abc import Iterable
from pathlib import Path

import pytest

SCRIPT = Path(__file__).resolve().parent / "install"
CORE = ("sh", "cat", "chmod", "cksum", "cp", "dirname", "env", "grep", "head", "mkdir", "rm")
BROWSER_AND_READERS = ("chromium", "pdftoppm", "pdftotext", "fc-list")

# Does what the script asks of Python: tells its version, makes an environment of itself, and lets pip succeed.
PYTHON = r"""
echo "python $*" >>"$LOG"
case "$*" in
    *version_info\[:2\]*) echo python3.11-venv ;;
    *ensurepip*) [ ! -f "$NO_ENSUREPIP" ] ;;
    -V) echo Python 3.11.2 ;;
    "-m venv"*)
        mkdir -p "$4/bin"
        cp "$0" "$4/bin/python"
        echo "VIRTUAL_ENV=$4" >"$4/bin/activate" ;;
    *"pip install"*) [ ! -f "$NO_NETWORK" ] || { echo "no network" >&2; exit 1; } ;;
esac
"""
APT = r"""
echo "apt-get $*" >>"$LOG"
rm -f "$NO_ENSUREPIP" 2>/dev/null || :
"""


class Machine:
    """A folder that the script takes for a machine: a checkout, and a PATH with nothing on it but what is put there."""

    def __init__(self, folder: Path) -> None:
        self.checkout = folder / "check out"
        self.programs = folder / "bin"
        self.log = folder / "log"
        self.no_ensurepip = folder / "no-ensurepip"
        self.no_network = folder / "no-network"
        (self.checkout / "tests").mkdir(parents=True)
        self.programs.mkdir()
        shutil.copy(SCRIPT, self.checkout / "tests" / "install")
        (self.checkout / "pyproject.toml").write_text("[project]\n")
        for name in CORE:
            (self.programs / name).symlink_to(shutil.which(name) or name)
        self.add("python3", PYTHON)
        self.add("apt-get", APT)
        self.add("id", "echo 0")
        self.add_all(BROWSER_AND_READERS, "echo here")

    def add(self, name: str, body: str) -> None:
        program = self.programs / name
        program.write_text(f"#!/bin/sh\n{body}\n")
        program.chmod(0o755)

    def add_all(self, names: Iterable[str], body: str) -> None:
        for name in names:
            self.add(name, body)

    def without(self, *names: str) -> None:
        for name in names:
            (self.programs / name).unlink()

    def install(self, *options: str) -> subprocess.CompletedProcess[str]:
        """Runs the script from another folder; `steps` then holds what it did."""
        self.log.write_text("")
        script = self.checkout / "tests" / "install"
        environment = {
            "PATH": str(self.programs),
            "LOG": str(self.log),
            "NO_ENSUREPIP": str(self.no_ensurepip),
            "NO_NETWORK": str(self.no_network),
        }
        return subprocess.run(
            [str(self.programs / "sh"), str(script), *options],
            cwd=self.programs,
            env=environment,
            capture_output=True,
            text=True,
            check=False,
        )

    @property
    def steps(self) -> list[str]:
        """What was changed on the machine: questions left out."""
        lines = self.log.read_text().splitlines()
        return [
            line for line in lines if line.startswith(("apt-get", "sudo")) or " install " in line or "venv " in line
        ]


@pytest.fixture
def machine(tmp_path: Path) -> Machine:
    return Machine(tmp_path)


def test_first_run_makes_the_environment_and_asks_pip_once(machine: Machine) -> None:
    done = machine.install()
    assert done.returncode == 0, done.stderr
    assert done.stdout == ""
    assert [step.split()[:3] for step in machine.steps] == [["python", "-m", "venv"], ["python", "-m", "pip"]]
    assert machine.steps[1].endswith("--editable .")


@pytest.mark.parametrize("options", [(), ("--tests",)])
def test_second_run_does_nothing_and_says_nothing(machine: Machine, options: tuple[str, ...]) -> None:
    machine.install(*options)
    again = machine.install(*options)
    assert (again.returncode, again.stdout, again.stderr, machine.steps) == (0, "", "", [])


def test_what_the_tests_need_includes_the_rest(machine: Machine) -> None:
    machine.install("--tests")
    assert machine.steps[-1].endswith("--editable .[test]")
    machine.install()
    assert machine.steps == []


def test_the_rest_does_not_include_what_the_tests_need(machine: Machine) -> None:
    machine.install()
    machine.install("--tests")
    assert [step.split()[-1] for step in machine.steps] == [".[test]"]


def test_a_changed_project_file_asks_pip_again(machine: Machine) -> None:
    machine.install()
    (machine.checkout / "pyproject.toml").write_text("[project]\ndependencies = []\n")
    machine.install()
    assert [step.split()[:4] for step in machine.steps] == [["python", "-m", "pip", "install"]]


def test_an_environment_that_was_copied_with_the_checkout_is_made_anew(machine: Machine) -> None:
    machine.install()
    machine.checkout = machine.checkout.rename(machine.checkout.with_name("copied"))
    machine.install()
    assert [step.split()[:3] for step in machine.steps] == [["python", "-m", "venv"], ["python", "-m", "pip"]]


def test_missing_programs_come_from_apt_after_its_lists(machine: Machine) -> None:
    machine.without("chromium", "pdftotext", "fc-list")
    done = machine.install("--tests")
    apt = [step for step in machine.steps if step.startswith("apt-get")]
    assert done.returncode == 0, done.stderr
    assert apt[0].startswith("apt-get update")
    assert apt[1:] == [
        "apt-get install -y -qq --no-install-recommends chromium poppler-utils fontconfig fonts-dejavu-core"
    ]


def test_another_browser_of_the_family_will_do(machine: Machine) -> None:
    machine.without("chromium")
    machine.add("chromium-browser", "echo here")
    machine.install("--tests")
    assert not [step for step in machine.steps if step.startswith("apt-get")]


def test_programs_of_the_tests_are_left_alone_without_them(machine: Machine) -> None:
    machine.without("chromium", "pdftoppm")
    machine.install()
    assert not [step for step in machine.steps if step.startswith("apt-get")]


def test_debians_missing_venv_is_fetched(machine: Machine) -> None:
    machine.no_ensurepip.touch()
    done = machine.install()
    assert done.returncode == 0, done.stderr
    assert machine.steps[1].endswith("python3.11-venv")


def test_sudo_only_when_not_root(machine: Machine) -> None:
    machine.without("chromium")
    machine.add("sudo", 'echo "sudo $*" >>"$LOG"\n"$@"')
    machine.install("--tests")
    assert not [step for step in machine.steps if step.startswith("sudo")]
    machine.add("id", "echo 1000")
    machine.install("--tests")
    assert [step.split()[0] for step in machine.steps] == ["sudo", "apt-get"] * 2


def test_without_sudo_it_says_what_to_do(machine: Machine) -> None:
    machine.without("chromium")
    machine.add("id", "echo 1000")
    done = machine.install("--tests")
    assert done.returncode == 1
    assert "apt-get install chromium" in done.stderr


def test_without_apt_it_names_the_programs(machine: Machine) -> None:
    machine.without("chromium", "apt-get")
    done = machine.install("--tests")
    assert done.returncode == 1
    assert "please install chromium with your system's package manager" in done.stderr


def test_stale_lists_that_cannot_be_refreshed_do_not_stop_it(machine: Machine) -> None:
    machine.without("chromium")
    machine.add("apt-get", 'echo "apt-get $*" >>"$LOG"\ncase "$1" in update) echo unreachable >&2; exit 100 ;; esac')
    done = machine.install("--tests")
    assert done.returncode == 0
    assert "trying all the same" in done.stderr


def test_a_failure_of_pip_is_shown_and_tried_again(machine: Machine) -> None:
    machine.no_network.touch()
    failed = machine.install()
    assert failed.returncode == 1
    assert failed.stderr.splitlines()[-2:] == [
        "no network",
        "install: pip could not install what is needed; what it said stands above",
    ]
    machine.no_network.unlink()
    assert machine.install().returncode == 0
    assert machine.steps[-1].endswith("--editable .")


def test_a_python_that_is_too_old_is_passed_over(machine: Machine) -> None:
    os.rename(machine.programs / "python3", machine.programs / "python3.12")  # noqa: PTH104
    machine.add("python3", "exit 1")
    done = machine.install()
    assert done.returncode == 0, done.stderr


def test_no_python_that_will_do(machine: Machine) -> None:
    machine.add("python3", "exit 1")
    done = machine.install()
    assert done.returncode == 1
    assert "Python 3.11 or later" in done.stderr


@pytest.mark.parametrize(("option", "status"), [("--help", 0), ("--all", 2)])
def test_options(machine: Machine, option: str, status: int) -> None:
    done = machine.install(option)
    assert (done.returncode, machine.steps) == (status, [])
    assert "--tests" in done.stdout + done.stderr
