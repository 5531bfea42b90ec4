"""Where the tracks of a fascia lead that leave the scene: what is written at their ends."""

from labelgen.drawings.fascia.spots import Label, names_of, write_one_size
from labelgen.drawings.fascia.style import NAME_CAP_MM, SMALL_CAP_MM
from labelgen.drawings.fascia.writing import Writing
from labelgen.drawings.number_placing import CLEAR_MM
from labelgen.lengths import Rectangle
from labelgen.model.panel.places import square

EXIT_FAR_MM = 12.0
"""The arrow stands between the end of the track and its text."""


def write_exits(writing: Writing) -> None:
    """As the builder says them, beside the end of each such track."""
    plan = writing.plan
    whole = Rectangle(0, 0, plan.width, plan.height)
    labels = []
    for name, at in plan.panel.exits.items():
        spot, path = square(plan.panel, at), ("panels", plan.id, "exits", name)
        if not whole.contains(Rectangle(spot.x, spot.y, 0, 0)):
            continue  # off-panel has been said
        labels.append(
            Label(
                key=name,
                what=f"the exit {name!r}",
                text=writing.known(name, path),
                spot=spot,
                reach=plan.track_width / 2 + CLEAR_MM,
                path=path,
                ahead=plan.exits[name].way if name in plan.exits else None,
            )
        )
    caps = writing.caps(NAME_CAP_MM, SMALL_CAP_MM)
    write_one_size(writing, labels, caps, names_of, colour=plan.style.ink, furthest=EXIT_FAR_MM)
