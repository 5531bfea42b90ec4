"""Which contacts of a lever are joined, by its type and the way it lies (common practice, no source)."""

from collections.abc import Iterable, Mapping

from labelgen.model.kinds import LeverType

Pair = tuple[str, str]

FIXED: Mapping[LeverType, Mapping[str, tuple[Pair, ...]]] = {
    "sprung": {"normal": (("F", "N"),), "reverse": (("F", "R"),)},
    "passing": {"normal": (("F", "N"),), "reverse": (("F", "R"),)},
    "latching": {"normal": (("F", "N"),), "reverse": (("F", "R"),)},
    "on-off": {"normal": (), "reverse": (("1", "2"),)},
    "button": {"normal": (), "reverse": (("1", "2"),)},
    "changeover": {"normal": (("P", "A"), ("M", "B")), "reverse": (("P", "B"), ("M", "A"))},
    "two-pole": {"normal": (("F1", "N1"), ("F2", "N2")), "reverse": (("F1", "R1"), ("F2", "R2"))},
}
MOMENTARY: frozenset[LeverType] = frozenset({"sprung", "passing", "button", "buttons", "stud"})
"""They let go by themselves, or as soon as the hand does: no steady current flows through them."""
PROBE = "tip"
"""The terminal of a probe, with which studs are touched."""


def lies_of(lever_type: str, contacts: Iterable[str]) -> dict[str, tuple[Pair, ...]]:
    """Each way a lever can lie: the contacts that are joined then.

    A lever of buttons, studs or positions lies as the contact that is made: `left`; one that is named `N` or `R` is
    normal or reverse. A stud's pair begins with "", the probe.
    """
    if lever_type in FIXED:
        return dict(FIXED[lever_type])  # type: ignore[index]
    common = "" if lever_type == "stud" else "F"
    named = {"N": "normal", "R": "reverse"}
    return {named.get(contact, contact): ((common, contact),) for contact in contacts if contact != "F"}
