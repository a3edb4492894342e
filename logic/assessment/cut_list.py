"""Every wire to be cut, and every joint to be made in the wires, counted from the design.

A wire's part id is `cut:run.feed` for its positive and `cut:run.feed.return` for its own return: by these ids
they are ticked when they are cut, with the length to which they were.
"""

from collections import Counter
from collections.abc import Iterable, Iterator

import msgspec

from logic.assessment.bundle_case import bundle_of, twist_of
from logic.assessment.circuit_case import wired
from logic.data.profile import Profile, Run
from logic.data.state import Tick
from logic.data.wiring_constants import (
    POSITIVE_COLOUR,
    RETURN_COLOUR,
    SPLICE_COLOURS,
)
from logic.physics.cutting import cut_length
from logic.physics.sleeves import splice_places

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
    """One joint in a wire: where it lies, so that no two of a bundle lie side by side, and none under a
    clamp.
    """

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
    """Every joint, run by run: what goes on from its far end, each a step further back along the sleeve."""
    gauges = {run.id: wired(profile).runs[run.id].gauge for run in profile.runs}
    joints = [(run, *joint) for run in profile.runs for joint in _joints_at(profile, run)]
    counts = Counter(_sleeve(run) for run, _, _ in joints)
    places = {}
    for run in profile.runs:
        bundle = bundle_of(profile, run)
        route = bundle.route if bundle is not None else run.length
        places[_sleeve(run)] = iter(splice_places(counts[_sleeve(run)], route))
    return tuple(
        _splice(run, conductor, joins, gauges=gauges, place=next(places[_sleeve(run)]))
        for run, conductor, joins in joints
    )


def _sleeve(run: Run) -> str:
    return f"bundle.{run.bundle}" if run.bundle else f"run.{run.id}"


def _joints_at(profile: Profile, run: Run) -> Iterator[tuple[str, str]]:
    """(conductor, what it is joined to) at a run's far end: two leads of each heater, then runs going on."""
    for heater in run.feeds:
        yield POSITIVE, f"heater.{heater}"
        yield RETURN, f"heater.{heater}"
    for child in profile.runs:
        if child.from_ == run.id:
            yield POSITIVE, f"run.{child.id}"
            if child.back == "own":
                yield RETURN, f"run.{child.id}"


def _splice(run: Run, conductor: str, joins: str, *, gauges: dict[str, int], place: float) -> Splice:
    onward = (
        gauges.get(joins.removeprefix("run."), gauges[run.id]) if joins.startswith("run.") else gauges[run.id]
    )
    thick = min(gauges[run.id], onward)  # a lower number is a thicker wire
    return Splice(
        id=f"splice:run.{run.id}.{conductor}.{joins}",
        run=run.id,
        conductor=conductor,
        joins=joins,
        gauge=thick,
        colour=next((colour for most, colour in SPLICE_COLOURS if thick >= most), ""),
        from_end=place,
        steps=abs(gauges[run.id] - onward) // 2,
    )
