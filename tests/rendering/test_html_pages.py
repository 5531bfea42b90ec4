import re
from base64 import b64encode
from dataclasses import replace
from hashlib import sha256
from pathlib import Path

import pytest
from drawings.strip_railway import DEVICE, Side, Wirer, described, end, harbour, wires_of
from read_pages import Page, led_to

from labelgen.model.netlist import EndKind, Netlist
from labelgen.rendering import html_pages
from labelgen.rendering.html_pages import CAUTIONS, schedule_pages

NASTY = "\"'><script>alert(1)</script><img src=x onerror=alert(2)>&amp;{{ 7*7 }}</style></title>"
RIGHT_TO_LEFT = "\u202eرصيف الميناء 12"
LONG = "Marramharbourquaysideterminus" * 8
TEMPLATES = Path(html_pages.__file__).parent / "templates"
STYLE = "".join((TEMPLATES / name).read_text(encoding="utf-8") for name in ("style.css", "print.css"))


def two_strips(shown: dict[str, str] | None = None) -> Netlist:
    wirer = Wirer(shown)
    wirer.strip("A1")
    wirer.strip("B2", 8)
    for index in range(3):
        wirer.point(str(index + 1), f"P{index + 1}", "A1", 1 + 3 * index)
    wirer.point("08", "P8", "B2", 1)
    wirer.taken = {("B2", 4): "doorbell"}
    wirer.kept = {("B2", 8)}
    wirer.wire(
        "LAMPS", "lamp", wirer.way("A1", 10, Side.LAYOUT), end(DEVICE, "LAMPS", "plus"), note="behind the store",
        holes=("H1", "H3"),
    )  # fmt: skip
    return wirer.netlist()


def pages(netlist: Netlist, marks: dict[str, str] | None = None, **keys: object) -> dict[str, bytes]:
    return schedule_pages(described(netlist, **keys), netlist, marks or {})


def nasty(name: str) -> dict[str, bytes]:
    """A railway on which everything that the builder may name is called that."""
    netlist = two_strips({"A1": name, "P1": name, "H1": name})
    wires = tuple(
        replace(wire, note=name, number=f"{name}{wire.number}", head=name, size=name) for wire in netlist.wires
    )
    by_number = {id(old): new for old, new in zip(netlist.wires, wires, strict=True)}
    strips = tuple(
        replace(
            strip,
            supplies=(name,),
            ways=tuple(
                replace(
                    way,
                    head=name,
                    panel=tuple(by_number[id(wire)] for wire in way.panel),
                    layout=tuple(by_number[id(wire)] for wire in way.layout),
                )
                for way in strip.ways
            ),
        )
        for strip in netlist.strips
    )
    functions = {key: replace(function, name=name, code=name) for key, function in netlist.functions.items()}
    levers = tuple(replace(lever, name=name, shown=name) for lever in netlist.levers)
    netlist = replace(netlist, railway=name, strips=strips, wires=wires, functions=functions, levers=levers)
    named = {"name": name}
    return pages(
        netlist, about=name, boards={"WEST": named}, points={f"P{n}": named for n in (1, 2, 3, 8)},
        supplies={"PULSE": {"kind": "pulse", **named}}, devices={"LAMPS": {"kind": "lamps", **named}},
        strips={"A1": named, "B2": named},
    )  # fmt: skip


def test_an_index_and_a_page_for_everything() -> None:
    assert set(pages(two_strips())) == {
        "schedule/index.html", "schedule/work/index.html", "schedule/trace/index.html",
        "schedule/board/WEST/index.html",
        *(f"schedule/{strip}/index.html" for strip in ("A1", "B2")),
        *(f"schedule/lever/{lever}/index.html" for lever in ("1", "2", "3", "08")),
    }  # fmt: skip


def test_pages_are_proper_and_stand_alone() -> None:
    for page in pages(two_strips()).values():
        assert page.startswith(b'<!DOCTYPE html>\n<html lang="en" data-railway=')
        parsed = Page(page)
        tags = [tag for tag, _ in parsed.tags]
        assert not {"link", "img", "iframe", "form", "object", "base"} & set(tags)
        assert [tags.count(tag) for tag in ("h1", "main", "title", "header")] == [1, 1, 1, 1]
        assert {"name": "viewport", "content": "width=device-width, initial-scale=1"} in parsed.of("meta")
        assert all(heading["scope"] in ("col", "row") for heading in parsed.of("th"))
        assert all(not name.startswith("on") and name not in ("src", "style") for _, a in parsed.tags for name in a)
        assert b"url(" not in page
        assert b"@import" not in page
        without = page.replace(b"http-equiv", b"").replace(b'"http://www.w3.org/2000/svg"', b"")
        assert b"http:" not in without
        assert b"https:" not in without


