"""A booklet's plugs: pin by pin what lands on either board."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from labelgen.drawings.booklet.index import thing_stop
from labelgen.drawings.booklet.pages import Chapter, opening
from labelgen.drawings.booklet.work import Work
from labelgen.drawings.lists.blocks import Column, Row, table
from labelgen.drawings.lists.cells import NOTHING, PageNumber, Words
from labelgen.model.netlist import EndKind, PinPlan, PlugPlan, Wire


class PlugChapters:
    def __init__(self, work: Work) -> None:
        self._work, self._netlist, self._index, self._writer = work, work.netlist, work.index, work.writer

    def all(self) -> Iterator[Chapter]:
        yield from (self._plug(plug) for plug in self._netlist.plugs if plug.id in self._work.contents.plugs)

    def _plug(self, plug: PlugPlan) -> Chapter:
        setting, known = self._writer.setting, self._writer.known
        one, other = (self._netlist.shown_id(board) for board in plug.boards)
        columns = (
            Column(heading="pin", align="end"),
            Column(heading="wire", most=22),
            Column(heading="colour"),
            Column(heading="no.", align="end", most=13),
            Column(heading=f"on {one}", grows=True),
            Column(heading="page", align="end"),
            Column(heading=""),
            Column(heading="no.", align="end", most=13),
            Column(heading=f"on {other}", grows=True),
            Column(heading="page", align="end"),
        )
        used = sum(pin.state == "used" for pin in plug.pins)
        name = f"{plug.name}, between" if plug.name else "Between"
        under = f"{name} {one} and {other}; {used} of {len(plug.pins)} pins in use."
        rows: list[Row] = []
        for empty, pins in groupby(plug.pins, key=lambda pin: pin.state == "spare" and not pin.was and not pin.wires):
            run = list(pins)
            rows += [self._run(run)] if empty and len(run) > 2 else [row for pin in run for row in self._pin(plug, pin)]
        head = opening(f"Plug {known(plug.shown)}", setting, known(under))
        return Chapter(
            title=f"Plug {plug.shown}",
            stop=thing_stop(EndKind.PIN, plug.id),
            sections=([head, *table(columns, rows, setting)],),
            part="Plugs",
        )

    def _run(self, pins: Sequence[PinPlan]) -> Row:
        """Pins of which nothing is to be said."""
        first, said = self._writer.words(pins[0].number, bold=True), f"to pin {pins[-1].number}: spare"
        return Row(cells=(first, *[NOTHING] * 3, self._writer.words(said), *[NOTHING] * 5))

    def _pin(self, plug: PlugPlan, pin: PinPlan) -> Iterator[Row]:
        words = self._writer.words
        number = words(pin.number, bold=True)
        if not pin.wires:
            said = (
                "kept empty" if pin.state == "empty" else f"bridged to {pin.bridged_to}" if pin.bridged_to else "spare"
            )
            was = f", was {pin.was}" if pin.was else ""
            yield Row(cells=(number, words(pin.head), NOTHING, NOTHING, words(f"{said}{was}"), *[NOTHING] * 5))
            return
        sides = [pin.on(board) for board in plug.boards]
        for place in range(max(map(len, sides))):
            own = [wires[place] if place < len(wires) else None for wires in sides]
            wire = next(one for one in own if one is not None)
            function = replace(self._netlist.functions[wire.function], colour=wire.colour)
            first = (number if place == 0 else NOTHING, words(wire.head, bold=True), self._writer.swatch(function))
            one, other = (self._half(wire, board) for wire, board in zip(own, plug.boards, strict=True))
            yield Row(cells=(*first, *one, NOTHING, *other), keeps=place < max(map(len, sides)) - 1)

    def _half(self, wire: Wire | None, board: str) -> tuple[Words | PageNumber, ...]:
        if wire is None:
            return (NOTHING, NOTHING, NOTHING)
        pin = next(end for end in wire.ends if end.kind is EndKind.PIN and end.board == board)
        far = wire.finish if pin is wire.start else wire.start
        stop = self._index.stop(far)
        words = self._writer.words
        return (
            words(wire.number),
            replace(words(far.shown), leads_to=stop),
            PageNumber(stop=stop, numbers=self._work.book.numbers),
        )
