"""How hot a heater's wall becomes: in service, overhanging, and over a wall with no liquid behind it.

Still air, steady, one dimension: estimates, not bounds. Source `practice-pad-contact`.
"""

from logic.data.constants import HEAD_SPACE, STILL_FILM


def density(watts: float, *, volts: float, rated_volts: float, length: float, width: float) -> float:
    """Heat of a pad per area, as a resistor at a voltage. [W/m²]

    watts : rated, at `rated_volts` [W, V]. volts : at the pad [V]. length, width : > 0 [m].
    """
    return watts * (volts / rated_volts) ** 2 / (length * width)


def bare_degc(heat: float, warm_degc: float) -> float:
    """A pad that hangs free, both faces to still air. [°C]  heat [W/m²], warm_degc : the air [°C]."""
    return warm_degc + heat / (2 * STILL_FILM)


def dry_degc(heat: float, warm_degc: float, *, wall: float, insulation: float) -> float:
    """A pad on a wall with no liquid behind it. [°C]

    heat [W/m²]. wall : resistance of the wall alone [m²K/W]. insulation : over the pad's back [m²K/W].
    Errs low for a pad that faces down: heat leaves a level face below it worse than h = 8 has it.
    """
    inward = wall + HEAD_SPACE
    outward = insulation + 1 / STILL_FILM
    return warm_degc + heat * inward * outward / (inward + outward)


def wall_degc(
    heat: float, *, contents_degc: float, around_degc: float, inward: float, outward: float
) -> float:
    """The wall under a pad in service, liquid behind it. [°C]

    heat [W/m²]. inward : R to the liquid, outward : R to the surroundings [m²K/W].
    Errs low below 4 °C, where water over a floor pad lies still and the liquid film is poorer.
    """
    return (heat + contents_degc / inward + around_degc / outward) / (1 / inward + 1 / outward)
