"""Figures kept from one assessment to the next, as long as nothing that they hang on has changed.

So a reading of one tank makes no figure of another anew, and whoever draws them sees the very same objects.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable, Iterable, Iterator

from logic.data.figure import Figure


class KeptFigures:
    """A few lists of figures by all that they hang on; the one not asked for longest goes first."""

    def __init__(self, most: int) -> None:
        self.most = most
        self.lists: OrderedDict[Hashable, tuple[Figure, ...]] = OrderedDict()

    def figures(self, key: Hashable, make: Callable[[], Iterable[Figure]]) -> Iterator[Figure]:
        """The figures of a key, made one by one where there are none; kept once the last is made."""
        found = self.lists.get(key)
        if found is not None:
            self.lists.move_to_end(key)
            yield from found
            return
        made = []
        for figure in make():
            made.append(figure)
            yield figure
        self.lists[key] = tuple(made)
        if len(self.lists) > self.most:
            self.lists.popitem(last=False)
