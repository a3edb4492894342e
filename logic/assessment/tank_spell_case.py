"""One tank through the cold spell, at its own loss and at the edges of its band.

Memoised by its inputs alone; tanks that are alike but for their names and places go through it once.
"""

from functools import lru_cache

from logic.assessment.tank_case import fed_pads, tank_results
from logic.assessment.tank_inputs import TankInputs
from logic.physics import tank_heat
from logic.physics.cold_spell import TooManyEvents, cold_spell, start_state
from logic.physics.spell_parts import Spell, SpellHeater, SpellState
from logic.physics.tank_heat import Around
from logic.physics.weather import Course, scaled

MOST_SPELLS = 4096  # of a tank with each of its sizes moved either way, of the largest rig


def tank_spell(inputs: TankInputs, edge: float = 1.0, *, trace: bool = False) -> Spell | None:
    """The tank through the spell with G × `edge`, a heater for each fed pad.

    None: it holds nothing, or so little that its thermostats would switch for ever, or the weather is too long for
    so many tanks.
    """
    return _solved(inputs, edge, trace=True) if trace else _spell(inputs, edge)


def _solved(inputs: TankInputs, edge: float, *, trace: bool = False) -> Spell | None:
    heat = tank_results(inputs)
    if heat.contents <= 0 or inputs.beyond:
        return None
    heaters = tuple(
        SpellHeater(heat=share * (pad.watts or 0.0), on_degc=pad.on_degc, off_degc=pad.off_degc)
        for pad, share in fed_pads(inputs)
    )
    through = _through.__wrapped__ if trace else _through
    return through(
        inputs.course,
        heat.follows,
        mass=tank_heat.mass_of(heat.contents),
        conductance=heat.conductance.whole * edge,
        heaters=heaters,
        start=start_state(inputs.start_degc, heaters),
        trace=trace,
    )


@lru_cache(maxsize=256)  # tanks that are alike but for their names and places go through it once
def _through(
    course: Course,
    follows: Around,
    *,
    mass: float,
    conductance: float,
    heaters: tuple[SpellHeater, ...],
    start: SpellState,
    trace: bool,
) -> Spell | None:
    try:
        return cold_spell(
            course.seconds,
            _effective_course(course, follows),
            mass=mass,
            conductance=conductance,
            heaters=heaters,
            start=start,
            trace=trace,
        )
    except TooManyEvents:
        return None


@lru_cache(maxsize=32)
def _effective_course(course: Course, follows: Around) -> tuple[float, ...]:
    """What the contents drift to as the air outdoors goes its way: the same for all edges of the band."""
    return scaled(course, base_degc=follows.base_degc, share=follows.share)


_spell = lru_cache(maxsize=MOST_SPELLS)(_solved)  # without pieces: those are kept by whoever asked for them
