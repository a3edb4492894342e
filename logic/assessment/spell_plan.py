"""The cold spell of one tank as columns of a plot, for screen and sheet: outside, contents, heat, ice.

The spell itself is exact; here it is only looked at, so many times, at the middle of each column.
"""

from bisect import bisect_right

import msgspec

from logic.assessment.case import Case
from logic.assessment.tank_case import EDGES, fed_pads, tank_results
from logic.assessment.tank_spell_case import tank_spell
from logic.assessment.tank_view import tank_view
from logic.data.constants import LATENT_HEAT
from logic.data.profile import Profile
from logic.physics.spell_parts import MUSH, Piece, Spell
from logic.physics.tank_heat import mass_of


class Column(msgspec.Struct, frozen=True):
    """What stands at one moment of the spell. °C, shares from 0 to 1."""

    hour: float  # since its beginning
    outside: float
    contents: float
    least: float  # of the band's edges and the middle
    most: float
    ice: float  # share of the mass
    ice_most: float  # at the worse edge
    heat: float  # share of the column's time in which any heater is on
    heaters: tuple[float, ...]  # the same for each heater of the plan


class SpellPlan(msgspec.Struct, frozen=True):
    tank: str
    hours: float
    start_hour: float  # of the day, by the clock
    hold: float  # °C
    heaters: tuple[str, ...]  # that a run feeds
    columns: tuple[Column, ...]


def spell_plan(profile: Profile, tank_id: str, columns: int) -> SpellPlan | None:
    """The plot's columns; None: the tank holds nothing. Raises KeyError: no such tank.

    profile : with the readings' values in place.
    """
    return spell_plan_of(Case(profile), tank_id, columns)


def spell_plan_of(case: Case, tank_id: str, columns: int) -> SpellPlan | None:
    """The same from a case, for whoever draws several of its tanks."""
    tank = case.tanks[tank_id]
    inputs = tank_view(case, tank).inputs
    spells = [spell for edge in EDGES if (spell := tank_spell(inputs, edge, trace=True)) is not None]
    if not spells:
        return None
    middle = spells[0]
    mass = mass_of(tank_results(inputs).contents)
    step = middle.length / columns
    starts = [[piece.start for piece in spell.pieces] for spell in spells]
    made = []
    for number in range(columns):
        at = (number + 0.5) * step
        pieces = [_piece(spell, begins, at) for spell, begins in zip(spells, starts, strict=True)]
        degrees = [piece.degc_at(at - piece.start) for piece in pieces]
        ice = [_ice_share(piece, at - piece.start, mass) for piece in pieces]
        made.append(
            Column(
                hour=at / 3600,
                outside=_outside(inputs.course.seconds, inputs.course.degc, at),
                contents=degrees[0],
                least=min(degrees),
                most=max(degrees),
                ice=ice[0],
                ice_most=max(ice),
                heat=_heated(middle.on_times, number * step, step),
                heaters=tuple(_heated((times,), number * step, step) for times in middle.on_times),
            )
        )
    design = case.profile.design
    hourly = design.hourly
    return SpellPlan(
        tank=tank_id,
        hours=middle.length / 3600,
        start_hour=18.0 if hourly is None else hourly.clock[0] / 3600 % 24,
        hold=design.hold_degc,
        heaters=tuple(pad.id for pad, _ in fed_pads(inputs)),
        columns=tuple(made),
    )


def _piece(spell: Spell, begins: list[float], at: float) -> Piece:
    return spell.pieces[max(bisect_right(begins, at) - 1, 0)]


def _ice_share(piece: Piece, seconds: float, mass: float) -> float:
    if piece.phase == MUSH:
        return min(max(1.0 - piece.heat_left_at(seconds) / (mass * LATENT_HEAT), 0.0), 1.0)
    return 1.0 if piece.phase > MUSH else 0.0


def _heated(on_times: tuple[tuple[tuple[float, float], ...], ...], begin: float, length: float) -> float:
    """Share of a stretch in which any of these heaters is on."""
    spans = sorted((max(on, begin), min(off, begin + length)) for times in on_times for on, off in times)
    covered, reached = 0.0, begin
    for on, off in spans:
        if off > reached:
            covered += off - max(on, reached)
            reached = off
    return covered / length


def _outside(seconds: tuple[float, ...], degc: tuple[float, ...], at: float) -> float:
    after = min(max(bisect_right(seconds, at), 1), len(seconds) - 1)
    begin, end = seconds[after - 1], seconds[after]
    share = (at - begin) / (end - begin) if end > begin else 0.0
    return degc[after - 1] + share * (degc[after] - degc[after - 1])
