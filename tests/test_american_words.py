"""With `words: american` no British trade word is left in anything that is made; with british nothing changes."""

import re
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from labelgen.data_files import layouts
from labelgen.making import Request, Result
from labelgen.pipeline import check_file, make
from labelgen.problems import has_errors
from labelgen.standards.trade_words import AMERICAN

EXAMPLE = (layouts("railways") / "marram-quay.yaml").read_text(encoding="utf-8")
BRITISH = re.compile(rf"\b({'|'.join(sorted(AMERICAN, key=len, reverse=True))})\b", re.IGNORECASE)
FULL = """railway: Marram Quay
printing: {flags: sleeve, mono: yes}
boards:
  B1: {size: [1200, 600], at: [0, 0]}
  B2: {size: [1200, 600], right_of: B1}
plugs: {J1: {boards: [B1, B2], pins: 25, at: {B1: [1190, 300], B2: [10, 300]}}}
supplies:
  PULSE: {kind: pulse, board: B1, at: [100, 100], volts: 22, microfarads: 4700}
  CAB: {kind: track, board: B1, at: [100, 260], volts: 12}
  DC: {kind: dc, board: B1, volts: 12}
strips:
  S1: {board: B1, at: [400, 300], measured: 253, ways: 24, keep: [23, 24], bridges: [[21, 22]]}
  S2: {board: B2, at: [400, 300], ways: 24, measured: 253}
levers: {1: {role: points-and-lock}, 9: {role: detonators}}
points:
  P1: {board: B1, at: [300, 100]}
  P2: {board: B2, at: [300, 100], kind: stall-motor, supplies: {drive: DC, rails: CAB}}
  P3: {board: B2, at: [500, 100], kind: twin-coil-frog}
devices:
  YARD: {kind: section, lever: 11, board: B1, at: [560, 280]}
  SIG7: {kind: signal-3-aspect, lever: 7, board: B1, at: [700, 100], supply: DC}
panels:
  QUAY:
    board: B1
    at: [600, 600]
    size: [300, 140]
    tracks: {main: [[2, 6], [28, 6]], loop: [P1, [14, 9], [20, 9]]}
    points: {P1: [10, 6]}
    sections: {YARD: [20, 6]}
    levers: {row: 12}
"""
RAILWAYS = {"example": re.sub(r"(?m)^about: .*$", "about: A harbour terminus.", EXAMPLE), "full": FULL}
"""The example without the builder's own sentence, which has such words; and one with what it does not have."""


@cache
def made(railway: str, words: str) -> Result:
    return made_of(f"{RAILWAYS[railway]}\nwords: {words}\n")


def made_of(text: str, only: frozenset[str] = frozenset()) -> Result:
    path = Path(TMP[0]) / "railway.yaml"
    path.write_text(text, encoding="utf-8")
    checked, problems = check_file(path)
    assert checked is not None
    assert not has_errors(problems)
    result = make(checked, Request(only=only))
    assert not has_errors(result.problems)
    return result


TMP: list[Path] = []


@pytest.fixture(autouse=True)
def _folder(tmp_path: Path) -> None:
    TMP[:] = [tmp_path]


def texts(result: Result) -> dict[str, str]:
    """What can be read in every PDF and page, by name."""
    return {name: _read(name, content) for name, content in result.files.items() if name.endswith((".pdf", ".html"))}


def _read(name: str, content: bytes) -> str:
    if name.endswith(".pdf"):
        pages = PdfDocument(BytesIO(content))
        read = " ".join(page.get_textpage().get_text_range() for page in pages)
    else:
        page = content.decode()
        read = re.sub(r"<[^>]*>", " ", re.sub(r"<(style|script)\b.*?</\1>", " ", page, flags=re.DOTALL))
    return " ".join(read.split())


@pytest.mark.parametrize("railway", RAILWAYS)
def test_no_british_trade_word_is_left(railway: str) -> None:
    read = texts(made(railway, "american"))
    assert {name: found[0] for name, text in read.items() if (found := BRITISH.search(text))} == {}


@pytest.mark.parametrize("railway", RAILWAYS)
def test_such_words_stand_there_otherwise(railway: str) -> None:
    """So that the test above can fail; and as many files as are read there are read here."""
    british = texts(made(railway, "british"))
    assert british.keys() == texts(made(railway, "american")).keys()
    found = {name for name, text in british.items() if BRITISH.search(text)}
    assert {"operator.pdf", "cut-list.pdf", "legend.pdf", "plates.pdf", "schedule/index.html"} <= found


def test_british_is_what_is_printed_when_nothing_is_said() -> None:
    texts_of_lists = frozenset({"legend", "lists", "plates"})
    plain, british = (made_of(text, texts_of_lists) for text in (FULL, FULL + "words: british\n"))
    assert plain.files == british.files


def test_the_builders_own_words_are_never_touched() -> None:
    named = FULL.replace("YARD: {kind: section,", "YARD: {kind: section, name: Siding section,")
    text = named + "words: american\nabout: Two baseboards and a fiddle yard\n"
    result = made_of(text, frozenset({"fascia", "plates", "schedule"}))
    read = texts(result)
    assert "Siding section" in read["operator.pdf"]
    assert "Two baseboards and a fiddle yard" in read["schedule/index.html"]
    assert "Siding section" in read["plates.pdf"]
