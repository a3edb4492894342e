"""The constants of the wiring under their names, each with its unit and the id of its source.

The values stand in `tables/*.toml` with their plausible ranges; physics and assessment take them from here.
SI.
"""

from logic.data.tables import column, value

INCH = 0.0254
"""Metres in an inch, exact."""

CIRCULAR_MIL = 5.067074790974977e-10
"""Square metres in a circular mil: π/4 of (0.001 in)², exact."""

GAUGES = (18, 16, 14, 12, 10, 8, 6, 4)
"""Conductors on offer, by AWG number, thinnest first. `nec-2020-552.10`"""

THICKEST = 4
"""What the other figures are made with where no choice of gauges is feasible. [AWG]"""

SAE_AREA = {int(key): area * CIRCULAR_MIL for key, area in column("conductors", "sae-area").items()}
"""Least copper of vehicle wire, by AWG number. [m²] `sae-j1128`"""

AWG_UNIT = 0.127e-3
"""Diameter of 36 AWG. [m] `astm-b258`"""

AWG_BASE, AWG_STEPS, AWG_ORIGIN = 92.0, 39.0, 36.0
"""d = 0.127 mm × 92^((36 − n)/39). `astm-b258`"""

COPPER_RESISTIVITY = value("conductors", "copper", "resistivity-20")
"""Annealed copper at 20 °C. [Ωm] `iec-60028`"""

COPPER_SLOPE = value("conductors", "copper", "resistivity-slope")
"""Share by which the resistance rises, from its value at 20 °C. [1/K] `ac-43.13-1b-11-66`"""

COPPER_REFERENCE_DEGC = 20.0
"""The temperature at which the resistivity stands. [°C] `iec-60028`"""

STRAND_LAY = value("conductors", "copper", "lay")
"""Length of a strand over the length of its conductor. `memory-strand-lay`"""

COPPER_DENSITY = value("conductors", "copper", "density")
"""[kg/m³] `iec-60028`"""

WIRE_OUTSIDE = {int(key): inches * INCH for key, inches in column("conductors", "outside").items()}
"""Over the insulation, by AWG number. [m] `memory-wire-walls`"""

AMPACITY = {int(key): amps for key, amps in column("ampacity", "program").items()}
"""Largest fuse, and 1.25 × the largest continuous current, by AWG number. [A] `nec-2023-240.4`,
`memory-nec-552.10`
"""

BOATS_AMPACITY = {int(key): amps for key, amps in column("ampacity", "boats-60").items()}
"""Table 5, insulation for 60 °C, outside engine spaces, by AWG number. [A] `33-cfr-183.425`"""

BUNDLE_FACTORS = tuple((int(key), factor) for key, factor in column("ampacity", "bundle-factor").items())
"""(least number of conductors together, share of Table 5). `33-cfr-183.435`"""

FUSE_RATINGS = tuple(column("fuses", "rating").values())
"""Standard ratings, rising. [A] `iso-8820-3`, `practice-large-ratings`"""

CONTINUOUS_LOAD = value("wiring_rules", "circuit", "continuous")
"""Least rating of fuse and wire over a continuous current. `nec-2023-427.4`"""

SWITCH_LOAD = value("wiring_rules", "circuit", "switch")
"""Least d.c. rating of a switch over the current that it breaks. `practice-switch-125`"""

SHORT_SHARE = value("wiring_rules", "circuit", "short")
"""Least current of a short at a run's far end, over the rating of its fuse. `practice-short-5`"""

FUSE_FAR = value("wiring_rules", "circuit", "fuse-far") * INCH
"""Farthest from the point of supply that a fuse may stand. [m] `nec-2020-552.10-e`"""

FUSE_FAR_BOATS = value("wiring_rules", "circuit", "fuse-far-boats") * INCH
FUSE_FAR_SHEATHED = value("wiring_rules", "circuit", "fuse-far-sheathed") * INCH
"""The same on boats, bare and sheathed all the way: the stricter figures. [m] `33-cfr-183.455`"""

PACKING = {int(key): ratio for key, ratio in column("bundles", "packing").items()}
"""Diameter of a bundle of n equal wires over theirs. `circle-packing`"""

SLEEVES = tuple(inches * INCH for inches in column("bundles", "sleeve").values())
"""Nominal bores, rising. [m] `practice-sleeve-sizes`"""

