"""A network between the two terminals of a supply, worked out for one volt: what it resists, and who gets what.

Most throws are one loop, and its resistances are added up; a network is solved only where ways fork.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from labelgen.electrics.network import Branch, Solved, solve
from labelgen.figuring.elements import Element
from labelgen.model.copper import Copper, Joint, Stretch


@dataclass(frozen=True, slots=True)
class AtWork:
    """Currents and voltages of a network between whose terminals a voltage stands."""

    amps: tuple[float, ...]
    """Of each element."""
    across: tuple[float, ...]
    wires: dict[int | str, float]
    """Number of a wire that carries current: amps."""
    total_amps: float


class Loop:
    """Elements with what each resists, and the copper between them."""

    def __init__(
        self, ends: tuple[Joint, Joint], passed: Sequence[Element], resists: Sequence[float], copper: Copper
    ) -> None:
        self.ends = ends
        """The supply's terminals: plus, minus."""
        self.passed = passed
        self.resists = resists
        self.copper = copper
        self._joints = self._by_net()
        self._in_a_row = all(len(of_net) == 2 for of_net in self._joints)
        """Everything follows on one another: two ends in each net. Else ways fork, or end."""
        self._stretches = self._copper_between()
        self._found: Solved[Joint] | None = None
        self.unmeasured = sum(stretch.unmeasured for stretch in self._stretches)
        """Wires on the way whose length is not known."""
        self.ohms = self._ohms()
        """Between the terminals; None where no current flows."""

    def shares(self) -> list[float]:
        """Of what is spent in the network, the part of each element. Only of a network with ohms."""
        if self._in_a_row and self.ohms:
            return [resists / self.ohms for resists in self.resists]
        solved = self._solved()
        return [a**2 * ohms / solved.total_amps for a, ohms in zip(solved.amps, self.resists, strict=False)]

    def diodes(self) -> int:
        """In a row on the way of the current. No more than one where ways fork: so are routes and three-ways wired."""
        count = sum(element.one_way for element in self.passed)
        return count if self._in_a_row else min(count, 1)

    def wires(self) -> list[tuple[int | str, str, float]]:
        """Number and size of each wire on the way, and which part of the whole current is in it."""
        parts = [1.0] * len(self._stretches)
        if not self._in_a_row:
            solved = self._solved()
            parts = [abs(amps) / solved.total_amps for amps in solved.amps[len(self.passed) :]]
        return [
            (wire.number, wire.size, part)
            for stretch, part in zip(self._stretches, parts, strict=True)
            for wire in self.copper.wires_between(stretch.start, stretch.finish)
        ]

    def at_work(self, volts: float) -> AtWork:
        """With so many volts between the terminals."""
        solved = self._solved()
        joints = solved.volts
        across = [abs(joints[e.start] - joints[e.finish]) * volts if e.start in joints else 0.0 for e in self.passed]
        amps = [abs(one) * volts for one in solved.amps]
        wires: dict[int | str, float] = {}
        for stretch, current in zip(self._stretches, amps[len(self.passed) :], strict=True):
            for wire in self.copper.wires_between(stretch.start, stretch.finish) if current else ():
                wires[wire.number] = current
        return AtWork(tuple(amps[: len(self.passed)]), tuple(across), wires, solved.total_amps * volts)

    def _by_net(self) -> list[list[Joint]]:
        """Of each net, the ends that lie in it."""
        found: dict[int | None, list[Joint]] = {}
        for joint in self.ends:
            found.setdefault(self.copper.net(joint), []).append(joint)
        for element in self.passed:
            for joint in (element.start, element.finish):
                found.setdefault(self.copper.net(joint), []).append(joint)
        return [joints for net, joints in found.items() if net is not None]

    def _copper_between(self) -> list[Stretch]:
        if not self._in_a_row:
            return [stretch for of_net in self._joints for stretch in self.copper.stretches(of_net)]
        return [s for one, other in self._joints if one != other for s in self.copper.stretches((one, other))]

    def _ohms(self) -> float | None:
        if self._in_a_row:
            return sum(self.resists) + sum(stretch.ohms for stretch in self._stretches)
        total = self._solved().total_amps
        return 1 / total if total > 0 else None

    def _solved(self) -> Solved[Joint]:
        """Nothing flows where metal joins the terminals: that is a fault in the wiring, and no figure tells of it."""
        if self._found is None:
            branches = [Branch(e.start, e.finish, ohms) for e, ohms in zip(self.passed, self.resists, strict=True)]
            branches += [Branch(s.start, s.finish, s.ohms) for s in self._stretches]
            try:
                self._found = solve(branches, *self.ends)
            except ValueError:
                self._found = Solved(volts={}, amps=(0.0,) * len(branches), total_amps=0.0)
        return self._found