def test_a_page_allows_its_own_style_and_script_alone() -> None:
    """Content Security Policy level 3, 8.4: the SHA-256 of the very text between the tags, in base64."""
    for page in pages(two_strips()).values():
        policy = next(m["content"] for m in Page(page).of("meta") if "Content-Security-Policy" in str(m))
        text = page.decode()
        for what, found in (
            ("style", re.search(r"<style>(.*?)</style>", text, re.DOTALL)),
            ("script", re.search(r"<script>(.*?)</script>", text, re.DOTALL)),
        ):
            assert found is not None
            digest = b64encode(sha256(found[1].encode()).digest()).decode()
            assert f"{what}-src 'sha256-{digest}'" in str(policy)
        assert str(policy).startswith("default-src 'none';")
        assert "unsafe" not in str(policy)


def test_all_links_are_relative_and_lead_somewhere() -> None:
    made = {path: Page(page) for path, page in pages(two_strips()).items()}
    followed = 0
    for path, page in made.items():
        for link in page.of("a"):
            target, id_ = led_to(path, str(link["href"]))
            assert target in made, (path, link)
            assert target.endswith("index.html")
            assert not id_ or id_ in made[target].text_by_id, (path, link)
            followed += 1
    assert followed > 200


def test_every_end_of_every_wire_is_a_link_to_its_other_end() -> None:
    netlist = two_strips()
    made = {path: Page(page) for path, page in pages(netlist).items()}
    places = {
        EndKind.WAY: lambda e: (f"schedule/{e.thing}/index.html", f"way-{e.terminal}"),
        EndKind.LEVER: lambda e: (f"schedule/lever/{e.thing}/index.html", f"lever-{e.thing}.{e.terminal}"),
        EndKind.DEVICE: lambda e: ("schedule/board/WEST/index.html", f"device-{e.thing}.{e.terminal}"),
        EndKind.SUPPLY: lambda e: ("schedule/board/WEST/index.html", f"supply-{e.thing}.{e.terminal}"),
    }
    leads = {
        path: {led_to(path, str(link["href"])) for link in page.of("a")} for path, page in made.items()
    }  # fmt: skip
    for wire in netlist.wires:
        for here, there in (wire.ends, wire.ends[::-1]):
            path, id_ = places[here.kind](here)
            assert places[there.kind](there) in leads[path]
            assert wire.head in made[path].words(id_)


def test_every_way_says_what_lands_on_it() -> None:
    netlist = two_strips({"A1": "TB1/A"})
    made = pages(netlist)
    for strip in netlist.strips:
        page = Page(made[f"schedule/{strip.id}/index.html"])
        for wire in wires_of(netlist, strip.id):
            for here, there in (wire.ends, wire.ends[::-1]):
                if here.kind is EndKind.WAY and here.thing == strip.id:
                    words = page.words(f"way-{here.terminal}")
                    assert there.shown in words
                    assert f"wire {wire.number} " in words
                    assert f"{wire.length} mm" in words if wire.length else "length not known" in words


def test_a_way_reads_well() -> None:
    page = Page(pages(two_strips(), points={"P1": {"name": "harbour siding"}})["schedule/A1/index.html"])
    assert page.words("way-1") == (
        "Way 1 1N Panel side 1N to L1.N wire 1 · yellow YE · 16/0.2 · 300 mm"
        " Layout side 1N to P1.N harbour siding wire 2 · yellow YE · 16/0.2 · 350 mm"
    )
    assert "F link to A1.5 wire" in page.words("way-2")
    assert page.words("way-10").endswith("green/white GNWH · 7/0.2 · 1300 mm · through H1, H3 behind the store")
    assert page.words("way-10").startswith("Way 10 Panel side nothing Layout side LAMPSL to LAMPS.plus")
    assert page.words("way-11") == "Way 11 spare"


def test_taken_and_kept_ways() -> None:
    page = Page(pages(two_strips())["schedule/B2/index.html"])
    assert page.words("way-4") == "Way 4 taken: doorbell"
    assert page.words("way-8") == "Way 8 kept free"
    assert "Ways 4 of 8 in use" in page.words()


def test_links_from_strip_to_strip() -> None:
    page = Page(pages(two_strips())["schedule/A1/index.html"])
    hrefs = {link["href"] for link in page.of("a")}
    assert {"../index.html", "../B2/index.html#way-2", "../A1/index.html#way-5", "../B2/index.html"} <= hrefs


