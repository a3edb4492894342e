"""What stands: the verdict, what is still open, and what a person accepted, with the reason and the name."""

from logic.data.finding import WEIGHTS, Finding
from logic.data.quantities import fill
from logic.data.state import Assessment, State
from logic.handover.blocks import Block, Paragraph, Section, Table
from logic.handover.room import MOST_LINES, first_of, last_of
from logic.handover.shown import Shown

OPEN_HEADS = ("weight", "place", "what", "what would mend it")
ACCEPTED_HEADS = ("weight", "place", "what", "reason", "name")

MOST_ROWS_OF_A_RULE = 4
"""Findings of one rule that still stand row by row."""

MOST_PLACES_NAMED = 12

OF_THE_SHEET_ITSELF = "no-sheet"
"""The rule that there is no sheet: it is not said on one."""


def verdict_in_words(assessment: Assessment) -> str:
    verdict = assessment.verdict
    return "Nothing known stops closing" if verdict.closable else f"DO NOT CLOSE: {verdict.stop} stop"


def standing_findings(shown: Shown, state: State) -> Section:
    """The verdict, the open findings and items by weight, and the accepted ones."""
    blocks: list[Block] = [Paragraph(f"{verdict_in_words(shown.assessment)}.", strong=True)]
    written = [item for item in state.items if item.state == "open"]
    if len(written) > MOST_LINES:
        written.sort(key=lambda item: WEIGHTS.index(item.weight))
    items, more = first_of(written, what="open items that were written down, the gravest first")
    rows = _open_rows(shown)
    rows += [(item.weight, shown.place(item.place), item.text, "") for item in items]
    if rows:
        blocks += [Table(OPEN_HEADS, tuple(rows), widths=(8, 17, 41, 34)), *more]
    accepted = [
        (
            finding.weight,
            shown.place(finding.place),
            fill(finding.text, shown.units),
            finding.accepted.reason,
            finding.accepted.name,
        )
        for finding in shown.assessment.findings
        if finding.accepted is not None
    ]
    accepted += [
        (item.weight, shown.place(item.place), item.text, item.accepted.reason, item.accepted.name)
        for item in state.items
        if item.accepted is not None
    ]
    if accepted:
        listed, more = first_of(accepted, what="that were accepted")
        blocks.append(Paragraph("Accepted, and by whom:", strong=True))
        blocks += [Table(ACCEPTED_HEADS, listed, widths=(8, 17, 37, 24, 14)), *more]
    done = [(item.weight, shown.place(item.place), item.text) for item in state.items if item.state == "done"]
    if done:
        finished, more = last_of(done, what="that were written down and done")
        blocks.append(Paragraph("Written down and done:", strong=True))
        blocks += [Table(("weight", "place", "what"), finished, widths=(8, 17, 75)), *more]
    return Section("What stands", tuple(blocks))


def _open_rows(shown: Shown) -> list[tuple[str, str, str, str]]:
    """One row for each open finding; a rule that finds many places of one kind has them in one row."""
    by_rule: dict[tuple[str, str], list[Finding]] = {}
    for finding in shown.assessment.findings:
        if finding.accepted is None and finding.rule != OF_THE_SHEET_ITSELF:
            by_rule.setdefault((finding.rule, finding.weight), []).append(finding)
    rows = []
    for (_, weight), found in by_rule.items():
        if len(found) <= MOST_ROWS_OF_A_RULE:
            rows += [(weight, shown.place(each.place), *_told(each, shown.units)) for each in found]
            continue
        text, remedy = _told(found[0], shown.units)
        others = "; ".join(shown.place(each.place) for each in found[1:MOST_PLACES_NAMED])
        more = len(found) - MOST_PLACES_NAMED
        named = f"{others} and {more} more" if more > 0 else others
        rows.append((weight, f"{len(found)} places", f"{text}. The same at: {named}", remedy))
    return rows


def _told(finding: Finding, units: str) -> tuple[str, str]:
    return fill(finding.text, units), fill(finding.remedy, units)
