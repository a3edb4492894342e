"""A tank's spell, solved with its pieces kept, sampled once for each column of the plot."""

from logic.assessment.case import Case
from logic.assessment.tank_case import TankInputs, fed_pads, tank_results, tank_spell
from logic.assessment.tank_view import tank_view
from logic.data.constants import LATENT_HEAT
from logic.data.profile import Tank
from logic.physics.spell_parts import ICE, MUSH, Piece, Spell
from logic.physics.tank_heat import mass_of
from tui.show.spell_drawing import DAY, SpellSeries

EVENING = 18 * 3600.0  # a spell by the day's course begins at 18:00


def spell_series(case: Case, tank: Tank, columns: int) -> SpellSeries | None:
    """The series of a tank; None where it holds nothing."""
    inputs = tank_view(case, tank).inputs
    spell = tank_spell(inputs, trace=True)
    if spell is None or not spell.pieces:
        return None
    step = inputs.course.length / columns
    middles = tuple((column + 0.5) * step for column in range(columns))
    latent = mass_of(tank_results(inputs).contents) * LATENT_HEAT
    contents, ice = sampled(spell, middles, latent=latent)
    hourly = case.profile.design.hourly
    return SpellSeries(
        seconds=middles,
        outside=tuple(inputs.course.at(seconds) for seconds in middles),
        contents=contents,
        ice=ice,
        heaters=heater_shares(inputs, spell, columns),
        clock=(hourly.clock[0] % DAY) if hourly is not None else EVENING,
        hold=case.profile.design.hold_degc,
    )


def sampled(
    spell: Spell, middles: tuple[float, ...], *, latent: float
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Temperature of the contents, and share of ice, at each middle. latent : of the whole contents, J."""
    pieces = iter(spell.pieces)
    piece = next(pieces)
    degrees, shares = [], []
    for seconds in middles:
        while seconds > piece.start + piece.length:
            following = next(pieces, None)
            if following is None:
                break
            piece = following
        into = min(max(seconds - piece.start, 0.0), piece.length)
        degrees.append(piece.degc_at(into))
        shares.append(ice_of(piece, into, latent=latent))
    return tuple(degrees), tuple(shares)


def ice_of(piece: Piece, into: float, *, latent: float) -> float:
    """The share of ice by mass, at a time into a piece."""
    if piece.phase == ICE:
        return 1.0
    if piece.phase != MUSH:
        return 0.0
    return min(max(1.0 - piece.heat_left_at(into) / latent, 0.0), 1.0)


def heater_shares(
    inputs: TankInputs, spell: Spell, columns: int
) -> tuple[tuple[str, tuple[float, ...]], ...]:
    """For each fed pad, the share of each column's time that it is on."""
    step = inputs.course.length / columns
    stretches = tuple((column * step, (column + 1) * step) for column in range(columns))
    named = []
    for number, (pad, _) in enumerate(fed_pads(inputs)):
        on = spell.seconds_on_between(number, stretches)
        named.append((pad.id, tuple(seconds / step for seconds in on)))
    return tuple(named)