def test_the_head_of_a_strips_page() -> None:
    netlist = two_strips()
    netlist = replace(netlist, strips=(replace(netlist.strips[0], bridges=((1, 4), (7, 8))), *netlist.strips[1:]))
    words = Page(pages(netlist, strips={"A1": {"name": "under the quay"}})["schedule/A1/index.html"]).words()
    assert "Strip A1 under the quay Extra-low voltage only." in words
    assert "Board Harbour board WEST Fed by PULSE Ways 10 of 12 in use Bridged 1 + 4; 7 + 8" in words


def test_levers_say_what_they_work_and_on_which_ways() -> None:
    netlist = two_strips()
    spare = replace(netlist.levers[0], id="12", shown="12", spare=True, devices=())
    idle = replace(spare, id="13", shown="13", spare=False)
    named = replace(netlist.levers[0], name="harbour siding")
    netlist = replace(netlist, levers=(named, *netlist.levers[1:], spare, idle))
    words = Page(pages(netlist, points={"P1": {"name": "quay points"}})["schedule/index.html"]).words()
    assert "Lever 1 harbour siding works P1 quay points A1.1 to 3 Lever 2 works P2 A1.4 to 6" in words
    assert "Lever 08 works P8 B2.1 to 3" in words
    assert "Lever 12 spare Lever 13 works nothing" in words


def test_ways_that_do_not_follow_one_another_are_named_one_by_one() -> None:
    netlist = two_strips()
    circuit = netlist.circuits[0]
    groups = (replace(circuit.groups[0], ways={0: 1, 1: 5, 2: 3}), replace(circuit.groups[0], strip="B2", ways={}))
    netlist = replace(netlist, circuits=(replace(circuit, groups=groups), *netlist.circuits[1:]))
    words = Page(pages(netlist)["schedule/index.html"]).words()
    assert "Lever 1 works P1 A1.1, A1.3, A1.5 Lever 2 works" in words


def test_totals_add_up_and_say_what_they_leave_out() -> None:
    netlist = two_strips()
    words = Page(pages(netlist)["schedule/index.html"]).words()
    known = [wire.length for wire in netlist.wires if wire.length is not None]
    unknown = len(netlist.wires) - len(known)
    assert len(netlist.wires) == 7 * 4 + 1  # 7 wires a point (common practice, no source), and the lamps
    assert f"Together 29 {sum(known) / 1000:.1f} m*" in words
    assert f"The lengths leave out {unknown} wires of which an end has no position." in words
    assert "2 of them are short links" in words
    returns = [wire.length for wire in netlist.wires if wire.function == "return"]
    assert f"C return {len(returns)} {sum(filter(None, returns)) / 1000:.1f} m R" not in words
    assert f"C return {len(returns)} {sum(filter(None, returns)) / 1000:.1f} m L lamp" in words


def test_one_link_and_all_lengths_known() -> None:
    netlist = two_strips()
    links = [wire for wire in netlist.wires if wire.link]
    netlist = replace(netlist, wires=(links[0],), strips=(), levers=(), circuits=())
    words = Page(pages(netlist)["schedule/index.html"]).words()
    assert "1 of them is a short link" in words
    assert "leave out" not in words
    one = replace(links[0], length=None)
    assert "leave out 1 wire of" in Page(pages(replace(netlist, wires=(one,)))["schedule/index.html"]).words()


def test_supplies_and_about() -> None:
    supplies = {"PULSE": {"kind": "pulse", "volts": 24, "microfarads": 4700, "name": "bank"}, "DC": {"kind": "dc"}}
    words = Page(pages(two_strips(), supplies=supplies, about="A fish quay.")["schedule/index.html"]).words()
    assert "Wiring schedule Marram Quay A fish quay." in words
    assert "PULSE bank pulse supply (capacitor bank), 24 V, 4700 µF DC direct current" in words
    page = Page(pages(two_strips(), supplies=supplies)["schedule/A1/index.html"])
    assert "to PULSE.feed bank wire" in page.words("way-2")


def test_a_railway_with_nothing_on_it() -> None:
    netlist = replace(two_strips(), strips=(), levers=(), wires=(), circuits=())
    made = pages(netlist)
    assert {path for path in made if path.count("/") == 1} == {"schedule/index.html"}
    words = Page(made["schedule/index.html"]).words()
    assert "There are no strips yet." in words
    assert "Together 0 0.0 m" in words


def test_a_strip_with_nothing_on_it_and_no_board() -> None:
    netlist = harbour(points=0, ways=2)
    netlist = replace(netlist, strips=(replace(netlist.strips[0], board=None, supplies=()),))
    words = Page(pages(netlist)["schedule/A1/index.html"]).words()
    assert "Way by way" in words.partition("1 spare 2 spare Ways 0 of 2 in use")[2]


def test_a_board_without_a_name_goes_by_its_id() -> None:
    words = Page(pages(two_strips(), boards={})["schedule/A1/index.html"]).words()
    assert "Board WEST" in words


