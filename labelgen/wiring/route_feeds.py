"""How the feed comes to the buttons of routes: from button to button; what is there is never threaded anew."""

from collections.abc import Iterable, Sequence

from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.netlist import End

FED = 0
"""The place of all that has the feed already, among the stops: one net, whatever lever it is taken from."""
AT_ONE_TAB = 2
"""Wires at one side of a button: the feed comes in and goes on. Common practice, no source."""


def recorded_steps(record: BuiltRecord, supply: str) -> list[tuple[str, str]]:
    """The wires of a supply's chains that are as built, by the names of their ends; those through plugs as a whole."""
    wires = [(wire.start, wire.finish) for wire in record.wires if wire.circuit == supply]
    return wires + [(passage.start, passage.finish) for passage in record.pins if passage.circuit == supply]


def button_feeds(
    source: End, fed: Iterable[End], buttons: Sequence[End], known: Iterable[tuple[str, str]]
) -> list[tuple[End, End]]:
    """From where to where each wire runs: those that stay, then one for each button, or row of buttons, without feed.

    `source`: where the feed is taken when it comes from no button; `fed`: where it could be taken as well.
    `known`: the ends of wires that are recorded, or listed by the builder.
    """
    feeds = _Feeds(source, fed, buttons)
    for start, finish in known:
        feeds.keep(start, finish)
    for number in range(1, len(buttons) + 1):
        feeds.lead_to(number)
    return feeds.steps


class _Feeds:
    def __init__(self, source: End, fed: Iterable[End], buttons: Sequence[End]) -> None:
        self.steps: list[tuple[End, End]] = []
        self._buttons = [source, *buttons]
        self._ends = {end.name: end for end in (*fed, *self._buttons)}
        self._at = dict.fromkeys(self._ends, FED) | {end.name: n for n, end in enumerate(self._buttons)}
        self._net = list(range(len(self._buttons)))
        """Of each stop: the lowest stop that it is joined with."""
        self._wires = [0] * len(self._buttons)

    def keep(self, start: str, finish: str) -> None:
        """A wire that is there, if both its ends are still there and nothing else joins them."""
        if start in self._at and finish in self._at and self._net[self._at[start]] != self._net[self._at[finish]]:
            self._join(start, finish)

    def lead_to(self, number: int) -> None:
        """One wire to a button that has no feed: from the last button before it that has feed and room."""
        if self._net[number] == FED:
            return
        piece = [n for n, net in enumerate(self._net) if net == self._net[number]]
        from_buttons = [n for n in range(number - 1, 0, -1) if self._net[n] == FED and self._wires[n] < AT_ONE_TAB]
        start = next(iter(from_buttons), FED)
        self._join(self._buttons[start].name, self._buttons[min(piece, key=lambda n: self._wires[n])].name)

    def _join(self, start: str, finish: str) -> None:
        self.steps.append((self._ends[start], self._ends[finish]))
        low, high = sorted(self._net[self._at[end]] for end in (start, finish))
        self._net = [low if net == high else net for net in self._net]
        for end in (start, finish):
            self._wires[self._at[end]] += 1
