"""The hand-over sheet of a session, put together: limits of use first, then what stands, as built."""

from logic.assessment.case import assessed_case
from logic.assessment.last_walk import last_walk
from logic.assessment.proving import proof_of
from logic.data.state import Assessment, State
from logic.handover.appendix import figures, sources
from logic.handover.blocks import Section, Sheet, Table
from logic.handover.cards import cards
from logic.handover.cautions import cautions, not_known, yearly_checks
from logic.handover.clock import clock_text, day_text
from logic.handover.limits import limits_of_use
from logic.handover.readings_record import readings_record
from logic.handover.schedule import drawings, schedule
from logic.handover.shown import Shown
from logic.handover.standing import standing_findings, verdict_in_words
from logic.handover.test_record import tests_record
from logic.handover.walk_record import walk_record
from logic.handover.work_record import work_record

FOOT = (
    "The program estimates and certifies nothing. Local code, the makers' sheets and licensed trades come "
    "before every figure on this sheet."
)


def sheet_of(assessment: Assessment, state: State) -> Sheet:
    """The sheet of a session as it stands, in the rig's own units; nothing in it is typed for the sheet."""
    units = assessment.profile.rig.units
    shown = Shown(assessment, units)
    case = assessed_case(assessment, state)
    sections = [
        limits_of_use(shown),
        cards(shown),
        standing_findings(shown, state),
        _job(shown, state),
        schedule(shown),
        drawings(shown),
        walk_record(shown, last_walk(case, assessment.findings)),
        tests_record(shown, proof_of(case)),
        readings_record(shown, state),
        work_record(shown, state),
        cautions(),
        yearly_checks(),
        not_known(),
        figures(shown),
        sources(shown),
    ]
    return Sheet(
        title=f"Hand-over: {assessment.profile.rig.name}",
        under=f"{verdict_in_words(assessment)} · {clock_text(assessment.now)}",
        sections=tuple(section for section in sections if section is not None),
        foot=FOOT,
    )


def _job(shown: Shown, state: State) -> Section:
    profile = shown.assessment.profile
    design, supply = profile.design, profile.supply
    low, high = (shown.quantity(degc, "temperature") for degc in (design.low_degc, design.high_degc))
    weather = f"hourly temperatures, down to {low}" if design.hourly is not None else f"{low} to {high}"
    rows = (
        ("rig", " · ".join(part for part in (profile.rig.name, profile.rig.kind) if part)),
        ("note", profile.rig.note),
        (
            "designed for",
            f"{weather} outside, {design.nights} nights, wind {shown.quantity(design.wind, 'speed')}",
        ),
        ("to be held", f"{shown.quantity(design.hold_degc, 'temperature')} in the tanks"),
        (
            "supply",
            f"{supply.chemistry}, {shown.quantity(supply.capacity_ah, 'charge')}, "
            f"{shown.quantity(supply.volts, 'volts')} in the night, "
            f"{shown.quantity(supply.charging, 'volts')} at most",
        ),
        ("worked on", ", ".join(dict.fromkeys(day_text(day.began) for day in state.days))),
    )
    return Section("The job", (Table(("what", "as planned"), tuple(row for row in rows if row[1])),))
