"""What is made of a control panel."""

from dataclasses import replace

from labelgen.making import Files, Job, Made, Result, counted
from labelgen.model.drawing import Drawing
from labelgen.model.sheet import Placed, Sheet


def fascia(job: Job) -> Result:
    from labelgen.drawings.fascia.bleed import with_bleed
    from labelgen.drawings.fascia.fascia import fascia_drawings
    from labelgen.imposition.tiling import tile
    from labelgen.standards.paper_sizes import PAPERS

    drawings, problems = job.once("fascia", lambda: fascia_drawings(job.description, job.netlist, job.look))
    files: Files = {}
    made: list[Made] = []
    for panel, drawing in drawings.items():
        chosen = job.labelling.chosen("fascia", [drawing])
        if not chosen:
            continue
        form = job.description.panels[panel]
        pages = tile(with_bleed(chosen[0], form, job.look), PAPERS[form.paper or job.paper])
        printed = job.printed(f"fascia-{panel}.pdf", f"panel {panel} on {counted(len(pages), 'sheet')}", pages, [])
        machines = _for_machines(job, panel, drawing)
        files |= printed.files | machines.files
        made += [*printed.made, *machines.made]
    card = _operator(job)
    return Result(files=files | card.files, made=(*made, *card.made), problems=[*problems, *card.problems])


def _for_machines(job: Job, panel: str, drawing: Drawing) -> Result:
    """The fascia in layers, for cutters and engravers; a grid is for the eye, so it is printed and never engraved."""
    from labelgen.drawings.fascia.fascia import fascia_drawings
    from labelgen.drawings.fascia.panel_layers import panel_layers
    from labelgen.model.panel.holes import panel_holes
    from labelgen.rendering.dxf import dxf_bytes
    from labelgen.rendering.svg import layered_svg_bytes

    holes = panel_holes(job.description, job.netlist, panel)
    layers = panel_layers(drawing, holes)
    if job.look.grid:
        plain = fascia_drawings(job.description, job.netlist, replace(job.look, grid=False))[0][panel]
        layers = replace(panel_layers(plain, holes), print=layers.print)
    svg, dxf = f"fascia-{panel}.svg", f"fascia-{panel}.dxf"
    made = (
        Made(name=svg, what=f"panel {panel} in mm, in layers for a cutter"),
        Made(name=dxf, what="the same for a program that wants DXF"),
    )
    return Result(files={svg: layered_svg_bytes(layers), dxf: dxf_bytes(layers)}, made=made, problems=[])


def _operator(job: Job) -> Result:
    """A card for whoever works the panels for a day: of the whole railway, so not of one board."""
    from labelgen.drawings.lists.operator_card import operator_card
    from labelgen.standards.paper_sizes import PAPERS

    if job.request.board is not None or job.request.changed:
        return Result(files={}, made=(), problems=[])
    drawings, problems = operator_card(job.description, job.netlist, job.look, PAPERS[job.paper])
    pages = tuple(Sheet(width=d.width, height=d.height, placed=(Placed(x=0, y=0, drawing=d),)) for d in drawings)
    words = f"a card for a visiting operator, on {counted(len(pages), 'page')}"
    return job.printed("operator.pdf", words, pages, problems)
