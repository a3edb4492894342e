"""The spell's figures over any hourly series: a season in the place of a forecast's nights.

The rest of the rig stands as it is; `low` and `high` follow the series, so that what hangs on the design low
(the films of drains, the least that a tank drifts to) hangs on its coldest hour.
"""

import msgspec

from logic.assessment.case import Case
from logic.assessment.figures import supply, tank_spell
from logic.data.figure import Figure
from logic.data.profile import Hourly, Profile

replace = msgspec.structs.replace

WORST_DAY = ("supply.night", "supply.hours", "supply.nights")
"""The supply's figures that hang on the spell."""


def season_profile(profile: Profile, hourly: Hourly, *, file: str | None = None) -> Profile:
    """The profile with a series for its weather.

    hourly : at least one row, its times rising. file : the series' name, where it has one.
    Raises ValueError: no row.
    """
    if not hourly.degc:
        raise ValueError("a series without a row")
    design = replace(
        profile.design,
        hourly=hourly,
        hourly_file=file,
        low_degc=min(hourly.degc),
        high_degc=max(hourly.degc),
    )
    return replace(profile, design=design)


def season_figures(profile: Profile, hourly: Hourly, *, file: str | None = None) -> tuple[Figure, ...]:
    """Every tank's spell over a series, with its band, and what its worst day takes from the battery."""
    case = Case(season_profile(profile, hourly, file=file))
    of_supply = {figure.id: figure for figure in supply.figures(case)}
    return (*tank_spell.figures(case), *(of_supply[figure_id] for figure_id in WORST_DAY))
