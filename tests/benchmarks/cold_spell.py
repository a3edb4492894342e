"""How fast a cold spell is, by ratios to a general solver in the same run. By hand:

    python -m tests.benchmarks.cold_spell

The season: 90 days of hourly weather, one tank, a thermostat that switches some 800 times. The forecast:
three nights, three tanks, G and both edges of its band.
"""

import math
import random
import time
import tracemalloc

from logic.physics.cold_spell import cold_spell, start_state
from logic.physics.spell_parts import SpellHeater
from logic.physics.weather import diurnal_course
from tests.spell_reference import Contents, by_solver

HOUR = 3600.0
MASS, CONDUCTANCE, START = 67.0, 6.0, 10.0
HEATER = SpellHeater(160.0, 4.0, 6.0)


def season(days):
    """Hourly knots of a winter: days within fronts, with some noise."""
    draw = random.Random(1)
    hours = range(days * 24 + 1)
    return tuple(HOUR * hour for hour in hours), tuple(
        -8
        + 6 * math.sin(2 * math.pi * hour / 24)
        + 8 * math.sin(2 * math.pi * hour / 264)
        + draw.uniform(-1, 1)
        for hour in hours
    )


def best(function, times):
    """The least of some runs, and the last result. [s]"""
    least, result = math.inf, None
    for _ in range(times):
        began = time.perf_counter()
        result = function()
        least = min(least, time.perf_counter() - began)
    return least, result


def ours(seconds, effective, *, conductance=CONDUCTANCE, heaters=(HEATER,)):
    return cold_spell(
        seconds,
        effective,
        mass=MASS,
        conductance=conductance,
        heaters=heaters,
        start=start_state(START, heaters),
    )


def main():
    seconds, effective = season(90)
    fast, spell = best(lambda: ours(seconds, effective), 20)
    contents = Contents(MASS, CONDUCTANCE, ((160.0, 4.0, 6.0),))
    asked = {"start": START, "max_step": 600.0}
    slow, seen = best(
        lambda: by_solver(contents, seconds, effective, method="LSODA", rtol=1e-6, atol=1e-6, **asked), 1
    )
    tight = by_solver(contents, seconds, effective, method="DOP853", rtol=1e-11, atol=1e-11, **asked)
    on = spell.seconds_on(0)
    print(f"season of 90 days: {fast * 1e3:.2f} ms, {spell.switchings} switchings")
    print(f"  LSODA, rtol 1e-6, max_step 600 s, restarted at knots: {slow * 1e3:.0f} ms, {slow / fast:.0f} ×")
    print(f"  on-time off from DOP853, rtol 1e-11: ours {abs(on - tight.seconds_on[0]):.1e} s,", end=" ")
    print(f"LSODA {abs(seen.seconds_on[0] - tight.seconds_on[0]):.1e} s; switchings {tight.switchings}")

    course = diurnal_course(low_degc=-24.4, high_degc=-11.1, nights=3)
    tanks = ((2.75, 30.0), (3.5, 60.0), (1.95, 25.0))

    def forecast():
        return [
            ours(course.seconds, course.degc, conductance=g * edge, heaters=(SpellHeater(heat, 4.4, 7.8),))
            for g, heat in tanks
            for edge in (1.0, 0.75, 1.25)
        ]

    three, _ = best(forecast, 50)
    print(f"three nights, three tanks, three runs each: {three * 1e3:.2f} ms")
    for days in (90, 900):
        many = season(days)
        tracemalloc.start()
        ours(*many)
        held = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        print(f"most memory taken by {days} days: {held / 1024:.0f} KiB")


if __name__ == "__main__":
    main()
