"""How far a wire list that was kept on paper agrees with the wires that the rules make."""

from dataclasses import dataclass

from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.model.paper_lists import PaperList
from labelgen.places import Path
from labelgen.problems import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """Counts of wires, and of devices."""

    listed: int
    same: int
    """Listed wires that the rules make anyway."""
    missing: int
    """The rules' wires that are not on paper."""
    made: int
    """The rules' wires."""
    known: int
    """Devices whose every wire is on paper."""
    devices: int

    @property
    def extra(self) -> int:
        return self.listed - self.same


def agreement(paper: PaperList, netlist: Netlist) -> Agreement:
    """Compares one wire list with a netlist. A wire of the rules may stand under the description's `wires` as well."""
    listed = {path[1] for path in paper.rows.values()}
    on_paper = [wire for wire in netlist.wires if wire.listed in listed]
    made = [wire for wire in netlist.wires if not _extra(wire)]
    missing = [wire for wire in made if wire.listed not in listed]
    devices = {device for circuit in netlist.circuits for device in circuit.devices}
    lacking = {end.thing for wire in missing for end in wire.ends if end.kind is EndKind.DEVICE}
    return Agreement(
        listed=len(on_paper),
        same=sum(not _extra(wire) for wire in on_paper),
        missing=len(missing),
        made=len(made),
        known=len(devices - lacking),
        devices=len(devices),
    )


def paper_and_rules(description: Description, netlist: Netlist) -> list[Problem]:
    """One note for each wire list; none where it has the wires that the rules make, and no others."""
    return [
        Problem(
            code="paper-and-rules",
            message=_sentence(paper, found),
            hint="`labelgen wires` shows them all. A wire too many here and one too few there may be the same wire, "
            "with an end written otherwise.",
            place=description.place_of(paper.key),
        )
        for paper in description.papers
        if paper.key == "wire_list" and not _all_the_same(paper, found := agreement(paper, netlist))
    ]


def _all_the_same(paper: PaperList, found: Agreement) -> bool:
    return not (found.missing or found.extra or paper.one_ended or paper.endless)


def _extra(wire: Wire) -> bool:
    """True when the rules do not make it: it comes from a list alone."""
    path: Path = wire.path
    return path[:1] == ("wires",)


def _sentence(paper: PaperList, found: Agreement) -> str:
    parts = [
        f"of the {found.made} wires that the rules make, {found.same} {_are(found.same)} in {paper.file} "
        f"and {found.missing} {_are(found.missing)} not",
        f"it lists {found.extra} more",
        f"{found.known} of {found.devices} devices {'has' if found.known == 1 else 'have'} every wire on paper",
    ]
    if paper.one_ended:
        goes = "wire goes" if paper.one_ended == 1 else "wires go"
        parts.append(f"{paper.one_ended} {goes} nowhere on paper")
    if paper.endless:
        rows = "row names" if paper.endless == 1 else "rows name"
        parts.append(f"{paper.endless} {rows} no end and {'is' if paper.endless == 1 else 'are'} passed over")
    return "; ".join(parts)


def _are(count: int) -> str:
    return "is" if count == 1 else "are"
