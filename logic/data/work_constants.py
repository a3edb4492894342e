"""The constants of the work under their names, each with its unit and the id of its source.

The values stand in `tables/work.toml` with their plausible ranges; timers and gates take them from here. SI
and °C.
"""

from logic.data.tables import value

MINUTE = 60.0
"""Seconds in a minute."""

HOUR = 3600.0
"""Seconds in an hour."""

LEAK_CHECK = MINUTE * value("work", "timers", "leak-check")
"""From a filled tank to the look at the paper. [s] `practice-leak-check`"""

ALCOHOL_TO_BOND = MINUTE * value("work", "timers", "alcohol-to-bond")
"""From dry alcohol to the bond, at most: later, wipe again. [s] `practice-bonding`"""

CHILL = MINUTE * value("work", "timers", "chill")
"""Ice on a thermostat's sensor, at least. [s] `practice-thermostat-chilled`"""

WARM_TEST = MINUTE * value("work", "timers", "warm-test")
"""From energising to the last look at a pad's warmth. [s] `practice-loaded-tests`"""

FRESH = MINUTE * value("work", "timers", "fresh-readings")
"""Readings of the day count for so long before a bond. [s] `practice-bonding`"""

BREAK = MINUTE * value("work", "timers", "break")
"""A longer break lapses make safe. [s] `practice-make-safe`"""

LONGEST_UNSEEN_WORK = MINUTE * value("work", "timers", "unseen-work")
"""A step that was worked through without another sign counts as work for so long. [s] `practice-make-safe`"""

FIRST_TIMER = value("work", "pace", "first-timer")
"""Minutes of a first-timer over a technician's. `practice-minutes`"""

IN_GLOVES = value("work", "pace", "in-gloves")
"""Minutes in the cold over those above freezing. `practice-minutes`"""

GLOVES_BELOW_DEGC = (value("work", "cold", "gloves-below") - 32.0) / 1.8
"""Air below which people work in gloves. [°C] `practice-minutes`"""
