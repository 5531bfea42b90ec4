"""Every QR symbol of the printed tags, decoded from the rendered PDF, leads through the server to its strip's page."""

import re
from pathlib import Path
from urllib.parse import urlsplit

import pypdfium2
import zxingcpp
from asking import Client

from labelgen.data_files import layouts
from labelgen.making import Request
from labelgen.pipeline import check_file, make
from labelgen.serving.application import application
from labelgen.serving.current_pages import CurrentPages
from labelgen.serving.edition import edition_of


def test_each_tag_shows_its_strip(tmp_path: Path) -> None:
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
    assert len(addresses) == len(checked.netlist.strips)
    client = Client(application(CurrentPages(file, edition_of), ["localhost"]))
    shown = set()
    for address in addresses:
        page = client.ask(urlsplit(address).path)
        assert page.status == 200
        heading = re.search(r"<h1[^>]*>(.*?)</h1>", page.text, re.DOTALL)
        assert heading is not None
        shown |= {strip.id for strip in checked.netlist.strips if strip.id in heading[1]}
    assert shown == {strip.id for strip in checked.netlist.strips}
