"""The form of a case: one kind in a small railway, the wires that the trade page asks for, and what then is fed."""

from dataclasses import dataclass

PULSE = "PULSE: {kind: pulse}"
DC = "DC: {kind: dc}"
CAB = "CAB: {kind: track}"
BUS = "BUS: {kind: digital}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """Worked out by hand from the trade page, section 4, and the wiring rules of the format, section 5."""

    kind: str
    name: str = ""
    """Tells cases of one kind apart."""
    supplies: str
    things: str
    """The rest of the railway; its strip A1 is there already."""
    wires: str
    """One a line, in order of number: head, ends."""
    throws: dict[str, str]
    """How the lever lies: what is then fed, by which terminals of which supplies; nothing else is."""
    lever: str = ""
    """Which one; none: the device D1 itself lies so."""
    diodes: str = ""
    signals: tuple[str, ...] = ()
    """Outputs of devices whose way is followed as well."""
    meet: tuple[str, ...] = ()
    """Terminals of supplies that are declared to be joined."""

    @property
    def id(self) -> str:
        return f"{self.kind} {self.name}".strip()

    @property
    def railway(self) -> str:
        return f"supplies: {{{self.supplies}}}\nstrips: {{A1: {{ways: 24}}}}\n{self.things}"

    def positions(self, throw: str) -> dict[str, str]:
        return {self.lever or "D1": throw}


def table(text: str) -> dict[str, str]:
    """`P5.N PULSE.feed; P5.C PULSE.return` as a table."""
    return {end: by for end, _, by in (part.strip().partition(" ") for part in text.split(";") if part.strip())}
