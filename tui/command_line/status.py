"""`bellypan status`: a session in plain lines, one fact each, for a screen reader or a phone.

No frames and no marks: what is next, what is owed, what is live, the timers, the verdict.
"""

from logic.assessment.last_walk import OPEN, Halt, closing_is_near, last_walk_of
from logic.data.place_names import name_of
from logic.data.profile import Profile
from logic.data.quantities import fill
from logic.data.state import Assessment, Instant, SlotView
from logic.data.step import HELD, READY, RUNNING, Step
from logic.data.typed_text import typed_with_unit
from logic.session.session import Session
from tui.command_line.answers import verdict_line
from tui.command_line.arguments import Given
from tui.command_line.clock import clock_text, now
from tui.command_line.exit_codes import DONE, fault
from tui.command_line.printing import say_all
from tui.command_line.sessions_held import watched

STEPS_NAMED = 3  # how many steps that may start now are named


def run(given: Given) -> int:
    if not given.operands:
        raise fault("status lacks a session", expected="SESSION")
    with watched(given.operands[0]) as session:
        say_all(status_lines(session, now()))
    return DONE


def status_lines(session: Session, today: Instant) -> list[str]:
    """The facts of a session, in the order in which they matter."""
    assessment = session.assess(today)
    units = assessment.planned.rig.units
    return [
        f"rig: {assessment.planned.rig.name}",
        *last_reading_lines(session, assessment.planned, today),
        *next_lines(assessment),
        f"owed: {count_of(sum(view.owed for view in assessment.slots), 'reading')}",
        *step_lines(assessment, units, today),
        f"live: {'; '.join(live_words(assessment)) or 'nothing'}",
        *time_lines(assessment),
        *walk_lines(session, assessment, units),
        *left_out_lines(assessment, units),
        f"verdict: {verdict_line(assessment.verdict)}",
    ]


def last_reading_lines(session: Session, planned: Profile, today: Instant) -> list[str]:
    """The reading that was taken last and still stands, as it was typed."""
    standing = [reading for reading in session.state.readings if not reading.struck]
    if not standing:
        return []
    last = standing[-1]
    said = typed_with_unit(last.typed, last.unit)
    name = name_of(last.slot, planned)
    return [f"last reading: {name}: {said} ({last.slot}), {clock_text(last.when.at, today=today)}"]


def next_lines(assessment: Assessment) -> list[str]:
    """The slot that is wanted next, with its unit, and how it stands."""
    if not assessment.wanted:
        return ["next: no reading is owed"]
    views = {view.slot: view for view in assessment.slots}
    return [f"next: {slot_words(assessment.wanted[0], views.get(assessment.wanted[0]), assessment.planned)}"]


def slot_words(slot: str, view: SlotView | None, planned: Profile) -> str:
    """A slot as it is called, and as `read` wants it."""
    called = f"{name_of(slot, planned)} ({slot})"
    return called if view is None else f"{called}, unit {view.own_unit}, {view.state}"


def live_words(assessment: Assessment) -> list[str]:
    return [name_of(f"run.{run}", assessment.planned) for run in assessment.live]


def step_lines(assessment: Assessment, units: str, today: Instant) -> list[str]:
    """What runs, until when; what is held, by what; what may start now."""
    lines = []
    for step in assessment.steps:
        if step.state == RUNNING:
            owed = f", to write down: {', '.join(step.record)}" if step.record else ""
            lines.append(f"running: {step_words(step)}{until(step, today, units)}{owed}")
        elif step.due is not None and step.due > today.at:
            lines.append(f"timer: {step_words(step)}{until(step, today, units)}")
        elif step.state == HELD:
            why = "; ".join([fill(block.text, units) for block in step.blocks] or [step.held_note])
            lines.append(f"held: {step_words(step)}: {why}".removesuffix(": "))
    ready = [step for step in assessment.steps if step.state == READY]
    lines += [f"may start: {step_words(step)}" for step in ready[:STEPS_NAMED]]
    if len(ready) > STEPS_NAMED:
        lines.append(f"may start too: {count_of(len(ready) - STEPS_NAMED, 'more step')}")
    return lines


def walk_lines(session: Session, assessment: Assessment, units: str) -> list[str]:
    """The last walk, a line for each place, once little more is left than to look and to close."""
    if not closing_is_near(assessment.steps):
        return []
    return [walk_line(halt, units) for halt in last_walk_of(assessment, session.state)]


def left_out_lines(assessment: Assessment, units: str) -> list[str]:
    """What isn't worked out, where there is too much of it: nothing else hangs on it."""
    if assessment.left_out is None:
        return []
    return [f"figures: {fill(assessment.left_out, units)}"]


def walk_line(halt: Halt, units: str) -> str:
    """One place of the walk: what lies there, how much of it is seen, what still stands."""
    there = f" ({fill(halt.there, units)})" if halt.there is not None else ""
    left = [look for look in halt.looks if look.state == OPEN]
    if not left:
        return f"last walk: {halt.title}{there}: all seen"
    named = "; ".join(fill(look.text, units) for look in left[:STEPS_NAMED])
    more = f"; and {len(left) - STEPS_NAMED} more" if len(left) > STEPS_NAMED else ""
    stops = f"{halt.stops} stop" if halt.stops else f"{len(left)} open"
    return f"last walk: {halt.title}{there}: {stops}: {named}{more}"


def step_words(step: Step) -> str:
    return f"{step.title} ({step.id})"


def until(step: Step, today: Instant, units: str) -> str:
    """When a timer ends; one that ended and still runs waits for a person: a reading, a look at the paper."""
    if step.due is None:
        return ""
    if step.due > today.at:
        return f", until {clock_text(step.due, today=today)}"
    waits_for = "; ".join(fill(block.release, units) for block in step.finishing)
    return f", due since {clock_text(step.due, today=today)}: {waits_for}".removesuffix(": ")


def time_lines(assessment: Assessment) -> list[str]:
    """The time left today, where a stop was set, and what is planned."""
    planned = (
        f"planned: {minutes_text(assessment.under_left)} under the vehicle, "
        f"{minutes_text(assessment.beside_left)} beside it"
    )
    if assessment.minutes_left is None:
        return [planned]
    return [f"left today: {minutes_text(assessment.minutes_left)}", planned]


def minutes_text(minutes: float) -> str:
    """`2 h 20 min`, `35 min`; a stop that has passed is said to have passed."""
    if minutes < 0:
        return f"none, {minutes_text(-minutes)} past the stop"
    hours, rest = divmod(round(minutes), 60)
    return f"{hours} h {rest:02d} min" if hours else f"{rest} min"


def count_of(number: int, thing: str) -> str:
    return f"1 {thing}" if number == 1 else f"{number or 'no'} {thing}s"
