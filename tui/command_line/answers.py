"""Figures, findings and a verdict in the shapes that the format's JSON and tables have.

Numbers go out as they are, in the format's units; texts are filled in by `quantities`, in the rig's own.
"""

from collections.abc import Iterable, Sequence

from logic.data.figure import Figure
from logic.data.finding import Finding, Verdict
from logic.data.quantities import fill, show_figure

DO_NOT_CLOSE = "DO NOT CLOSE"
NOTHING_STOPS = "nothing known stops closing"


def figure_object(figure: Figure, units: str) -> dict[str, object]:
    """A figure as the format's JSON has it."""
    answer: dict[str, object] = {
        "id": figure.id,
        "title": figure.title,
        "value": figure.value,
        "unit": figure.unit,
    }
    if figure.banded:
        answer |= {"low": figure.low, "high": figure.high}
    if figure.value is None:
        answer["why_not"] = fill(figure.why_not, units) if figure.why_not else ""
    return answer | {
        "working": fill(figure.working, units),
        "sources": list(figure.sources),
        "slots": list(figure.slots),
        "u": figure.u,
    }


def finding_object(finding: Finding, units: str) -> dict[str, object]:
    """A finding as the format's JSON has it."""
    accepted = finding.accepted
    return {
        "id": finding.id,
        "weight": finding.weight,
        "place": finding.place,
        "text": fill(finding.text, units),
        "remedy": fill(finding.remedy, units),
        "accepted": {"reason": accepted.reason, "name": accepted.name} if accepted else None,
        "open": finding.open,
    }


def verdict_object(verdict: Verdict) -> dict[str, object]:
    return {"closable": verdict.closable, "stop": verdict.stop, "use": verdict.use, "note": verdict.note}


def verdict_line(verdict: Verdict) -> str:
    """The verdict on closing in one line: what it is, and the count of each weight that is not nought."""
    counts = [
        f"{count} {weight}"
        for weight, count in (("stop", verdict.stop), ("use", verdict.use), ("note", verdict.note))
        if count
    ]
    said = NOTHING_STOPS if verdict.closable else DO_NOT_CLOSE
    return f"{said}: {', '.join(counts)}" if counts else said


def figure_lines(figures: Iterable[Figure], units: str) -> list[str]:
    """Figures as a table, under a heading for each place."""
    from tui.command_line.layout import table

    by_place: dict[str, list[Figure]] = {}
    for figure in figures:
        by_place.setdefault(figure.place, []).append(figure)
    lines: list[str] = []
    for place, ones in by_place.items():
        lines += [*([""] if lines else []), place, *table([figure_row(one, units) for one in ones])]
    return lines


def figure_row(figure: Figure, units: str) -> tuple[str, ...]:
    """One figure in cells: what it is, value, uncertainty, band, and how it stands to its limit."""
    shown = show_figure(figure, units)
    said = [shown.why_not, shown.limit]
    if figure.holds is not None:
        said.insert(0, "holds" if figure.holds else "DOES NOT HOLD")
    return (
        figure.title,
        shown.value,
        shown.uncertainty,
        shown.band,
        ", ".join(part for part in said if part),
    )


def finding_lines(findings: Sequence[Finding], units: str) -> list[str]:
    """Findings by weight, each with its remedy and its id; accepted ones say by whom and why."""
    from tui.command_line.layout import hung

    lines: list[str] = []
    for finding in findings:
        text = fill(finding.text, units)
        lines += hung(f"  {finding.weight:<5} ", f"{text} [{finding.id}]")
        remedy = fill(finding.remedy, units)
        if remedy:
            lines += hung("        ", remedy)
        if finding.accepted:
            lines += hung("        ", f"accepted by {finding.accepted.name}: {finding.accepted.reason}")
    return lines
