"""What is looked up at the end of the sheet: every figure, place by place, and where all of it comes from."""

from logic.data.figure import Figure
from logic.data.quantities import figure_band, figure_value, figure_why_not, fill
from logic.data.sources import MARKS, all_sources
from logic.handover.blocks import (
    Block,
    Bullets,
    Columns,
    Group,
    Paragraph,
    Section,
    Table,
    without_empty_columns,
)
from logic.handover.shown import Shown

LEFT_OUT = "Left out"
HEADS = ("figure", "value", "band", "u")


def figures(shown: Shown) -> Section:
    """Every figure of the assessment, with its band, its uncertainty, or the reason why there is none."""
    places: dict[str, list[tuple[str, ...]]] = {}
    for figure in shown.assessment.figures:
        places.setdefault(figure.place, []).append(_row(shown, figure))
    groups = tuple(
        Group(shown.place(place), without_empty_columns(Table(HEADS, tuple(rows), numbers=(1, 2, 3)), keep=2))
        for place, rows in places.items()
    )
    said = (
        "Band: the same with losses a quarter less and more. u: one standard uncertainty from the readings, where "
        "it reaches the digits printed. In place of a band, why there is no value."
    )
    blocks: list[Block] = [Paragraph(said)]
    left_out = shown.assessment.left_out
    if left_out is not None:
        blocks.append(Paragraph(f"{LEFT_OUT}: {fill(left_out, shown.units)}."))
    return Section("Figures", (*blocks, Columns(groups)), page=True)


def _row(shown: Shown, figure: Figure) -> tuple[str, ...]:
    band = figure_band(figure, shown.units) or figure_why_not(figure, shown.units)
    return (figure.title, figure_value(figure, shown.units), band, shown.uncertainty(figure))


def sources(shown: Shown) -> Section:
    """Every source of a figure or a finding on this sheet, under its mark."""
    used = {source for figure in shown.assessment.figures for source in figure.sources}
    used |= {finding.source for finding in shown.assessment.findings}
    blocks: list[Block] = []
    for mark, said in MARKS.items():
        lines = tuple(source.text for source in all_sources() if source.id in used and source.mark == mark)
        if lines:
            blocks += [Paragraph(f"{said[0].upper()}{said[1:]}.", strong=True), Bullets(lines, small=True)]
    return Section("Sources", tuple(blocks))
