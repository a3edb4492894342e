"""The few SVG shapes that the drawings are made of. Every text is escaped here and nowhere else."""

import re
from html import escape

from logic.data.clean_text import clean_text

INK, PALE, HATCH = "#111", "#eee", "#999"
TEXT = "font-family='Liberation Sans, DejaVu Sans, Arial, sans-serif'"
CHARACTER = 0.56  # mean width of a character of that face, in its own height


def svg(width: float, height: float, body: list[str], title: str) -> str:
    """A drawing of the given size in its own units, that scales to the width of the page."""
    return (
        f"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {width:.2f} {height:.2f}' role='img' "
        f"aria-label='{_text(title)}' {TEXT}>" + "".join(body) + "</svg>"
    )


def _text(text: str) -> str:
    """A text as XML may hold it: no control character, no sign that stands for no character, all escaped."""
    return escape(re.sub("[\ufffe\uffff]", "", clean_text(text)), quote=True)


def box(
    x: float, y: float, width: float, height: float, *, fill: str = "none", dash: str = "", line: float = 1
) -> str:
    dashes = f" stroke-dasharray='{dash}'" if dash else ""
    return (
        f"<rect x='{x:.2f}' y='{y:.2f}' width='{max(width, 0):.2f}' height='{max(height, 0):.2f}' "
        f"fill='{fill}' stroke='{INK}' stroke-width='{line}'{dashes}/>"
    )


def circle(x: float, y: float, radius: float, *, fill: str = "none", line: float = 1) -> str:
    place = f"cx='{x:.2f}' cy='{y:.2f}' r='{radius:.2f}'"
    return f"<circle {place} fill='{fill}' stroke='{INK}' stroke-width='{line}'/>"


def rule(
    x1: float, y1: float, x2: float, y2: float, *, dash: str = "", line: float = 1, ink: str = INK
) -> str:
    dashes = f" stroke-dasharray='{dash}'" if dash else ""
    return (
        f"<line x1='{x1:.2f}' y1='{y1:.2f}' x2='{x2:.2f}' y2='{y2:.2f}' "
        f"stroke='{ink}' stroke-width='{line}'{dashes}/>"
    )


def path(points: list[tuple[float, float]], *, dash: str = "", line: float = 1.5, ink: str = INK) -> str:
    dashes = f" stroke-dasharray='{dash}'" if dash else ""
    course = " ".join(f"{x:.2f},{y:.2f}" for x, y in points)
    return f"<polyline points='{course}' fill='none' stroke='{ink}' stroke-width='{line}'{dashes}/>"


def area(points: list[tuple[float, float]], *, fill: str = PALE) -> str:
    course = " ".join(f"{x:.2f},{y:.2f}" for x, y in points)
    return f"<polygon points='{course}' fill='{fill}' stroke='none'/>"


def label(
    x: float, y: float, text: str, *, size: float = 10, anchor: str = "start", bold: bool = False
) -> str:
    """Text whose baseline begins (or is centred, or ends) at x, y; on white, so that it reads over lines."""
    weight = " font-weight='bold'" if bold else ""
    around = f"paint-order='stroke' stroke='#fff' stroke-width='{size * 0.3:.1f}'"
    return (
        f"<text x='{x:.2f}' y='{y:.2f}' font-size='{size}' text-anchor='{anchor}'{weight} {around} "
        f"fill='{INK}'>{_text(text)}</text>"
    )


def text_width(text: str, size: float) -> float:
    """About how wide a text stands, in the drawing's units."""
    return len(text) * size * CHARACTER


class Labels:
    """Places labels so that none lies over another: the first free spot of those that are offered wins."""

    def __init__(self) -> None:
        self._taken: list[tuple[float, float, float, float]] = []

    def put(
        self, spots: list[tuple[float, float]], text: str, *, size: float = 10, bold: bool = False
    ) -> str | None:
        """The label at the first spot (its centre) where it is clear of those before; None where none is."""
        width, height = text_width(text, size), size * 1.2
        for x, y in spots:
            around = (x - width / 2, y - height / 2, x + width / 2, y + height / 2)
            if all(
                around[2] <= other[0]
                or around[0] >= other[2]
                or around[3] <= other[1]
                or around[1] >= other[3]
                for other in self._taken
            ):
                self._taken.append(around)
                return label(x, y + size * 0.35, text, size=size, anchor="middle", bold=bold)
        return None
