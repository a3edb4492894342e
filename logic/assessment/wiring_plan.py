"""The wiring as a tree of rows, for the drawing on screen and sheet: runs, what they feed, what flows."""

import msgspec

from logic.data.profile import Profile
from logic.data.state import Assessment


class WiringRow(msgspec.Struct, frozen=True):
    """One run, or one heater at the end of a run. SI; None where a figure has no value."""

    kind: str  # run | heater
    id: str
    depth: int  # 0 at the supply
    lines: tuple[bool, ...]  # for each depth above: whether a later row hangs on that level too
    last: bool  # the last of its siblings
    amps: float | None
    volts: float | None = None  # a heater's
    drop: float | None = None  # a run's, in V; a heater's, as a share of the supply's volts
    gauge: float | None = None
    fuse: float | None = None
    length: float | None = None
    back: str = ""  # own | chassis | the run whose return carries it
    back_amps: float | None = None  # in its own return or chassis path
    switch: float | None = None
    bundle: str = ""


def wiring_plan(assessment: Assessment) -> tuple[WiringRow, ...]:
    """Rows from the supply outwards, children after their run, in the profile's order."""
    profile = assessment.profile
    values = {figure.id: figure.value for figure in assessment.figures}
    rows: list[WiringRow] = []

    def visit(run_id: str, depth: int, lines: tuple[bool, ...]) -> None:
        children = children_of(profile, run_id)
        for number, (kind, part_id) in enumerate(children, start=1):
            last = number == len(children)
            if kind == "heater":
                rows.append(
                    WiringRow(
                        kind="heater",
                        id=part_id,
                        depth=depth,
                        lines=lines,
                        last=last,
                        amps=values.get(f"heater.{part_id}.current"),
                        volts=values.get(f"heater.{part_id}.volts"),
                        drop=values.get(f"heater.{part_id}.drop"),
                    )
                )
                continue
            run = next(each for each in profile.runs if each.id == part_id)
            rows.append(
                WiringRow(
                    kind="run",
                    id=run.id,
                    depth=depth,
                    lines=lines,
                    last=last,
                    amps=values.get(f"run.{run.id}.current"),
                    drop=values.get(f"run.{run.id}.drop"),
                    gauge=values.get(f"run.{run.id}.gauge"),
                    fuse=values.get(f"run.{run.id}.fuse"),
                    length=run.length,
                    back=run.back,
                    back_amps=values.get(f"run.{run.id}.return_current"),
                    switch=run.switch,
                    bundle=run.bundle or "",
                )
            )
            visit(run.id, depth + 1, (*lines, not last))

    visit("supply", 0, ())
    return tuple(rows)


def children_of(profile: Profile, run_id: str) -> list[tuple[str, str]]:
    """What hangs on a run's far end (or on the supply): its heaters, then the runs that go on from it."""
    feeds = [("heater", heater) for run in profile.runs if run.id == run_id for heater in run.feeds]
    return feeds + [("run", run.id) for run in profile.runs if run.from_ == run_id]
