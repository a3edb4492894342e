"""The instant of an event within a piece of a spell: roots of its formulas, known to be there."""

from math import copysign, expm1, inf, sqrt


def crossing(gap: float, begin: float, end: float, *, slope: float, fade: float, rate: float) -> float:
    """The root of gap + slope·t + fade·(e^(−rate·t) − 1) in a stretch without an extremum, known to be there.

    Newton's steps within a bracket, from the root of the parabola that fits at t = 0, or from the stretch's
    end where that one has none; done when a step is below 1e-10 of the stretch, and its error the square of
    that.
    """
    if gap == 0.0 and begin == 0.0:
        return 0.0
    falls = gap + slope * end + fade * expm1(-rate * end) < 0.0
    low, high = begin, end
    at = end
    steep, bend = slope - rate * fade, rate * rate * fade
    square = steep * steep - 2.0 * bend * gap
    below = steep + copysign(sqrt(square), steep) if square >= 0.0 else 0.0
    if begin == 0.0 and below:
        at = -2.0 * gap / below
        if not low < at < high:
            at = end
    for _ in range(200):
        gone = expm1(-rate * at)
        error = gap + slope * at + fade * gone
        if (error > 0.0) == falls:
            low = at
        else:
            high = at
        steep = slope - rate * fade * (gone + 1.0)
        new = at - error / steep if steep else inf
        if not low <= new <= high:
            new = (low + high) / 2
        if abs(new - at) <= 1e-10 * end:
            return new
        at = new
    return at


def parabola_root(rise: float, drive: float, slope: float) -> float:
    """The first t ≥ 0 with drive·t + slope·t²/2 = rise, known to be there."""
    root = sqrt(max(drive * drive + 2.0 * slope * rise, 0.0))
    below = drive + copysign(root, drive if drive else rise)
    return 2.0 * rise / below if below else 0.0
