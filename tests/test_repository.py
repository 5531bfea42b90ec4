"""The laws of the repository: every problem is documented and shown, and the house is as DEVELOPERS.md says it is."""

import ast
import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from typing import Any, get_args

import pytest
import yaml
from PIL import Image, ImageChops, ImageDraw, ImageFont
from pydantic import BaseModel

from labelgen import typefaces
from labelgen.data_files import layouts
from labelgen.keeping import printed_or_not
from labelgen.makers.maker_list import MAKERS
from labelgen.making import Request
from labelgen.model.built.record_labels import labels_of
from labelgen.model.description import Description
from labelgen.model.kinds import LEVER_CONTACTS, SUPPLY_TERMINALS
from labelgen.pipeline import check_file, label_problems, make
from labelgen.printers import correction_of
from labelgen.problems import CODES, Problem, has_errors
from labelgen.rendering.output_folder import write_folder
from labelgen.standards.functions import DEFAULT_FUNCTIONS, PATTERNS

TOP = Path(__file__).resolve().parent.parent
MANUAL = TOP / "labelgen" / "manual"
CASES = TOP / "tests" / "checks" / "cases"
PACKAGE = sorted((TOP / "labelgen").rglob("*.py"))
DESCRIPTION_PAGE = (MANUAL / "description.md").read_text(encoding="utf-8")


def tracked_files() -> Iterator[Path]:
    """Every file that is kept under version control, as far as this can be told without asking for it."""
    for name in (".ci", "labelgen", "layouts", "fonts", "tests"):
        yield from (path for path in (TOP / name).rglob("*") if path.is_file() and "__pycache__" not in path.parts)
    yield from (path for path in TOP.iterdir() if path.is_file() and path.name != ".coverage")


def modules_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


# Problems: each has its section in the manual, and is shown by a pair of files, or by one of these.


def _too_many_devices(folder: Path) -> list[Problem]:
    devices = "".join(f"  D{number}: {{}}\n" for number in range(20_001))
    return _checked(folder, f"railway: Marram Quay\npoints:\n{devices}".encode())


def _checked(folder: Path, content: bytes) -> list[Problem]:
    path = folder / "railway.yaml"
    path.write_bytes(content)
    return check_file(path)[1]


def _unreadable(folder: Path) -> list[Problem]:
    os.mkfifo(folder / "railway.yaml")
    return check_file(folder / "railway.yaml")[1]


def _printers_unreadable(folder: Path) -> list[Problem]:
    (folder / "printers.yaml").write_text("printers: {hall: {scale: 1,004}}", encoding="utf-8")
    return correction_of("hall", folder / "printers.yaml")[1]


def _not_our_file(folder: Path) -> list[Problem]:
    (folder / "made").mkdir()
    (folder / "made" / "flags.pdf").write_bytes(b"somebody else's")
    return write_folder(folder / "made", {"flags.pdf": b"ours"}, whole=True)


def _cannot_write(folder: Path) -> list[Problem]:
    (folder / "file").write_bytes(b"")
    return write_folder(folder / "file" / "made", {"flags.pdf": b"ours"}, whole=True)


def _nothing_made(folder: Path) -> list[Problem]:
    path = folder / "railway.yaml"
    path.write_text("railway: Marram Quay", encoding="utf-8")
    return printed_or_not(path, None, Request(), undo=False)[1]


def _no_plan(folder: Path) -> list[Problem]:
    path = folder / "railway.yaml"
    path.write_text("railway: Marram Quay", encoding="utf-8")
    checked, _ = check_file(path)
    assert checked is not None
    return make(checked, Request(only=frozenset({"plan"}))).problems


def _after_printing(folder: Path, before: str, after: str) -> list[Problem]:
    """The plates of the railway as it was before are stuck on."""
    path = folder / "railway.yaml"
    railway = "railway: Marram Quay\nsupplies: {PULSE: {kind: pulse}}\nstrips: {A1: }\n"
    path.write_text(railway + before, encoding="utf-8")
    checked, _ = check_file(path)
    assert checked is not None
    labels = labels_of(checked.description, checked.netlist, "plates").values()
    printed = tuple(label.printed("A") for label in labels)
    path.write_text(railway + after, encoding="utf-8")
    now, _ = check_file(path)
    assert now is not None
    return label_problems(replace(now, built=replace(now.built, printed=printed)), drawn=False)


