"""Lists on paper and for spreadsheets: wires, what to cut, the diodes of the routes."""

from labelgen.making import Files, Job, Made, Result, counted
from labelgen.model.sheet import Placed, Sheet


def lists(job: Job) -> Result:
    from labelgen.rendering.tables import wires_csv

    words = f"{counted(len(job.netlist.wires), 'wire')} for a spreadsheet"
    files: Files = {"wires.csv": wires_csv(job.netlist)}
    made = [Made(name="wires.csv", what=words)]
    if job.description.printing.wires == "xlsx":
        from labelgen.rendering.workbook import wires_xlsx

        files["wires.xlsx"] = wires_xlsx(job.netlist)
        made.append(Made(name="wires.xlsx", what=f"{words}, with filters"))
    if any(paper.in_place for paper in job.description.papers):
        from labelgen.rendering.filled_lists import filled_files

        for name, content in filled_files(job.description.papers, job.netlist).items():
            files[name] = content
            made.append(Made(name=name, what="your own list with its blanks filled"))
    cuts, routes = _cut_list(job), _routes(job)
    files |= cuts.files | routes.files
    return Result(files=files, made=(*made, *cuts.made, *routes.made), problems=[*cuts.problems, *routes.problems])


def _routes(job: Job) -> Result:
    from labelgen.drawings.lists.route_pages import route_pages
    from labelgen.standards.paper_sizes import PAPERS

    drawings, problems = route_pages(job.description, job.netlist, job.look, PAPERS[job.paper])
    pages = tuple(Sheet(width=d.width, height=d.height, placed=(Placed(x=0, y=0, drawing=d),)) for d in drawings)
    diodes = counted(sum(1 for matrix in job.netlist.matrices for _ in matrix.diodes), "diode")
    return job.printed("routes.pdf", f"the matrix of the routes with its {diodes}", pages, problems)


def _cut_list(job: Job) -> Result:
    from labelgen.drawings.lists.cut_list_pages import cut_list_pages
    from labelgen.rendering.cut_list import cut_list_csv
    from labelgen.standards.paper_sizes import PAPERS

    drawings, problems = cut_list_pages(job.description, job.netlist, job.look, PAPERS[job.paper])
    pages = tuple(Sheet(width=d.width, height=d.height, placed=(Placed(x=0, y=0, drawing=d),)) for d in drawings)
    words = f"what to buy, cut and thread, on {counted(len(pages), 'page')}"
    printed = job.printed("cut-list.pdf", words, pages, problems)
    made = Made(name="cut-list.csv", what="the same wires in order of pulling, for a spreadsheet")
    files = {**printed.files, "cut-list.csv": cut_list_csv(job.netlist, job.look.words)}
    return Result(files=files, made=(*printed.made, made), problems=printed.problems)
