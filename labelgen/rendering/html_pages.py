"""The schedule as pages for a phone, a screen or a printer: an index, and a page for every strip.

Each page stands alone: its style is inside it, it runs no script, and it loads nothing. Links are relative and name
`index.html`, so that the folder can be opened from a disk or put on any web host as it is.
"""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.rendering.schedule_facts import Facts, colours_of

if TYPE_CHECKING:
    from jinja2 import Environment

CAUTIONS = (
    (
        "Extra-low voltage only.",
        "No mains on the layout: keep it in closed, approved supplies off the boards.",
    ),
    (
        "Isolate before you work.",
        "Switch off and unplug every supply; with two, one can feed the other backwards and make its plug live.",
    ),
    (
        "Discharge the capacitor bank",
        "of a pulse supply through a resistor, and measure, before you touch its wiring: it holds its charge after"
        " the plug is out.",
    ),
    ("Fuse every supply,", "for no more than the thinnest wire after it can carry."),
    (
        "Local codes come first.",
        "Mains work is for a licensed electrician. This page shows what was described, not what was wired: measure"
        " before you power up.",
    ),
)
"""What to do, and why; the same as in the README."""


def schedule_pages(description: Description, netlist: Netlist, marks: Mapping[str, str]) -> dict[str, bytes]:
    """Path inside the output folder: the page, in UTF-8.

    `marks`: function: its pattern swatch as SVG, which goes into the pages as it is. Everything that the builder
    wrote is escaped.
    """
    from markupsafe import Markup

    facts = Facts(description=description, netlist=netlist)
    shared = {
        "railway": netlist.railway,
        "cautions": CAUTIONS,
        "marks": {name: Markup(picture) for name, picture in marks.items()},
    }
    pages = {"schedule/index.html": _page("index.html", shared | _index(description, facts))}
    strips = facts.strips()
    for position, plan in enumerate(netlist.strips):
        page = {
            "strip": strips[position],
            "ways": facts.ways(plan),
            "functions": facts.functions(plan),
            "before": strips[position - 1] if position else None,
            "after": strips[position + 1] if position + 1 < len(strips) else None,
        }
        pages[f"schedule/{plan.id}/index.html"] = _page("strip.html", shared | page)
    return pages


def _index(description: Description, facts: Facts) -> dict[str, object]:
    return {
        "about": description.about,
        "strips": facts.strips(),
        "levers": facts.levers(),
        "supplies": facts.supplies(),
        "totals": facts.totals(),
        "functions": facts.functions(),
    }


def _page(template: str, values: Mapping[str, object]) -> bytes:
    return _templates().get_template(template).render(values).encode()


@cache
def _templates() -> "Environment":
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    templates = Environment(
        loader=FileSystemLoader(Path(__file__).parent / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    templates.filters["metres"] = lambda length: f"{length / 1000:.1f} m"
    templates.filters["colours"] = colours_of
    return templates
