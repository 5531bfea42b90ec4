"""What the schedule says of panels and boards, with all that is on them, and the wires in the order of work."""

from collections.abc import Iterator
from functools import cached_property

from labelgen.model.netlist import EndKind
from labelgen.model.panel.holes import PanelHole, panel_holes
from labelgen.model.pulling_order import pulling_order
from labelgen.model.threaded_holes import ThreadedHole, threaded_holes
from labelgen.natural_order import natural
from labelgen.rendering.page_wires import EndFacts, Link
from labelgen.rendering.panel_face import panel_face
from labelgen.rendering.schedule_facts import Facts, thing_anchor
from labelgen.rendering.thing_facts import Things
from labelgen.rendering.thing_records import BoardFacts, HoleFacts, PanelFacts, Work


class Places:
    """Answers for one railway; everything is looked up once."""

    def __init__(self, facts: Facts, things: Things) -> None:
        self._facts, self._things = facts, things
        self._description, self._netlist = facts.description, facts.netlist
        self._addresses, self._wires = facts.addresses, facts.wires

    @cached_property
    def panels(self) -> list[PanelFacts]:
        return [self._panel(id_) for id_ in self._description.panels]

    def _panel(self, id_: str) -> PanelFacts:
        panel, link = self._description.panels[id_], self._things.panel_link(id_)
        assert link is not None
        width, height = panel.size or (0.0, 0.0)
        holes = [(hole, self._leads_to(hole)) for hole in panel_holes(self._description, self._netlist, id_)]
        written = [(hole, link.text.removesuffix(f" {hole.contact}")) for hole, link in holes]
        return PanelFacts(
            id=id_,
            link=link,
            board=self._facts.board(panel.board or next(iter(self._boards_of(id_)), None)),
            size=f"{width:g} × {height:g} mm" if panel.size else "",
            width=width,
            height=height,
            face=panel_face(panel.size, written) if panel.size else None,
            levers=[
                lever
                for lever, plan in zip(self._things.levers, self._netlist.levers, strict=True)
                if plan.panel == id_
            ],
            holes=holes,
            routes=self._things.routes(id_),
            matrices=self._things.things(f"panel/{id_}", EndKind.MATRIX),
        )

    def _boards_of(self, panel: str) -> Iterator[str]:
        return (lever.board for lever in self._netlist.levers if lever.panel == panel and lever.board)

    def _leads_to(self, hole: PanelHole) -> Link:
        if hole.use == "lever" and hole.thing in self._netlist.lever_by_id:
            link = self._things.lever_link(self._netlist.lever_by_id[hole.thing])
            return Link(text=f"{link.text} {hole.contact}".strip(), href=link.href, words=link.words)
        if hole.use == "route":
            route = self._things.route(hole.thing)
            return Link(text=route.number, href=route.href, words=hole.thing) if route else Link(text=hole.thing)
        return Link(text=hole.thing)

    @cached_property
    def boards(self) -> list[BoardFacts]:
        return [self._board(id_) for id_ in self._description.boards]

    def _board(self, id_: str) -> BoardFacts:
        size, link = self._description.boards[id_].size, self._facts.board(id_)
        home = f"board/{id_}"
        supplies = {
            supply.link.href.partition("#")[2]: supply for supply in self._facts.supplies(self._description.supplies)
        }
        return BoardFacts(
            id=id_,
            link=link,
            size=f"{size[0]:g} × {size[1]:g} mm" if size else "",
            strips=[strip for strip in self._facts.strips if strip.board.href == link.href],
            panels=[panel for panel in self.panels if panel.board.href == link.href],
            devices=sorted(self._things.things(home, EndKind.DEVICE), key=lambda thing: natural(thing.anchor)),
            supplies=[(supplies.get(thing.anchor), thing) for thing in self._things.things(home, EndKind.SUPPLY)],
            plugs=[
                (plug, next(board for board in plug.boards if board.href != link.href))
                for plug in self._things.plugs
                if link.href in [board.href for board in plug.boards]
            ],
            holes=[self._hole(hole) for hole in self._holes if hole.board == id_],
        )

    @cached_property
    def _holes(self) -> list[ThreadedHole]:
        return threaded_holes(self._description, self._netlist)

    def _hole(self, hole: ThreadedHole) -> HoleFacts:
        return HoleFacts(
            hole=hole,
            anchor=thing_anchor("hole", hole.id),
            wires=[self._wires.of_wire[str(wire.number)] for wire in hole.wires],
            issues=self._facts.in_force(hole.id, places="label"),
        )

    @cached_property
    def work(self) -> list[Work]:
        strips = {strip.id: strip for strip in self._facts.strips}
        return [
            Work(
                strip=strips.get(pull.strip or ""),
                pull=pull,
                holes=", ".join(map(self._netlist.shown_id, pull.holes)),
                ends=[self._at_strip_first(str(wire.number), pull.strip) for wire in pull.wires],
            )
            for pull in pulling_order(self._netlist)
        ]

    def _at_strip_first(self, number: str, strip: str | None) -> tuple[EndFacts, EndFacts]:
        one, other = self._wires.of_wire[number]
        here = [each.end.kind is EndKind.WAY and each.end.thing == strip for each in (one, other)]
        return (other, one) if here == [False, True] else (one, other)
