"""The same 1,000 flags by labelgen, and as HTML by a general library: `python tests/benchmarks/flags_as_html.py`.

The HTML stands as labelgen places it, in the same typeface, but each text in a fixed size: nothing is fitted. The
library is weasyprint, which nothing else here needs: `pip install weasyprint`, with Pango from the system. Not a test.
"""

import sys
from html import escape
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

from generated_railways import railway

from labelgen.data_files import font_file
from labelgen.drawings.flags.flags import flag_drawings
from labelgen.drawings.flags.order import FlagEnd, in_order_of_work
from labelgen.imposition.sheet_filling import fill
from labelgen.imposition.sheet_grid import find_stock
from labelgen.lengths import Rectangle
from labelgen.making import Checked
from labelgen.model.look import CellSize, Look
from labelgen.model.sheet import Document, Stock
from labelgen.pipeline import check_file
from labelgen.reading.data_readers import stocks
from labelgen.rendering.pdf import pdf_bytes
from labelgen.standards.colour_letters import COLOURS

FLAGS, POINTS = 1000, 80
STYLE = """
@page { size: 210mm 297mm; margin: 0 }
@font-face { font-family: B612; src: url(REGULAR) }
@font-face { font-family: B612; font-weight: bold; src: url(BOLD) }
body { margin: 0; font: 2.3mm B612 }
.page { position: relative; width: 210mm; height: 297mm; break-after: page; overflow: hidden }
.flag { position: absolute; border-bottom: 0.1mm solid #8c8c8c }
.flag::after { content: ""; position: absolute; left: 50%; top: 0; bottom: 0; border-left: 0.15mm dashed #8c8c8c }
.face { position: absolute; top: 1mm; width: 15mm; height: 8.6mm }
.head { font: bold 4.5mm B612 }
.code { display: inline-block; min-width: 5mm; border: 0.15mm solid #1a1a1a; font: bold 3.4mm B612; text-align: center }
.end { position: absolute; bottom: 0; left: 0; white-space: nowrap }
.note { position: absolute; bottom: 0; right: 0; font-size: 1.9mm; color: #333 }
"""


def main() -> None:
    try:
        import weasyprint
    except (ImportError, OSError) as error:
        raise SystemExit(f"This benchmark needs weasyprint (`pip install weasyprint`) and Pango: {error}") from None
    checked, stock = checked_railway(), find_stock("a4-65-38x21", list(stocks().values()))
    assert isinstance(stock, Stock)
    ours, pages = by_labelgen(checked, stock)
    begun = process_time()
    document = weasyprint.HTML(string=as_html(checked, stock)).render()
    content = document.write_pdf()
    theirs = process_time() - begun
    print(f"{FLAGS} flags on {pages} pages of {stock.id}")
    print(f"labelgen              {ours:7.2f} s")
    print(
        f"weasyprint {weasyprint.__version__:10} {theirs:7.2f} s on {len(document.pages)} pages, {len(content)} bytes"
    )
    print(f"{theirs / ours:.1f} times as long")


def checked_railway() -> Checked:
    with TemporaryDirectory() as folder:
        file = Path(folder) / "railway.yaml"
        file.write_text(railway(POINTS), encoding="utf-8")
        checked, problems = check_file(file)
    assert checked is not None, problems
    return checked


def by_labelgen(checked: Checked, stock: Stock) -> tuple[float, int]:
    """Seconds, and pages."""
    begun = process_time()
    cell = CellSize(width=stock.width, height=stock.height)
    drawings, _ = flag_drawings(checked.description, checked.netlist, Look(), cell)
    pages, _ = fill(drawings[:FLAGS], stock)
    pdf_bytes(Document(title="flags", pages=pages))
    assert len(drawings) >= FLAGS
    return process_time() - begun, len(pages)


def as_html(checked: Checked, stock: Stock) -> str:
    flags = list(in_order_of_work(checked.netlist, "fold"))[:FLAGS]
    each = 2 * stock.count
    pages = [
        "".join(flag(checked, one, place(stock, number)) for number, one in enumerate(flags[first : first + each]))
        for first in range(0, len(flags), each)
    ]
    style = STYLE.replace("REGULAR", font_file("B612-Regular.ttf").as_uri())
    style = style.replace("BOLD", font_file("B612-Bold.ttf").as_uri())
    return f"<style>{style}</style>" + "".join(f"<div class=page>{page}</div>" for page in pages)


def place(stock: Stock, number: int) -> Rectangle:
    """Two flags a cell, one above the other."""
    cell = stock.cell(number // 2)
    return Rectangle(cell.x, cell.y + number % 2 * cell.height / 2, cell.width, cell.height / 2)


def flag(checked: Checked, one: FlagEnd, at: Rectangle) -> str:
    function = checked.netlist.functions[one.wire.function]
    colour = COLOURS.get(function.colour, COLOURS["WH"])
    code = f"<span class=code style='background:{colour.paint};color:{colour.ink}'>{escape(function.code)}</span>"
    head = f"<span class=head>{escape(one.wire.stem)}</span> {code}"
    faces = [(1.0, f"→ {one.far.shown}", function.colour), (at.width - 16, one.end.shown, f"#{one.wire.number}")]
    inside = "".join(
        f"<div class=face style='left:{x:.2f}mm'>{head}<span class=end>{escape(end)}</span>"
        f"<span class=note>{escape(note)}</span></div>"
        for x, end, note in faces
    )
    box = f"left:{at.x:.2f}mm;top:{at.y:.2f}mm;width:{at.width:.2f}mm;height:{at.height:.2f}mm"
    return f"<div class=flag style='{box}'>{inside}</div>"


if __name__ == "__main__":
    main()
