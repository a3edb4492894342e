"""What is said on coming back, as lines: the last reading, the next, what is live, alarms, make-safe, what
stops."""

from tui.show.clock import moment, span
from tui.show.desk_words import asked, last_taken, next_alarm
from tui.show.names import live_names
from tui.show.punch_rows import verdict_text
from tui.show.rows import BAD, FAINT, GOOD, HEAD, PLAIN, STRONG, WARN, Line, Span, line, wrapped
from tui.show.snapshot import Snapshot
from tui.show.step_rows import led_to, step_title

MOST_RANG = 3


def coming_back_lines(snapshot: Snapshot, notices: list[str], width: int, height: int) -> list[Line]:
    """The lines, the most needed first; what doesn't fit the height is left out from the end, the last line stays."""
    told: list[tuple[str, str]] = [*((each, BAD) for each in notices)]
    assessment = snapshot.assessment
    last = snapshot.state.last
    if last is not None:
        since = snapshot.now.at - last.at
        ago = f"{span(since)} ago" if since >= 0 else "by the clock as it went then"
        told.append((f"last worked on {moment(last.at, snapshot.now)}, {ago}", PLAIN))
    if assessment.live:
        told.append((f"LIVE: {live_names(snapshot)}", BAD))
    if any(step.lapsed for step in assessment.steps):
        told.append(("make safe has lapsed: do it again before anything under the vehicle or on wire", WARN))
    told.append((last_taken(snapshot), PLAIN))
    told.append(
        (f"wanted next: {asked(snapshot, snapshot.slot(snapshot.target))}, {snapshot.owed} owed", STRONG)
    )
    step = led_to(snapshot)
    if step is not None:
        word = "at work" if step.state == "running" else "next step"
        told.append((f"{word}: {step_title(snapshot, step)}", PLAIN))
    told.extend(rang(snapshot))
    alarm = next_alarm(snapshot)
    if alarm is not None:
        due, title = alarm
        told.append((f"{title} until {moment(due, snapshot.now)}, in {span(due - snapshot.now.at)}", PLAIN))
    verdict = assessment.verdict
    told.append((verdict_text(verdict), GOOD if verdict.closable else BAD))
    lines: list[Line] = [line(Span("You are back", HEAD)), ()]
    for text, role in told:
        lines.extend(wrapped(text, width, role))
    return [
        *lines[: max(1, height - 2)],
        (),
        line(Span("any key goes on; a digit goes into the line", FAINT)),
    ]


def rang(snapshot: Snapshot) -> list[tuple[str, str]]:
    """Timers that ended since the last event."""
    last = snapshot.state.last
    if last is None:
        return []
    ended = [
        step for step in snapshot.assessment.steps
        if step.due is not None and last.at < step.due <= snapshot.now.at
    ]  # fmt: skip
    return [
        (f"over meanwhile: {step_title(snapshot, step)}, {moment(step.due or 0.0, snapshot.now)}", STRONG)
        for step in ended[:MOST_RANG]
    ]
