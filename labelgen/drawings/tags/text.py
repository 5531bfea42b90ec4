"""What a strip's tags say: the address of its schedule page, or the schedule itself, in words.

A way and an end are always written in full, as they are painted on the railway.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from urllib.parse import urlsplit

from labelgen.drawings.tags.qr import version_for
from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Side, StripPlan, WayPlan
from labelgen.problems import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What one of a strip's tags covers: consecutive ways."""

    strip: StripPlan
    ways: tuple[WayPlan, ...]
    index: int = 1
    count: int = 1

    @property
    def words(self) -> str:
        """`ways 1–8 of 24, 1/3`; nothing when there is only one part."""
        if self.count == 1:
            return ""
        return f"{_ways(self.ways)} of {len(self.strip.ways)}, {self.index}/{self.count}"


def split(strip: StripPlan, count: int) -> list[Part]:
    """The strip's ways in `count` runs of as near as may be the same length."""
    total = len(strip.ways)
    cuts = [round(total * index / count) for index in range(count + 1)]
    return [
        Part(strip=strip, ways=strip.ways[start:stop], index=index, count=count)
        for index, (start, stop) in enumerate(pairwise(cuts), start=1)
    ]


def other_ends(strip: StripPlan, way: WayPlan, side: Side) -> tuple[str, ...]:
    """As painted: the far ends of the wires in one of a way's entries, in order."""
    here = (EndKind.WAY, strip.id, str(way.number))
    return tuple(
        one_line(wire.finish.shown if wire.start.point == here else wire.start.shown) for wire in way.entry(side)
    )


def bridged_to(part: Part, way: WayPlan) -> tuple[str, ...]:
    """Of a way that has what it carries by a bridge alone: `bridged to A1.4`."""
    if way.bridged_to is None:
        return ()
    return (one_line(f"bridged to {part.strip.shown}.{way.bridged_to}"),)


def one_line(text: str) -> str:
    """The text with each run of blanks or line ends as one blank."""
    return " ".join(text.split())


def numbers_in_runs(numbers: Iterable[int], dash: str = "–") -> str:
    """Ascending numbers, runs drawn together: `8–12, 14`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}{dash}{run[-1]}" for run in runs)


def closing_lines(part: Part, dash: str = "–") -> list[str]:
    """`Bridged: 1+4`, `Diodes, band last: 2→5`, `Spare: 8–12`, `Kept free: 14`: of the part's ways, in runs."""
    here = [way.number for way in part.ways]
    lines = [f"Bridged: {'+'.join(map(str, ways))}" for ways in part.strip.bridges if set(ways) & set(here)]
    diodes = dict.fromkeys(diode for way in part.ways for diode in way.diodes)
    if diodes:
        arrow = "→" if dash == "–" else ">"
        each = ", ".join(f"{one.anode.terminal}{arrow}{one.cathode.terminal}" for one in diodes)
        lines.append(f"Diodes, band last: {each}")
    for state, said in (("spare", "Spare"), ("kept", "Kept free")):
        numbers = [way.number for way in part.ways if way.state == state]
        lines += [f"{said}: {numbers_in_runs(numbers, dash)}"] if numbers else []
    return lines


def schedule_text(part: Part, railway: str) -> str:
    """The schedule of a part as plain text, one way a line: `A1.2 L5.F PULSE.feed A1.5`.

    Its first line names the strip, the railway and, where the strip is split, the ways.
    """
    strip = part.strip
    title = one_line(f"{strip.shown} {railway}")
    lines = [f"{title}, {part.words.replace('–', '-')}" if part.words else title]
    for way in part.ways:
        name = one_line(f"{strip.shown}.{way.number}")
        taken = (one_line(way.head),) if way.state == "taken" else ()
        ends = (*other_ends(strip, way, Side.PANEL), *other_ends(strip, way, Side.LAYOUT), *bridged_to(part, way))
        if way.state in ("taken", "used"):
            lines.append(" ".join((name, *taken, *ends)))
    return "\n".join((*lines, *closing_lines(part, "-")))


def plain_address(schedule: str, strip: str) -> str:
    """Where a strip's schedule page is published, as a person would type it."""
    return f"{schedule.rstrip('/')}/{strip}/"


def strip_address(schedule: str, strip: str) -> str:
    """The same, with scheme and host in capitals where that makes the symbol smaller (RFC 3986, 6.2.2.1)."""
    plain = plain_address(schedule, strip)
    scheme, rest = plain.split("://", 1)
    host, slash, path = rest.partition("/")
    user, at, domain = host.rpartition("@")
    if not domain.isascii():
        return plain
    capitals = f"{scheme.upper()}://{user}{at}{domain.upper()}{slash}{path}"
    return capitals if (version_for(capitals) or 0) < (version_for(plain) or 0) else plain


def address_problem(description: Description) -> Problem | None:
    """wrong-type: `schedule` is no address of a web folder; missing-key: tags are to hold one, and there is none."""
    address = description.schedule
    if not address and description.printing.tags in ("address", "both"):
        return Problem(
            code="missing-key",
            message="the tags are to hold the address of the schedule, but the file gives none",
            hint="Write `schedule:` with the address under which the pages will be published, or `tags: text`.",
            place=description.place_of("printing", "tags"),
        )
    if not address or _is_web_folder(address):
        return None
    return Problem(
        code="wrong-type",
        message=f"{address!r} is not an address under which pages can be published",
        hint="Write it like https://your-host.example/wiring, without blanks, ? or #; or leave `schedule:` out, and"
        " each tag holds its strip's schedule itself.",
        place=description.place_of("schedule"),
    )


def _is_web_folder(address: str) -> bool:
    if any(character.isspace() or not character.isprintable() or character in '?#"<>\\' for character in address):
        return False
    try:
        parts = urlsplit(address)
        return parts.scheme in ("http", "https") and bool(parts.hostname) and (parts.port or 0) >= 0
    except ValueError:
        return False


def _ways(ways: tuple[WayPlan, ...]) -> str:
    first, last = ways[0].number, ways[-1].number
    return f"way {first}" if first == last else f"ways {first}–{last}"