def test_a_function_and_a_wire_without_colour() -> None:
    netlist = two_strips()
    bare = {name: replace(function, colour="") for name, function in netlist.functions.items()}
    plain = Page(pages(replace(netlist, functions=bare))["schedule/A1/index.html"])
    assert "N normal –" in plain.words()
    wirer = Wirer()
    wirer.strip("A1", 1)
    far = end(DEVICE, "X", "1")
    wirer.wire("X", "lamp", wirer.way("A1", 1, Side.LAYOUT), far, colour="", size="", length=None)
    page = Page(pages(wirer.netlist())["schedule/A1/index.html"])
    assert page.words("way-1").endswith("XL to X.1 wire 1 · length not known")


def test_marks_stand_beside_heads_as_they_were_drawn() -> None:
    swatch = '<svg viewBox="0 0 9 5"><path d="M0 0h9v5H0z"/></svg>'
    page = pages(two_strips(), marks={"normal": swatch})["schedule/A1/index.html"].decode()
    assert page.count('<symbol id="m0" viewBox="0 0 9 5" preserveAspectRatio="none"><path d="M0 0h9v5H0z"/>') == 1
    assert page.count('<use href="#m0"/>') == 2 * 6 + 1  # three points with two wires, drawn and listed; the legend
    assert "<use" not in pages(two_strips())["schedule/A1/index.html"].decode()


def test_cautions_stand_on_every_page() -> None:
    for page in pages(two_strips()).values():
        words = Page(page).words()
        for what, why in CAUTIONS:
            assert f"{what} {why}" in words
    said = " ".join(" ".join(caution) for caution in CAUTIONS).lower()
    for needed in ("extra-low voltage", "no mains", "discharge the capacitor bank", "isolate", "licensed electrician"):
        assert needed in said


@pytest.mark.parametrize("name", [NASTY, RIGHT_TO_LEFT, LONG], ids=["markup", "right to left", "long"])
def test_what_the_builder_wrote_is_text_and_nothing_else(name: str) -> None:
    plain = [[tag for tag, _ in Page(page).tags if tag != "bdi"] for page in nasty("x").values()]
    made = nasty(name)
    assert all(re.fullmatch(r"[\w/-]+/index\.html", path, re.ASCII) for path in made)
    for page, expected in zip(made.values(), plain, strict=True):
        parsed = Page(page)
        assert [tag for tag, _ in parsed.tags if tag != "bdi"] == expected
        assert "".join(name.split()) in parsed.words().replace(" ", "")
        assert all(not attribute.startswith("on") for _, found in parsed.tags for attribute in found)


def test_the_same_netlist_gives_the_same_bytes() -> None:
    assert pages(two_strips()) == pages(two_strips())


def luminance(colour: str) -> float:
    """WCAG 2: relative luminance of #rrggbb."""
    parts = [int(colour[index : index + 2], 16) / 255 for index in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_measured_as_wcag_says() -> None:
    # Published ratios on white.
    for colour, ratio in (("#000000", 21), ("#767676", 4.5422), ("#595959", 7.0047), ("#ff0000", 3.9985)):
        assert contrast(colour, "#ffffff") == pytest.approx(ratio, abs=1e-3)


@pytest.mark.parametrize("mode", [0, 1, 2], ids=["light", "dark", "print"])
def test_contrast(mode: int) -> None:
    sets = [dict(re.findall(r"--([\w-]+): (#\w{6})", block)) for block in re.findall(r":root \{([^}]*)\}", STYLE)]
    assert len(sets) == 3
    colours = sets[mode]
    pairs = [(text, on) for on in ("paper", "band", "warn-paper") for text in ("ink", "soft", "accent", "warn")]
    for text, on in (*pairs, ("block-ink", "block")):
        assert contrast(colours[text], colours[on]) >= 7, (text, on)  # WCAG 2, 1.4.6: enhanced


def test_a_test_point_is_marked_and_a_device_that_is_out_of_use_says_why() -> None:
    netlist = harbour(ways=14)
    strip = netlist.strips[0]
    ways = tuple(replace(way, test=way.number in (2, 14)) for way in strip.ways)
    netlist = replace(netlist, strips=(replace(strip, ways=ways),))
    description = described(netlist, points={"P1": {"name": "Mole", "not_in_use": "burnt coil"}})
    page = Page(schedule_pages(description, netlist, {})["schedule/A1/index.html"])
    ways = {id_: "".join(text) for id_, text in page.text_by_id.items() if id_.startswith("way-")}
    marked = [id_ for id_, text in ways.items() if "test point" in text]
    assert marked == ["way-2", "way-14"]
    assert "Mole, out of use: burnt coil" in " ".join(" ".join(page.text).split())
