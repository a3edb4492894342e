"""Films, faces, the bay, and what follows for a tank in steady cold: what it needs, holds, how soon there is ice."""

import math
from types import SimpleNamespace

from tests.independent import volumes
from tests.independent.numbers import DENSITY, HEAT, LATENT, R_HEAD, R_INDOORS, R_LIQUID, STILL, film_in_wind

EDGES = (0.75, 1.25)


def film(rig, place, wind=None):
    """[W/m²K]"""
    return film_in_wind(rig.design.wind if wind is None else wind) if place == "open" else STILL


def top_area(tank):
    return tank.length * tank.width


def bay_temperature(rig, bay, outdoors, *, heated=True):
    """[°C]"""
    under = [one for one in rig.tanks.values() if one.place == bay.id and one.above == "cabin"]
    floor = (bay.area - sum(map(top_area, under))) / (bay.floor + R_INDOORS + 1 / 8)
    pan = bay.area / (1 / 8 + bay.pan + 1 / film_in_wind(rig.design.wind))
    heat = bay.heat if heated else 0.0
    out = pan + bay.leak
    return (floor * rig.design.cabin + out * outdoors + heat) / (floor + out)


def surroundings(rig, place, outdoors):
    """Air around what stands in a place. [°C]"""
    if place in rig.bays:
        return bay_temperature(rig, rig.bays[place], outdoors)
    return rig.design.cabin if place == "inside" else outdoors


def outdoors_where(function, wanted):
    """The outdoor temperature at which a linear function of it has a value; None where it doesn't depend. [°C]"""
    at_0, at_1 = function(0.0), function(1.0)
    if abs(at_1 - at_0) < 1e-12:
        return None
    return (wanted - at_0) / (at_1 - at_0)


class Lumped:
    """A tank at one level: conductances of its faces, where it drifts to, what its pads give."""

    def __init__(self, rig, tank, depth, *, wind=None):
        self.rig, self.tank, self.wind = rig, tank, wind
        self.mass = DENSITY * volumes.volume(tank, depth)
        outer = 1 / film(rig, tank.place, wind)
        wall = tank.wall / tank.wall_conductivity
        wet, dry = volumes.sides(tank, depth)
        above = tank.floor + R_INDOORS if tank.above == "cabin" else outer
        bare = R_LIQUID + wall + outer
        if tank.shape == "cylinder":
            touched = on_cylinder(rig.on(tank.id), wet, volumes.wet_shell(tank, depth))
        else:
            touched = in_turn(rig.on(tank.id, "bottom"), volumes.footprint(tank))
            touched += in_turn(rig.on(tank.id, "side"), wet)
        uncovered = volumes.footprint(tank) + wet - sum(area for _, area in touched)
        self.outward = (
            sum(area / (bare + pad.insulation) for pad, area in touched)
            + uncovered / (bare + tank.insulation)
            + dry / (R_HEAD + wall + tank.insulation + outer)
        )
        self.upward = top_area(tank) / (R_HEAD + wall + tank.top_insulation + above)
        self.conductance = self.outward + self.upward

    def effective(self, outdoors):
        """T_eff at an outdoor temperature. [°C]"""
        around = surroundings(self.rig, self.tank.place, outdoors)
        above = self.rig.design.cabin if self.tank.above == "cabin" else around
        return (self.outward * around + self.upward * above) / self.conductance

    def delivered(self, watts):
        return sum(share(self.rig, one, self.wind) * watts[one.id] for one in self.rig.on(self.tank.id))

    def holds_to(self, watts, scale=1.0):
        hold = self.rig.design.hold
        return outdoors_where(self.effective, hold - self.delivered(watts) / (self.conductance * scale))

    def hours_to_ice(self, scale=1.0):
        drift = self.effective(self.rig.weather.steady_low)
        if drift >= 0 or self.mass == 0:
            return None
        pace = self.conductance * scale / (self.mass * HEAT)
        return math.log((self.rig.design.hold - drift) / -drift) / pace / 3600

    def hours_to_solid(self, scale=1.0):
        drift = self.effective(self.rig.weather.steady_low)
        if drift >= 0 or self.mass == 0:
            return None
        return self.mass * LATENT / (self.conductance * scale * -drift) / 3600

    def hours_to_thaw(self, watts, scale=1.0):
        lost = self.conductance * scale * -self.effective(self.rig.weather.steady_low)
        left = self.delivered(watts) - lost
        if left <= 0 or self.mass == 0 or not self.rig.on(self.tank.id):
            return None
        return self.mass * LATENT / left / 3600


