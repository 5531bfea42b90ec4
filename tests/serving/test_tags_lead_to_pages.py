"""Every QR symbol of the printed tags, decoded from the rendered PDF, leads through the server to its strip's page."""

from pathlib import Path
from urllib.parse import urlsplit

import pypdfium2
import zxingcpp
from chromium import PHONE, browser
from running import running

from labelgen.data_files import layouts
from labelgen.making import Request
from labelgen.pipeline import check_file, make
from labelgen.serving.server import LOOPBACK


def test_each_tag_shows_its_strip_in_a_browser(tmp_path: Path) -> None:
    file = tmp_path / "quay.yaml"
    text = (layouts("railways") / "marram-quay.yaml").read_text()
    file.write_text(
        text.replace("railway: Marram Quay\n", "railway: Marram Quay\nschedule: https://quay.invalid/railway\n")
    )
    checked, _ = check_file(file)
    assert checked is not None
    content = make(checked, Request(only=frozenset({"tags"}))).files["tags.pdf"]
    pictures = [page.render(scale=300 / 72).to_numpy() for page in pypdfium2.PdfDocument(content)]
    addresses = [found.text for picture in pictures for found in zxingcpp.read_barcodes(picture)]
    shown = []
    with running(file) as served, browser() as chromium:
        tab = chromium.new_page(viewport=PHONE)
        for address in addresses:
            answer = tab.goto(f"http://{LOOPBACK}:{served.port}{urlsplit(address).path}")
            assert answer.status == 200
            shown.append(tab.get_by_role("heading", level=1).inner_text())
            assert tab.locator("table.strip").bounding_box()["y"] < PHONE["height"] / 2, "the strip is seen at once"
    assert sorted(shown) == sorted(f"Strip {strip.shown}" for strip in checked.netlist.strips)
