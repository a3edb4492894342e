"""How well readings fit a prediction: a normal distribution whose parts share what nobody knows exactly.

A heater's own resistance or a wire's true length shifts several readings at once, so their errors are correlated:
Σ = diag(u²) + J diag(s²) Jᵀ, u the meter's, s of what is not known, J how the readings hang on it. It is factored
once and asked for many predictions.
"""

from collections.abc import Sequence
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
