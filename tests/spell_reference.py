"""A cold spell by a general solver of differential equations: slow, and independent of the program's own.

It is restarted at each knot of the weather and at each event, with steps of 2.5 min at the most: its events
are looked for only at the ends of its steps.
"""

from dataclasses import dataclass, field

import numpy as np
from scipy.integrate import solve_ivp

WATER_HEAT, ICE_HEAT, LATENT_HEAT = 4190.0, 2050.0, 333_430.0
MAX_STEP = 150.0


@dataclass
class Reference:
    """What came of it."""

    degc: float
    phase: str
    heat_left: float
    lowest: float
    ice_seconds: float
    ice_share: float
    seconds_on: list[float]
    switchings: int
    steps: int = 0
    crossings: list[float] = field(default_factory=list)


@dataclass
class Contents:
    """The tank: kg, W/K, heaters as (W, on, off) with on None for a plain switch."""

    mass: float
    conductance: float
    heaters: tuple[tuple[float, float | None, float | None], ...]


def by_solver(
    contents, seconds, effective, *, start, method="DOP853", rtol=1e-9, atol=1e-9, max_step=MAX_STEP
):
    """The spell of some contents from `start` °C, event after event."""
    latent = contents.mass * LATENT_HEAT
    phase = "liquid" if start >= 0 else "ice"
    on = [low is None or start < low for _, low, _ in contents.heaters]
    state = start
    seen = Reference(start, phase, 0.0, start, 0.0, 0.0 if phase == "liquid" else 1.0, [0.0] * len(on), 0)
    for knot in range(len(seconds) - 1):
        now, end = seconds[knot], seconds[knot + 1]
        slope = (effective[knot + 1] - effective[knot]) / (end - now)
        first, began = effective[knot], now
        while now < end:
            heat = sum(watts for (watts, _, _), is_on in zip(contents.heaters, on, strict=True) if is_on)

            def rate(t, y, heat=heat, phase=phase, first=first, began=began, slope=slope):
                degc = 0.0 if phase == "mush" else y[0]
                flow = heat - contents.conductance * (degc - first - slope * (t - began))
                if phase == "mush":
                    return [flow]
                return [flow / (contents.mass * (WATER_HEAT if phase == "liquid" else ICE_HEAT))]

            events, names = _events(phase, on, contents.heaters, latent)
            scale = latent if phase == "mush" else 1.0
            found = solve_ivp(
                rate, (now, end), [state], method=method, events=events, max_step=max_step, rtol=rtol,
                atol=atol * scale,
            )  # fmt: skip
            seen.steps += len(found.t)
            _note(seen, found, phase, latent)
            for which, is_on in enumerate(on):
                seen.seconds_on[which] += (found.t[-1] - now) if is_on else 0.0
            now, state = found.t[-1], found.y[0, -1]
            if found.status != 1:
                now = end
                continue
            fired = next(name for name, times in zip(names, found.t_events, strict=True) if len(times))
            phase, state = _after(fired, phase, state, on, seen, latent, contents.heaters)
    seen.phase = phase
    seen.degc = 0.0 if phase == "mush" else state
    seen.heat_left = state if phase == "mush" else 0.0
    return seen


def _events(phase, on, heaters, latent):
    events, names = [], []

    def add(name, threshold, direction):
        def crossing(t, y):
            return y[0] - threshold

        crossing.terminal = True
        crossing.direction = direction
        events.append(crossing)
        names.append(name)

    if phase == "mush":
        add(("ice",), 0.0, -1)
        add(("liquid",), latent, 1)
    elif phase == "ice":
        add(("mush from ice",), 0.0, 1)
    else:
        add(("mush",), 0.0, -1)
        for which, (_, low, high) in enumerate(heaters):
            if low is not None and not on[which]:
                add(("on", which), low, -1)
            elif low is not None:
                add(("off", which), high, 1)
    return events, names


def _after(fired, phase, state, on, seen, latent, heaters):
    if fired[0] in ("on", "off"):
        which = fired[1]
        on[which] = fired[0] == "on"
        seen.switchings += 1
        seen.crossings.append(state)
        return phase, heaters[which][1] if fired[0] == "on" else heaters[which][2]
    if fired[0] == "mush":
        return "mush", latent
    if fired[0] == "mush from ice":
        return "mush", 0.0
    return fired[0], 0.0


def _note(seen, found, phase, latent):
    length = found.t[-1] - found.t[0]
    if phase == "mush":
        seen.ice_seconds += length
        seen.ice_share = max(seen.ice_share, 1 - float(np.min(found.y)) / latent)
        seen.lowest = min(seen.lowest, 0.0)
        return
    seen.lowest = min(seen.lowest, float(np.min(found.y)))
    if phase == "ice":
        seen.ice_seconds += length
        seen.ice_share = 1.0
