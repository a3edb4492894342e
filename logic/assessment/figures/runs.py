"""Figures of a run: its currents, gauge, fuse, drop, cut, a short at its end, and what a meter shows at its
fuse.
"""

from collections.abc import Callable, Iterator

from logic.assessment.bundle_case import twist_of
from logic.assessment.case import Case
from logic.assessment.circuit_beside import Beside, RunFlow
from logic.assessment.circuit_case import RunCircuit, wired
from logic.assessment.circuit_slopes import connected, length_slots, on_the_way, slopes, wiring_key
from logic.assessment.figure_builder import build_figure
from logic.assessment.figures.heater_circuit import TABLES, network_sources
from logic.assessment.kept import KeptFigures
from logic.data.figure import Figure
from logic.data.profile import Run
from logic.data.wiring_constants import AMPACITY, CONTINUOUS_LOAD, FUSE_RATINGS, SHORT_SHARE
from logic.data.wording import Words, quantity, words
from logic.physics.cutting import cut_length
from logic.physics.protection import AUTO

Result = Callable[[RunCircuit | RunFlow], float | None]


_kept = KeptFigures(16)


def figures(case: Case) -> Iterator[Figure]:
    """Every figure of every run, in the profile's order."""
    return _kept.figures(
        wiring_key(case), lambda: (row(case, run) for run in case.profile.runs for row in ROWS)
    )


def current(case: Case, run: Run) -> Figure:
    """In its positive, every heater on, at the volts that the supply is charged with."""
    return _solved(
        case,
        run,
        "current",
        title="current, charging",
        unit="A",
        result=lambda circuit: circuit.amps,
        working=_heaters_behind(case, run),
    )


def return_current(case: Case, run: Run) -> Figure:
    """In its own return or chassis path, borrowers included."""
    ways = {"own": "its own return", "chassis": "its chassis path"}
    way = ways.get(run.back, f"the return of {run.back}")
    return _solved(
        case,
        run,
        "return_current",
        title="current in its return",
        unit="A",
        result=lambda circuit: circuit.return_amps,
        working=words("the currents of all heaters that come back through {way}", way=way),
        why_not=words("the return of {lender} carries it", lender=run.back),
    )


def gauge(case: Case, run: Run) -> Figure:
    """As given, or the least copper for which every rule is kept."""
    whole = wired(case.profile)
    circuit = whole.runs[run.id]
    feasible = whole.choice.gauges is not None or not circuit.chosen
    working = (
        words("{gauge}, as given", gauge=quantity(circuit.gauge, "gauge"))
        if not circuit.chosen
        else words(
            "least copper over all runs that keeps every rule; {gauge} carries {ampacity}",
            gauge=quantity(circuit.gauge, "gauge"),
            ampacity=quantity(AMPACITY[circuit.gauge], "rating"),
        )
        if feasible
        else _heaters_behind(case, run)
    )
    return build_figure(
        case,
        f"run.{run.id}.gauge",
        title="gauge",
        unit="1",
        value=float(circuit.gauge) if feasible else None,
        working=working,
        sources=("job-circuits", TABLES[case.profile.wiring.table], "nec-2023-240.4", "memory-nec-552.10"),
        slots=length_slots(connected(case, run.id)) if circuit.chosen else (),
        why_not=words(
            "no gauge on offer keeps every rule; the other figures are made with {gauge}",
            gauge=quantity(circuit.gauge, "gauge"),
        ),
    )


def fuse(case: Case, run: Run) -> Figure:
    """At its head: the smallest standard rating for its current, or as given."""
    circuit = wired(case.profile).runs[run.id]
    least = CONTINUOUS_LOAD * circuit.amps
    asked = quantity(least, "amps")
    working = (
        words(
            "smallest standard rating of at least {share} × {current} = {least}",
            share=quantity(CONTINUOUS_LOAD, "number"),
            current=quantity(circuit.amps, "amps"),
            least=asked,
        )
        if run.fuse == AUTO
        else words("none asked for")
        if circuit.fuse is None
        else words("{rating}, as given; {least} wanted", rating=quantity(circuit.fuse, "rating"), least=asked)
    )
    why_not = (
        words(
            "no standard rating up to {most} is at least {least}",
            most=quantity(FUSE_RATINGS[-1], "rating"),
            least=asked,
        )
        if run.fuse == AUTO
        else words("none asked for: the nearest fuse before it must protect it")
    )
    return build_figure(
        case,
        f"run.{run.id}.fuse",
        title="fuse at its head",
        unit="A",
        value=circuit.fuse,
        working=working,
        sources=("nec-2023-427.4", "iso-8820-3", "practice-large-ratings", *network_sources(case)),
        slots=length_slots(connected(case, run.id)) if run.fuse == AUTO else (),
        why_not=why_not,
        holds=None if circuit.fuse is None else circuit.fuse >= least * (1 - 1e-9),
        limit=None if circuit.fuse is None else words("at least {least}", least=asked),
    )


