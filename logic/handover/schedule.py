"""The as-built schedule: tanks, drains, heaters, runs and bundles as they stand, and their drawings."""

from logic.assessment.bottom_plan import bottom_plan
from logic.assessment.case import Case
from logic.assessment.spell_plan import spell_plan_of
from logic.assessment.surroundings import course_of
from logic.assessment.wiring_plan import wiring_plan
from logic.data.place_names import place_name
from logic.data.profile import Heater
from logic.handover.blocks import Block, Paragraph, Section, Table, without_empty_columns
from logic.handover.bottom_drawing import bottom_drawing
from logic.handover.shown import Shown
from logic.handover.spell_drawing import COLUMNS, spell_drawing
from logic.handover.wiring_drawing import wiring_drawing

MOST_TANKS_DRAWN, MOST_ROWS_DRAWN = 20, 100_000  # rows of weather, times tanks
MANY_TANKS, MOST_OF_MANY_DRAWN = 30, 4  # a rig with more of them has a longer sheet in all else


def schedule(shown: Shown) -> Section:
    """What was fitted where, with the readings' values in place."""
    profile = shown.assessment.profile
    blocks: list[Block] = [_tanks(shown)]
    if profile.drains:
        blocks.append(_drains(shown))
    if profile.heaters:
        blocks.append(_heaters(shown))
    if profile.runs:
        blocks.append(_runs(shown))
    if any(run.bundle for run in profile.runs):
        blocks.append(_bundles(shown))
    return Section("As built", tuple(blocks))


def drawings(shown: Shown) -> Section | None:
    """Each tank's bottom to scale, the wiring, each spell; None where there is nothing to draw."""
    profile = shown.assessment.profile
    many = len(profile.tanks) > MANY_TANKS
    tanks = profile.tanks[: MOST_OF_MANY_DRAWN if many else MOST_TANKS_DRAWN]
    blocks: list[Block] = [
        bottom_drawing(bottom_plan(shown.assessment, tank.id), shown.units)
        for tank in tanks
        if tank.shape != "cylinder"
        and any(heater.on == tank.id and heater.face == "bottom" for heater in profile.heaters)
    ]
    if profile.runs:
        blocks.append(wiring_drawing(wiring_plan(shown.assessment), shown.units))
    rows = len(course_of(profile.design).seconds) * len(tanks)
    case = Case(profile)  # without readings: what they leave uncertain isn't drawn
    for tank in tanks if rows <= MOST_ROWS_DRAWN else ():
        plan = spell_plan_of(case, tank.id, COLUMNS)
        if plan is not None:
            blocks.append(spell_drawing(plan, shown.units))
    if rows > MOST_ROWS_DRAWN:
        blocks.append(
            Paragraph("The weather is too long for its nights to be drawn; tables say what comes of them.")
        )
    if blocks and len(tanks) < len(profile.tanks):
        said = f"The first {len(tanks)} of {len(profile.tanks)} tanks are drawn; what is said of all stands in tables."
        blocks.insert(0, Paragraph(said))
    return Section("Drawings", tuple(blocks)) if blocks else None


def _tanks(shown: Shown) -> Table:
    rows = tuple(
        (
            tank.id,
            tank.holds,
            tank.shape,
            f"{_length(shown, tank.length)} × {_length(shown, tank.width)} × {_length(shown, tank.height)}",
            shown.value(f"tank.{tank.id}.volume"),
            shown.with_band(f"tank.{tank.id}.needed"),
            shown.value(f"tank.{tank.id}.delivered"),
        )
        for tank in shown.assessment.profile.tanks
    )
    heads = ("tank", "holds", "shape", "outside", "inside volume", "needs at the design low", "gets")
    return without_empty_columns(Table(heads, rows, numbers=(4, 5, 6)))


def _drains(shown: Shown) -> Table:
    rows = tuple(
        (
            drain.id,
            drain.tank,
            _length(shown, drain.length),
            _length(shown, drain.outside),
            _length(shown, drain.insulation),
            drain.place,
        )
        for drain in shown.assessment.profile.drains
    )
    return Table(("drain", "of tank", "length", "outside", "foam", "place"), rows, numbers=(2, 3, 4))


def _heaters(shown: Shown) -> Table:
    rows = tuple(
        (
            heater.id,
            f"{_home(shown, heater.on)}, {heater.face}",
            f"{shown.quantity(heater.watts, 'power')} at {shown.quantity(heater.volts, 'volts')}",
            f"{_length(shown, heater.length)} × {_length(shown, heater.width)}",
            _lies(shown, heater),
            shown.value(f"heater.{heater.id}.volts"),
            shown.value(f"heater.{heater.id}.watts"),
            _thermostat(shown, heater),
        )
        for heater in shown.assessment.profile.heaters
    )
    heads = ("heater", "on", "label", "size", "lies at", "volts there", "gives", "thermostat")
    return without_empty_columns(Table(heads, rows, numbers=(5, 6)))


def _runs(shown: Shown) -> Table:
    rows = tuple(
        (
            run.id,
            run.from_,
            shown.quantity(run.length, "route"),
            shown.value(f"run.{run.id}.gauge"),
            run.colour or "",
            {"own": "own", "chassis": "chassis"}.get(run.back, f"with {run.back}"),
            shown.value(f"run.{run.id}.current"),
            shown.value(f"run.{run.id}.fuse"),
            shown.quantity(run.switch, "rating"),
        )
        for run in shown.assessment.profile.runs
    )
    heads = ("run", "from", "route", "gauge", "colour", "return", "current", "fuse", "switch")
    return without_empty_columns(Table(heads, rows, numbers=(2, 3, 6, 7, 8)))


def _bundles(shown: Shown) -> Table:
    bundles = dict.fromkeys(run.bundle for run in shown.assessment.profile.runs if run.bundle)
    rows = tuple(
        (
            bundle,
            ", ".join(run.id for run in shown.assessment.profile.runs if run.bundle == bundle),
            shown.value(f"bundle.{bundle}.diameter"),
            shown.value(f"bundle.{bundle}.sleeve"),
            shown.value(f"bundle.{bundle}.clamps"),
        )
        for bundle in bundles
    )
    return Table(("bundle", "runs", "across", "sleeve", "clamps"), rows, numbers=(2, 3, 4))


def _home(shown: Shown, on: str) -> str:
    """The tank or the drain that a heater heats, in words."""
    profile = shown.assessment.profile
    kind = "tank" if any(tank.id == on for tank in profile.tanks) else "drain"
    return place_name(f"{kind}.{on}", profile)


def _lies(shown: Shown, heater: Heater) -> str:
    x, y = shown.figure(f"heater.{heater.id}.x"), shown.figure(f"heater.{heater.id}.y")
    if x is None or y is None or x.value is None or y.value is None:
        return f"{_length(shown, heater.foot)} above the bottom" if heater.face == "side" else ""
    turned = shown.figure(f"heater.{heater.id}.turned")
    across = ", turned" if turned is not None and turned.value else ""
    return f"{_length(shown, x.value)}, {_length(shown, y.value)}{across}"


def _thermostat(shown: Shown, heater: Heater) -> str:
    if heater.thermostat is None:
        return "none: a plain switch"
    on, off = heater.thermostat.on_degc, heater.thermostat.off_degc
    return f"on below {shown.quantity(on, 'temperature')}, off above {shown.quantity(off, 'temperature')}"


def _length(shown: Shown, value: float) -> str:
    return shown.quantity(value, "length")
