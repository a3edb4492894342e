"""Where several new pads lie on a new tank's bottom: in rows and columns with even gaps, a guess like the other sizes.

Left to itself the program puts each pad in the best place that is left, so that the first of two takes the middle and
the second finds no room. One pad alone is left to it.
"""

import math
from typing import NamedTuple

from logic.data.tape import TapeFault, written_length

INCH = 0.0254  # m, exact
EIGHTH = INCH / 8
LEAST_GAP = INCH + EIGHTH  # the format's own margin of 1 in to an edge, and what rounding to an eighth takes


class Corner(NamedTuple):
    x: str
    y: str
    turned: bool


def corners(count: int, tank: tuple[str, str], pad: tuple[str, str]) -> list[Corner]:
    """Corners for so many pads of (length, width) on a bottom of (length, width); none where they don't all fit."""
    if count < 2:
        return []
    try:
        length, width = (written_length(each) for each in tank)
        along, across = (written_length(each) for each in pad)
    except TapeFault:
        return []  # the check of the whole profile says so
    for columns in range(count, 0, -1):
        rows = math.ceil(count / columns)
        for turned, (one, other) in ((False, (along, across)), (True, (across, along))):
            gap_x = (length - columns * one) / (columns + 1)
            gap_y = (width - rows * other) / (rows + 1)
            if min(gap_x, gap_y) >= LEAST_GAP:
                return [
                    Corner(
                        eighths(gap_x + (number % columns) * (one + gap_x)),
                        eighths(gap_y + (number // columns) * (other + gap_y)),
                        turned,
                    )
                    for number in range(count)
                ]
    return []


def eighths(metres: float) -> str:
    """A length in inches, down to the eighth below, as a tape is read."""
    whole, rest = divmod(int(metres / EIGHTH + 1e-6), 8)
    if not rest:
        return f"{whole} in"
    common = math.gcd(rest, 8)
    fraction = f"{rest // common}/{8 // common}"
    return f"{whole} {fraction} in" if whole else f"{fraction} in"
