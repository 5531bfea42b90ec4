"""A proposed panel as a block of a description, to be pasted into one and edited."""

from collections.abc import Iterator

from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.panel.proposed_panel import GRID_MM, ProposedPanel


def panel_block(panel: ProposedPanel, description: Description) -> str:
    """`panels:` with this panel alone, in lines no longer than they have to be."""
    return "\n".join(_lines(panel, description)) + "\n"


def _lines(panel: ProposedPanel, description: Description) -> Iterator[str]:
    yield "# A first fascia, to be edited: paste it into the description, then look at it with"
    yield "#   labelgen make FILE --only fascia --grid"
    yield "# The points follow each other as they do on the boards, each with a short road for its own."
    if description.panels:
        where = "stands beside those that are there" if panel.new else "takes the place of the one that is there"
        yield f"# There is a `panels:` already: write it once only; {panel.id} {where}."
    yield "panels:"
    yield f"  {panel.id}:"
    if not panel.new:
        yield from _kept(description, panel.id)
    yield f"    size: {_pair(Point(*panel.size))}"
    yield f"    grid: {_n(GRID_MM)}"
    if panel.tracks:
        yield "    tracks:"
        for track, corners in panel.tracks.items():
            written = ", ".join(corner if isinstance(corner, str) else _pair(corner) for corner in corners)
            yield f"      {track}: [{written}]"
    for table, places in (("points", panel.points), ("levers", panel.levers)):
        if places:
            yield f"    {table}:"
            yield from (f"      {id_}: {_pair(at)}" for id_, at in places.items())
    if panel.routes:
        yield "    routes:"
        yield from (f"      {_quoted(route)}: {_pair(at)}" for route, at in panel.routes.items())


def _kept(description: Description, panel: str) -> Iterator[str]:
    """What the panel says already of itself, as far as it is where its wires go and what it is called."""
    given = description.panels[panel]
    if given.name:
        yield f"    name: {_quoted(given.name)}"
    if given.board is not None:
        yield f"    board: {given.board}"
    for key, at in (("at", given.at), ("exit", given.exit)):
        if at is not None:
            yield f"    {key}: {_pair(Point(*at))}"


def _quoted(text: str) -> str:
    """In single quotes, in which nothing but the quote itself is special (YAML 1.2, 7.3.2)."""
    return "'" + text.replace("'", "''") + "'"


def _pair(at: Point) -> str:
    return f"[{_n(at.x)}, {_n(at.y)}]"


def _n(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")
