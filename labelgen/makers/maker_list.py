"""What can be made, in the order in which it is.

Heavy libraries are imported by the maker that needs them, so that `check` and `wires` stay quick.
"""

from collections.abc import Callable

from labelgen.makers.flags import flags
from labelgen.makers.labels import markers, places, plates, tags
from labelgen.makers.legend import legend
from labelgen.makers.lists import lists
from labelgen.makers.panel_work import back, drilling
from labelgen.makers.panels import fascia
from labelgen.makers.plans import plan
from labelgen.makers.schedule import schedule
from labelgen.makers.tests import tests
from labelgen.making import Job, Result

MAKERS: dict[str, Callable[[Job], Result]] = {
    "markers": markers,
    "flags": flags,
    "tags": tags,
    "plates": plates,
    "places": places,
    "legend": legend,
    "fascia": fascia,
    "back": back,
    "drilling": drilling,
    "plan": plan,
    "lists": lists,
    "tests": tests,
    "schedule": schedule,
}
"""KIND on the command line: its maker."""
