"""The spell solved by events against a general solver, on random cases."""

import numpy as np
import pytest

from logic.physics.cold_spell import cold_spell, start_state
from logic.physics.spell_parts import PHASES, SpellHeater
from tests.spell_reference import Contents, by_solver

HOUR = 3600.0
CASES = 200


def random_case(number):
    """Contents, weather and heaters drawn so that most cases switch, freeze or thaw."""
    draw = np.random.default_rng(20_240 + number)
    hours = int(draw.integers(8, 30))
    steps = draw.choice([900.0, 1800.0, 3600.0, 3600.0, 3600.0], size=hours)
    seconds = tuple(float(each) for each in np.concatenate([[0.0], np.cumsum(steps)]))
    drift = np.cumsum(draw.normal(0, 2.5, size=hours + 1))
    effective = tuple(float(each) for each in draw.uniform(-15, 6) + drift)
    mass = float(np.exp(draw.uniform(np.log(3), np.log(150))))
    conductance = float(np.exp(draw.uniform(np.log(0.7), np.log(20))))
    heaters = []
    for _ in range(int(draw.integers(0, 4))):
        watts = float(draw.uniform(0.3, 2.5) * conductance * 10)
        if draw.random() < 0.2:
            heaters.append((watts, None, None))
        else:
            low = float(draw.uniform(1, 8))
            heaters.append((watts, low, low + float(draw.uniform(0.5, 6))))
    start = float(draw.uniform(-6, 14))
    return Contents(mass, conductance, tuple(heaters)), seconds, effective, start


def ours(contents, seconds, effective, start):
    heaters = tuple(SpellHeater(*each) for each in contents.heaters)
    return cold_spell(
        seconds,
        effective,
        mass=contents.mass,
        conductance=contents.conductance,
        heaters=heaters,
        start=start_state(start, heaters),
    )


@pytest.mark.parametrize("batch", range(10))
def test_random_spells_agree_with_a_general_solver(batch):
    """In each case: the end, the lowest, ice, every heater's time, and the number of switchings."""
    for number in range(batch * CASES // 10, (batch + 1) * CASES // 10):
        contents, seconds, effective, start = random_case(number)
        spell = ours(contents, seconds, effective, start)
        seen = by_solver(contents, seconds, effective, start=start)
        case = f"case {number}: {contents}, start {start}"
        # scipy solve_ivp, DOP853, rtol 1e-9, steps ≤ 150 s · 1e-6: its own error is less; the lowest, which
        # it sees only at the ends of its steps, 0.01 K
        assert spell.switchings == seen.switchings, case
        assert PHASES[spell.end.phase] == seen.phase, case
        assert spell.end.degc == pytest.approx(seen.degc, abs=1e-6), case
        assert spell.lowest_degc == pytest.approx(seen.lowest, abs=0.01), case
        assert spell.ice_seconds == pytest.approx(seen.ice_seconds, rel=1e-6, abs=1e-3), case
        assert spell.ice_share == pytest.approx(seen.ice_share, rel=1e-3, abs=1e-5), case
        for which, on in enumerate(seen.seconds_on):
            assert spell.seconds_on(which) == pytest.approx(on, rel=1e-6, abs=1e-3), case


def test_the_random_cases_are_worth_it():
    """Enough of them switch, freeze through and thaw: a draw that never did would prove nothing."""
    spells = [ours(*random_case(number)) for number in range(CASES)]
    assert sum(spell.switchings > 0 for spell in spells) > CASES // 3
    assert sum(spell.ice_seconds > 0 for spell in spells) > CASES // 3
    assert sum(spell.ice_share == 1.0 for spell in spells) > CASES // 20
    assert sum(0 < spell.ice_seconds < spell.length for spell in spells) > CASES // 4
    assert max(spell.switchings for spell in spells) > 10
