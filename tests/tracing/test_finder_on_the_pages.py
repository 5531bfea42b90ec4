"""The fault finder of the pages against that of the command: the same suspects and measurements, step by step."""

import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from chromium import PHONE, browser, heard_on, written
from generated_railways import railway

from labelgen.data_files import layouts
from labelgen.makers.schedule import schedule_files
from labelgen.making import Checked, Job, Request
from labelgen.pipeline import check_file, tracing_of

STEPS = 6
HUNT = """
([dead, good, answers]) => {
  const { railway, words, lookNow, said, readings, doingOf } = document.getElementById("finder").hunt;
  const tasks = new Map(railway.data.words.flatMap(([, entries]) => entries));
  const name = (point) => railway.data.points[point][0];
  said.clear();
  readings().length = 0;
  for (const [state, list] of [["dead", dead], ["good", good]]) {
    for (const word of list) said.set(word, { state, tasks: tasks.get(word) });
  }
  return [...answers, null].map((answer) => {
    const found = lookNow(), measure = found.measure;
    const step = {
      together: found.together,
      suspects: found.suspects.map(({ fault, likelihood }) =>
        ({ fault: fault.kind, where: fault.where.map(name), likelihood, words: words.place([fault]) })),
      measure: measure && {
        from: name(measure.one), to: name(measure.other), expect: words.expected(measure), words: words.task(measure),
        if_so: words.left(found, true), if_not: words.left(found, false),
      },
    };
    if (measure && answer !== null) readings().push({ about: measure, spoiled: !answer });
    return step;
  });
}
"""


def by_python(checked: Checked, dead: list[str], good: list[str], answers: list[bool]) -> Iterator[dict[str, Any]]:
    tracing = tracing_of(checked)
    assert tracing.told(dead, good) == []
    for answer in (*answers, None):
        found = tracing.look()
        yield tracing.as_json(found)
        if found.measure is not None and answer is not None:
            tracing.read(found.measure, as_it_should=answer)


def same(one: dict[str, Any], other: dict[str, Any]) -> None:
    def suspects(step: dict[str, Any]) -> dict[tuple[Any, ...], Any]:
        return {(s["fault"], *s["where"], s["words"]): pytest.approx(s["likelihood"]) for s in step["suspects"]}

    assert suspects(one) == suspects(other)
    assert one["together"] == other["together"]
    ours, theirs = one["measure"], other["measure"]
    assert (ours is None) == (theirs is None)
    if ours is not None and theirs is not None:
        for key in ("from", "to", "expect", "words"):
            assert ours[key] == theirs[key]
        for key in ("if_so", "if_not"):
            assert sorted(ours[key]) == sorted(theirs[key])


def page_of(path: Path, folder: Path) -> tuple[Checked, str]:
    checked, _ = check_file(path)
    assert checked is not None
    files = schedule_files(Job(checked, Request()))
    name = "schedule/trace/index.html"
    return checked, (written({name: files[name]}, folder) / name).as_uri()


def compare(path: Path, folder: Path, hunts: int) -> None:
    checked, uri = page_of(path, folder)
    draw = random.Random(7)
    with browser() as chromium:
        tab = chromium.new_page()
        heard = heard_on(tab)
        tab.goto(uri)
        assert heard == [uri]
        words = tab.evaluate(
            "document.getElementById('finder').hunt.railway.data.words.flatMap(([, e]) => e.map(([w]) => w))"
        )
        measured = 0
        for _ in range(hunts):
            chosen = draw.sample(words, 4)
            dead, good = chosen[: draw.choice((1, 1, 2))], chosen[2:]
            answers = [draw.random() < 0.5 for _ in range(STEPS)]
            for ours, theirs in zip(
                by_python(checked, dead, good, answers), tab.evaluate(HUNT, [dead, good, answers]), strict=True
            ):
                same(ours, theirs)
                measured += ours["measure"] is not None
        assert measured > hunts


def test_the_example(tmp_path: Path) -> None:
    compare(layouts("railways") / "marram-quay.yaml", tmp_path, 40)


def test_a_railway_with_plugs(tmp_path: Path) -> None:
    path = tmp_path / "eighty.yaml"
    path.write_text(railway(80), encoding="utf-8")
    compare(path, tmp_path, 6)


def test_a_hunt_by_tapping(tmp_path: Path) -> None:
    """The wire 22 from L5.N to S2.3 is broken: 5N is dead, 5R and 1N work."""
    _, uri = page_of(layouts("railways") / "marram-quay.yaml", tmp_path)
    with browser() as chromium:
        tab = chromium.new_page(viewport=PHONE)
        heard = heard_on(tab)
        tab.goto(uri)
        tab.get_by_label("Show those called").fill("5")
        tab.get_by_role("button", name="5N dead").click()
        tab.get_by_role("button", name="5R works").click()
        first = tab.locator(".suspects li").first.inner_text()
        assert "the wire 22 (5N) from L5.N to S2.3, or either of its ends" in first
        assert "between L5.N and S2.3" in tab.locator(".outcome").inner_text()
        tab.get_by_role("button", name="It does not").click()
        assert tab.locator(".suspects li").count() == 1
        assert "Look there: pull gently at the wire" in tab.locator(".outcome").inner_text()
        tab.get_by_role("button", name="Take the last answer back").click()
        assert tab.locator(".suspects li").count() > 1
        tab.get_by_role("button", name="Start again").click()
        assert "Say above what does not work" in tab.locator(".outcome").inner_text()
        assert heard == [uri]
