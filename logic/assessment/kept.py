"""Figures kept from one assessment to the next, as long as nothing that they hang on has changed.

So a reading of one tank makes no figure of another anew, and whoever draws them sees the very same objects.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable

from logic.data.figure import Figure


class KeptFigures:
    """A few lists of figures by all that they hang on; the one not asked for longest goes first."""

    def __init__(self, most: int) -> None:
        self.most = most
        self.lists: OrderedDict[Hashable, tuple[Figure, ...]] = OrderedDict()

    def figures(self, key: Hashable, make: Callable[[], list[Figure]]) -> tuple[Figure, ...]:
        """The figures of a key, made where there are none."""
        found = self.lists.get(key)
        if found is None:
            found = self.lists[key] = tuple(make())
            if len(self.lists) > self.most:
                self.lists.popitem(last=False)
        else:
            self.lists.move_to_end(key)
        return found
