"""A tank's spell as the series of the plot, one value for each column; the spell itself is `spell_plan`'s."""

from logic.assessment.spell_plan import spell_plan
from logic.data.profile import Profile
from tui.show.spell_drawing import SpellSeries

HOUR = 3600.0


def spell_series(profile: Profile, tank_id: str, columns: int) -> SpellSeries | None:
    """The series of a tank; None where it holds nothing. `profile` has the readings' values in place."""
    plan = spell_plan(profile, tank_id, columns)
    if plan is None:
        return None
    return SpellSeries(
        seconds=tuple(column.hour * HOUR for column in plan.columns),
        outside=tuple(column.outside for column in plan.columns),
        contents=tuple(column.contents for column in plan.columns),
        least=tuple(column.least for column in plan.columns),
        most=tuple(column.most for column in plan.columns),
        ice=tuple(column.ice for column in plan.columns),
        heaters=tuple(
            (name, tuple(column.heaters[number] for column in plan.columns))
            for number, name in enumerate(plan.heaters)
        ),
        clock=plan.start_hour * HOUR,
        hold=plan.hold,
    )
