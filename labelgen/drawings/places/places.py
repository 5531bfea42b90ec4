"""What is stuck on besides markers, flags and tags: labels for plugs, jumpers, holes, supplies, devices and feed holes.

They belong to `places.pdf`. Sizes are mm.
"""

from collections.abc import Iterator
from functools import partial

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.places.device import device_label
from labelgen.drawings.places.hole import FORMS, hole_shapes
from labelgen.drawings.places.jumper import jumper_shapes
from labelgen.drawings.places.label import HINT, PlaceLabel, drawn, every, share
from labelgen.drawings.places.plate import LEAST_HEIGHT, LEAST_WIDTH, Plate, plates
from labelgen.drawings.places.section import section_labels
from labelgen.drawings.places.site import sites
from labelgen.drawings.places.supply import supply_labels
from labelgen.drawings.places.wires import landings
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Shape
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Netlist, PlugPlan
from labelgen.model.threaded_holes import ThreadedHole, threaded_holes
from labelgen.problems import Problem

LEAST_SHARE = CellSize(width=24.0, height=16.0)
"""mm: for the smallest label there is, that of a feed hole."""

Found = tuple[list[Drawing], list[Problem]]


def place_drawings(description: Description, netlist: Netlist, look: Look, cell: CellSize) -> Found:
    """Plug by plug the plates of both its boards; then, large ones first, the ends of the jumpers, the holes (both
    faces of each), supplies, devices and the rails of sections, these board by board.

    Problems: label-too-large, text-does-not-fit, character-missing.
    """
    too_large = place_sheet_problem(description, netlist, cell)
    if too_large is not None:
        return [], [too_large]
    drawings: list[Drawing] = []
    problems: list[Problem] = []
    for plate in [p for plug in netlist.plugs for board in plug.boards for p in plates(netlist, plug, board, cell)]:
        drawing, told = _plate(description, look, plate)
        drawings.append(drawing)
        problems += told
    small: list[Drawing] = []
    for label in _labels(description, netlist, look, cell):
        copies, told = drawn(label, description, look)
        small += copies
        problems += told
    # Equal ones that follow one another share cells.
    small.sort(key=lambda drawing: (-drawing.height, -drawing.width))
    return [*drawings, *small], list(dict.fromkeys(problems))


def place_sheet_problem(description: Description, netlist: Netlist, cell: CellSize) -> Problem | None:
    """label-too-large, where the labels of a sheet are too small for what is to be on them."""
    plated = bool(netlist.plugs or threaded_holes(description, netlist))
    needed = CellSize(width=LEAST_WIDTH, height=LEAST_HEIGHT) if plated else LEAST_SHARE
    wanted = plated or description.supplies or description.points or description.devices
    if not wanted or (cell.width >= needed.width and cell.height >= needed.height):
        return None
    what = "a plug's plate" if plated else "the label of a feed hole"
    return Problem(
        code="label-too-large",
        message=f"{what} takes {needed.width:g} × {needed.height:g} mm, "
        f"the labels of the sheet are {cell.width:g} × {cell.height:g} mm",
        hint="Choose a sheet with larger labels under `sheets: places:`.",
        place=description.place_of("sheets", "places"),
    )


def _labels(description: Description, netlist: Netlist, look: Look, cell: CellSize) -> Iterator[PlaceLabel]:
    for plug in netlist.plugs:
        yield from (_jumper(netlist, plug, board, cell) for board in plug.boards)
    for hole in threaded_holes(description, netlist):
        yield _hole(netlist, hole, cell)
    yield from supply_labels(description, netlist, look, cell, landings(netlist))
    found = sites(description, netlist)
    for site in found:
        if not site.is_rails:
            yield device_label(site, netlist, look, cell)
    for site in found:
        if site.is_rails:
            yield from section_labels(site, netlist, look, cell)


def _plate(description: Description, look: Look, plate: Plate) -> tuple[Drawing, list[Problem]]:
    place = description.place_of_key("plugs", plate.plug.id)
    lettering = Lettering(label=f"plate of plug {plate.plug.shown}", place=place, look=look, hint=HINT)
    drawing = Drawing(
        width=plate.cell.width,
        height=plate.cell.height,
        shapes=tuple(plate.shapes(lettering, look)),
        name=" ".join(filter(None, (lettering.label, f"on {plate.here}", plate.words))),
        place=place,
        board=plate.board,
        label=plate.plug.id,
    )
    return drawing, lettering.problems


def _jumper(netlist: Netlist, plug: PlugPlan, board: str, cell: CellSize) -> PlaceLabel:
    here, there = netlist.shown_id(board), netlist.shown_id(plug.facing(board))

    def shapes(face: Rectangle, lettering: Lettering) -> list[Shape]:
        return jumper_shapes(plug, here, there, face, lettering)

    return PlaceLabel(
        name=f"jumper end of plug {plug.shown}",
        key=plug.id,
        copies=(f" on {here}",),
        path=("plugs", plug.id),
        board=board,
        tries=[(shapes, share(cell))],
    )


def _hole(netlist: Netlist, hole: ThreadedHole, cell: CellSize) -> PlaceLabel:
    """The same for both faces, in the fullest form that fits, on the smallest share of a cell that holds it."""
    board = netlist.shown_id(hole.board)

    def shapes(form: int, face: Rectangle, lettering: Lettering) -> list[Shape]:
        return hole_shapes(hole, board, face, lettering, form)

    sizes = (share(cell), share(cell, whole=True), share(cell, 2, whole=True), cell)
    return PlaceLabel(
        name=f"label of hole {hole.shown}",
        key=hole.id,
        copies=(", first face", ", second face"),
        path=hole.path,
        board=hole.board,
        tries=every([partial(shapes, form) for form in range(FORMS)], sizes),
    )