def in_turn(pads, area):
    """(pad, what it covers) in the profile's order, up to the area that there is. [m²]"""
    touched = []
    for pad in pads:
        touched.append((pad, min(area, pad.length * pad.width)))
        area -= touched[-1][1]
    return touched


def on_cylinder(pads, wet, shell):
    """The same on wet shell and ends: a bottom pad lies on the shell alone. [m²]"""
    touched = []
    for pad in pads:
        area = min(wet, pad.length * pad.width, *([shell] if pad.face == "bottom" else []))
        wet -= area
        shell -= area if pad.face == "bottom" else 0.0
        touched.append((pad, area))
    return touched


def share(rig, pad, wind=None):
    """η of a pad on a tank."""
    tank = rig.tanks[pad.on]
    inward = R_LIQUID + tank.wall / tank.wall_conductivity
    outward = pad.insulation + 1 / film(rig, tank.place, wind)
    return outward / (inward + outward)


def contents_of(rig, tank):
    """The tank as planned, for its figures and its spell."""
    depth = volumes.level(tank, tank.fill * volumes.full(tank)) if tank.fill else 0.0
    return SimpleNamespace(level=depth, lumped=Lumped(rig, tank, depth))


def tank_figures(rig, tank, places, watts):
    """Figures of a tank that need no spell; a band as a pair under `<id>.band`."""
    planned = contents_of(rig, tank)
    lumped, low = planned.lumped, rig.weather.steady_low
    needed = max(0.0, lumped.conductance * (rig.design.hold - lumped.effective(low)))
    least = volumes.least_level(rig, tank, places)
    if least is not None and least > volumes.inside_height(tank) + 1e-12:
        least = None
    figures = {
        "volume": volumes.full(tank) * 1000,
        "volume_outside": tank.length * tank.width * tank.height * 1000,
        "contents": tank.fill * volumes.full(tank) * 1000,
        "contents_level": planned.level,
        "least_level": least,
        "least": None if least is None else volumes.volume(tank, least) * 1000,
        "conductance": lumped.conductance,
        "effective": lumped.effective(low),
        "needed": needed,
        "needed.band": [needed * scale for scale in EDGES],
        "delivered": lumped.delivered(watts),
        "holds_to": lumped.holds_to(watts),
        "holds_to.band": [lumped.holds_to(watts, scale) for scale in EDGES],
        "hours_to_ice": lumped.hours_to_ice(),
        "hours_to_ice.band": [lumped.hours_to_ice(scale) for scale in EDGES],
        "hours_to_solid": lumped.hours_to_solid(),
        "hours_to_solid.band": [lumped.hours_to_solid(scale) for scale in EDGES],
        "hours_to_thaw": lumped.hours_to_thaw(watts),
        "hours_to_thaw.band": [lumped.hours_to_thaw(watts, scale) for scale in EDGES],
        "hours_to_ice_least": None,
        "holds_to_towing": None,
    }
    if least is not None:
        little = Lumped(rig, tank, least)
        figures["hours_to_ice_least"] = little.hours_to_ice()
        figures["hours_to_ice_least.band"] = [little.hours_to_ice(scale) for scale in EDGES]
    if rig.design.towing is not None and tank.place == "open":
        moving = Lumped(rig, tank, planned.level, wind=rig.design.towing)
        figures["holds_to_towing"] = moving.holds_to(watts)
        figures["holds_to_towing.band"] = [moving.holds_to(watts, scale) for scale in EDGES]
    return {f"tank.{tank.id}.{name}": value for name, value in figures.items()}


def bay_figures(rig, bay):
    low = rig.weather.steady_low
    return {
        f"bay.{bay.id}.low": bay_temperature(rig, bay, low),
        f"bay.{bay.id}.low_unheated": bay_temperature(rig, bay, low, heated=False),
    }
