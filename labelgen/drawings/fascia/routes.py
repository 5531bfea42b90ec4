"""Numbers and names of routes on a fascia, each beside its button or stud."""

from labelgen.drawings.fascia.plan import FasciaPlan
from labelgen.drawings.fascia.spots import FAR_MM, Label, Numbers, names_of, numbers_of, to_baseline, write_one_size
from labelgen.drawings.fascia.style import GOOD_CAP_MM, NAME_CAP_MM, SMALL_CAP_MM
from labelgen.drawings.fascia.writing import Writing
from labelgen.drawings.number_placing import CLEAR_MM
from labelgen.typefaces import BOLD


def write_route_numbers(writing: Writing) -> Numbers:
    """Beside each button or stud, smaller than the levers' and in the colour of its ring."""
    plan, reach = writing.plan, _reaches(writing.plan)
    labels = [
        Label(
            key=route,
            what=f"the number of route {route}",
            text=writing.known(plan.routes[route].number, path := ("panels", plan.id, "routes", route), BOLD),
            spot=stud,
            reach=reach[route],
            path=path,
        )
        for route, stud in plan.studs.items()
    ]
    caps = writing.caps(GOOD_CAP_MM, SMALL_CAP_MM)
    return to_baseline(write_one_size(writing, labels, caps, numbers_of(labels), colour=plan.style.accent))


def write_route_names(writing: Writing, numbers: Numbers) -> None:
    """Where there is room, as the levers' names."""
    plan, reach = writing.plan, _reaches(writing.plan)
    labels = [
        Label(
            key=route,
            what=f"the name of route {route}",
            text=writing.known(route, path := ("panels", plan.id, "routes", route)),
            spot=plan.studs[route],
            reach=reach[route],
            path=path,
            beside=number,
        )
        for route, number in numbers.items()
    ]
    caps = writing.caps(NAME_CAP_MM * 0.9, SMALL_CAP_MM)
    write_one_size(writing, labels, caps, names_of, colour=plan.style.soft, furthest=FAR_MM, needed=False)


def _reaches(plan: FasciaPlan) -> dict[str, float]:
    """Route: how far from the middle of its button or stud texts begin."""
    return {hole.thing: hole.room.reach + CLEAR_MM for hole in plan.drilled if hole.use == "route"}
