"""Which tab is which: worked out by hand from how a toggle is built."""

import pytest

from labelgen.drawings.back.tabs import jumpers, nearest, tab_words, tabs_of
from labelgen.lengths import Point
from labelgen.reading.data_readers import built_in_hardware

PARTS = built_in_hardware()
TOGGLE = PARTS["miniature-toggle"]


def words(part: str, contacts: list[str], normal: str = "up") -> dict[str, str]:
    return {tab.contact: tab_words(tab) for tab in tabs_of(PARTS[part], contacts, normal)}


@pytest.mark.parametrize(
    ("normal", "where"),
    [
        # The handle and the closed contact are the two ends of a seesaw.
        ("up", {"N": "lower", "F": "middle", "R": "upper"}),
        ("down", {"N": "upper", "F": "middle", "R": "lower"}),
        # To the left on the face is to the right behind it, so the closed tab is at the left there.
        ("left", {"N": "left", "F": "middle", "R": "right"}),
        ("right", {"N": "right", "F": "middle", "R": "left"}),
    ],
)
@pytest.mark.parametrize("part", ["miniature-toggle", "standard-toggle", "sub-miniature-toggle"])
def test_the_closed_tab_is_opposite_the_handle(part: str, normal: str, where: dict[str, str]) -> None:
    assert words(part, ["N", "F", "R"], normal) == where


def test_a_part_that_says_so_is_turned_over() -> None:
    same = TOGGLE.model_copy(update={"turned": "same"})
    assert [tab_words(tab) for tab in tabs_of(same, ["N", "F", "R"])] == ["upper", "middle", "lower"]


@pytest.mark.parametrize("part", ["miniature-toggle", "standard-toggle", "sub-miniature-toggle"])
@pytest.mark.parametrize(("normal", "down"), [("up", 1), ("down", -1)])
def test_a_changeover_feeds_its_arms_as_the_levers_do(part: str, normal: str, down: int) -> None:
    """Normal: A is on plus and B on minus (tests/devices/copper_proof.py); the jumpers exchange them in reverse.

    A toggle's arm makes with the tab of its own pole, on the side away from the handle.
    """
    tabs = {tab.contact: tab for tab in tabs_of(PARTS[part], ["A", "B", "P", "M"], normal)}
    metal = {(round(tab.at.x, 2), round(tab.at.y, 2)): name for name, tab in tabs.items()}
    for tab, free in jumpers(list(tabs.values())):
        metal[round(free.x, 2), round(free.y, 2)] = tab.contact
    assert len(metal) == 6
    step = abs(tabs["P"].at.y)
    for lies_normal, joined in ((True, {"A": "P", "B": "M"}), (False, {"A": "M", "B": "P"})):
        y = down * step * (1 if lies_normal else -1)
        assert {arm: metal[round(tabs[arm].at.x, 2), round(y, 2)] for arm in "AB"} == joined


def test_only_a_whole_changeover_has_jumpers() -> None:
    assert jumpers(tabs_of(TOGGLE, ["A", "B", "P"])) == []
    assert jumpers(tabs_of(PARTS["rotary-switch"], ["A", "B", "P", "M"])) == []


def test_the_first_pole_is_at_the_left_or_on_top() -> None:
    six = ["N1", "F1", "R1", "N2", "F2", "R2"]
    assert words("miniature-toggle", six)["N1"] == "lower left"
    assert words("miniature-toggle", six, "down")["N1"] == "upper left"
    assert words("miniature-toggle", six, "left")["N1"] == "upper left"
    assert words("miniature-toggle", six, "right")["N1"] == "upper right"


def test_what_a_part_does_not_say_is_spread_out_and_marked() -> None:
    tabs = tabs_of(PARTS["rotary-switch"], ["F", "red", "yellow", "green"])
    assert [tab_words(tab) for tab in tabs] == ["?"] * 4
    assert tabs[0].at == Point(0, 0)
    assert nearest([tab.at for tab in tabs]) > 4
    two = tabs_of(PARTS["rotary-switch"], ["F1", "F2", "1A", "1B"])
    assert two[0].at.x == -two[1].at.x != 0


def test_the_button_of_a_route() -> None:
    assert words("push-button-7", ["F", "M"]) == {"F": "left", "M": "right"}
    assert words("stud-4", ["M"]) == {"M": "middle"}
    assert words("push-button-7", ["F", "left", "right"]) == dict.fromkeys(("F", "left", "right"), "?")
    assert words("stud-4", ["F", "M"]) == {"F": "?", "M": "middle"}


def test_one_tab_is_near_to_none() -> None:
    assert nearest([Point(1, 1)]) == 99
