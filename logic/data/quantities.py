"""The one place where words and figures become text in one system of units.

SI (temperatures in °C) comes in; how a single number looks stands in `number_text.py`. Nothing here reads a
number back: that is the work of `tape.py` and `units.py`.
"""

import re

import msgspec

from logic.data.figure import Figure
from logic.data.number_text import (
    KINDS,
    MINUS,
    NEVER,
    NOTHING,
    Shown,
    show,
    show_parts,
    uncertainty,
)
from logic.data.safe_sides import family_and_name, side_of
from logic.data.wording import Quantity, Words

__all__ = [
    "FIGURE_UNITS",
    "KINDS",
    "MINUS",
    "Shown",
    "ShownFigure",
    "below_zero",
    "figure_band",
    "figure_kind",
    "figure_uncertainty",
    "figure_value",
    "figure_why_not",
    "fill",
    "show",
    "show_figure",
    "show_parts",
    "uncertainty",
]

_PLACE = re.compile(r"\{([a-z_][a-z0-9_]*)\}")


class ShownFigure(msgspec.Struct, frozen=True):
    """A figure as text in one system of units; what it hasn't is empty."""

    value: str  # 35.3 gal; an en dash where there is none
    band: str = ""  # 16 … 27
    uncertainty: str = ""  # ± 0.6
    working: str = ""
    why_not: str = ""
    limit: str = ""

    def line(self) -> str:
        """Value, uncertainty and band in one line."""
        return "  ".join(part for part in (self.value, self.uncertainty, self.band) if part)


def fill(words: Words, units: str) -> str:
    """The sentence of a template.

    units : us | metric. Raises KeyError where the template names a part that it hasn't got.
    """
    parts = dict(words.parts)

    def part(match: re.Match[str]) -> str:
        stands = parts[match[1]]
        if isinstance(stands, Quantity):
            return show(stands.value, stands.kind, units, stands.side)
        return stands

    return _PLACE.sub(part, words.template)


def below_zero(value: float, units: str) -> str:
    """A temperature under zero of the scale shown, in words: `12 below`; nothing for any other.

    value : °C. A minus sign is easily missed on a small screen in the sun.
    """
    shown = show_parts(value, "temperature", units).number
    return f"{shown.removeprefix(MINUS)} below" if shown.startswith(MINUS) else ""


def show_figure(figure: Figure, units: str) -> ShownFigure:
    """A figure as text: value, band, uncertainty, working, limit, and why there is no value."""
    return ShownFigure(
        value=figure_value(figure, units),
        band=figure_band(figure, units),
        uncertainty=figure_uncertainty(figure, units),
        working=fill(figure.working, units),
        why_not=figure_why_not(figure, units),
        limit=fill(figure.limit, units) if figure.limit is not None else "",
    )


def figure_value(figure: Figure, units: str) -> str:
    """A figure's number with its unit; an en dash where there is none."""
    if figure.value is None:
        return NOTHING
    return show(figure.value * _scale(figure), _kind_of(figure), units, side_of(figure.id))


def figure_uncertainty(figure: Figure, units: str) -> str:
    """Its standard uncertainty: `± 0.6`; nothing where it has none."""
    if figure.value is None or figure.u is None:
        return ""
    return f"± {uncertainty(figure.u * _scale(figure), _kind_of(figure), units)}"


def figure_why_not(figure: Figure, units: str) -> str:
    """Why it has no value; nothing where it has one."""
    if figure.value is not None or figure.why_not is None:
        return ""
    return fill(figure.why_not, units)


def figure_band(figure: Figure, units: str) -> str:
    """The band as it is shown, which holds the value: a night's may lie outside its own two edges."""
    if figure.value is None or not figure.banded:
        return ""
    edges = (
        None if figure.low is None else min(figure.low, figure.value),
        None if figure.high is None else max(figure.high, figure.value),
    )
    kind, scale, side = _kind_of(figure), _scale(figure), side_of(figure.id)
    low, high = (
        NEVER if edge is None else show_parts(edge * scale, kind, units, side).number for edge in edges
    )
    return low if low == high else f"{low} … {high}"


def _scale(figure: Figure) -> float:
    return FIGURE_UNITS.get(figure.unit, 1.0)


def _kind_of(figure: Figure) -> str:
    """As of its number; a temperature that has a band is told in whole degrees."""
    kind = figure_kind(figure.id)
    return "whole_temperature" if figure.banded and kind == "temperature" else kind


# --- which kind a figure's number is ---

# Figures' own units to SI. The others are SI, or stay as they are (Ah, 1).
FIGURE_UNITS = {"L": 1e-3, "h": 3600.0, "Wh": 3600.0}

_FIGURE_KINDS = {
    "tank": {
        "volume": "volume", "volume_outside": "volume", "contents": "volume", "least": "volume",
        "contents_level": "length", "least_level": "length",
        "conductance": "conductance", "effective": "temperature", "needed": "power", "delivered": "power",
        "holds_to": "temperature", "holds_to_towing": "temperature", "hours_to_ice": "hours",
        "hours_to_solid": "hours", "hours_to_thaw": "hours", "hours_to_ice_least": "hours",
        "spell.lowest": "temperature", "spell.ice_hours": "hours", "spell.ice_share": "share",
        "spell.duty": "share", "spell.energy": "watt_hours",
    },
    "bay": {"low": "temperature", "low_unheated": "temperature"},
    "drain": {
        "holds_to": "temperature", "hours_to_ice": "hours", "hours_to_solid": "hours", "reach": "length",
    },
    "heater": {
        "resistance": "ohms", "volts": "volts", "watts": "power", "drop": "share", "share": "share",
        "wall": "temperature", "bare": "temperature", "dry": "temperature", "density": "density",
        "current": "amps", "x": "length", "y": "length", "turned": "flag", "clearance": "length",
        "to_outlet": "length", "u_clearance": "small_length",
    },
    "run": {
        "current": "amps", "return_current": "amps", "gauge": "gauge", "fuse": "rating", "drop": "volts",
        "cut": "route", "short": "amps", "resistance": "ohms",
    },
    "bundle": {"diameter": "small_length", "sleeve": "length", "clamps": "count"},
    "supply": {
        "current": "amps", "usable": "charge", "night": "charge", "hours": "hours", "nights": "number",
        "converter": "share",
    },
    "wiring": {"copper": "mass_of_copper"},
}  # fmt: skip


def figure_kind(figure_id: str) -> str:
    """The kind of a figure's number, by the figure's id; `number` for one that this table doesn't have."""
    family, name = family_and_name(figure_id)
    return _FIGURE_KINDS.get(family, {}).get(name, "number")
