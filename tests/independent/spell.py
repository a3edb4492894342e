"""The cold spell in small steps: constant surroundings within a step, a step halved where something switches.

The program solves it by events in closed form; here nothing is solved. A step takes the outdoor
temperature of its middle. Within it the contents follow an exponential (liquid, ice) or a straight line (mush);
where the phase or a thermostat changes within a step it is halved, down to the shortest that is asked for.
"""

import itertools
import math
from types import SimpleNamespace
from typing import Any, NamedTuple

from tests.independent.heat import EDGES, contents_of, share
from tests.independent.numbers import HEAT, HEAT_OF_ICE, LATENT

EVENTS, EVENTS_PER_KNOT = 5_000, 50  # switchings and changes of phase; beyond them a spell has no value

COUNTED = ("lowest", "ice_hours", "ice_share", "duty", "energy")


class Steps(NamedTuple):
    """How finely a spell is counted. [s]"""

    longest: float
    shortest: float  # not halved any further


class Chatter(Exception):
    """So few drops that their thermostats switch for ever."""


class Contents:
    """Enthalpy over liquid at 0 °C, with what follows from it."""

    def __init__(self, mass, conductance):
        self.mass, self.conductance = mass, conductance
        self.liquid, self.ice, self.all_latent = mass * HEAT, mass * HEAT_OF_ICE, mass * LATENT

    def enthalpy(self, celsius):
        return self.liquid * celsius if celsius >= 0 else self.ice * celsius - self.all_latent

    def temperature(self, enthalpy):
        if enthalpy >= 0:
            return enthalpy / self.liquid
        return min(0.0, (enthalpy + self.all_latent) / self.ice)

    def frozen(self, enthalpy):
        return min(1.0, max(0.0, -enthalpy / self.all_latent))

    def phase(self, enthalpy):
        if enthalpy == 0:
            return "edge"
        return "liquid" if enthalpy > 0 else "mush" if enthalpy > -self.all_latent else "ice"

    def after(self, enthalpy, seconds, target):
        """Enthalpy after a time at constant T_eff + heat/G, as if the phase stayed."""
        gain = self.conductance * (target - self.temperature(enthalpy))
        in_mush = -self.all_latent < enthalpy < 0 or (enthalpy == 0 and gain < 0)
        if in_mush or (enthalpy <= -self.all_latent and gain > 0 and self.temperature(enthalpy) >= 0):
            return enthalpy + gain * seconds
        capacity = self.liquid if enthalpy >= 0 else self.ice
        return enthalpy + gain * capacity / self.conductance * -math.expm1(
            -self.conductance / capacity * seconds
        )


class Spell:
    """One run: the contents, the pads' state, and what has been counted so far."""

    def __init__(self, rig, lumped, pads, watts, scale, step):
        self.step = step
        self.events_left = EVENTS + EVENTS_PER_KNOT * len(rig.weather.times)
        self.course = rig.weather
        self.at_0 = lumped.effective(0.0)
        self.per_degree = lumped.effective(1.0) - self.at_0
        self.contents = Contents(lumped.mass, lumped.conductance * scale)
        self.pads = pads
        self.heat = [share(rig, pad) * watts[pad.id] for pad in pads]
        self.enthalpy = self.contents.enthalpy(rig.design.start)
        self.on = self.switched([pad.thermostat is None for pad in pads], rig.design.start)
        self.lowest, self.most_ice, self.ice_seconds = (
            rig.design.start,
            self.contents.frozen(self.enthalpy),
            0.0,
        )
        self.on_seconds = [dict.fromkeys(range(len(self.course.days)), 0.0) for _ in pads]

    def switched(self, on, celsius):
        return [
            was
            if pad.thermostat is None
            else celsius <= pad.thermostat.off
            if was
            else celsius < pad.thermostat.on
            for was, pad in zip(on, self.pads, strict=True)
        ]

    def advance(self, since, until, day):
        middle = self.course.at((since + until) / 2)
        heat = sum(one for one, on in zip(self.heat, self.on, strict=True) if on)
        target = self.at_0 + self.per_degree * middle + heat / self.contents.conductance
        after = self.contents.after(self.enthalpy, until - since, target)
        celsius = self.contents.temperature(after)
        on = self.switched(self.on, celsius)
        changed = on != self.on or self.contents.phase(after) != self.contents.phase(self.enthalpy)
        if changed and until - since > self.step.shortest:
            self.advance(since, (since + until) / 2, day)
            self.advance((since + until) / 2, until, day)
            return
        self.events_left -= changed
        if self.events_left < 0:
            raise Chatter
        share_of_ice = self.contents.frozen(after)
        if share_of_ice > 0:
            self.ice_seconds += until - since
        for n, was in enumerate(self.on):
            self.on_seconds[n][day] += (until - since) * was
        self.enthalpy, self.on = after, on
        self.lowest, self.most_ice = min(self.lowest, celsius), max(self.most_ice, share_of_ice)

    def run(self):
        for day, (since, until) in enumerate(self.course.days):
            inner = [time for time in self.course.times if since < time < until]
            edges = [since, *inner, until]
            for a, b in itertools.pairwise(edges):
                steps = max(1, math.ceil((b - a) / self.step.longest - 1e-9))
                for n in range(steps):
                    self.advance(a + (b - a) * n / steps, a + (b - a) * (n + 1) / steps, day)
        return self


def spells_of(rig, tank, watts, step):
    """What three runs give, at G, G × 0.75 and G × 1.25: None without contents."""
    if tank.fill == 0:
        return None
    lumped, pads, runs = contents_of(rig, tank).lumped, rig.on(tank.id), []
    for scale in (1.0, *EDGES):
        try:
            runs.append(counted(Spell(rig, lumped, pads, watts, scale, step).run(), watts))
        except Chatter:
            runs.append(always_on(rig, pads))
    return runs


def always_on(rig, pads):
    """What is told of a run without a value: for the night its heaters count as on."""
    days = [(until - since) / 3600 for since, until in rig.weather.days]
    return SimpleNamespace(**dict.fromkeys(COUNTED), hours={pad.id: days for pad in pads})


def counted(spell, watts):
    hours = {
        pad.id: [s / 3600 for s in on.values()] for pad, on in zip(spell.pads, spell.on_seconds, strict=True)
    }
    energy = sum(watts[pad_id] * sum(days) for pad_id, days in hours.items())
    most = sum(watts[pad.id] for pad in spell.pads) * spell.course.seconds / 3600
    return SimpleNamespace(
        lowest=spell.lowest,
        ice_hours=spell.ice_seconds / 3600,
        ice_share=spell.most_ice,
        duty=energy / most if most else None,
        energy=energy,
        hours=hours,
    )


def spell_figures(tank, runs):
    figures: dict[str, Any] = {}
    for name in COUNTED:
        values = [None] if runs is None else [getattr(run, name) for run in runs]
        figures[name] = values[0]
        known = [value for value in values if value is not None]
        if len(known) == 1 + len(EDGES):
            figures[name + ".band"] = [min(known), max(known)]
    return {f"tank.{tank.id}.spell.{name}": value for name, value in figures.items()}
