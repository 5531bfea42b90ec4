from labelgen.reading.near_names import did_you_mean, listed, nearest


def test_the_nearest_name_whatever_the_case() -> None:
    known = ["West", "East", "PULSE", "08"]
    assert nearest("Wset", known) == "West"
    assert nearest("pulse", known) == "PULSE"
    assert nearest("8", known) == "08"
    assert nearest("quay", known) is None
    assert nearest("West", []) is None
    assert did_you_mean("Wset", known) == "Did you mean West? "
    assert did_you_mean("quay", known) == ""


def test_a_list_of_names_is_in_natural_order_and_short() -> None:
    assert listed(["A10", "A2", "A1"]) == "A1, A2, A10"
    assert listed([f"A{n}" for n in range(30)]) == "A0, A1, A2, A3, A4, A5, A6, A7 … (30 in all)"
