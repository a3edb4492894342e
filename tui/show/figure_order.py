"""Figures in the order in which they matter at this moment of the work; which moment puts what first stands with
the assessment (`moments.py`)."""

from fnmatch import fnmatchcase
from functools import lru_cache

from logic.assessment.moments import MOMENTS
from logic.data.figure import Figure

FIRST, THEN, REST, LAST = 0, 100, 200, 300


@lru_cache(maxsize=4096)  # asked for every figure after every reading
def rank(figure_id: str, moment: str) -> int:
    """Where a figure stands within its place: the first of the moment, what comes then, the rest, the last."""
    order = MOMENTS.get(moment)
    if order is None:
        return REST
    for base, patterns in ((FIRST, order.first), (THEN, order.then), (LAST, order.last)):
        for number, pattern in enumerate(patterns):
            if fnmatchcase(figure_id, pattern):
                return base + number
    return REST


def in_order(figures: tuple[Figure, ...], moment: str, *, here: str) -> list[tuple[str, list[Figure]]]:
    """The figures by place: first the place at work, then the others as they come."""
    places: dict[str, list[Figure]] = {}
    for figure in figures:
        places.setdefault(figure.place, []).append(figure)
    names = sorted(places, key=lambda place: place != here)
    return [(place, sorted(places[place], key=lambda figure: rank(figure.id, moment))) for place in names]