SLEEVE_SHARE = value("bundles", "rule", "bore-share")
"""Least bore over the bundle's diameter. `ac-43.13-1b-11-249`"""

CLAMP_GAP = value("bundles", "rule", "clamp-gap") * INCH
"""Farthest from clamp to clamp. [m] `iso-10133-7.3`"""

CLAMP_END = value("bundles", "rule", "clamp-end") * INCH
"""From an end of the route to its first clamp. [m] `practice-clamp-ends`"""

SLEEVE_WALL = value("bundles", "rule", "sleeve-wall") * INCH
"""[m] `practice-hole`"""

GROMMET_WALL = value("bundles", "rule", "grommet-wall") * INCH
"""[m] `practice-hole`"""

DRILL_STEP = value("bundles", "rule", "drill-step") * INCH
"""Step of the drills on offer. [m] `practice-hole`"""

METER_SHARE = value("meters", "handheld", "share")
"""Error of a handheld meter, as a share of its reading. `practice-meter`"""

METER_DIGITS = value("meters", "handheld", "digits")
"""And in units of its last digit. `practice-meter`"""

CLAMP_SHARE = value("meters", "handheld", "clamp-share")
"""Error of a clamp's current, as a share of its reading. `practice-meter`"""

CLAMP_DIGITS = value("meters", "handheld", "clamp-digits")
"""And in units of its last digit. `practice-meter`"""

LEAST_ISOLATION = value("meters", "handheld", "isolation")
"""From a finished circuit to the chassis. [Ω] `practice-isolation`"""

CURRENT_SHARE = value("meters", "handheld", "current-share")
"""How far a loaded circuit's current may be off what is expected. `practice-loaded-tests`"""

VOLTS_SHARE = value("meters", "handheld", "volts-share")
"""How far a pad's volts may lie under the supply's. `practice-loaded-tests`"""

FUSE_ALLOWANCE = value("meters", "joint", "fuse")
"""Resistance of a fuse with its holder, as a joint's test allows it. [Ω] `practice-joint`"""

SWITCH_ALLOWANCE = value("meters", "joint", "switch")
"""Resistance of a switch or relay contact, as a joint's test allows it. [Ω] `practice-joint`"""

JOINT_OHMS = value("meters", "joint", "most-ohms")
"""Extra resistance, less twice its uncertainty, over which a joint is made again. [Ω] `practice-joint`"""

JOINT_WATTS = value("meters", "joint", "most-watts")
"""Power burnt in the extra resistance over which a joint is made again. [W] `practice-joint`"""

SPARE_SPLICES = value("work_parts", "count", "spare-splices")
"""Share of splices bought over those counted. `practice-parts`"""

SPLICE_STAGGER = value("work_parts", "count", "splice-stagger") * INCH
"""From one splice to the next along a bundle. [m] `practice-parts`"""

SPLICE_FROM_END = value("work_parts", "count", "splice-from-end") * INCH
"""From the bundle's end to its first splice. [m] `practice-parts`"""

CLAMP_CLEAR = value("work_parts", "count", "clamp-clear") * INCH
"""From a joint to the nearest clamp, at least. [m] `practice-parts`"""

CLEANER_PER_AREA = value("work_parts", "count", "cleaner-per-area") * 1e-3
"""[m³/m² of bonded area] `practice-parts`"""

WIPES_PER_AREA = value("work_parts", "count", "wipes-per-area")
"""[1/m² of bonded area] `practice-parts`"""

SEALANT_BEAD = value("work_parts", "count", "sealant-bead") * INCH
"""Width and height of the bead round a pad's edge. [m] `practice-parts`"""

SEALANT_PER_HOLE = value("work_parts", "count", "sealant-per-hole")
"""[m³] `practice-parts`"""

SEALANT_CARTRIDGE = value("work_parts", "count", "sealant-cartridge")
"""[m³] `practice-parts`"""

POSITIVE_COLOUR, RETURN_COLOUR = "red", "black"
"""Of wires whose run names no colour, and of returns. `practice-colours`"""

SPLICE_COLOURS = ((18, "red"), (14, "blue"), (10, "yellow"))
"""(thickest gauge that it takes, colour of the splice's sleeve): red 22–18, blue 16–14, yellow 12–10.
`splice-colours`
"""

CUT_ROUNDING = 1.0 * INCH
"""How far a cut may be off before its length counts as another one. [m] `practice-cut-rounding`"""
