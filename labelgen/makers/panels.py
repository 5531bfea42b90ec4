"""What is made of a control panel."""

from labelgen.making import Files, Job, Made, Result, counted


def fascia(job: Job) -> Result:
    from labelgen.drawings.fascia import fascia_drawings
    from labelgen.imposition.tiling import tile
    from labelgen.rendering.svg import svg_bytes
    from labelgen.standards.paper_sizes import PAPERS

    drawings, problems = fascia_drawings(job.description, job.netlist, job.look)
    files: Files = {}
    made: list[Made] = []
    for panel, drawing in drawings.items():
        if not job.wanted([drawing]):
            continue
        pages = tile(drawing, PAPERS[job.paper])
        printed = job.printed(f"fascia-{panel}.pdf", f"panel {panel} on {counted(len(pages), 'sheet')}", pages, [])
        svg = f"fascia-{panel}.svg"
        files |= {**printed.files, svg: svg_bytes(drawing)}
        made += [*printed.made, Made(name=svg, what=f"panel {panel} as a drawing in mm")]
    return Result(files=files, made=tuple(made), problems=problems)
