"""The figure of the whole wiring: its copper."""

from collections.abc import Iterator

from logic.assessment.case import Case
from logic.assessment.circuit_case import wired
from logic.assessment.circuit_slopes import length_slots, slopes, wiring_key
from logic.assessment.figure_builder import build_figure
from logic.assessment.figures.heater_circuit import TABLES
from logic.assessment.kept import KeptFigures
from logic.data.figure import Figure
from logic.data.wiring_constants import COPPER_DENSITY, STRAND_LAY
from logic.data.wording import quantity, words
from logic.physics.gauge_choice import Choice

_kept = KeptFigures(16)


def figures(case: Case) -> Iterator[Figure]:
    """The wiring's figures."""
    return _kept.figures(wiring_key(case), lambda: [copper(case)])


def copper(case: Case) -> Figure:
    """In all positives and own returns, over their routes."""
    whole = wired(case.profile)
    runs = tuple(whole.runs)
    return build_figure(
        case,
        "wiring.copper",
        title="copper in the wires",
        unit="kg",
        value=whole.copper,
        working=words(
            f"{{density}} kg/m³ × area × {{lay}} × route, of {{count}} wires{_how_near(whole.choice)}",
            least=quantity(whole.choice.least or 0.0, "mass_of_copper"),
            density=quantity(COPPER_DENSITY, "count"),
            lay=quantity(STRAND_LAY, "number"),
            count=quantity(sum(2 if run.back == "own" else 1 for run in case.profile.runs), "count"),
        ),
        sources=("iec-60028", "memory-strand-lay", TABLES[case.profile.wiring.table]),
        slots=length_slots(runs),
        slopes=slopes(case, runs, lambda other: other.copper),
    )


def _how_near(choice: Choice) -> str:
    """What is known of the chosen gauges: the least there is, or how near to it."""
    if choice.gauges is None:
        return ", with the thickest where none is feasible"
    return "; no choice has less" if choice.proven else "; no choice has less than {least}"
