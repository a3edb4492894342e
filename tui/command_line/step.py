"""`bellypan step`: the steps of a session, and starting, ending, holding and skipping one from a script."""

from collections.abc import Iterator

from logic.data.quantities import fill
from logic.data.step import Step
from logic.session.intents import FinishStep, HoldStep, Intent, OverruleStep, SkipStep, StartStep
from logic.session.session import Session
from tui.command_line.arguments import Given
from tui.command_line.clock import clock_text, now, stamp
from tui.command_line.exit_codes import DONE, fault
from tui.command_line.layout import table
from tui.command_line.printing import say_all, say_json
from tui.command_line.recording import recorded_in_turn
from tui.command_line.sessions_held import held, watched

EXPECTED = "SESSION, or SESSION ID start|done|hold|skip"
VERBS = ("start", "done", "hold", "skip")


def run(given: Given) -> int:
    words = given.operands
    as_json = given.has("--json")
    if len(words) == 1:
        with watched(words[0]) as session:
            listed(session, as_json)
        return DONE
    if len(words) != 3 or words[2] not in VERBS:
        found = "step lacks words" if len(words) < 3 else f"step doesn't know {words[2]}"
        raise fault(found, expected=EXPECTED)
    word, step_id, verb = words
    written_down = written_down_of(given)
    with held(word) as session:
        wanted = intents(session, given, step_id, verb, written_down)
        code = recorded_in_turn(session, wanted, as_json=as_json)
        if code is not None:
            return code
        if as_json:
            listed(session, as_json)
    return DONE


def intents(
    session: Session, given: Given, step_id: str, verb: str, written_down: dict[str, str]
) -> Iterator[Intent]:
    """What the call asks for, in order: blocks of the step overruled, where asked, then the step itself."""
    note, name = given.option("--note") or "", given.option("--name") or ""
    reason = given.option("--overrule")
    if reason is not None:
        if not reason or not name:
            raise fault("--overrule lacks a reason or a name", expected="--overrule REASON --name NAME")
        for step in session.assess(now()).steps:
            # Where something holds it that nobody may overrule, nothing is: the step is refused, and no overruling
            # of a step that never began stays on the record.
            if step.id == step_id and all(block.overrulable for block in step.blocks):
                for block in step.blocks:
                    yield OverruleStep(step=step_id, gate=block.id, reason=reason, name=name)
    if verb == "start":
        yield StartStep(step=step_id)
    elif verb == "done":
        yield FinishStep(step=step_id, note=note, recorded=written_down, on_word=not written_down)
    elif verb == "hold":
        yield HoldStep(step=step_id, note=note)
    else:
        yield SkipStep(step=step_id, note=note, name=name)


def written_down_of(given: Given) -> dict[str, str]:
    """What `--record WHAT=TEXT` gives, as often as it stands."""
    written_down = {}
    for word in given.all("--record"):
        what, equals, text = word.partition("=")
        if not equals or not what.strip():
            raise fault(f"--record {word}", expected="--record WHAT=TEXT")
        written_down[what.strip()] = text.strip()
    return written_down


def listed(session: Session, as_json: bool) -> None:
    """Every step in order, with what holds it and when its timer ends."""
    today = now()
    assessment = session.assess(today)
    units = assessment.planned.rig.units
    if as_json:
        say_json({
            "steps": [
                {
                    "id": step.id,
                    "title": step.title,
                    "state": step.state,
                    "held_by": held_by_words(step, units),
                    "due": None if step.due is None else stamp(step.due),
                    "minutes": step.minutes,
                }
                for step in assessment.steps
            ]
        })  # fmt: skip
        return
    rows = []
    for step in assessment.steps:
        said = [step.title, *held_by_words(step, units)]
        if step.record and step.state not in ("done", "skipped"):
            said.append(f"to write down: {', '.join(step.record)}")
        if step.due is not None and step.state not in ("done", "skipped"):
            said.append(f"until {clock_text(step.due, today=today)}")
        rows.append((step.state, f"{step.minutes:.0f} min", step.id, "; ".join(said)))
    say_all(table(rows, indent=""))


def held_by_words(step: Step, units: str) -> list[str]:
    """What stands in the way of a step, each in its words; nothing once it is done or skipped."""
    if step.state in ("done", "skipped"):
        return []
    words = [fill(block.text, units) for block in step.blocks]
    return [*words, step.held_note] if step.held_note else words
