"""How well readings fit a prediction: a normal distribution whose parts share what nobody knows exactly.

A heater's own resistance or a wire's true length shifts several readings at once, so their errors are
correlated: Σ = diag(u²) + J diag(s²) Jᵀ, u the meter's, s of what is not known, J how the readings hang on
it. It is factored once and asked for many predictions.
"""

from collections.abc import Callable, Sequence
from math import sqrt


class SharedErrors:
    """Σ for one set of readings."""

    def __init__(self, u: Sequence[float], slopes: Sequence[Sequence[float]]) -> None:
        """u : of each reading, > 0. slopes : for each thing not known, d reading × its own uncertainty."""
        count = len(u)
        sigma = [[sum(slope[i] * slope[j] for slope in slopes) for j in range(count)] for i in range(count)]
        for i in range(count):
            sigma[i][i] += u[i] ** 2
        self.spread = tuple(sqrt(sigma[i][i]) for i in range(count))
        self._lower = _cholesky(sigma)

    def distance(self, differences: Sequence[float]) -> float:
        """dᵀ Σ⁻¹ d: how far the readings lie off, squared, in standard uncertainties."""
        solved: list[float] = []
        total = 0.0
        for row, difference in zip(self._lower, differences, strict=True):
            value = (difference - sum(a * b for a, b in zip(row, solved, strict=False))) / row[len(solved)]
            solved.append(value)
            total += value * value
        return total


def _cholesky(matrix: list[list[float]]) -> list[list[float]]:
    """Lower factor of a positive definite matrix."""
    lower: list[list[float]] = []
    for i, row in enumerate(matrix):
        line: list[float] = []
        for j in range(i + 1):
            value = row[j] - sum(a * b for a, b in zip(line, lower[j] if j < i else line, strict=False))
            line.append(sqrt(max(value, row[i] * 1e-14)) if i == j else value / lower[j][j])
        lower.append(line)
    return lower


GOLDEN = (5.0**0.5 - 1.0) / 2.0


def least(off: Callable[[float], float], low: float, high: float) -> tuple[float, float]:
    """Where a function of one number is least, and its value there: a coarse look, then golden section."""
    count = 14
    points = [low + (high - low) * step / count for step in range(count + 1)]
    values = [off(point) for point in points]
    best = min(range(len(points)), key=lambda number: values[number])
    left, right = points[max(0, best - 1)], points[min(count, best + 1)]
    one, other = right - GOLDEN * (right - left), left + GOLDEN * (right - left)
    at_one, at_other = off(one), off(other)
    for _ in range(18):
        if at_one < at_other:
            right, other, at_other = other, one, at_one
            one = right - GOLDEN * (right - left)
            at_one = off(one)
        else:
            left, one, at_one = one, other, at_other
            other = left + GOLDEN * (right - left)
            at_other = off(other)
    return min(((points[best], values[best]), (one, at_one), (other, at_other)), key=lambda found: found[1])
