"""With `words: american` no British trade word is left in anything that is made, and with british no American one."""

import re
from collections.abc import Iterator
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument
from whole_railway import WHOLE

from labelgen.makers.remove_and_fit import NAME, remove_and_fit
from labelgen.making import Checked, Job, Request, Result
from labelgen.model.built.record_printing import with_made
from labelgen.pipeline import check_file, make
from labelgen.problems import has_errors
from labelgen.standards.trade_words import AMERICAN

ALSO_BRITISH = frozenset({"frog", "ground", "is up", "meter", "meters"})
"""What British has in another sense: a function, how a drill is sharpened, how a lever lies, what measures volts."""
DETECTOR = re.compile(r"block-detector|whether a block is occupied")
"""So it is called on either side."""


def words_of(words: list[str]) -> re.Pattern[str]:
    return re.compile(rf"\b({'|'.join(sorted(words, key=len, reverse=True))})\b", re.IGNORECASE)


OWN = """railway: Marram Quay
words: american
about: Two baseboards and a fiddle yard
boards: {B1: {size: [600, 400]}}
supplies: {CAB: {kind: track, board: B1}, DC: {kind: dc, board: B1, volts: 12}}
strips: {S1: {board: B1, ways: 12, measured: 110}}
kinds:
  gate-lamp:
    about: the lamp at the crossing
    terminals: {L: colour of the crossing, C: minus}
    supply: dc
    group: [{function: lamp, terminal: L, chain: feed}]
    chain: [{function: return, terminal: C, supply: return}]
devices:
  YARD: {kind: section, name: Siding section, lever: 11, supply: CAB}
  GATE: {kind: gate-lamp, supply: DC}
panels: {QUAY: {board: B1, size: [200, 100], levers: {row: 6}}}
"""
FOUND_IN = {
    "american": words_of([*AMERICAN]),
    "british": words_of([word for word in AMERICAN.values() if word not in ALSO_BRITISH]),
}
"""What must not be found where the other words were asked for."""


@cache
def made(words: str) -> Result:
    """Everything, the list of a first printing as well."""
    checked = checked_of(f"{WHOLE}\nwords: {words}\n")
    result = make(checked, Request())
    assert not has_errors(result.problems), result.problems
    changed = Request(changed=True)
    stuck_on = with_made(checked.built, changed.scope, result.now).made
    result.files.update(remove_and_fit(Job(checked, changed), checked.built, stuck_on).files)
    return result


def made_of(text: str, only: frozenset[str]) -> Result:
    return make(checked_of(text), Request(only=only))


def checked_of(text: str) -> Checked:
    path = Path(TMP[0]) / "railway.yaml"
    path.write_text(text, encoding="utf-8")
    checked, problems = check_file(path)
    assert checked is not None
    assert not has_errors(problems), problems
    return checked


TMP: list[Path] = []


@pytest.fixture(autouse=True)
def _folder(tmp_path: Path) -> None:
    TMP[:] = [tmp_path]


@cache
def texts(words: str) -> dict[str, str]:
    return read(made(words))


def read(result: Result) -> dict[str, str]:
    """What can be read in every file, by name, and what is said when all is made."""
    found = {
        name: DETECTOR.sub("", " ".join(" ".join(_read(name, content)).split()))
        for name, content in result.files.items()
    }
    return {**found, "said": " ".join(one.what for one in result.made)}


def _read(name: str, content: bytes) -> Iterator[str]:
    if name.endswith(".pdf"):
        yield from (page.get_textpage().get_text_range() for page in PdfDocument(BytesIO(content)))
    elif name.endswith((".html", ".svg")):
        page = content.decode()
        yield re.sub(r"<[^>]*>", " ", re.sub(r"<(style|script)\b.*?</\1>", " ", page, flags=re.DOTALL))
        yield from re.findall(r"\b(?:aria-label|title|alt|placeholder)=\"([^\"]*)\"", page)
    elif name.endswith(".csv"):
        # The first line has the names of columns, by which programs, and we ourselves, find them again.
        yield content.decode("utf-8-sig").partition("\n")[2]


@pytest.mark.parametrize("words", FOUND_IN)
def test_none_of_the_other_words_is_left(words: str) -> None:
    found = {name: FOUND_IN[words].findall(text) for name, text in texts(words).items()}
    assert {name: sorted(set(these)) for name, these in found.items() if these} == {}


def test_there_is_one_of_everything() -> None:
    """So that the test above can fail: what it reads has the words that must not be read."""
    assert texts("british").keys() == texts("american").keys()
    assert {"markers.pdf", "plan-B1.pdf", "schedule.pdf", "tests.pdf", NAME} <= texts("british").keys()
    found = {name for name, text in texts("british").items() if FOUND_IN["american"].search(text)}
    assert {"operator.pdf", "cut-list.pdf", "legend.pdf", "plates.pdf", "schedule/index.html", "cut-list.csv"} <= found
    read_back = " ".join(texts("american").values()).lower()
    said = {"turnout", "block", "frog", "throttle", "tube", "color", "gray", "line voltage", "meter"}
    assert {word for word in said if re.search(rf"\b{word}s?\b", read_back)} == said


def test_british_is_what_is_printed_when_nothing_is_said() -> None:
    of_lists = frozenset({"legend", "plates"})
    plain, british = (made_of(text, of_lists) for text in (WHOLE, f"{WHOLE}words: british\n"))
    assert plain.files == british.files


def test_the_builders_own_words_are_never_touched() -> None:
    found = read(made_of(OWN, frozenset({"fascia", "legend", "plates", "schedule"})))
    assert "Siding section" in found["operator.pdf"]
    assert "Two baseboards and a fiddle yard" in found["schedule/index.html"]
    assert "Siding section" in found["plates.pdf"]
    assert "colour of the crossing" in found["legend.pdf"]
    assert "the lamp at the crossing" in found["schedule/board/B1/index.html"]
    assert "colour of the crossing" in found["schedule/board/B1/index.html"]
