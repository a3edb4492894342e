"""The one entry of the assessment: profile, state and the moment in, one immutable assessment out."""

from collections.abc import Generator

from logic.assessment.case import Case
from logic.assessment.figures import (
    bays,
    bundles,
    drains,
    heater_circuit,
    heater_fit,
    heater_heat,
    runs,
    supply,
    tank_spell,
    tanks,
    wiring,
)
from logic.assessment.findings import (  # noqa: F401 (they declare)
    circuit,
    circuit_fuses,
    energy,
    fit,
    heat,
    heaters,
    parts,
    proving,
    readings,
    work,
)  # fmt: skip
from logic.assessment.findings.rule import findings_in_pieces
from logic.assessment.pieces import at_once
from logic.assessment.readings import slot_views, walking_order, with_readings
from logic.assessment.spell_budget import too_long_for_readings
from logic.assessment.verdict import verdict_of
from logic.assessment.work import day_of, steps_in_pieces, with_verdict
from logic.data.profile import Profile
from logic.data.state import Assessment, Instant, State

# The order in which figures are made is the order in which they are listed.
FIGURES = (
    tanks, tank_spell, bays, drains, heater_fit, heater_circuit, heater_heat, runs, bundles, supply, wiring,
)  # fmt: skip


def assess(profile: Profile, state: State | None = None, now: Instant | None = None) -> Assessment:
    """Everything known of a rig (and, with a state, of a session) at one moment.

    `profile` is the profile as it stands, without readings; `state` None: from the design alone.
    """
    return at_once(assess_in_pieces(profile, state, now))


def assess_in_pieces(
    profile: Profile, state: State | None = None, now: Instant | None = None
) -> Generator[None, None, Assessment]:
    """The same, for whoever has to look after other things meanwhile."""
    now = now or Instant(0.0)
    case = case_of(profile, state, now)
    yield from figures_in_pieces(case)
    if state is not None:
        case.steps = yield from steps_in_pieces(case)
    findings = yield from findings_in_pieces(case, dict(state.accepted) if state is not None else {})
    verdict = verdict_of(findings, state.items if state is not None else ())
    case.steps = with_verdict(case.steps, verdict)
    day = day_of(case) if state is not None else None
    return Assessment(
        profile=case.profile,
        planned=profile,
        figures=tuple(case.figures.values()),
        findings=findings,
        verdict=verdict,
        now=now,
        slots=tuple(case.slots.values()),
        wanted=walking_order(tuple(case.slots.values()), state) if state is not None else (),
        steps=case.steps,
        minutes_left=day.minutes_left if day else None,
        under_left=day.under_left if day else 0.0,
        beside_left=day.beside_left if day else 0.0,
        live=day.live if day else (),
        moment=day.moment if day else "planning",
        left_out=too_long_for_readings(case),
        day=day,
    )


def case_of(profile: Profile, state: State | None, now: Instant) -> Case:
    """The case under assessment: the readings' values in place of the profile's."""
    if state is None:
        return Case(profile, now=now)
    views = slot_views(profile, state, now)
    return Case(
        with_readings(profile, views),
        planned=profile,
        slots={view.slot: view for view in views},
        state=state,
        now=now,
    )


def compute_figures(case: Case) -> None:
    """Fill in the case's figures, in the order of the format's table."""
    at_once(figures_in_pieces(case))


def figures_in_pieces(case: Case) -> Generator[None, None, None]:
    """Fill in the case's figures, a piece each."""
    for module in FIGURES:
        for figure in module.figures(case):
            case.figures[figure.id] = figure
            yield