def drop(case: Case, run: Run) -> Figure:
    """Along its positive, and what its return adds."""
    circuit = wired(case.profile).runs[run.id]
    back = {
        "own": "and back through its own return",
        "chassis": "and back through the chassis",
    }.get(run.back, f"and back through the return of {run.back}")
    return _solved(
        case,
        run,
        "drop",
        title="drop, out and back",
        unit="V",
        result=lambda one: one.drop,
        working=words(
            "{current} × {ohms} out {back}",
            current=quantity(circuit.amps * case.profile.supply.volts / case.profile.supply.charging, "amps"),
            ohms=quantity(circuit.ohms, "ohms"),
            back=back,
        ),
    )


def cut(case: Case, run: Run) -> Figure:
    """Length of one positive conductor to cut."""
    parts = case.profile.parts
    twist = twist_of(case.profile, run)
    return build_figure(
        case,
        f"run.{run.id}.cut",
        title="to cut, each positive",
        unit="m",
        value=cut_length(run.length, parts.slack, twist=twist, ends=parts.ends),
        working=words(
            "{route} × (1 + {slack}) × {twist} + 2 × {ends}",
            route=quantity(run.length, "route"),
            slack=quantity(parts.slack, "share"),
            twist=quantity(twist, "number"),
            ends=quantity(parts.ends, "length"),
        ),
        sources=("practice-slack", "job-twist", "memory-wire-walls"),
        slots=length_slots([run.id]),
        slopes=((f"run.{run.id}.length", (1 + parts.slack) * twist),),
    )


def short(case: Case, run: Run) -> Figure:
    """What a short at its far end draws, no heater joined."""
    whole = wired(case.profile)
    circuit = whole.runs[run.id]
    nearest = whole.runs[circuit.nearest_fuse].fuse if circuit.nearest_fuse else None
    volts = case.profile.supply.volts
    hanging = on_the_way(case, run.id)
    return build_figure(
        case,
        f"run.{run.id}.short",
        title="short at its far end",
        unit="A",
        value=circuit.short,
        working=words(
            "{volts} / {ohms} out and back",
            volts=quantity(volts, "volts"),
            ohms=quantity(volts / circuit.short if circuit.short else 0.0, "ohms"),
        ),
        sources=network_sources(case),
        slots=length_slots(hanging),
        slopes=[(f"run.{each}.length", slope) for each, slope in whole.short_slopes(run.id).items()],
        why_not=words("nothing but the supply itself limits it"),
        holds=None if nearest is None or circuit.short is None else circuit.short >= SHORT_SHARE * nearest,
        limit=None
        if nearest is None
        else words(
            "at least {share} × {fuse}",
            share=quantity(SHORT_SHARE, "number"),
            fuse=quantity(nearest, "rating"),
        ),
    )


def resistance(case: Case, run: Run) -> Figure:
    """Of a fused run: what a meter shows at its fuse holder, the fuse out."""
    whole = wired(case.profile)
    circuit = whole.runs[run.id]
    value = whole.meter(run.id)
    hanging = connected(case, run.id)
    return build_figure(
        case,
        f"run.{run.id}.resistance",
        title="at its fuse, cold",
        unit="ohm",
        value=value,
        working=words(
            "positive at the holder to the supply's negative, {heaters} joined",
            heaters=", ".join(circuit.heaters) or "no heater",
        ),
        sources=network_sources(case),
        slots=length_slots(hanging),
        slopes=()
        if value is None
        else [(f"run.{each}.length", slope) for each, slope in whole.meter_slopes(run.id).items()],
        why_not=words("it has no fuse of its own")
        if circuit.fuse is None
        else words("no heater lies behind it"),
    )


ROWS = (current, return_current, gauge, fuse, drop, cut, short, resistance)


def _heaters_behind(case: Case, run: Run) -> Words:
    heaters = wired(case.profile).runs[run.id].heaters
    if not heaters:
        return words("no heater lies behind it")
    parts = {f"h{number}": heater for number, heater in enumerate(heaters)}
    flows = {
        f"a{number}": quantity(wired(case.profile).heaters[heater].charging_amps or 0.0, "amps")
        for number, heater in enumerate(heaters)
    }
    template = " + ".join(f"{{a{number}}} ({{h{number}}})" for number in range(len(heaters)))
    return words(template, **parts, **flows)


def _solved(
    case: Case,
    run: Run,
    name: str,
    *,
    title: str,
    unit: str,
    result: Result,
    working: Words,
    why_not: Words | None = None,
) -> Figure:
    value = result(wired(case.profile).runs[run.id])
    hanging = connected(case, run.id)

    def of(other: Beside) -> float | None:
        return result(other.runs[run.id])

    return build_figure(
        case,
        f"run.{run.id}.{name}",
        title=title,
        unit=unit,
        value=value,
        working=working,
        sources=network_sources(case),
        slots=length_slots(hanging),
        slopes=slopes(case, hanging, of),
        why_not=why_not,
    )
