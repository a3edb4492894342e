"""Every wire to be cut, and every joint to be made in the wires, counted from the design.

A wire's part id is `cut:run.feed` for its positive and `cut:run.feed.return` for its own return: by these ids
they are ticked when they are cut, with the length to which they were.
"""

from collections.abc import Iterable

import msgspec

from logic.assessment.bundle_case import bundle_of, twist_of
from logic.assessment.circuit_case import wired
from logic.data.profile import Profile, Run
from logic.data.state import Tick
from logic.data.wiring_constants import (
    POSITIVE_COLOUR,
    RETURN_COLOUR,
    SPLICE_COLOURS,
    SPLICE_FROM_END,
    SPLICE_STAGGER,
)
from logic.physics.cutting import cut_length

POSITIVE, RETURN = "positive", "return"


class Cut(msgspec.Struct, frozen=True):
    """One wire to be cut. SI."""

    id: str  # cut:run.feed | cut:run.feed.return
    run: str
    conductor: str  # positive | return
    colour: str
    gauge: int  # AWG
    length: float  # to cut, slack, twist and both ends in
    route: float
    bundle: str  # empty: it lies alone
    twisted: int  # with how many wires in all; 0: not
    ticked: bool = False
    cut_to: float | None = None  # as it was ticked


class Splice(msgspec.Struct, frozen=True):
    """One joint in a wire: where it lies, so that no two of a bundle lie side by side, and none under a clamp."""

    id: str  # splice:run.feed.positive.run.a
    run: str  # at whose far end
    conductor: str  # positive | return
    joins: str  # heater.galley-a | run.a
    gauge: int  # of the thicker wire
    colour: str  # of the splice's sleeve; empty: thicker than the coloured ones
    from_end: float  # m back along the run from its far end
    steps: int  # gauge sizes between the two wires; over 1: too far apart for one crimp


def cut_id(run: str, conductor: str = POSITIVE) -> str:
    return f"cut:run.{run}" if conductor == POSITIVE else f"cut:run.{run}.return"


def needed_length(profile: Profile, run: Run) -> float:
    """What each wire of a run is cut to. [m] The figure `run.<id>.cut`."""
    parts = profile.parts
    return cut_length(run.length, parts.slack, twist=twist_of(profile, run), ends=parts.ends)


def cuts(profile: Profile, ticks: Iterable[Tick] = ()) -> tuple[Cut, ...]:
    """Every wire to be cut, in the profile's order, a positive before its return."""
    ticked = {tick.part: tick for tick in ticks}
    found = []
    for run in profile.runs:
        bundle = bundle_of(profile, run)
        twisted = bundle.conductors if bundle is not None and bundle.conductors in (2, 3) else 0
        for conductor in (POSITIVE, RETURN) if run.back == "own" else (POSITIVE,):
            part = cut_id(run.id, conductor)
            tick = ticked.get(part)
            found.append(
                Cut(
                    id=part,
                    run=run.id,
                    conductor=conductor,
                    colour=(run.colour or POSITIVE_COLOUR) if conductor == POSITIVE else RETURN_COLOUR,
                    gauge=wired(profile).runs[run.id].gauge,
                    length=needed_length(profile, run),
                    route=run.length,
                    bundle=run.bundle or "",
                    twisted=twisted,
                    ticked=tick is not None,
                    cut_to=tick.length if tick is not None else None,
                )
            )
    return tuple(found)


def splices(profile: Profile) -> tuple[Splice, ...]:
    """Every joint, run by run: what goes on from its far end, each a step further back along the bundle."""
    gauges = {run.id: wired(profile).runs[run.id].gauge for run in profile.runs}
    found: list[Splice] = []
    placed: dict[str, int] = {}  # joints so far in each sleeve (or lone run)

    def join(run: Run, conductor: str, joins: str, onward: int | None) -> None:
        sleeve = run.bundle or f"run.{run.id}"
        number = placed.get(sleeve, 0)
        placed[sleeve] = number + 1
        thick = gauges[run.id] if onward is None else min(gauges[run.id], onward)
        found.append(
            Splice(
                id=f"splice:run.{run.id}.{conductor}.{joins}",
                run=run.id,
                conductor=conductor,
                joins=joins,
                gauge=thick,
                colour=next((colour for most, colour in SPLICE_COLOURS if thick >= most), ""),
                from_end=SPLICE_FROM_END + number * SPLICE_STAGGER,
                steps=0 if onward is None else abs(gauges[run.id] - onward) // 2,
            )
        )

    for run in profile.runs:
        for heater in run.feeds:
            join(run, POSITIVE, f"heater.{heater}", None)
            join(run, RETURN, f"heater.{heater}", None)
        for child in profile.runs:
            if child.from_ == run.id:
                join(run, POSITIVE, f"run.{child.id}", gauges[child.id])
                if child.back == "own":
                    join(run, RETURN, f"run.{child.id}", gauges[child.id])
    return tuple(found)
