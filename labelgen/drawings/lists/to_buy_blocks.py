"""What a cut list says is to be bought: wire by the reel, ferrules, strips."""

from collections import Counter
from collections.abc import Iterator

from labelgen.drawings.flags.to_buy import SleevesToBuy
from labelgen.drawings.lists.blocks import Column, Row, paragraph, space, table, title
from labelgen.drawings.lists.cells import Ticks
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.lists.writing import UNSAID, Writer, count, metres
from labelgen.model.cut_list import CutList, StripsToBuy, StuffTotal

NO_SPARE = "Nothing is added for mistakes: where little is left over, buy more."
TICK = Column(heading="")
WIRE_COLUMNS = (
    TICK,
    Column(heading="wire"),
    Column(heading="size", most=24),
    Column(heading="wires", align="end"),
    Column(heading="in all", align="end"),
    Column(heading="reels", grows=True),
    Column(heading="left over", align="end"),
)
FERRULE_COLUMNS = (
    TICK,
    Column(heading="ferrules"),
    Column(heading="bare end", align="end"),
    Column(heading="pieces", align="end"),
    Column(heading="for", grows=True),
)
SLEEVE_COLUMNS = (
    TICK,
    Column(heading="clear sleeves, 2:1"),
    Column(heading="pieces", align="end"),
    Column(heading="cut to", align="end"),
    Column(heading="in all", grows=True),
)
WRAP_COLUMNS = (TICK, Column(heading="labels with a clear tail"), Column(heading="pieces", grows=True))
STRIP_COLUMNS = (
    TICK,
    Column(heading="strips"),
    Column(heading="amps", align="end"),
    Column(heading="pieces", align="end"),
    Column(heading="which", grows=True, lines=40),
)
MOST_NAMED = 60
"""Strips that are named: more would fill the page."""


def to_buy(cuts: CutList, strips: list[StripsToBuy], shown: dict[str, str], writer: Writer) -> Iterator[Piece]:
    """Tables of wire, ferrules and strips. `shown`: id of a strip: what is painted on it."""
    yield title("To buy", writer.setting)
    yield from _wire(cuts, writer)
    if cuts.ferrules:
        yield from table(FERRULE_COLUMNS, list(_ferrules(cuts, writer)), writer.setting)
        yield space(writer.setting.cap)
    if strips:
        rows = [_strips(each, shown, writer) for each in strips]
        yield from table(STRIP_COLUMNS, rows, writer.setting)
        yield space(writer.setting.cap)


def flags_to_buy(sleeves: list[SleevesToBuy], wraps: int, writer: Writer) -> Iterator[Piece]:
    """Tables of sleeves and wraps; nothing where there are none."""
    if sleeves:
        yield from table(SLEEVE_COLUMNS, [_sleeves(each, writer) for each in sleeves], writer.setting)
        yield space(writer.setting.cap)
    if wraps:
        row = Row(cells=(Ticks(), writer.words("for wraps"), writer.words(wraps)))
        yield from table(WRAP_COLUMNS, [row], writer.setting)
        yield space(writer.setting.cap)


def _sleeves(each: SleevesToBuy, writer: Writer) -> Row:
    cut = f"{each.shortest:g} mm" if each.shortest == each.longest else f"{each.shortest:g} to {each.longest:g} mm"
    return Row(
        cells=(
            Ticks(),
            writer.words(f"bore {each.bore:g} mm"),
            writer.words(each.pieces),
            writer.words(cut),
            writer.words(metres(round(each.total))),
        )
    )


def _wire(cuts: CutList, writer: Writer) -> Iterator[Piece]:
    yield from table(WIRE_COLUMNS, [_total(total, writer) for total in cuts.totals], writer.setting)
    yield space(writer.setting.cap)
    yield paragraph(NO_SPARE, writer.setting)
    unknown = sum(total.unknown for total in cuts.totals)
    if unknown:
        have = "has no length and is" if unknown == 1 else "have no length and are"
        said = f"{count(unknown, 'wire')} {have} left out of these lengths: measure in place, and buy for that too."
        yield paragraph(said, writer.setting)
    for total in cuts.totals:
        for index in total.plan.too_long:
            wire = total.wires[index]
            said = f"Wire {wire.number} ({wire.head}), {metres(wire.length or 0)}, is longer than any usual reel"
            advice = writer.says("and on none here: buy it by the metre.")
            yield paragraph(writer.known(f"{said} {advice}"), writer.setting)
    yield space(0.6 * writer.setting.cap)


def _total(total: StuffTotal, writer: Writer) -> Row:
    plan = total.plan
    return Row(
        cells=(
            Ticks(),
            writer.insulation(total.colour),
            writer.words(total.size or UNSAID),
            writer.words(total.count),
            writer.words(metres(total.length) if total.wires else UNSAID),
            writer.words(_reels(total) or UNSAID),
            writer.words(metres(plan.left, down=True) if plan.reels else UNSAID),
        )
    )


def _reels(total: StuffTotal) -> str:
    lengths = Counter(reel.length for reel in total.plan.reels)
    return " + ".join(f"{reels} × {length / 1000:g} m" for length, reels in sorted(lengths.items(), reverse=True))


def _ferrules(cuts: CutList, writer: Writer) -> Iterator[Row]:
    for ferrule, pieces in cuts.ferrules.items():
        sizes = dict.fromkeys(row.size for row in cuts.rows if row.ferrule == ferrule)
        yield Row(
            cells=(
                Ticks(),
                writer.words(ferrule.notation),
                writer.words(f"{ferrule.bare_mm} mm"),
                writer.words(pieces),
                writer.words(", ".join(sizes)),
            )
        )


def _strips(each: StripsToBuy, shown: dict[str, str], writer: Writer) -> Row:
    named = ", ".join(shown.get(id_, id_) for id_ in each.strips[:MOST_NAMED])
    more = len(each.strips) - MOST_NAMED
    return Row(
        cells=(
            Ticks(),
            writer.words(f"{each.ways}-way"),
            writer.words(f"{each.amps:g} A"),
            writer.words(len(each.strips)),
            writer.words(f"{named} and {more} more" if more > 0 else named),
        )
    )
