"""The Steps pane as rows: the work in order, what may start now, what is held and what would release it."""

from collections.abc import Collection, Sequence

from logic.data.step import Step
from tui.show import numbers
from tui.show.cells import width_of
from tui.show.clock import moment, span
from tui.show.marks import STEP_WORDS, step_mark
from tui.show.names import place_name
from tui.show.rows import (
    BAD,
    FAINT,
    HEAD,
    PLAIN,
    STRONG,
    WARN,
    Line,
    Row,
    Span,
    beside,
    line,
    spread,
    wrapped,
)
from tui.show.snapshot import Snapshot

ROLES = {"running": STRONG, "ready": PLAIN, "held": BAD, "waiting": FAINT, "done": FAINT, "skipped": WARN}


def step_rows(
    snapshot: Snapshot, width: int, opened: Collection[str], *, chosen: str | None = None
) -> list[Row]:
    """All rows of the Steps pane. A group that is all done is one line until it is opened."""
    rows: list[Row] = []
    for group, steps in grouped(snapshot.assessment.steps):
        key = f"group:{group}"
        done = sum(1 for step in steps if settled(step))
        shut = done == len(steps) and key not in opened
        rows.append(group_row(snapshot, group, done, len(steps), width, shut=shut))
        if not shut:
            rows.extend(step_row(snapshot, step, width, full=step.id == chosen) for step in steps)
    return rows


def settled(step: Step) -> bool:
    return step.state in ("done", "skipped") and not step.lapsed


def grouped(steps: Sequence[Step]) -> list[tuple[str, list[Step]]]:
    """The steps by group, in the order of the work."""
    groups: dict[str, list[Step]] = {}
    for step in steps:
        groups.setdefault(step.group, []).append(step)
    return list(groups.items())


def group_row(snapshot: Snapshot, group: str, done: int, total: int, width: int, *, shut: bool) -> Row:
    marks = snapshot.marks
    said = "all done" if done == total else f"{done} of {total} done"
    head = spread(
        line(Span(f"{marks.shut if shut else marks.open} {group}", HEAD)), line(Span(said, FAINT)), width
    )
    return Row(f"group:{group}", (head,))


def step_title(snapshot: Snapshot, step: Step) -> str:
    """A step's title with its place, where the title doesn't name it already."""
    if step.place in ("rig", "", "supply", "wiring"):
        return step.title
    name = step.place.rpartition(".")[2]
    return step.title if name in step.title else f"{step.title}: {place_name(step.place, snapshot.profile)}"


def step_row(snapshot: Snapshot, step: Step, width: int, *, full: bool) -> Row:
    """A step: mark, title, state in a word, minutes; below it what holds it. `full`: all that is to be known."""
    timed = step.due is not None and step.state in ("running", "done") and step.due > snapshot.now.at
    mark = step_mark(snapshot.marks, step.state, lapsed=step.lapsed, timed=timed)
    role = WARN if step.lapsed else ROLES.get(step.state, PLAIN)
    said = f" {short_state(snapshot, step)}"
    lines = list(beside(
        f"{mark} {step_title(snapshot, step)}", line(Span(said, role)), width, column=width - width_of(said),
        role=role if role != FAINT else PLAIN, hang="  ",
    ))  # fmt: skip
    lines.extend(step_remarks(snapshot, step, width, timed=timed))
    if full:
        lines.extend(step_details(snapshot, step, width))
    return Row(f"step:{step.id}", tuple(lines))


def short_state(snapshot: Snapshot, step: Step) -> str:
    """The state and the minutes, as they stand at the end of a step's line."""
    if step.lapsed:
        return "lapsed: again"
    if step.state == "done":
        return with_minutes("done", step.spent)
    if step.state == "running":
        spent = step.spent
        if step.started is not None:
            spent = max(spent, (snapshot.now.at - step.started) / 60)
        return with_minutes(f"now {numbers.minutes_text(spent)} of", step.minutes, otherwise="now")
    word = STEP_WORDS.get(step.state, step.state)
    if step.state == "ready" and step.meanwhile:
        word = "meanwhile"
    return with_minutes(word, step.minutes) if step.state in ("ready", "waiting") else word


