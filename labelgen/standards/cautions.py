"""What whoever touches the wiring has to know first; the same words on the pages, in the booklet and in the README.

Common practice, no source.
"""

CAUTIONS = (
    (
        "Extra-low voltage only.",
        "No mains on the layout: keep it in closed, approved supplies off the boards.",
    ),
    (
        "Isolate before you work.",
        "Switch off and unplug every supply; with two, one can feed the other backwards and make its plug live.",
    ),
    (
        "Discharge the capacitor bank",
        "of a pulse supply through a resistor, and measure, before you touch its wiring: it holds its charge after"
        " the plug is out.",
    ),
    ("Fuse every supply,", "for no more than the thinnest wire after it can carry."),
    (
        "Local codes come first.",
        "Mains work is for a licensed electrician. This page shows what was described, not what was wired: measure"
        " before you power up.",
    ),
)
"""What to do, and why."""
