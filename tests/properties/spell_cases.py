"""Random spells for hypothesis, and the nodes of a rule of integration."""

from typing import NamedTuple

import numpy as np
from hypothesis import strategies as st

from logic.physics.spell_parts import SpellHeater

GAUSS = tuple(
    (float(node), float(weight)) for node, weight in zip(*np.polynomial.legendre.leggauss(16), strict=True)
)


class SpellCase(NamedTuple):
    seconds: tuple[float, ...]
    effective: tuple[float, ...]
    mass: float
    conductance: float
    heaters: tuple[SpellHeater, ...]
    start: float


@st.composite
def spells(draw, *, thermostats: bool = True) -> SpellCase:
    """Contents from a jug to a tank, weather with jumps and flat stretches, up to three heaters."""
    hours = draw(st.integers(1, 40))
    steps = draw(st.lists(st.sampled_from([900.0, 3600.0, 3600.0, 3600.0]), min_size=hours, max_size=hours))
    seconds = [0.0]
    for step in steps:
        seconds.append(seconds[-1] + step)
    degrees = st.one_of(st.floats(-40, 25), st.sampled_from([0.0, -10.0, 5.0]))
    effective = draw(st.lists(degrees, min_size=hours + 1, max_size=hours + 1))
    heaters = []
    for _ in range(draw(st.integers(0, 3))):
        heat = draw(st.floats(0, 600))
        if thermostats and draw(st.booleans()):
            low = draw(st.sampled_from([1.0, 2.5, 4.0, 7.0]))
            heaters.append(SpellHeater(heat, low, low + draw(st.sampled_from([0.25, 1.0, 3.0, 6.0]))))
        else:
            heaters.append(SpellHeater(heat))
    return SpellCase(
        tuple(seconds),
        tuple(effective),
        draw(st.floats(0.5, 200)),
        draw(st.floats(0.3, 30)),
        tuple(heaters),
        draw(st.sampled_from([-8.0, 0.0, 0.5, 3.0, 10.0, 15.0])),
    )
