"""What would fit where a pad doesn't: the largest pad like it, or two smaller ones.

A pad that fits leaves room for every smaller one, so that the greatest size that fits is found by halving.
Sizes are rounded down to what a tape shows: never more than fits.
"""

from collections.abc import Callable
from functools import lru_cache
from math import ceil, floor

import msgspec

from logic.physics.placement import TOUCH, best_spot, has_spot
from logic.physics.rectangles import Bottom

TAPE_MARK = 0.0254 / 16.0
"""Sizes that are offered are whole marks of a tape in 16ths of an inch. [m]"""

LEAST_SIDE = 0.0254
"""No pad with a side under this is offered: 1 in. [m] Practice."""

LEAST_MARKS = 16
"""The same in marks of a tape."""


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
    for shorten in (True, False):
        shrunk, kept = (length, width) if shorten else (width, length)

        def fits(marks: int, kept: float = kept) -> bool:
            return has_spot(bottom, length=marks * TAPE_MARK, width=kept)

        marks = _most_marks(fits, least=LEAST_MARKS, most=_marks(shrunk))
        if marks is not None:
            sizes.append((marks * TAPE_MARK, kept) if shorten else (kept, marks * TAPE_MARK))
    if not sizes:
        smaller = _largest_in_proportion(lambda *sides: _fits(bottom, *sides), length, width)
        sizes += [] if smaller is None else [smaller]
    return max(sizes, key=lambda size: size[0] * size[1]) if sizes else None


@lru_cache(maxsize=256)
def two_smaller(bottom: Bottom, *, length: float, width: float) -> TwoPads | None:
    """Two equal pads that fit in place of one: halves of it, or halves scaled down. [m]

    Placed one after the other as the program places any pads. The larger of halving the length or the width;
    sides rounded down to a 16th of an inch. None: no two pads with sides of 1 in and more fit.
    """
    found = []
    for halves in ((length / 2.0, width), (length, width / 2.0)):
        sides = _largest_in_proportion(lambda *sides: _both_fit(bottom, *sides), *halves)
        if sides is not None:
            found.append(TwoPads(*sides, share=2.0 * sides[0] * sides[1] / (length * width)))
    return max(found, key=lambda pads: pads.share) if found else None


def _fits(bottom: Bottom, length: float, width: float) -> bool:
    return has_spot(bottom, length=length, width=width)


def _both_fit(bottom: Bottom, length: float, width: float) -> bool:
    first = best_spot(bottom, length=length, width=width)
    if first is None:
        return False
    rest = msgspec.structs.replace(bottom, taken=(*bottom.taken, first.area))
    return has_spot(rest, length=length, width=width)


def _largest_in_proportion(
    fits: Callable[[float, float], bool], length: float, width: float
) -> tuple[float, float] | None:
    """The largest sides in (about) this proportion, on marks of a tape, that fit; at most these sides."""
    longer, shorter = max(length, width), min(length, width)

    def sides(marks: int) -> tuple[float, float]:
        along = marks * TAPE_MARK
        beside = _marks(along * shorter / longer) * TAPE_MARK
        return (along, beside) if length >= width else (beside, along)

    least = ceil(LEAST_MARKS * longer / shorter)
    marks = _most_marks(lambda marks: fits(*sides(marks)), least=least, most=_marks(longer))
    return None if marks is None else sides(marks)


def _most_marks(fits: Callable[[int], bool], *, least: int, most: int) -> int | None:
    """The greatest number of marks from `least` to `most` that fits, by halving. None: not the least."""
    if most < least:
        return None
    if fits(most):
        return most
    good, bad = least, most
    while bad - good > 1:
        middle = (good + bad) // 2
        if fits(middle):
            good = middle
        else:
            bad = middle
    # where a larger one fits, the least does, and need not be asked
    return good if good > least or (most > least and fits(least)) else None


def _marks(side: float) -> int:
    return floor((side + TOUCH) / TAPE_MARK)