def with_minutes(word: str, minutes: float, *, otherwise: str | None = None) -> str:
    """A word and the minutes behind it; under one minute the word alone, or what stands `otherwise`."""
    if minutes >= 1:
        return f"{word} {numbers.minutes_text(minutes)}"
    return word if otherwise is None else otherwise


def step_remarks(snapshot: Snapshot, step: Step, width: int, *, timed: bool) -> list[Line]:
    """What is said below a step without opening it: its timer, its hold, the first thing it waits for."""
    lines: list[Line] = []
    if timed and step.due is not None:
        until = f"until {moment(step.due, snapshot.now)} ({span(step.due - snapshot.now.at)})"
        lines.extend(wrapped(until, width, STRONG, indent="    "))
    if step.state == "held" and step.held_note:
        lines.extend(wrapped(f"held: {step.held_note}", width, BAD, indent="    "))
    if step.state == "held" or (step.state == "waiting" and len(step.blocks) == 1):
        for block in step.blocks[:1]:
            lines.extend(wrapped(numbers.fill(block.text, snapshot.units), width, FAINT, indent="    "))
    if step.live:
        lines.extend(wrapped("live: works on an energised circuit", width, BAD, indent="    "))
    return lines


def step_details(snapshot: Snapshot, step: Step, width: int) -> list[Line]:
    """Caution, what must be true first and what would release it, what is recorded."""
    lines: list[Line] = []
    if step.caution and step.state not in ("done", "skipped"):
        lines.extend(wrapped(f"caution: {step.caution}", width, WARN, indent="    "))
    first = 1 if step.state == "held" or (step.state == "waiting" and len(step.blocks) == 1) else 0
    for index, block in enumerate(step.blocks):
        if index >= first:
            lines.extend(
                wrapped(f"first: {numbers.fill(block.text, snapshot.units)}", width, PLAIN, indent="    ")
            )
        release = numbers.fill(block.release, snapshot.units)
        if block.due is not None:
            release = f"{release} (from {moment(block.due, snapshot.now)})"
        if release:
            lines.extend(wrapped(f"released by: {release}", width, FAINT, indent="    "))
    if step.record:
        lines.extend(wrapped(f"record: {', '.join(step.record)}", width, FAINT, indent="    "))
    where = "under the vehicle" if step.under else "beside it"
    minutes = f"{numbers.minutes_text(step.minutes)} min" if step.minutes else "no minutes"
    lines.extend(wrapped(f"{minutes} planned, {where}", width, FAINT, indent="    "))
    return lines


def next_step(steps: Sequence[Step], offered: Sequence[str] = ()) -> Step | None:
    """The step that a key acts on where none is chosen: the one at work, else what is offered first.

    offered : what may start now, best first, as the day's plan has it: work that can go on while adhesive cures
        before other work. A step that only waits for its time, adhesive or paper, is not at work: nobody is kept there.
    """
    by_id = {step.id: step for step in steps}
    at_work = [step for step in steps if step.state == "running" and not step.finishing]
    may_start = [by_id[each] for each in offered if each in by_id]
    may_start += [step for step in steps if step.state == "ready" or (step.lapsed and step.state != "held")]
    waiting = [step for step in steps if step.state == "running"]
    return next(iter((*at_work, *may_start, *waiting)), None)


def led_to(snapshot: Snapshot) -> Step | None:
    """The step to which the Steps pane leads."""
    day = snapshot.assessment.day
    return next_step(snapshot.assessment.steps, day.offered if day is not None else ())


def day_text(snapshot: Snapshot, width: int) -> str:
    """Time left until today's stop, and what is planned; what has no room is left out whole."""
    assessment = snapshot.assessment
    under, beside_it = (
        numbers.minutes_span(assessment.under_left),
        numbers.minutes_span(assessment.beside_left),
    )
    planned = f"to do: {under} under, {beside_it} beside"
    if assessment.minutes_left is None:
        return planned if width_of(planned) <= width else f"to do: {under}"
    left = (
        "over today's stop"
        if assessment.minutes_left <= 0
        else f"{numbers.minutes_span(assessment.minutes_left)} left today"
    )
    return f"{left}, {planned}" if width_of(f"{left}, {planned}") <= width else left