PROVOKED: dict[str, Callable[[Path], list[Problem]]] = {
    "file-missing": lambda folder: check_file(folder / "nowhere.yaml")[1],
    "file-is-folder": lambda folder: check_file(folder)[1],
    "file-unreadable": _unreadable,
    "file-too-large": lambda folder: _checked(folder, b"#" * 10_000_001),
    "too-many-devices": _too_many_devices,
    "printers-unreadable": _printers_unreadable,
    "not-our-file": _not_our_file,
    "cannot-write": _cannot_write,
    "nothing-made": _nothing_made,
    "no-plan": _no_plan,
    "labels-out-of-date": lambda folder: _after_printing(
        folder, "points: {P1: }\n", "points: {P1: }\nlevers: {1: {name: quay}}\n"
    ),
    "labels-changed": lambda folder: _after_printing(folder, "points: {P1: }\n", "points: {P1: , P2: }\n"),
}
"""Codes that no description can show by itself: each is provoked in an empty folder."""


def all_problems(path: Path) -> list[Problem]:
    """What is found in a description, and, when it may be made, what is found while making it."""
    checked, problems = check_file(path)
    if checked is None or has_errors(problems):
        return problems
    return [*problems, *make(checked, Request()).problems]


@pytest.mark.parametrize("code", sorted(CODES.keys() - PROVOKED.keys()))
def test_a_bad_case_shows_the_problem(code: str) -> None:
    problems = all_problems(CASES / code / "bad.yaml")
    assert code in {problem.code for problem in problems}


@pytest.mark.parametrize("code", sorted(CODES.keys() - PROVOKED.keys()))
def test_a_good_case_does_not(code: str) -> None:
    problems = all_problems(CASES / code / "good.yaml")
    assert code not in {problem.code for problem in problems}
    assert not has_errors(problems)


@pytest.mark.parametrize("code", sorted(PROVOKED))
def test_what_no_description_shows_can_be_provoked(code: str, tmp_path: Path) -> None:
    assert [problem.code for problem in PROVOKED[code](tmp_path)] == [code]


def test_no_case_is_left_over() -> None:
    assert {path.name for path in CASES.iterdir()} <= CODES.keys() - PROVOKED.keys()


def test_every_problem_has_its_section_in_the_order_of_the_table() -> None:
    page = (MANUAL / "problems.md").read_text(encoding="utf-8")
    assert re.findall(r"^## (.+)$", page, re.MULTILINE) == list(CODES)


@pytest.mark.parametrize("code", CODES)
def test_each_section_says_what_an_example_what_to_do_and_why(code: str) -> None:
    page = (MANUAL / "problems.md").read_text(encoding="utf-8")
    section = page.split(f"## {code}\n", 1)[1].split("\n## ", 1)[0].strip()
    what, *rest = section.splitlines()
    assert what.endswith(f" {CODES[code].capitalize()}."), "it ends with how serious it is"
    assert [line.split(":")[0] for line in rest] == ["- Example", "- Do", "- Why"]


def test_the_code_reports_the_codes_of_the_table_and_no_others() -> None:
    trees = [modules_of(path) for path in PACKAGE if path.name != "problems.py"]
    nodes = [node for tree in trees for node in ast.walk(tree)]
    texts = {node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)}
    given = {
        keyword.value.value
        for node in nodes
        if isinstance(node, ast.Call)
        for keyword in node.keywords
        if keyword.arg == "code" and isinstance(keyword.value, ast.Constant) and "-" in str(keyword.value.value)
    }
    assert CODES.keys() - texts == set(), "reported nowhere"
    assert given - CODES.keys() == set(), "not in the table"


# The manual's page on the description says all that there is.


def fields(model: type[BaseModel], seen: set[type]) -> Iterator[str]:
    """The keys of a record, as they are typed, and those of the records inside it."""
    if model in seen:
        return
    seen.add(model)
    for name, field in model.model_fields.items():
        yield field.alias or name
        for inner in _records(field.annotation):
            yield from fields(inner, seen)


