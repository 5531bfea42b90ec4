"""What test sheets say, and the sizes at which they say it: they are read under a baseboard, in poor light."""

from labelgen.drawings.lists.cells import Ticks, WriteIn
from labelgen.model.test_plan import Levers, Reading

CAP = 3.3
"""Height of a capital, mm. Common practice, no source."""
TICK_SIZE = 6.0
"""A box that a felt pen fills."""
READ_ROOM = 15.0
"""On which a reading is written."""
TICK, READ = Ticks(size=TICK_SIZE), WriteIn(length=READ_ROOM)

CAUTION = (
    "Switch off, isolate and unplug every supply. Discharge the capacitor bank of a pulse supply through a resistor,"
    " and measure: less than 1 volt, before you put a hand in."
)
BEFORE = (
    "Take the wires off every supply; those of one terminal stay held together in a clip, and there the meter reads"
    " them. Take trains and loose wagons off the rails. Pull every plug.",
    "Leave levers that spring back, and buttons, alone. Lay all other levers, and all blades, normal.",
    "Set the meter to 200 ohms. Hold its leads together: what it shows then is theirs, so take it off every reading."
    " Hold the leads on screws and terminals, never on the wire itself: then every joint is tested too.",
)
HOW = (
    ("beeps", "right is what is printed, and up to 0.5 ohms more. A bad joint reads higher, a broken wire nothing."),
    ("nothing", "right is no reading at all (OL or 1 at the left). A short reads next to nothing, or a coil's ohms."),
    (
        "9 Ω",
        "(or other ohms) right is that, give or take a fifth: coils lie between. Buzzers sound at it: read the figure;"
        " above 200 set the meter to its next range.",
    ),
    ("no beep", "right is all above 2 ohms: lamps and electronics lie between, and read now this, now that."),
)
WALK = (
    "The lists go in the order in which you walk: strip by strip from way 1, then what has no strip. Tick what is"
    " right, and write down what the meter reads.",
    "Where a reading is not what is printed, ring it and go on; find the fault before power comes on.",
)
POSITIONS: dict[Levers, str] = {
    "normal": "Must not beep, all levers normal",
    "reverse": "Must not beep, all levers and blades reverse",
    "turns": "Must not beep, every second lever and its blades reverse",
}


def ohms(number: float | None) -> str:
    """To two figures, or to 0.01 ohm; a meter shows no more."""
    if number is None:
        return "–"
    return f"{number:.2f} Ω" if number < 1 else f"{number:.1f} Ω" if number < 10 else f"{number:.0f} Ω"


def expected(reading: Reading) -> str:
    """What the meter must do."""
    if reading.expect in ("joined", "through"):
        return ohms(reading.ohms)
    return "nothing" if reading.expect == "nothing" else "no beep"


def leads(reading: Reading) -> tuple[str, str]:
    """Where the two leads are held."""
    one, other = reading.shown
    return (f"{one}, red", other) if reading.red_first else (one, other)
