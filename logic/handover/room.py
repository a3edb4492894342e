"""How much of a record a sheet has room for: beyond, it says how much more there is, and where that stands.

A rig as people have one comes nowhere near; a sheet of a hundred thousand lines helps nobody, and isn't made in time.
"""

from collections.abc import Sequence
from typing import TypeVar

from logic.handover.blocks import Block, Paragraph

MANY_READINGS = 10_000
"""Readings that stand; with more, the sheet lists those that decide something or don't agree."""

MOST_OF_A_SLOT = 20
"""Readings of one slot that it then lists, the newest."""

MOST_LINES = 1_000
"""Lines of one kind: what was struck, written down, accepted, skipped, noted."""

Line = TypeVar("Line")


def first_of(lines: Sequence[Line], *, what: str) -> tuple[tuple[Line, ...], tuple[Block, ...]]:
    """As many lines as there is room for, and what is said where there are more."""
    return tuple(lines[:MOST_LINES]), _more(lines, f"The first {MOST_LINES:,} of {len(lines):,} {what}.")


def last_of(lines: Sequence[Line], *, what: str) -> tuple[tuple[Line, ...], tuple[Block, ...]]:
    """The same of what came in time: the newest, still in their order."""
    return tuple(lines[-MOST_LINES:]), _more(lines, f"The last {MOST_LINES:,} of {len(lines):,} {what}.")


def _more(lines: Sequence[Line], said: str) -> tuple[Block, ...]:
    return (
        (Paragraph(f"{said} All of them stand in the session's own record."),)
        if len(lines) > MOST_LINES
        else ()
    )
