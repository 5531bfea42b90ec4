"""What the builder typed stays what it was, until a field says otherwise."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from labelgen.model.description import Description


def described(**fields: object) -> Description:
    return Description.model_validate({"railway": "Marram Quay", **fields})


@pytest.mark.parametrize("text", ["NO", "on", "08", "1e3", "12:30", "~", "null", "=1+1"])
def test_texts_arrive_unchanged(text: str) -> None:
    assert described(about=text).about == text


@pytest.mark.parametrize("text", ["1e3", "0x10", "1_000", "nan", "inf", "1,5", "", "१२", "--1"])
def test_numbers_are_plain_decimals(text: str) -> None:
    with pytest.raises(ValidationError) as caught:
        described(slack={"strip": text})
    assert caught.value.errors()[0]["type"] in {"bad-number", "out-of-range"}


@given(st.decimals(min_value=0, max_value=100_000, places=3))
def test_a_plain_decimal_is_read_as_it_stands(number: object) -> None:
    assert described(slack={"strip": f"{number:f}"}).slack.strip == float(f"{number:f}")


@pytest.mark.parametrize(("text", "truth"), [("yes", True), ("No", False), ("true", True), ("FALSE", False)])
def test_truths(text: str, truth: bool) -> None:
    assert described(printing={"mono": text}).printing.mono is truth


@pytest.mark.parametrize("text", ["on", "1", "", "maybe"])
def test_what_is_no_truth(text: str) -> None:
    with pytest.raises(ValidationError):
        described(printing={"mono": text})


@pytest.mark.parametrize("id_", ["A1", "a-b_c", "5", "x" * 40])
def test_ids(id_: str) -> None:
    assert list(described(strips={id_: None}).strips) == [id_]


@pytest.mark.parametrize("id_", ["", "A 1", "A.1", "../x", "Ä1", "con", "LPT1", "x" * 41, "a/b"])
def test_what_cannot_be_an_id(id_: str) -> None:
    with pytest.raises(ValidationError) as caught:
        described(strips={id_: None})
    assert caught.value.errors()[0]["type"] == "bad-id"


@pytest.mark.parametrize("corner", ["9" * 400, "100001", "-1e9"])
def test_corners_of_tracks_have_limits(corner: str) -> None:
    with pytest.raises(ValidationError) as caught:
        described(panels={"M": {"tracks": {"main": [[corner, "1"], ["2", "1"]]}}})
    assert caught.value.errors()[0]["type"] in {"out-of-range", "bad-number"}
