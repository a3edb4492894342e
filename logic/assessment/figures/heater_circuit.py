"""Figures of a heater in its circuit: resistance, volts, watts, drop and current, every heater on."""

from collections.abc import Callable, Iterator

from logic.assessment.case import Case
from logic.assessment.circuit_beside import Beside
from logic.assessment.circuit_case import wired
from logic.assessment.circuit_slopes import connected, length_slots, slopes, wiring_key
from logic.assessment.figure_builder import build_figure
from logic.assessment.kept import KeptFigures
from logic.assessment.shared import HeaterCircuit
from logic.data.figure import Figure
from logic.data.profile import Heater
from logic.data.wording import Words, quantity, words

NETWORK = ("job-circuits", "iec-60028", "memory-strand-lay")
TABLES = {"sae": "sae-j1128", "awg": "astm-b258"}


_kept = KeptFigures(16)


def figures(case: Case) -> Iterator[Figure]:
    """The circuit's figures of every heater, in the profile's order."""
    return _kept.figures(
        wiring_key(case), lambda: (row(case, heater) for heater in case.profile.heaters for row in ROWS)
    )


def network_sources(case: Case) -> tuple[str, ...]:
    """What a solved current or voltage rests on."""
    return (*NETWORK, TABLES[case.profile.wiring.table])


def resistance(case: Case, heater: Heater) -> Figure:
    """V²/P at its rated volts."""
    return build_figure(
        case,
        f"heater.{heater.id}.resistance",
        title="resistance, cold",
        unit="ohm",
        value=wired(case.profile).heaters[heater.id].resistance,
        working=words(
            "{volts}² / {watts}", volts=quantity(heater.volts, "volts"), watts=quantity(heater.watts, "power")
        ),
        sources=("job-circuits", "practice-cold-resistance"),
    )


def volts(case: Case, heater: Heater) -> Figure:
    return _solved(
        case,
        heater,
        "volts",
        title="volts at the pad",
        unit="V",
        result=lambda circuit: circuit.volts,
        working=lambda circuit: words(
            "{current} × {ohms}, with every heater on at {supply}",
            current=quantity(circuit.amps or 0.0, "amps"),
            ohms=quantity(circuit.resistance, "ohms"),
            supply=quantity(case.profile.supply.volts, "volts"),
        ),
    )


def watts(case: Case, heater: Heater) -> Figure:
    return _solved(
        case,
        heater,
        "watts",
        title="power at the pad",
        unit="W",
        result=lambda circuit: circuit.watts,
        working=lambda circuit: words(
            "({volts} / {rated})² × {power}",
            volts=quantity(circuit.volts or 0.0, "volts"),
            rated=quantity(heater.volts, "volts"),
            power=quantity(heater.watts, "power"),
        ),
    )


def drop(case: Case, heater: Heater) -> Figure:
    """(supply's volts − heater's volts)/supply's volts."""
    supply, limit = case.profile.supply.volts, case.profile.wiring.drop_limit
    return _solved(
        case,
        heater,
        "drop",
        title="drop on the way",
        unit="1",
        result=lambda circuit: None if circuit.volts is None else (supply - circuit.volts) / supply,
        working=lambda circuit: words(
            "({supply} − {volts}) / {supply}",
            supply=quantity(supply, "volts"),
            volts=quantity(circuit.volts or 0.0, "volts"),
        ),
        most=limit,
        sources=("nec-2023-210.19",),
    )


def current(case: Case, heater: Heater) -> Figure:
    """At the volts that the supply is charged with: the most that flows."""
    return _solved(
        case,
        heater,
        "current",
        title="current, charging",
        unit="A",
        result=lambda circuit: circuit.charging_amps,
        working=lambda circuit: words(
            "{volts} / {ohms}, the supply at {charging}",
            volts=quantity(circuit.charging_volts or 0.0, "volts"),
            ohms=quantity(circuit.resistance, "ohms"),
            charging=quantity(case.profile.supply.charging, "volts"),
        ),
    )


ROWS = (resistance, volts, watts, drop, current)


def _solved(
    case: Case,
    heater: Heater,
    name: str,
    *,
    title: str,
    unit: str,
    result: Callable[[HeaterCircuit], float | None],
    working: Callable[[HeaterCircuit], Words],
    most: float | None = None,
    sources: tuple[str, ...] = (),
) -> Figure:
    whole = wired(case.profile)
    circuit = whole.heaters[heater.id]
    value = result(circuit)
    runs = connected(case, whole.heater_runs[heater.id]) if circuit.fed else ()

    def of(other: Beside) -> float | None:
        return result(other.heaters[heater.id])

    return build_figure(
        case,
        f"heater.{heater.id}.{name}",
        title=title,
        unit=unit,
        value=value,
        working=working(circuit) if circuit.fed else words("no run feeds it"),
        sources=(*network_sources(case), *sources),
        slots=length_slots(runs),
        slopes=slopes(case, runs, of),
        why_not=words("no run feeds it"),
        holds=None if most is None or value is None else value <= most * (1 + 1e-9),
        limit=None if most is None else words("at most {most}", most=quantity(most, "share")),
    )
