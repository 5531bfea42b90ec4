"""The schedule as pages for a phone, a screen or a printer: an index, a page for each strip, lever, plug, panel, board.

Each page stands alone: style and scripts are inside it, and it loads nothing. All can be read without scripts; with
them there are ticks, a search, one wire a screen, and the fault finder. Links are relative and name `index.html`, so
that the folder can be opened from a memory stick or put on any web host as it is.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from itertools import groupby
from typing import TYPE_CHECKING, Any, TypeVar

from labelgen.model.description import Description
from labelgen.model.figures import WEAK_JOULES, Figures
from labelgen.model.lamp_leads import load_shown
from labelgen.model.netlist import EndKind, Function, Netlist
from labelgen.rendering.page_addresses import slug
from labelgen.rendering.page_frame import Marks, page, page_data, templates
from labelgen.rendering.page_wires import Issues, Link, WireFacts
from labelgen.rendering.place_facts import Places
from labelgen.rendering.schedule_facts import Facts, Hanging
from labelgen.rendering.thing_facts import Things
from labelgen.rendering.thing_records import Work
from labelgen.standards.cautions import CAUTIONS
from labelgen.standards.colour_letters import Colour

if TYPE_CHECKING:
    from markupsafe import Markup

T = TypeVar("T")
TICKS = ("elements.js", "ticks.js", "tick_filter.js")


def schedule_pages(
    description: Description,
    netlist: Netlist,
    marks: Mapping[str, str],
    issues: Issues | None = None,
    *,
    figures: Figures | None = None,
    hanging: Mapping[str, Hanging] | None = None,
    tracing: object = None,
) -> dict[str, bytes]:
    """Path inside the output folder: the page, in UTF-8.

    `marks`: function: its pattern swatch as SVG, which goes into the pages as it is. `hanging`: strip: how it lies
    before the eyes. `tracing`: what the fault finder works on, fit for JSON; None: it stays away. Everything that the
    builder wrote is escaped.
    """
    pages = _Pages(Facts(description, netlist, issues or {}), figures or Figures(), Marks(marks), hanging or {})
    return {f"schedule/{path}": content for path, content in pages.all(tracing)}


class _Pages:
    def __init__(self, facts: Facts, figures: Figures, marks: Marks, hanging: Mapping[str, Hanging]) -> None:
        self._facts, self._marks, self._hanging = facts, marks, hanging
        self._things = Things(facts, figures)
        self._places = Places(facts, self._things)
        self._set: dict[object, Markup] = {}
        said = [(facts.says(what), facts.says(why)) for what, why in CAUTIONS]
        self._shared: dict[str, Any] = {
            "railway": facts.netlist.railway,
            "says": facts.says,
            "shown_id": facts.netlist.shown_id,
            "load_shown": partial(load_shown, facts.netlist),
            "mark_ids": marks.ids,
            "work": facts.addresses.work,
            "trace": facts.addresses.trace,
            "device_links": self._device_links(),
            "details_of": self._details_of,
            "mark_of": self._mark_of,
            "colour_of": self._colour_of,
            "weak_joules": WEAK_JOULES,
        }
        parts: Any = templates().get_template("parts.html").make_module(self._shared)
        self._parts = parts
        self._shared["cautions"] = parts.cautions(said)

    def all(self, tracing: object) -> Iterator[tuple[str, bytes]]:
        yield "index.html", self._index()
        yield from self._strips()
        yield from self._levers()
        for plug in self._things.plugs:
            yield plug.link.href, self._page("plug.html", "../../", TICKS, plug=plug)
        for panel in self._places.panels:
            yield panel.link.href, self._page("panel.html", "../../", TICKS, panel=panel)
        for board in self._places.boards:
            yield board.link.href, self._page("board.html", "../../", TICKS, board=board)
        yield f"{self._facts.addresses.work}/index.html", self._work()
        yield f"{self._facts.addresses.trace}/index.html", self._trace(tracing)

    def _page(self, template: str, up: str, scripts: tuple[str, ...], **values: object) -> bytes:
        return page(template, {**self._shared, "parts": self._parts, "up": up, **values}, scripts, self._marks)

    # What many pages show alike is set once.

    def _details_of(self, wire: WireFacts) -> "Markup":
        return self._once(("wire", wire.number), self._parts.details, wire)

    def _mark_of(self, function: Function) -> "Markup":
        return self._once(("mark", function.name), self._parts.mark, function)

    def _colour_of(self, colours: tuple[Colour, ...]) -> "Markup":
        return self._once(colours, self._parts.colour, colours)

    def _once(self, key: object, macro: Callable[[T], "Markup"], value: T) -> "Markup":
        if key not in self._set:
            self._set[key] = macro(value)
        return self._set[key]

    def _device_links(self) -> dict[str, str]:
        addresses, netlist = self._facts.addresses, self._facts.netlist
        devices = (device for lever in netlist.levers for device in lever.devices)
        return {f"device-{id_}": f"{addresses.of_thing(EndKind.DEVICE, id_)}#device-{id_}" for id_ in devices}

    def _index(self) -> bytes:
        facts, things = self._facts, self._things
        elsewhere = [thing for kind in (EndKind.DEVICE, EndKind.SUPPLY, EndKind.ROUTE, EndKind.MATRIX)
                     for thing in things.things("", kind)]  # fmt: skip
        return self._page(
            "index.html",
            "",
            (*TICKS, "search.js"),
            about=facts.description.about,
            strips=facts.strips,
            levers=things.levers,
            panels=self._places.panels,
            boards=self._places.boards,
            plugs=things.plugs,
            supplies=facts.supplies(facts.description.supplies),
            elsewhere=elsewhere,
            totals=facts.totals(),
            functions=facts.functions(),
            data=page_data([*self._found()]),
        )

    def _found(self) -> Iterator[tuple[str, str, str]]:
        """For the search: what it is, its name and its page."""
        things = self._things
        for strip in self._facts.strips:
            yield f"Strip {strip.shown}", strip.name, strip.href
        for lever in things.levers:
            yield f"Lever {lever.link.text}", lever.link.words, lever.link.href
        links = (("Plug", [p.link for p in things.plugs]), ("Panel", [p.link for p in self._places.panels]))
        for what, found in (*links, ("Board", [b.link for b in self._places.boards])):
            yield from ((f"{what} {link.text}", link.words, link.href) for link in found)
        for panel in self._places.panels:
            yield from ((f"Route {route.number}", route.name, route.href) for route in panel.routes)
        for board in self._places.boards:
            yield from ((f"Hole {h.hole.shown}", board.link.text, f"{board.link.href}#{h.anchor}") for h in board.holes)
            for thing in (*board.devices, *(thing for _, thing in board.supplies)):
                yield thing.shown, thing.name, f"{board.link.href}#{thing.anchor}"
        for one, other in self._facts.wires.ends:
            words = f"wire {one.wire.number}, {one.here.text} – {other.here.text}"
            yield one.wire.wire.head, words, f"{self._facts.addresses.work}/index.html#wire-{slug(one.wire.number)}"

    def _strips(self) -> Iterator[tuple[str, bytes]]:
        facts, plans = self._facts, self._facts.netlist.strips
        around = [None, *facts.strips, None]
        for position, plan in enumerate(plans):
            strip = facts.strips[position]
            yield (
                strip.href,
                self._page(
                    "strip.html",
                    "../",
                    TICKS,
                    strip=strip,
                    ways=facts.ways(plan),
                    hanging=self._hanging.get(plan.id, Hanging()),
                    functions=facts.functions(plan),
                    figures=self._things.figures_of_strip(plan.id),
                    before=around[position],
                    after=around[position + 2],
                ),
            )

    def _levers(self) -> Iterator[tuple[str, bytes]]:
        levers = self._things.levers
        around: list[Link | None] = [None, *(lever.link for lever in levers), None]
        for position, lever in enumerate(levers):
            before, after = around[position], around[position + 2]
            yield lever.link.href, self._page("lever.html", "../../", TICKS, lever=lever, before=before, after=after)

    def _work(self) -> bytes:
        by_strip = groupby(self._places.work, key=lambda work: work.strip)
        strips = [_strip_work(number, [*work]) for number, (_, work) in enumerate(by_strip)]
        scripts = (*TICKS, "qr.js", "carry.js", "one_wire.js")
        return self._page(
            "work.html",
            "../",
            scripts,
            work_strips=strips,
            work_jumps=[(each["anchor"], each["facts"].shown, True) for each in strips if each["facts"]],
            functions=self._facts.functions(),
        )

    def _trace(self, tracing: object) -> bytes:
        data = page_data(tracing) if tracing is not None else ""
        scripts = ("elements.js", "finder.js", "finder_words.js", "finder_page.js") if tracing is not None else ()
        return self._page("trace.html", "../", scripts, data=data)


def _strip_work(number: int, work: list[Work]) -> dict[str, Any]:
    strip = work[0].strip
    return {"facts": strip, "anchor": f"strip-{strip.id}" if strip else f"no-strip-{number}", "work": work}
