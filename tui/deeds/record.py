"""An intent recorded, and what came of it said beside the line; Enter in the line."""

from typing import TYPE_CHECKING

from logic.session.intents import Intent, NotSaved, Refused, Taken
from tui.show.desk_words import asked_beside, moved_text, taken_text
from tui.show.rows import BAD, MOVED, PLAIN, STRONG, WARN
from tui.taking import filled, refusal_lines, take

if TYPE_CHECKING:
    from tui.app import Bellypan


def send(app: "Bellypan", intent: Intent, *, quiet: bool = False) -> Taken | Refused | NotSaved:
    """Have an intent recorded, show what became of it; `quiet`: say nothing beside the line."""
    result = app.wiring.send(intent)
    app.show()
    if not quiet:
        say_result(app, result)
    return result


def say_result(app: "Bellypan", result: Taken | Refused | NotSaved) -> None:
    """What became of an intent, in the lines beside the reading line."""
    units = app.wiring.snapshot().units
    if isinstance(result, Refused):
        first, *rest = refusal_lines(result, units)
        app.desk.say((first, BAD), *((each, PLAIN) for each in rest))
    elif isinstance(result, NotSaved):
        said = f"NOT SAVED: {filled(result.said, units)}. {filled(result.reason, units)}"
        app.desk.say((said, BAD))
    else:
        beside = " ".join(filled(each, units) for each in result.beside)
        moved = moved_text(app.wiring.snapshot())
        more = (beside, BAD) if beside else (moved, MOVED)
        app.desk.say((filled(result.said, units), STRONG), more, large="")


def take_typed(app: "Bellypan", typed: str) -> None:
    """Enter in the line: record what can be, keep the rest, say what came of it."""
    line = app.desk.line
    outcome = take(app.wiring, typed, line.question)
    line.keep(outcome.left)
    line.question = outcome.question
    app.show()
    snapshot = app.wiring.snapshot()
    told: list[tuple[str, str]] = []
    value = None
    for reading in outcome.taken:
        said, value = taken_text(snapshot, reading)
        told.append((said, STRONG))
    if outcome.not_saved:
        told.append((outcome.not_saved, BAD))
    told.extend((each, BAD if not number else PLAIN) for number, each in enumerate(outcome.refused))
    told.extend((each, WARN) for each in (*outcome.beside, *asked_beside(snapshot, outcome.taken)))
    if outcome.taken and not outcome.refused and len(told) == 1:
        told.append((moved_text(snapshot), MOVED))
    app.desk.say(*told[-2:], large=value)
    app.desk.refused = bool(outcome.refused and outcome.left)
    if not outcome.left:
        app.focus_back()
