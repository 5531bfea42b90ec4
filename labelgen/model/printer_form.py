"""What is kept of a builder's printers, beside no description: it serves every railway."""

from pydantic import Field

from labelgen.model.correction import OFFICE_PAPERS, Correction
from labelgen.model.pairs import Position, Scale, Size
from labelgen.model.record import Record, Table
from labelgen.model.scalars import Id


class PrinterForm(Record):
    """As `printing:` of a description says it."""

    scale: Scale = (1, 1)
    shift: Position = (0, 0)
    paper: Size | None = None
    """Of a label roller: the size of its labels in mm. Left out: sheets for the office."""

    @property
    def correction(self) -> Correction:
        papers = (self.paper,) if self.paper is not None else OFFICE_PAPERS
        return Correction(scale=self.scale, shift=self.shift, papers=papers)


class PrintersForm(Record):
    """The whole file."""

    printers: Table[dict[Id, PrinterForm]] = Field(default_factory=dict)
