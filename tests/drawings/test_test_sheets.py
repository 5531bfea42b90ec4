"""The test sheets and evening cards, read back from the PDF by a reader that is not our writer."""

from io import BytesIO
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from labelgen.making import Checked, Request
from labelgen.pipeline import check_file, make
from labelgen.probing.charts import plan_of_tests

EXAMPLE = Path(__file__).parents[2] / "layouts" / "railways" / "marram-quay.yaml"
SLOW = """
railway: Samphire Flats
boards: {B1: {size: [1200, 600], at: [0, 0]}, B2: {size: [1200, 600], right_of: B1}}
supplies:
  PULSE: {kind: pulse, board: B1, at: [60, 60], volts: 24, microfarads: 10000}
  CAB: {kind: track, board: B1, at: [60, 160], fuse: 1}
  SLOW: {kind: dc, board: B1, at: [60, 260], volts: 12, fuse: 1}
strips: {S1: {board: B1, at: [300, 300], measured: 110}, S2: {board: B2, at: [300, 300], measured: 110}}
panels: {BOX: {board: B1, at: [600, 600], size: [300, 100], levers: {row: 3}}}
plugs: {J1: {boards: [B1, B2], pins: 30, at: {B1: [1190, 200], B2: [10, 200]}}}
points:
  P1: {board: B1, at: [200, 100], strip: S1}
  P2: {board: B1, at: [300, 100], strip: S1, not_in_use: coil burnt out}
  P5: {board: B2, at: [500, 100], kind: stall-motor, strip: S2}
devices: {LAMPS: {kind: lamps, board: B1, at: [500, 400], supply: SLOW, strip: S1}}
"""


def checked(path: Path) -> Checked:
    found, _ = check_file(path)
    assert found is not None
    return found


def pages(railway: Checked, **wanted: object) -> list[str]:
    result = make(railway, Request(only=frozenset({"tests"}), **wanted))  # type: ignore[arg-type]
    assert result.problems == []
    with PdfDocument(BytesIO(result.files["tests.pdf"])) as document:
        return [page.get_textpage().get_text_range() for page in document]


@pytest.fixture(scope="module")
def example() -> Checked:
    return checked(EXAMPLE)


@pytest.fixture
def slow(tmp_path: Path) -> Checked:
    path = tmp_path / "railway.yaml"
    path.write_text(SLOW, encoding="utf-8")
    return checked(path)


def test_every_reading_stands_on_the_sheet_of_its_board(example: Checked) -> None:
    plan, texts = plan_of_tests(example.description, example.netlist), pages(example)
    for chart in plan.charts:
        own = [text for text in texts if f"tests, board {chart.board}" in text]
        words = " ".join(own).replace(", red", "").split()
        wanted = [end for reading in (*chart.whole, *chart.apart_readings) for end in reading.shown]
        assert wanted
        assert {end: words.count(end) for end in wanted if words.count(end) < wanted.count(end)} == {}
        assert f"{len(chart.whole)} readings" in " ".join(words)


def test_the_first_sheet_states_the_numbers_and_the_cautions(example: Checked) -> None:
    plan, first = plan_of_tests(example.description, example.netlist), " ".join(pages(example)[0].split())
    assert f"{len(plan.whole)} readings must beep" in first
    assert f"{plan.fewest_whole} are the fewest" in first
    assert f"{len(plan.apart)} readings must not beep: they prove {plan.pairs} pairs" in first
    assert "isolate and unplug every supply" in first
    assert "Discharge the capacitor bank" in first
    assert "strip by strip from way 1" in first


def test_power_comes_on_with_a_lamp_in_series(example: Checked) -> None:
    sheets = [" ".join(text.split()) for text in pages(example) if "power on" in text]
    power = " ".join(sheets)
    assert power.index("1. LIGHT") < power.index("2. CAB") < power.index("3. PULSE")
    assert "with the lamp in series at PULSE.+" in power
    assert "From S1.4 to P3.C the meter reads 22 volts" in power
    (with_pulse,) = [sheet for sheet in sheets if "3. PULSE" in sheet]
    assert "discharge the bank through a resistor" in with_pulse, "nobody turns a page with a supply on"


def test_a_row_for_every_motor(example: Checked) -> None:
    (motors,) = [" ".join(text.split()) for text in pages(example) if "tests, motors" in text]
    assert motors.count("N–R 9.0 Ω") == 10
    assert "10 motors, three readings each: 30" in motors


def test_evening_cards_hold_ten_wires_with_their_tests(example: Checked) -> None:
    cards = [text for text in pages(example) if "evening cards" in text]
    text = " ".join(" ".join(cards).split())
    assert all(f"Evening {number} of 11" in text for number in range(1, 12))
    assert "S1.3 – S1.4" in text
    assert "must not beep" in text


def test_one_board_alone(example: Checked) -> None:
    texts = pages(example, board="B2")
    assert any("tests, board B2" in text for text in texts)
    assert not any("tests, board B1" in text for text in texts)
    assert "P1 Goods lines" in " ".join(texts)
    assert "P3 Release" not in " ".join(texts)


def test_plugs_levers_and_what_is_not_in_use(slow: Checked) -> None:
    text = " ".join(" ".join(pages(slow)).split())
    assert "P2 is not in use (coil burnt out): it is left out" in text
    assert "P2 not in use: coil burnt out" in text
    assert "With the plugs in" in text
    assert "Plug J1: " in text
    assert "Must beep again, all levers and blades reverse" in text
    assert "Must not beep, all levers and blades reverse" in text
    assert "Plug J1, B1 to B2" in text


def test_american_words_and_no_colour(tmp_path: Path) -> None:
    path = tmp_path / "american.yaml"
    path.write_text(SLOW.replace("railway:", "words: american\nrailway:", 1), encoding="utf-8")
    text = " ".join(" ".join(pages(checked(path), mono=True)).split())
    assert "colour" not in text
    assert "color" in text


def test_a_railway_without_wires_has_no_sheets(tmp_path: Path) -> None:
    path = tmp_path / "railway.yaml"
    path.write_text("railway: Samphire Flats\n", encoding="utf-8")
    assert make(checked(path), Request(only=frozenset({"tests"}))).files == {}


def test_what_is_too_long_is_said(tmp_path: Path) -> None:
    path = tmp_path / "railway.yaml"
    named = SLOW.replace("P1: {", f"P1: {{shown: {'W' * 300}, ", 1)
    path.write_text(named, encoding="utf-8")
    result = make(checked(path), Request(only=frozenset({"tests"})))
    assert "text-does-not-fit" in {problem.code for problem in result.problems}
