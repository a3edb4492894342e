"""What would fit where a pad doesn't: the largest pad like it, or two smaller ones.

A pad that fits leaves room for every smaller one, so that the greatest size that fits is found by halving.
Sizes are rounded down to what a tape shows: never more than fits.
"""

from collections.abc import Callable
from functools import lru_cache
from math import floor

import msgspec

from logic.physics.placement import TOUCH, best_spot, has_spot
from logic.physics.rectangles import Bottom

TAPE_MARK = 0.0254 / 16.0
"""Sizes that are offered are whole marks of a tape in 16ths of an inch. [m]"""

LEAST_SIDE = 0.0254
"""No pad with a side under this is offered: 1 in. [m] Practice."""

CLOSE = 1e-6
"""To what a greatest size is found. [m]"""


class TwoPads(msgspec.Struct, frozen=True):
    """Two equal pads in place of one: the sides of each, and their area together as a share of the one's."""

    length: float
    width: float
    share: float


@lru_cache(maxsize=256)
def largest_pad_like(bottom: Bottom, *, length: float, width: float) -> tuple[float, float] | None:
    """Sides of the largest pad that fits: one side kept where it can be, else both in proportion. [m]

    Rounded down to a 16th of an inch. None: no pad with sides of 1 in and more fits.
    """
    sizes = []
    for keep_width in (True, False):
        kept, shrunk = (width, length) if keep_width else (length, width)

        def fits(side: float, kept: float = kept) -> bool:
            return has_spot(bottom, length=max(side, kept), width=min(side, kept))

        if shrunk > LEAST_SIDE and fits(LEAST_SIDE):
            side = _on_a_mark(_edge(fits, good=LEAST_SIDE, bad=shrunk), fits)
            sizes.append((side, kept) if keep_width else (kept, side))
    if not sizes:
        least = LEAST_SIDE / min(length, width)

        def scaled_fits(scale: float) -> bool:
            return has_spot(bottom, length=scale * length, width=scale * width)

        if least < 1.0 and scaled_fits(least):
            scale = _edge(scaled_fits, good=least, bad=1.0)
            sizes.append((_rounded_down(scale * length), _rounded_down(scale * width)))
    sizes = [size for size in sizes if min(size) > 0.0]
    return max(sizes, key=lambda size: size[0] * size[1]) if sizes else None


@lru_cache(maxsize=256)
def two_smaller(bottom: Bottom, *, length: float, width: float) -> TwoPads | None:
    """Two equal pads that fit side by side in place of one: halves of it, or halves scaled down. [m]

    Placed one after the other as the program places any pads. The larger of halving the length or the width;
    sides rounded down to a 16th of an inch. None: no two pads with sides of 1 in and more fit.
    """
    found = []
    for half_length, half_width in ((length / 2.0, width), (length, width / 2.0)):
        least = LEAST_SIDE / min(half_length, half_width)

        def fit(scale: float, sides: tuple[float, float] = (half_length, half_width)) -> bool:
            return _both_fit(bottom, scale * sides[0], scale * sides[1])

        if least > 1.0 or not fit(least):
            continue
        scale = 1.0 if fit(1.0) else _edge(fit, good=least, bad=1.0)
        sides = _rounded_down(scale * half_length), _rounded_down(scale * half_width)
        if min(sides) > 0.0 and _both_fit(bottom, *sides):
            found.append(TwoPads(*sides, share=2.0 * sides[0] * sides[1] / (length * width)))
    return max(found, key=lambda pads: pads.share) if found else None


def _both_fit(bottom: Bottom, length: float, width: float) -> bool:
    first = best_spot(bottom, length=length, width=width)
    if first is None:
        return False
    rest = msgspec.structs.replace(bottom, taken=(*bottom.taken, first.area))
    return has_spot(rest, length=length, width=width)


def _edge(fits: Callable[[float], bool], *, good: float, bad: float) -> float:
    """The value furthest from `good` towards `bad` that still fits, by halving."""
    while abs(bad - good) > CLOSE:
        middle = (good + bad) / 2.0
        if fits(middle):
            good = middle
        else:
            bad = middle
    return good


def _on_a_mark(side: float, fits: Callable[[float], bool]) -> float:
    """The greatest mark of a tape that fits, about `side` or below."""
    marks = floor((side + CLOSE) / TAPE_MARK)
    return (marks if fits(marks * TAPE_MARK) else marks - 1) * TAPE_MARK


def _rounded_down(side: float) -> float:
    return floor((side + TOUCH) / TAPE_MARK) * TAPE_MARK