def _records(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in get_args(annotation):
        yield from _records(part)


def test_every_key_is_in_the_manual() -> None:
    code = " ".join(re.findall(r"```yaml\n.*?```|`[^`\n]+`", DESCRIPTION_PAGE, re.DOTALL))
    words = set(re.findall(r"[\w-]+", code))
    assert set(fields(Description, set())) - words == set()


def test_every_word_of_a_choice_is_in_the_manual() -> None:
    kinds = {path.stem for path in layouts("devices").glob("*.yaml")}
    words = set(re.findall(r"[\w-]+", DESCRIPTION_PAGE))
    known = {*LEVER_CONTACTS, *SUPPLY_TERMINALS, *DEFAULT_FUNCTIONS, *PATTERNS, *kinds}
    assert known - words == set()


@pytest.mark.parametrize("fragment", re.findall(r"```yaml\n(.*?)```", DESCRIPTION_PAGE, re.DOTALL))
def test_every_example_of_the_manual_has_the_form_of_a_description(fragment: str) -> None:
    typed = yaml.load(fragment, Loader=yaml.BaseLoader)  # every scalar stays the text that was typed
    assert Description.model_validate({"railway": "Marram Quay", **typed})


def test_the_manuals_twin_coil_is_the_built_in_one() -> None:
    fragment = next(f for f in re.findall(r"```yaml\n(.*?)```", DESCRIPTION_PAGE, re.DOTALL) if f.startswith("kinds:"))
    shown = yaml.load(fragment, Loader=yaml.BaseLoader)["kinds"]["my-twin-coil"]
    text = (layouts("devices") / "twin-coil.yaml").read_text(encoding="utf-8")
    built_in = yaml.load(text, Loader=yaml.BaseLoader)
    assert shown == {key: value for key, value in built_in.items() if key != "notes"}


# The house.


def test_init_files_hold_a_docstring_alone() -> None:
    found = [path for path in PACKAGE if path.name == "__init__.py"]
    assert found
    for path in found:
        body = modules_of(path).body
        assert len(body) == 1, path
        assert isinstance(body[0], ast.Expr), path
        assert ast.get_docstring(modules_of(path)), path


def test_no_name_that_says_nothing() -> None:
    empty = re.compile(r"(utils?|helpers?|common|misc|managers?|stuff)")
    assert [path for path in tracked_files() if empty.fullmatch(path.stem.lower())] == []


def test_test_files_have_names_of_their_own() -> None:
    names = [path.name for path in (TOP / "tests").rglob("*.py") if path.name != "conftest.py"]
    assert sorted(names) == sorted(set(names))
    assert not list((TOP / "tests").rglob("__init__.py"))


def test_no_module_has_outgrown_one_sitting() -> None:
    longest = {str(path): len(path.read_text(encoding="utf-8").splitlines()) for path in PACKAGE}
    assert {name: lines for name, lines in longest.items() if lines > 400} == {}


def test_every_module_says_what_it_is() -> None:
    assert [path for path in PACKAGE if not ast.get_docstring(modules_of(path))] == []


ONLY_IN = {
    "ezdxf": ("rendering/dxf.py",),
    "fontTools": ("rendering/glyph_outlines.py",),
    "jinja2": ("rendering/",),
    "markupsafe": ("rendering/",),
    "networkx": ("wiring/plug_ways.py",),
    "numpy": ("electrics/network.py",),
    "openpyxl": ("reading/spreadsheet_xlsx.py", "rendering/filled_lists.py", "rendering/workbook.py"),
    "platformdirs": ("printers.py",),
    "pydantic": ("model/", "reading/"),
    "pydantic_core": ("model/", "reading/"),
    "qrcode": ("drawings/tags/qr.py", "drawings/tags/qr_grid.py"),
    "reportlab": ("rendering/pdf", "typefaces.py"),
    "rich": ("rendering/", "command_output.py", "problem_report.py", "problem_text.py"),
    "scipy": ("electrics/network.py",),
    "starlette": ("serving/application.py",),
    "svgwrite": ("rendering/svg",),
    "typer": ("command_",),
    "uvicorn": ("serving/server.py",),
    "yaml": ("reading/",),
}
"""Where each outside library is known."""


def imports(path: Path) -> set[str]:
    """The first names of what a module imports, wherever in it."""
    found = set()
    for node in ast.walk(modules_of(path)):
        if isinstance(node, ast.Import):
            found |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and node.level == 0:
            found.add(node.module.split(".")[0])
    return found


def test_each_outside_library_is_known_in_one_place() -> None:
    outside = {
        (path.relative_to(TOP / "labelgen").as_posix(), name)
        for path in PACKAGE
        for name in imports(path) - set(sys.stdlib_module_names) - {"labelgen"}
    }
    assert {name for _, name in outside} == ONLY_IN.keys()
    assert [(where, name) for where, name in sorted(outside) if not where.startswith(ONLY_IN[name])] == []


def test_no_clock_and_no_chance() -> None:
    forbidden = {"datetime", "random", "secrets", "time", "uuid"}
    assert {path.name: imports(path) & forbidden for path in PACKAGE if imports(path) & forbidden} == {}


def test_no_environment_outside_of_the_command_line() -> None:
    readers = [path.name for path in PACKAGE if re.search(r"\bos\.(environ|getenv)", path.read_text(encoding="utf-8"))]
    # The PDF backend keeps its library from reading one: a time to be stamped into the file.
    assert set(readers) <= {"command_line.py", "pdf.py"}


HEAVY = {
    "cv2",
    "ezdxf",
    "fontTools",
    "jinja2",
    "networkx",
    "openpyxl",
    "qrcode",
    "reportlab",
    "rich.console",
    "starlette",
    "svgwrite",
    "uvicorn",
}


def modules_after(statements: str) -> set[str]:
    """What a fresh Python has loaded once it has run some statements."""
    script = f"import sys\n{statements}\nprint(*sys.modules, file=sys.__stdout__)"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=TOP)
    return set(done.stdout.split())


