"""A booklet's electrical figures; where there are none, what the description lacks for them."""

from collections.abc import Iterator, Sequence

from labelgen.drawings.booklet.pages import Chapter, opening
from labelgen.drawings.booklet.work import Work
from labelgen.drawings.lists.blocks import Column, Row, paragraph, space, table, title
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.lists.writing import UNSAID, count
from labelgen.model.figures import WEAK_JOULES, BankFigure, Figures, ThrowFigure
from labelgen.model.lamp_leads import load_shown
from labelgen.model.netlist import Netlist

UNDER = "Worked out from the description: measure before you trust them."
PULSE = (
    "A throw empties the bank of its pulse supply through everything in its loop. Coil: what the coil gets that gets"
    f" least. Below {WEAK_JOULES:g} J points may not throw. Peak: the current at the first moment."
)
STEADY = "With all that can be on at the same time."
Rows = Sequence[Sequence[object]]


def throw_said(netlist: Netlist, throw: ThrowFigure) -> str:
    """How a throw lies, and what its weakest coil gets: `normal 1.11 J to P5`."""
    coil, weak = throw.weakest, ", weak" if throw.weak else ""
    return f"{throw.lie} {coil.joules:.2f} J to {netlist.shown_id(coil.device)}{weak}"


class FiguresChapter:
    def __init__(self, work: Work, figures: Figures) -> None:
        self._description, self._netlist, self._writer, self._figures = (
            work.description, work.netlist, work.writer, figures,
        )  # fmt: skip

    def chapter(self) -> Chapter:
        name = "Electrical figures"
        pieces = [opening(name, self._writer.setting, UNDER), *self._pieces()]
        return Chapter(title=name, stop=name, sections=(pieces,))

    def _pieces(self) -> Iterator[Piece]:
        figures = self._figures
        if figures.banks or figures.throws:
            yield from self._pulses()
        if figures.loads or figures.supplies:
            yield from self._steady()
        lacks = list(self._lacks())
        if lacks:
            none = not (figures.throws or figures.loads or figures.supplies)
            yield title("No figures" if none else "Not worked out", self._writer.setting)
            yield from (paragraph(self._writer.known(text), self._writer.setting) for text in lacks)

    def _pulses(self) -> Iterator[Piece]:
        figures = self._figures
        yield title("Capacitor banks", self._writer.setting)
        heads = ("supply", "weakest throw", "coil J", "stored J", "full after s", "throws a minute")
        yield from self._table(heads, [self._bank(bank) for bank in figures.banks], left=(0, 1))
        yield space(1.5)
        for bank in figures.banks:
            for mend in bank.mends:
                said = (
                    f"{mend.words} on {bank.supply}: the weakest coil then gets {mend.joules:.2f} J, at {mend.device}."
                )
                yield paragraph(self._writer.known(said[0].upper() + said[1:]), self._writer.setting)
        yield space(3)
        yield title("Throws", self._writer.setting)
        yield paragraph(self._writer.says(PULSE), self._writer.setting)
        throw_heads = ("throw", "lie", "coil", "J", "share", "loop Ω", "peak A", "ms")
        yield from self._table(throw_heads, [self._throw(throw) for throw in figures.throws], left=(0, 1, 2))
        unmeasured = max((throw.unmeasured for throw in figures.throws), default=0)
        if unmeasured:
            yield paragraph(
                f"Up to {count(unmeasured, 'wire')} of a loop have no length and count for nothing: the real figures"
                " are lower.",
                self._writer.setting,
            )
        yield space(4)

    def _bank(self, bank: BankFigure) -> list[object]:
        full, a_minute = bank.seconds_to_full, bank.throws_a_minute
        return [
            self._netlist.shown_id(bank.supply),
            f"{bank.weakest.shown} {bank.weakest.lie}",
            f"{bank.weakest.weakest.joules:.2f}",
            f"{bank.stored_joules:.2f}",
            UNSAID if full is None else f"{full:.1f}",
            UNSAID if a_minute is None else str(int(a_minute)),
        ]

    def _throw(self, throw: ThrowFigure) -> list[object]:
        coil = throw.weakest
        return [
            throw.shown,
            throw.lie,
            f"{self._netlist.shown_id(coil.device)}.{coil.terminal}",
            f"{coil.joules:.2f}",
            f"{coil.share:.0%}".replace("%", " %"),
            f"{throw.loop_ohms:.2f}",
            f"{throw.peak_amps:.1f}",
            f"{throw.time_constant_ms:.1f}",
        ]

    def _steady(self) -> Iterator[Piece]:
        figures, shown = self._figures, self._netlist.shown_id
        yield title("Steady loads", self._writer.setting)
        yield paragraph(STEADY, self._writer.setting)
        loads = [
            [load_shown(self._netlist, load.device, load.terminal), shown(load.supply),
             f"{load.amps:.2f}", f"{load.volts:.1f}", f"{load.drop_volts:.2f}"]
            for load in figures.loads
        ]  # fmt: skip
        yield from self._table(("load", "fed by", "A", "V", "lost V"), loads, left=(0, 1))
        yield space(3)
        totals = [[shown(one.supply), f"{one.amps:.2f}"] for one in figures.supplies]
        yield from self._table(("supply", "gives A in all"), totals, left=(0,))
        yield space(4)

    def _table(self, heads: Sequence[str], rows: Rows, *, left: Sequence[int]) -> Iterator[Piece]:
        """The last column of words grows."""
        columns = [
            Column(heading=head, align="start" if place in left else "end", grows=place == left[-1])
            for place, head in enumerate(heads)
        ]
        cells = [Row(cells=tuple(self._writer.words(text) for text in row)) for row in rows]
        return table(columns, cells, self._writer.setting) if cells else iter(())

    def _lacks(self) -> Iterator[str]:
        """Supply by supply, what has to be given for figures."""
        figures = self._figures
        figured = {bank.supply for bank in figures.banks} | {load.supply for load in figures.loads}
        for id_, supply in self._description.supplies.items():
            keys = ("volts", "microfarads") if supply.kind == "pulse" else ("volts",)
            lacks = [key for key in keys if getattr(supply, key) is None]
            shown = self._netlist.shown_id(id_)
            if lacks:
                yield f"{shown}: the description does not say {' and '.join(lacks)}."
            elif id_ not in figured:
                what = "the ohms of its coils" if supply.kind == "pulse" else "the milliamps of what it feeds"
                yield f"{shown}: the description does not say {what}, or nothing is wired to it."
        silent = list(dict.fromkeys(load.device for load in figures.silent))
        if silent:
            yield (
                f"{', '.join(map(self._netlist.shown_id, silent))}: the description does not say what they draw; "
                "what their supplies give in all is more."
            )
        if not self._description.supplies:
            yield "The description names no supplies."
