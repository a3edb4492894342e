"""What the reading line asks back, and for which text in it."""

from typing import NamedTuple


class Question(NamedTuple):
    """What the line asks back: the same again, or one of several meanings."""

    kind: str  # confirm | meaning
    typed: str  # for which text in the line it stands
    choices: tuple[str, ...] = ()