def test_starting_up_stays_cheap() -> None:
    assert modules_after("import labelgen.command_line") & (HEAVY | {"pydantic", "yaml"}) == set()


def test_a_check_loads_nothing_that_only_making_needs() -> None:
    example = layouts("railways") / "marram-quay.yaml"
    loaded = modules_after(
        f"from pathlib import Path\nfrom labelgen.pipeline import check_file\ncheck_file(Path({str(example)!r}))"
    )
    assert loaded & HEAVY == set()


# What is in the files.

# Written so that this very line is not one of them.
MACHINE = re.compile(r"(?<![\w.])/(?:home|root|work|Users|opt)/[\w.]|[A-Z]:\\(?:Users)", re.ASCII)


def test_no_path_of_a_machine() -> None:
    found = {
        f"{path.relative_to(TOP)}:{number}": line
        for path in tracked_files()
        if path.suffix != ".ttf"
        for number, line in enumerate(path.read_text(encoding="utf-8", errors="replace").splitlines(), 1)
        if MACHINE.search(line) or str(TOP) in line
    }
    assert found == {}


def test_scripts_name_no_host() -> None:
    for name in ("tests/install", "tests/check", ".ci/run"):
        assert "://" not in (TOP / name).read_text(encoding="utf-8")


def test_every_typeface_has_its_licence() -> None:
    licences = list((TOP / "fonts").glob("*-LICENSE.txt"))
    fonts = list((TOP / "fonts").glob("*.ttf"))
    assert {font.stem for font in fonts} == typefaces.FACES.keys()
    families = {licence.name.removesuffix("-LICENSE.txt") for licence in licences}
    unlicensed = [font.name for font in fonts if not font.name.startswith(tuple(families))]
    unused = [family for family in families if not any(font.name.startswith(family) for font in fonts)]
    assert (unlicensed, unused) == ([], [])


def glyph(character: str, face: str) -> Image.Image:
    """One character, 64 pixels an em, on its baseline in the middle of a square."""
    font = ImageFont.truetype(str(TOP / "fonts" / f"{face}.ttf"), 64)
    image = Image.new("L", (128, 128))
    ImageDraw.Draw(image).text((64, 96), character, font=font, fill=255, anchor="ms")
    return image


def difference(one: Image.Image, other: Image.Image) -> float:
    """The ink that only one of two glyphs has, as a share of all ink: 0 for one and the same, 1 for two apart."""
    apart = ImageChops.difference(one, other).histogram()
    together = ImageChops.lighter(one, other).histogram()
    return sum(i * n for i, n in enumerate(apart)) / sum(i * n for i, n in enumerate(together))


@pytest.mark.parametrize("face", [typefaces.REGULAR, typefaces.BOLD])
@pytest.mark.parametrize(
    ("one", "other"), [pair for group in ("Il1", "O0", "5S", "8B") for pair in combinations(group, 2)]
)
def test_characters_that_people_confuse_are_drawn_apart(face: str, one: str, other: str) -> None:
    # A fifth of the ink. Common practice, no source.
    assert difference(glyph(one, face), glyph(other, face)) > 0.2


def test_each_kind_that_can_be_made_is_made_for_the_example() -> None:
    checked, problems = check_file(layouts("railways") / "marram-quay.yaml")
    assert checked is not None
    assert not has_errors(problems)
    for kind in MAKERS:
        assert make(checked, Request(only=frozenset({kind}))).files, kind
