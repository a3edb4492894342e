"""Figures of an assessment as text, for every part of the sheet that prints one."""

import msgspec

from logic.data.figure import Figure
from logic.data.place_names import name_of
from logic.data.quantities import (
    NOTHING,
    figure_band,
    figure_uncertainty,
    figure_value,
    figure_why_not,
    show,
)
from logic.data.state import Assessment
from logic.data.wording import NEAREST


class Shown:
    """Looks a figure up by its id and prints it in one system of units."""

    def __init__(self, assessment: Assessment, units: str) -> None:
        self.assessment = assessment
        self.units = units
        self._figures: dict[str, Figure] = {figure.id: figure for figure in assessment.figures}
        self._steps = {step.id: step.title for step in assessment.steps}

    def place(self, place: str) -> str:
        """A place, a slot or a step in words."""
        return self._steps.get(place) or name_of(place, self.assessment.profile)

    def figure(self, figure_id: str) -> Figure | None:
        return self._figures.get(figure_id)

    def value(self, figure_id: str) -> str:
        """The number with its unit; a dash where there is none."""
        figure = self._figures.get(figure_id)
        return NOTHING if figure is None else figure_value(figure, self.units)

    def with_band(self, figure_id: str) -> str:
        """The number with its unit, and its band where it has one."""
        figure = self._figures.get(figure_id)
        if figure is None:
            return NOTHING
        value, band = figure_value(figure, self.units), figure_band(figure, self.units)
        return f"{value} ({band})" if band else value

    def uncertainty(self, figure: Figure) -> str:
        """Its standard uncertainty; nothing where that is too small to reach the digits that are printed."""
        if figure.value is None or not figure.u:
            return ""
        printed = figure_value(figure, self.units)
        edges = (figure.value - figure.u, figure.value + figure.u)
        reaches = any(
            figure_value(msgspec.structs.replace(figure, value=edge), self.units) != printed for edge in edges
        )
        return figure_uncertainty(figure, self.units) if reaches else ""

    def why_not(self, figure_id: str) -> str:
        figure = self._figures.get(figure_id)
        return "" if figure is None else figure_why_not(figure, self.units)

    def quantity(self, value: float | None, kind: str, side: int = NEAREST) -> str:
        """A number in SI as text; a dash where there is none."""
        return NOTHING if value is None else show(value, kind, self.units, side)
