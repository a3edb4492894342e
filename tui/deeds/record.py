"""An intent recorded, and what came of it said beside the line; Enter in the line."""

from typing import TYPE_CHECKING

from logic.session.intents import Intent, NotSaved, Refused, Taken
from tui.show.desk_words import asked_beside, moved_text, taken_text
from tui.show.rows import BAD, MOVED, PLAIN, STRONG, WARN
from tui.taking import filled, not_saved_line, refusal_lines, take

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
        app.desk.say((not_saved_line(result, units), BAD))
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
    taken: list[tuple[str, str]] = []
    value = None
    for reading in outcome.taken:
        said, value = taken_text(snapshot, reading)
        taken.append((said, STRONG))
    told = [(outcome.not_saved, BAD)] if outcome.not_saved else []
    told.extend((each, BAD if not number else PLAIN) for number, each in enumerate(outcome.refused))
    told.extend((each, WARN) for each in (*outcome.beside, *asked_beside(snapshot, outcome.taken)))
    if len(taken) == 1 and not told:
        told.append((moved_text(snapshot), MOVED))
    # That it was taken is said whatever else is to be said.
    app.desk.say(*taken[-1 if told else -2 :], *told, large=value)
    app.desk.refused = bool(outcome.refused and outcome.left)
    if not outcome.left:
        app.focus_back()
