"""Defaults of a profile that hang on another of its keys. Each says where its figure comes from."""

# Volts at the terminals in the night, heaters on: half discharged and loaded for lead, a lithium cell's flat
# stretch. Source `practice-supply-volts` (PRACTICE).
VOLTS = {"lithium": 12.8, "agm": 12.1, "flooded": 12.1}

# The most that the supply is held at. Source `practice-charging-volts` (PRACTICE).
CHARGING = {"lithium": 14.6, "agm": 14.7, "flooded": 14.8}

# Share of the capacity that is used. Source `practice-usable-share` (PRACTICE).
USABLE = {"lithium": 0.8, "agm": 0.5, "flooded": 0.5}

# Peukert's exponent. Source `practice-peukert` (PRACTICE).
PEUKERT = {"lithium": 1.0, "agm": 1.2, "flooded": 1.2}

# Daily range where only the low is given: 20 degF. [K] Source `practice-daily-range` (PRACTICE).
DAILY_RANGE = 20 / 1.8
