"""Work done piece by piece: whoever has it done may look after other things between any two pieces.

So what is being typed can be assessed without holding up the next key. A piece is what isn't halted within: a
figure, a step, a rule.
"""

from collections.abc import Generator
from typing import TypeVar

T = TypeVar("T")


def at_once(pieces: Generator[None, None, T]) -> T:
    """What the pieces come to, with no pause between them."""
    while True:
        try:
            next(pieces)
        except StopIteration as end:
            found: T = end.value
            return found
