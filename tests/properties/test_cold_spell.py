"""What must hold of every spell: energy balance, one run or twelve, more watts, more cold."""

import csv
from importlib import resources
from itertools import pairwise

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st

from logic.physics.cold_spell import TooManyEvents, cold_spell, start_state
from logic.physics.spell_parts import ICE, LIQUID, MUSH, SpellHeater
from tests.properties.spell_cases import GAUSS, spells

HOUR = 3600.0
STEADY = settings(derandomize=True, database=None, deadline=None, max_examples=150)


def solve(case, *, heaters=None, conductance=None, start=None, part=slice(None), trace=False):
    heaters = case.heaters if heaters is None else heaters
    try:
        return cold_spell(
            case.seconds[part],
            case.effective[part],
            mass=case.mass,
            conductance=conductance or case.conductance,
            heaters=heaters,
            start=start or start_state(case.start, heaters),
            trace=trace,
        )
    except TooManyEvents:  # a cup of water under a strong heater: a reason, not a spell
        reject()


def enthalpy(mass, phase, degc, heat_left):
    """Heat above all ice at 0 °C. [J]"""
    if phase == LIQUID:
        return mass * (333_430.0 + 4190.0 * degc)
    return mass * 2050.0 * degc if phase == ICE else heat_left


def integral(function, length, parts):
    """By Gauss and Legendre's rule on equal parts of a stretch."""
    step = length / parts
    return sum(
        weight * step / 2 * function(step * (part + (1 + node) / 2))
        for part in range(parts)
        for node, weight in GAUSS
    )


@STEADY
@given(spells())
def test_energy_in_less_energy_out_is_what_is_left_in_every_piece(case):
    spell = solve(case, trace=True)
    pieces = spell.pieces
    assert sum(piece.length for piece in pieces) == pytest.approx(spell.length, rel=1e-9)
    ends = [(piece.phase, piece.degc, piece.heat_left) for piece in pieces[1:]]
    ends.append((spell.end.phase, spell.end.degc, spell.end.heat_left))
    for piece, end in zip(pieces, ends, strict=True):
        before = enthalpy(case.mass, piece.phase, piece.degc, piece.heat_left)
        after = enthalpy(case.mass, *end)
        effective = piece.drive - piece.heat / piece.conductance

        def flow(seconds, piece=piece, effective=effective):
            around = effective + piece.slope * seconds
            return piece.conductance * (piece.degc_at(seconds) - around)

        parts = 1 + int(piece.rate * piece.length / 2)
        lost = integral(flow, piece.length, parts)
        given_heat = piece.heat * piece.length
        scale = abs(lost) + given_heat + case.mass * 4190.0
        # dH/dt integrates to energy in less energy out · 1e-9 of what went through, and of 1 K of it
        assert after - before == pytest.approx(given_heat - lost, abs=1e-9 * scale), piece


@STEADY
@given(spells())
def test_pieces_join_without_a_gap(case):
    spell = solve(case, trace=True)
    for piece, later in pairwise(spell.pieces):
        assert later.start == pytest.approx(piece.start + piece.length, abs=1e-6)
        before = enthalpy(
            case.mass, piece.phase, piece.degc_at(piece.length), piece.heat_left_at(piece.length)
        )
        after = enthalpy(case.mass, later.phase, later.degc, later.heat_left)
        assert after == pytest.approx(before, rel=1e-9, abs=1e-6 * case.mass)
    lowest = min([case.start, *(piece.degc for piece in spell.pieces), spell.end.degc])
    assert spell.lowest_degc <= lowest + 1e-9


@STEADY
@given(spells())
def test_a_trace_changes_nothing(case):
    plain, traced = solve(case), solve(case, trace=True)
    assert plain.pieces == ()
    assert (plain.lowest_degc, plain.ice_seconds, plain.on_times, plain.end) == (
        traced.lowest_degc,
        traced.ice_seconds,
        traced.on_times,
        traced.end,
    )


