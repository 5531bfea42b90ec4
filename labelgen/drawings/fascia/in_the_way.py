"""Where a text that the builder placed pushes a lever's number away from its hole."""

from collections.abc import Iterator, Mapping

from labelgen.drawings.clearances import between
from labelgen.drawings.fascia.writing import Writing
from labelgen.drawings.number_placing import CLEAR_MM
from labelgen.lengths import Point, Rectangle
from labelgen.problems import Problem

_AS_GOOD_MM = 1.0
"""So near to the best place, a number is where it belongs."""


def texts_in_the_way(
    writing: Writing, numbers: Mapping[str, Rectangle], reaches: Mapping[str, float]
) -> Iterator[Problem]:
    """Over the builder's texts: each once, with the first lever whose number would stand there. text-in-the-way.

    `numbers`: where that of each lever stands; `reaches`: how far from its hole texts begin.
    """
    plan = writing.plan
    places = {text.what: text.rectangle for text in writing.texts}
    for text in plan.panel.texts:
        place = places.get(f"the text {text!r}")
        if place is None:
            continue
        tops = {lever: Point(plan.holes[lever].x, plan.holes[lever].y - reaches[lever]) for lever in numbers}
        lever = next((lever for lever, number in numbers.items() if _pushed(tops[lever], number, place)), None)
        if lever is not None:
            yield Problem(
                code="text-in-the-way",
                message=f"the text {text!r} stands where the number of lever {plan.levers[lever].shown} would be, and "
                f"pushes it away from its hole on the {plan.name}",
                hint="Give the text a place further from the lever.",
                place=plan.description.place_of_key("panels", plan.id, "texts", text),
            )


def _pushed(top: Point, number: Rectangle, text: Rectangle) -> bool:
    """Whether a number does not stand straight above its hole, because a text is there. `top`: where it would end."""
    best = Rectangle(top.x - number.width / 2, top.y - number.height, number.width, number.height)
    moved = abs(number.x - best.x) + abs(number.y - best.y)
    return moved > _AS_GOOD_MM and between(best, text) < CLEAR_MM
