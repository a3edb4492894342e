"""The hand-over sheet of a session, put together: limits of use first, then what stands, as built."""

from logic.assessment.assess import case_of, compute_figures
from logic.assessment.proving import proof_of
from logic.data.quantities import show_figure
from logic.data.sources import all_sources
from logic.data.state import Assessment, State
from logic.handover.blocks import Block, Bullets, Paragraph, Section, Sheet, Table
from logic.handover.cautions import cautions, not_known, yearly_checks
from logic.handover.limits import limits_of_use
from logic.handover.record import (
    clock_text,
    readings_record,
    standing_findings,
    struck_readings,
    work_record,
)
from logic.handover.schedule import drawings, fuse_card, schedule
from logic.handover.shown import Shown
from logic.handover.test_record import tests_record

FOOT = (
    "The program estimates and certifies nothing. Local code, the makers' sheets and licensed trades come "
    "before every figure on this sheet."
)


def sheet_of(assessment: Assessment, state: State) -> Sheet:
    """The sheet of a session as it stands, in the rig's own units; nothing in it is typed for the sheet."""
    units = assessment.profile.rig.units
    shown = Shown(assessment, units)
    case = case_of(assessment.planned, state, assessment.now)
    compute_figures(case)
    verdict = assessment.verdict
    said = "nothing known stops closing" if verdict.closable else f"DO NOT CLOSE: {verdict.stop} stop"
    sections = [
        limits_of_use(shown),
        standing_findings(assessment, state, units),
        _job(shown),
        schedule(shown),
        drawings(shown),
        fuse_card(shown),
        tests_record(shown, proof_of(case)),
        readings_record(shown),
        struck_readings(state),
        work_record(assessment, state),
        cautions(),
        yearly_checks(),
        not_known(),
        _figures(shown),
        _sources(shown),
    ]
    return Sheet(
        title=f"Hand-over: {assessment.profile.rig.name}",
        under=f"{said} · {clock_text(assessment.now)}",
        sections=tuple(section for section in sections if section is not None),
        foot=FOOT,
    )


def _job(shown: Shown) -> Section:
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
    )
    return Section("The job", (Table(("what", "as planned"), tuple(row for row in rows if row[1])),))


def _figures(shown: Shown) -> Section:
    rows = []
    for figure in shown.assessment.figures:
        text = show_figure(figure, shown.units)
        rows.append((figure.place, figure.title, text.value, text.band, text.uncertainty, text.why_not))
    heads = ("place", "figure", "value", "band", "one u", "why there is none")
    return Section(
        "Figures", (Table(heads, tuple(rows), numbers=(2, 3, 4), widths=(17, 30, 13, 18, 9, 13)),), page=True
    )


def _sources(shown: Shown) -> Section:
    used = dict.fromkeys(source for figure in shown.assessment.figures for source in figure.sources)
    used.update(dict.fromkeys(finding.source for finding in shown.assessment.findings if finding.source))
    lines = tuple(
        f"{source.id}: {source.text} ({source.mark_in_words})"
        for source in all_sources()
        if source.id in used
    )
    blocks: list[Block] = [Paragraph("Of the figures and findings above."), Bullets(lines)]
    return Section("Sources", tuple(blocks))