def in_twelve(case):
    """The same spell in twelve calls, each from where the last one ended."""
    last = len(case.seconds) - 1
    cuts = sorted({round(last * part / 12) for part in range(13)})
    state, runs = start_state(case.start, case.heaters), []
    for begin, end in pairwise(cuts):
        runs.append(solve(case, start=state, part=slice(begin, end + 1)))
        state = runs[-1].end
    return runs


def same(whole, runs, case):
    # Y2 · one call equals twelve pieces carried over · 1e-9
    assert runs[-1].end.phase == whole.end.phase
    assert runs[-1].end.degc == pytest.approx(whole.end.degc, abs=1e-9)
    assert runs[-1].end.heat_left == pytest.approx(whole.end.heat_left, abs=1e-9 * case.mass * 333_430)
    assert runs[-1].end.on == whole.end.on
    assert min(run.lowest_degc for run in runs) == pytest.approx(whole.lowest_degc, abs=1e-9)
    assert sum(run.ice_seconds for run in runs) == pytest.approx(whole.ice_seconds, rel=1e-9, abs=1e-6)
    assert max(run.ice_share for run in runs) == pytest.approx(whole.ice_share, abs=1e-9)
    assert sum(run.switchings for run in runs) == whole.switchings
    for which in range(len(case.heaters)):
        on = sum(run.seconds_on(which) for run in runs)
        assert on == pytest.approx(whole.seconds_on(which), rel=1e-9, abs=1e-6)


@STEADY
@given(spells())
def test_a_spell_in_twelve_pieces_is_the_spell(case):
    same(solve(case), in_twelve(case), case)


@STEADY
@given(spells(thermostats=False), st.floats(0, 400))
def test_more_watts_are_never_colder(case, more):
    """Of plain switches. A cold hour may catch a thermostat at the bottom of its cycle, and with more watts
    the cycle is another one: nothing of the kind holds there."""
    extra = (*case.heaters, SpellHeater(more))
    less, warm = solve(case), solve(case, heaters=extra)
    assert warm.lowest_degc >= less.lowest_degc - 1e-9
    assert warm.ice_seconds <= less.ice_seconds + 1e-6
    assert warm.ice_share <= less.ice_share + 1e-9


@STEADY
@given(spells())
def test_sums_lie_in_their_bounds(case):
    spell = solve(case)
    assert 0 <= spell.ice_seconds <= spell.length * (1 + 1e-12)
    assert 0 <= spell.ice_share <= 1
    coldest = min(case.start, *case.effective)
    assert spell.lowest_degc >= coldest - 1e-9
    for which, times in enumerate(spell.on_times):
        assert 0 <= spell.seconds_on(which) <= spell.length * (1 + 1e-12)
        assert all(on <= off for on, off in times)
        assert all(earlier[1] <= later[0] for earlier, later in pairwise(times))
    days = tuple((begin * HOUR, (begin + 5) * HOUR) for begin in range(0, 200, 5))
    for which in range(len(case.heaters)):
        parts = sum(spell.seconds_on_between(which, days))
        assert parts == pytest.approx(spell.seconds_on(which), rel=1e-9, abs=1e-6)


@pytest.mark.parametrize("file", ["723170TYA.CSV", "703165TY.csv"])
def test_a_typical_year_in_one_call_and_in_twelve(file):
    pvlib = pytest.importorskip("pvlib")
    with (resources.files(pvlib) / "data" / file).open(newline="") as text:
        lines = csv.reader(text)
        next(lines)
        column = next(lines).index("Dry-bulb (C)")
        degrees = tuple(float(row[column]) for row in lines)

    class Year:
        seconds = tuple(HOUR * row for row in range(len(degrees)))
        effective = degrees
        mass, conductance, start = 67.0, 6.0, 10.0
        heaters = (SpellHeater(90.0, 4.0, 6.0), SpellHeater(40.0, 5.0, 8.0))

    whole = solve(Year)
    # Y1 · a season on the package's own weather, with pads that switch
    assert whole.switchings > 100
    assert whole.length == 8759 * HOUR
    same(whole, in_twelve(Year), Year)
    assert whole.end.phase in (LIQUID, MUSH, ICE)
