"""The constants of heat and energy under their names, each with its unit and the id of its source.

The values stand in `tables/*.toml` with their plausible ranges; physics takes them from here. SI and °C.
"""

from logic.data.tables import course, value

HOUR = 3600.0
"""Seconds in an hour."""

DAY = 24 * HOUR
"""Seconds in a day."""

WATER_DENSITY = value("water", "liquid", "density")
"""Of liquid contents. [kg/m³] `iapws-95`"""

WATER_HEAT = value("water", "liquid", "heat")
"""Specific heat of liquid contents. [J/kg/K] `iapws-95`"""

ICE_HEAT = value("water", "ice", "heat")
"""Specific heat of ice. [J/kg/K] `iapws-06`"""

LATENT_HEAT = value("water", "liquid", "latent-heat")
"""Of freezing. [J/kg] `iapws-06`"""

WATER_CONDUCTIVITY = value("materials", "conductivity", "water")
"""Of still water between 0 and 10 °C. [W/m/K] `coolprop-water`"""

WALL_CONDUCTIVITY = {key: value("materials", "conductivity", key) for key in ("polyethylene", "abs", "pvc")}
"""Of the walls of tanks and drains, by material. [W/m/K] `handbook-plastics`, `textbook-plastics-1.8`"""

FOAM_CONDUCTIVITY = value("materials", "conductivity", "extruded-polystyrene")
"""Of the board that remedies are stated in. [W/m/K] `course-heat-flow`"""

WALL_LIMIT_DEGC = value("limits", "temperature", "wall")
"""What a plastic wall may reach, where its own sheet says nothing. [°C] `practice-wall-limit`"""

FOAM_LIMIT_DEGC = value("limits", "temperature", "polystyrene-foam")
"""What polystyrene foam may reach. [°C] `astm-c578-1.1`"""

LIQUID_FILM = value("films", "film", "liquid-side")
"""Resistance of the liquid's film on a wall. [m²K/W] `practice-liquid-film`"""

HEAD_SPACE = value("films", "film", "head-space")
"""Resistance of the air over the liquid, and inside a dry side. [m²K/W] `ashrae-air-space`"""

INDOOR_FLOOR_FILM = value("films", "film", "indoor-floor")
"""Resistance of the cabin's air on its floor, heat down. [m²K/W] `wac-51-11-0526`"""

STILL_FILM = value("films", "film", "still")
"""Film of still air: in a closed bay, in the cabin, on a pad that hangs free. [W/m²K] `ashrae-still-air`"""

WIND_CALM = value("films", "film", "wind-calm")
"""Constant of the linear branch of the film in wind. [W/m²K] `mcadams-1954`"""

WIND_SLOPE = value("films", "film", "wind-slope")
"""Slope of that branch on the air's speed. [J/m³K] `mcadams-1954`"""

WIND_LINEAR_TO = value("films", "film", "wind-linear-to")
"""Air speed to which that branch goes. [m/s] `mcadams-1954`"""

WIND_POWER_FACTOR = value("films", "film", "wind-power-factor")
"""Factor of the branch for faster air, speed in m/s. [W/m²K] `mcadams-1954`"""

WIND_POWER = value("films", "film", "wind-power")
"""Exponent of the air's speed in it. [1] `mcadams-1954`"""

PIPE_RADIATION = value("films", "film", "pipe-radiation")
"""Radiation's part of the film on a pipe in wind. [W/m²K] `practice-pipe-film`"""

PIPE_STILL_FILM = value("films", "film", "pipe-still")
"""Whole film on a pipe in nearly still air. [W/m²K] `practice-pipe-film`"""

PIPE_STILL_TO = value("films", "film", "pipe-still-to")
"""Air speed below which that one stands. [m/s] `practice-pipe-film`"""

CONDUCTANCE_BAND = value("limits", "rule", "conductance-band")
"""Share by which a conductance may be off either way. [1] `practice-g-band`"""

LEAST_COVER = value("limits", "rule", "least-cover")
"""Liquid above the highest wall that a pad covers. [m] `practice-least-liquid`"""

REACH_SHARE = value("limits", "rule", "reach-share")
"""Share of the tank's excess at which its warmth counts as gone. [1] `practice-reach`"""

WRAP_COVER = value("limits", "rule", "wrap-cover")
"""Least share of a drain's length that its wrap covers. [1] `practice-wrap-cover`"""

CONVERTER_SHARE = value("limits", "rule", "converter-share")
"""Most of a converter's rating that it carries all night. [1] `practice-converter-80`"""

CUTOFF_MARGIN = value("limits", "rule", "cutoff-margin")
"""Least distance of the supply's volts from its own cut-off. [V] `practice-cutoff-margin`"""

FURNACE_BLOWER = value("limits", "rule", "furnace-blower")
"""Current of a furnace's blower, on for nearly half a cold night. [A] `practice-other-load`"""

DISCHARGE_HOURS = value("limits", "rule", "discharge-hours")
"""Hours of the rate at which a capacity is stated. [h] `practice-20-hour-rate`"""

MAGNUS_A = value("limits", "dew", "magnus-a")
"""Magnus coefficient over water. [1] `wmo-8-4b`"""

MAGNUS_B_DEGC = value("limits", "dew", "magnus-b")
"""Magnus coefficient over water. [°C] `wmo-8-4b`"""

DEW_MARGIN = value("limits", "dew", "margin")
"""Least distance of a surface from the dew point. [K] `iso-8502-4`"""

SHARE_BELOW_HIGH = course("diurnal", "share-below-high")[1]
"""Share of the daily range below the high at clock hours 1 to 24. [1] `ashrae-diurnal`"""

MOST_ROWS_OF_TANKS = 400_000
"""Rows of weather times tanks whose spells are worked out at once: a year of hours for 45 tanks, eleven for four."""

MOST_ROWS_MOVED = 1_000_000
"""Rows of weather that spells go through for the uncertainty of readings: a year of hours for seven tanks, all read."""

MOST_PADS_MOVED = 40_000
"""Pads that spells go through for the same: a tank with 80 pads, all read; one with 60 takes half of that."""

MOST_SIZES_READ = 5_000
"""Sizes read up to which figures say what the readings leave uncertain: a rig of thirty tanks has some hundreds."""

MOST_PADS_BESIDE = 60
"""Pads on a tank's bottom among which a place nearer to the outlet is looked for."""

SPELL_STARTS = 18 * HOUR
"""The clock at which a spell begins and a night's account is drawn. [s] `practice-spell-start`"""

# Churchill & Bernstein (1977), cylinder in crossflow, Re·Pr > 0.2. `churchill-bernstein-1977`
CROSSFLOW_LEAST = 0.3
CROSSFLOW_FACTOR = 0.62
CROSSFLOW_PRANDTL = 0.4
CROSSFLOW_REYNOLDS = 282_000.0
