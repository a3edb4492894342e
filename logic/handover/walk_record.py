"""The last walk on the sheet: by place, as one crawls, what lies there out of sight, what proved it, what is open."""

from logic.assessment.last_walk import ACCEPTED, FINDING, OPEN, SEEN, Halt, Look
from logic.data.quantities import fill
from logic.handover.blocks import Paragraph, Section, Table, without_empty_columns
from logic.handover.shown import Shown

HEADS = ("place", "what lies there", "read, proven, seen", "still open")
WIDTHS = (15, 23, 38, 24)
MOST_OPEN_NAMED = 3


def walk_record(shown: Shown, halts: tuple[Halt, ...]) -> Section | None:
    """Every place of the walk in one row; None where there is none."""
    if not halts:
        return None
    rows = tuple(
        (
            halt.title,
            fill(halt.there, shown.units) if halt.there is not None else "",
            _told(shown, halt, (SEEN, ACCEPTED)),
            _open(shown, halt),
        )
        for halt in halts
    )
    how = (
        "Place by place, in the order in which one crawls from the tanks along the wires to the supply: "
        "what can't be seen any more once the underside is closed."
    )
    table = without_empty_columns(Table(HEADS, rows, widths=WIDTHS))
    return Section("Out of sight", (Paragraph(how), table))


def _told(shown: Shown, halt: Halt, states: tuple[str, ...]) -> str:
    """What was read, proven and seen there, and what a person accepted."""
    return "; ".join(_said(shown, look) for look in halt.looks if look.state in states)


def _said(shown: Shown, look: Look) -> str:
    text = fill(look.text, shown.units)
    return f"accepted: {text}" if look.state == ACCEPTED else text


def _only_to_be_done(look: Look) -> bool:
    """What is wrong is named before what is only still to be done."""
    return look.kind != FINDING or look.rule in ("planned", "single", "untested")


def _open(shown: Shown, halt: Halt) -> str:
    """What still stands there: how many, and the first of them; all of them stand in the punch list."""
    left = sorted((look for look in halt.looks if look.state == OPEN), key=_only_to_be_done)
    if not left:
        return ""
    stops = f"{halt.stops} stop" if halt.stops else f"{len(left)} open"
    named = "; ".join(fill(look.text, shown.units) for look in left[:MOST_OPEN_NAMED])
    more = f"; {len(left) - MOST_OPEN_NAMED} more" if len(left) > MOST_OPEN_NAMED else ""
    return f"{stops}: {named}{more}"
