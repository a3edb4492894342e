"""Constants of readings: exact lengths, what a tape resolves, how well a hand repeats, and limits.

Values of practice say so by their source id; lengths in m unless a name says otherwise.
"""

from fractions import Fraction

INCH = Fraction(254, 10000)
"""One inch, exact. [m] Source `nist-hb44-c`."""

FOOT = 12 * INCH
"""One foot, exact. [m] Source `nist-hb44-c`."""

TAPE_US = INCH / 16
"""Resolution of a tape in inches, unless it is said otherwise. [m] Source `practice-tape`."""

TAPE_METRIC = Fraction(1, 1000)
"""Resolution of a tape in millimetres, unless it is said otherwise. [m] Source `practice-tape`."""

REPEATABILITY = float(INCH / 16)
"""Standard uncertainty of a reader with a tape, on the back. [m] Source `practice-repeatability`."""

REPEATABILITY_WALL = float(INCH / 64)
"""The same for a wall, by a gauge or at a cut edge. [m] Source `practice-repeatability`."""

AGREE_K = 2.0
"""Coverage factor inside which two readings agree. [1] Source `practice-agreement`."""

AGREE_LEAST = float(INCH / 8)
"""Readings no further apart than this agree in any case. [m] Source `practice-agreement`."""

SAME_WITHIN = 1e-9
"""Arithmetic slack in comparing lengths: far below what any tape shows. [m]"""

FAR_SHARE = 0.10
"""A reading is far from the plan beyond this share of it … [1] Source `practice-far-from-plan`."""

FAR_LEAST = float(INCH)
"""… and beyond this as well. [m] Source `practice-far-from-plan`."""

BOUNCE_SECONDS = 20.0
"""The same value in the same slot within this time is a bounced key. [s] Source `practice-bounce`."""

LONGEST = 300 * FOOT
"""No length over this is taken. [m] The format's limit."""

COLDEST_DEGC, HOTTEST_DEGC = Fraction(-80), Fraction(150)
"""Temperatures outside these are not taken. [°C] The format's limits."""

MOST_VOLTS = Fraction(60)
"""No voltage over this is taken, either way round. [V] The format's limit."""

MOST_AMPS = Fraction(1000)
"""No current over this is taken, either way round. [A] The format's limit."""

MOST_OHMS = Fraction(10) ** 12
"""No resistance over this is taken: no handheld meter shows it. [Ω] Source `practice-meter-range`."""

OVER_RANGE_OHMS = Fraction(20_000_000)
"""What `OL` or `open` stands for where no number was typed: above the top range of a common meter. [Ω]
Source `practice-meter-range`. Such a reading is marked as over range besides."""

FAR_FROM_OUTLET = float(12 * INCH)
"""A pad further from the outlet than this is noted. [m] Source `practice-placing`."""

TIGHT_K = 2.0
"""A clearance under so many times its standard uncertainty is tight. [1] Source `practice-tight`."""
