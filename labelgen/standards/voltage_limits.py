"""Voltages that set limits, in volts: r.m.s. of alternating, ripple-free of direct current."""

SELV_AC, SELV_DC = 50.0, 120.0
"""Extra-low voltage ends here (IEC 61558-1:2005, 3.7.16; IEC 61140:2016)."""
TOUCHABLE_AC, TOUCHABLE_DC = 25.0, 60.0
"""What may be touched in a dry place without basic protection (EN 60204-1, 6.4)."""
TOY_AC, TOY_DC = 24.0, 33.0
"""Rated output of a transformer for toys (EN 61558-2-7:1997, scope)."""
TOY_DIRECTIVE = 24.0
"""Rated supply of an electric toy (Directive 2009/48/EC, annex II part IV)."""
