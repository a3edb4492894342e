"""`bellypan season`: the cold spell's figures over any series of hourly temperatures."""

from pathlib import Path

from logic.assessment.season import season_figures
from logic.data.faults import ProfileFaults
from logic.data.hourly_file import read_hourly
from tui.command_line.answers import figure_lines, figure_object
from tui.command_line.arguments import Given
from tui.command_line.exit_codes import DONE, CommandFault, fault
from tui.command_line.printing import say_all, say_json
from tui.command_line.profiles import loaded


def run(given: Given) -> int:
    series = given.option("--hourly")
    if not given.operands or series is None:
        raise fault("season lacks words", expected="PROFILE.toml --hourly FILE.csv")
    profile = loaded(given.operands[0]).profile
    try:
        hourly = read_hourly(series)
    except ProfileFaults as wrong:
        raise CommandFault(*wrong.faults) from None
    figures = season_figures(profile, hourly, file=Path(series).name)
    units = profile.rig.units
    if given.has("--json"):
        objects = [figure_object(figure, units) for figure in figures]
        say_json({"format": 1, "rig": profile.rig.name, "figures": objects})
    else:
        hours = hourly.seconds[-1] / 3600.0
        say_all([f"{profile.rig.name}, {hours:g} h", "", *figure_lines(figures, units)])
    return DONE
