"""The levers of a railway: declared or only worked with, and the panel in which each stands."""

from collections.abc import Mapping

from labelgen.model.description import Description, Lever
from labelgen.model.kinds import LEVER_CONTACTS
from labelgen.model.netlist import LeverPlan
from labelgen.natural_order import natural
from labelgen.wiring.circuits import WantedCircuit
from labelgen.wiring.resolving import only


def lever_plans(
    description: Description,
    circuits: list[WantedCircuit],
    panel_boards: Mapping[str, str | None],
    first_boards: Mapping[str, str | None],
) -> list[LeverPlan]:
    """Every lever in natural order. `first_boards`: the board of each circuit's first group."""
    drawn = _drawn(description)
    works = {circuit.lever: circuit for circuit in circuits if circuit.lever is not None}
    plans = []
    for id_ in sorted({*works, *description.levers}, key=natural):
        given = description.levers.get(id_, Lever())
        circuit = works.get(id_)
        type_ = given.type or (circuit.kind.lever_type if circuit else None) or ""
        panel = _panel(description, id_, given, circuit, drawn)
        plans.append(
            LeverPlan(
                id=id_,
                shown=given.shown or id_,
                name=given.name or _name(circuit),
                type=type_,
                panel=panel,
                board=panel_boards[panel] if panel else first_boards.get(id_),
                normal=given.normal,
                spare=given.spare and circuit is None,
                devices=tuple(device.id for device in circuit.devices) if circuit else (),
                path=_path(description, id_, circuit),
                buttons=_buttons(type_, circuit),
            )
        )
    return plans


def ends_of_lever(lever_type: str, circuit: WantedCircuit | None) -> list[str]:
    """Its contacts, as its type says or the rows of the kind name them, and the things beside it.

    None when neither tells: then it may have any.
    """
    fixed = LEVER_CONTACTS.get(lever_type)
    if circuit is None or not lever_type:
        return list(fixed or ())
    rows = [row for _, row in circuit.rows()]
    contacts = [*(row.contact for row in rows), *(row.contact for _, row in circuit.chain_rows())]
    named = [contact for contact in contacts if contact is not None]
    beside = [row.across for row in rows if row.across is not None and row.across not in circuit.kind.terminals]
    feed = [] if lever_type == "stud" else ["F"]
    return list(dict.fromkeys([*(fixed or (*feed, *named)), *beside]))


def _drawn(description: Description) -> dict[tuple[str, str], str]:
    """(levers or devices, id): the first panel that draws it."""
    found: dict[tuple[str, str], str] = {}
    for id_ in sorted(description.panels, key=natural):
        panel = description.panels[id_]
        for lever in panel.levers:
            found.setdefault(("levers", lever), id_)
        for device in (*panel.points, *panel.sections):
            found.setdefault(("devices", device), id_)
    return found


def _panel(
    description: Description,
    lever: str,
    given: Lever,
    circuit: WantedCircuit | None,
    drawn: Mapping[tuple[str, str], str],
) -> str | None:
    """The panel it names, the panel that draws it or its point, its board's default, the only panel."""
    panels = description.panels
    if given.panel is not None:
        return given.panel if given.panel in panels else None
    things = [("levers", lever), *(("devices", device.id) for device in (circuit.devices if circuit else ()))]
    if on := [drawn[thing] for thing in things if thing in drawn]:
        return on[0]
    board = description.boards.get(circuit.first.board or "") if circuit else None
    if board is not None and board.panel in panels:
        return board.panel
    return only(panels)


def _buttons(lever_type: str, circuit: WantedCircuit | None) -> tuple[str, ...]:
    """A button or stud for each contact but the feed that they share."""
    if circuit is None or lever_type not in ("buttons", "stud"):
        return ()
    contacts = (row.contact for _, row in circuit.rows())
    return tuple(dict.fromkeys(contact for contact in contacts if contact not in (None, "F")))


def _name(circuit: WantedCircuit | None) -> str:
    """A lever without a name of its own is called by what it works, when that has one name."""
    names = {device.given.name for device in circuit.devices if device.given.name} if circuit else set()
    return names.pop() if len(names) == 1 else ""


def _path(description: Description, lever: str, circuit: WantedCircuit | None) -> tuple[str, ...]:
    if lever in description.levers or circuit is None:
        return ("levers", lever)
    return description.device_path(circuit.first.id)  # type: ignore[return-value]
