"""What a change of the profile moves: today's figures beside the changed ones.

Two profiles in, pairs of figures out. Which values to try, and how they are typed, is the screen's business.
"""

from collections.abc import Callable

import msgspec

from logic.data.figure import Figure

SAME = 1e-9
"""Relative: figures closer than this have not moved."""


class Moved(msgspec.Struct, frozen=True):
    """A figure before and after; None: there is none of that id on that side."""

    id: str
    place: str
    before: Figure | None
    after: Figure | None

    @property
    def by(self) -> float | None:
        """After less before, in the figure's unit; None where one of them has no value."""
        if self.before is None or self.after is None:
            return None
        if self.before.value is None or self.after.value is None:
            return None
        return self.after.value - self.before.value


def moved_figures(
    before: tuple[Figure, ...], after: tuple[Figure, ...], *, wanted: Callable[[str], bool] = lambda _: True
) -> tuple[Moved, ...]:
    """The figures that differ in value or in an edge of their band, in the order of `before`, new ones last.

    wanted : by a figure's id.
    """
    old = {figure.id: figure for figure in before if wanted(figure.id)}
    new = {figure.id: figure for figure in after if wanted(figure.id)}
    ids = [*old, *(figure_id for figure_id in new if figure_id not in old)]
    return tuple(
        Moved(figure_id, (old.get(figure_id) or new[figure_id]).place, old.get(figure_id), new.get(figure_id))
        for figure_id in ids
        if _moves(old.get(figure_id), new.get(figure_id))
    )


def _moves(before: Figure | None, after: Figure | None) -> bool:
    if before is None or after is None:
        return before is not after
    return any(
        _differ(one, other)
        for one, other in (
            (before.value, after.value),
            (before.low, after.low),
            (before.high, after.high),
        )
    )


def _differ(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is not other
    return abs(one - other) > SAME * max(abs(one), abs(other), 1e-12)
