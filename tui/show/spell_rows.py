"""What stands below the plot of a spell: the tank's figures of it, and what the model leaves out."""

from logic.assessment.model_limits import MODEL_LIMITS
from tui.show import numbers
from tui.show.rows import BAD, FAINT, PLAIN, Row, wrapped
from tui.show.snapshot import Snapshot

SPELL = ("spell.lowest", "spell.ice_hours", "spell.ice_share", "spell.duty", "spell.energy")


def spell_notes(snapshot: Snapshot, tank: str, width: int) -> list[Row]:
    """The figures of the tank's spell in a line or two, then the first limit of the model."""
    told = []
    role = PLAIN
    for name in SPELL:
        figure = next(
            (each for each in snapshot.assessment.figures if each.id == f"tank.{tank}.{name}"), None
        )
        if figure is None:
            continue
        text = numbers.figure_text(figure, snapshot.units)
        told.append(f"{figure.title} {text.value} {text.spread}".rstrip())
        role = BAD if figure.holds is False else role
    rows = [Row("figures", wrapped("; ".join(told), width, role), choosable=False)] if told else []
    return [*rows, Row("limits", wrapped(MODEL_LIMITS[0], width, FAINT), choosable=False)]
