"""An intent sent to a session from the command line, and what became of it in one line of words."""

from collections.abc import Iterable
from typing import NamedTuple

from logic.data.quantities import fill
from logic.session.intents import CONFIRM, MEANING, Intent, NotSaved, Refused
from logic.session.session import Session
from tui.command_line.clock import now
from tui.command_line.exit_codes import REFUSED
from tui.command_line.printing import complain, say, say_json
from tui.command_line.sessions_held import why_read_only


class Answer(NamedTuple):
    """What became of an intent: `taken` only where its event is on disk."""

    taken: bool
    words: str


def recorded(session: Session, intent: Intent) -> Answer:
    """Send one intent. Nothing is recorded in a session that another program holds."""
    if session.read_only:
        return Answer(False, why_read_only(session))
    answer = session.act(intent, now())
    units = session.profile.rig.units
    if isinstance(answer, Refused):
        return Answer(False, refusal(answer, units))
    if isinstance(answer, NotSaved):
        return Answer(False, f"not saved: {fill(answer.reason, units)}")
    for beside in answer.beside:
        complain(fill(beside, units))
    return Answer(True, fill(answer.said, units))


def recorded_in_turn(session: Session, wanted: Iterable[Intent], *, as_json: bool) -> int | None:
    """Send several, each said as it is taken; the exit code of the first that is refused, None where none was."""
    for intent in wanted:
        answer = recorded(session, intent)
        if not answer.taken:
            return refused(answer.words, as_json=as_json)
        if not as_json:
            say(answer.words)
    return None


def refusal(answer: Refused, units: str) -> str:
    """A refusal in one line: why, what must be true first, and what would be taken."""
    parts = [fill(reason, units) for reason in (answer.reason, *answer.more)]
    parts += [fault.line() for fault in answer.faults]
    if answer.ask == CONFIRM:
        parts.append("--again takes it all the same")
    elif answer.examples:
        either = " or ".join(answer.examples)
        parts.append(f"type {either}" if answer.ask == MEANING else f"for example {either}")
    if answer.overrulable:
        parts.append(
            f"a person may set aside {' and '.join(answer.overrulable)}: --overrule REASON --name NAME"
        )
    if answer.written_down:
        parts.append(" ".join(f'--record "{name}=TEXT"' for name in answer.written_down))
    return "; ".join(part for part in parts if part).replace("?; ", "? ")


def refused(words: str, *, as_json: bool) -> int:
    """Say why a command did nothing, for commands that answer once."""
    if as_json:
        say_json({"refused": words})
    else:
        say(f"refused {words}")
    return REFUSED
