"""The lines around the panes: the head, the line of alarms, what the reading line asks, what comes after."""

from logic.data.state import SlotView
from tui.show.cells import shorten, width_of
from tui.show.clock import moment, span, time_of_day, weekday
from tui.show.desk_words import asked, next_alarm, stop_of_today
from tui.show.names import live_names, place_name
from tui.show.punch_rows import verdict_text
from tui.show.rows import BAD, FAINT, GOOD, HEAD, PLAIN, STRONG, WARN, Line, Span, line, line_width, spread
from tui.show.snapshot import Snapshot


def head_line(snapshot: Snapshot, width: int) -> Line:
    """Rig, day, clock on the left; the verdict on the right, never cut."""
    verdict = snapshot.assessment.verdict
    right = line(Span(f" {verdict_text(verdict)} ", GOOD if verdict.closable else BAD))
    now = snapshot.now
    clock = f"{weekday(now.at, now.offset)} {time_of_day(now.at, now.offset)}"
    days = len(snapshot.state.days)
    told = f"day {days}, {clock}" if days else clock
    room = width - line_width(right) - width_of(told) - 3
    name = shorten(snapshot.profile.rig.name, room) if room >= 8 else ""
    left = line(Span(name, STRONG), Span(f"{', ' if name else ''}{told}", PLAIN))
    return spread(left, right, width)


def alarm_line(snapshot: Snapshot, width: int) -> Line:
    """What is live, the next alarm, today's stop: the most urgent first, labels shortened, times never."""
    assessment, marks = snapshot.assessment, snapshot.marks
    parts: list[tuple[str, str, str]] = []  # what may be shortened, what may not, role
    if snapshot.unsaved:
        tried = f" {marks.then} tried again every 5 s {marks.then} F4 copies elsewhere"
        parts.append((f"NOT SAVED: {snapshot.unsaved}{tried}", "", BAD))
    if snapshot.holder_gone:
        parts.append((snapshot.held_by, ": F4 takes over", BAD))
    elif snapshot.held_by:
        parts.append((f"only looked at: {snapshot.held_by}", "", BAD))
    if assessment.live:
        parts.append((f"{marks.live} LIVE: {live_names(snapshot)}", "", BAD))
    alarm = next_alarm(snapshot)
    if alarm is not None:
        due, title = alarm
        until = f" {moment(due, snapshot.now)} (in {span(due - snapshot.now.at)})"
        parts.append((f"{marks.timer} {title}", until, STRONG))
    stop = stop_of_today(snapshot)
    if stop is not None:
        left = stop - snapshot.now.at
        said = f"{span(left)} left" if left > 0 else f"{span(left)} over"
        parts.append(("stop at", f" {moment(stop, snapshot.now)}, {said}", PLAIN if left > 0 else WARN))
    lapsed = sum(1 for step in assessment.steps if step.lapsed)
    if lapsed:
        parts.append(("make safe has lapsed: do it again", "", WARN))
    if not parts:
        parts.append(("nothing live, no timer, no stop time set for today", "", FAINT))
    return laid_out(parts, width, f" {marks.then} ")


def laid_out(parts: list[tuple[str, str, str]], width: int, between: str) -> Line:
    """The parts in one line; where they are too long, labels are shortened, then the last parts left out."""
    while parts:
        fixed = sum(width_of(tail) for _, tail, _ in parts) + width_of(between) * (len(parts) - 1)
        labels = [width_of(label) for label, _, _ in parts]
        room = width - fixed
        if sum(labels) <= room or room >= 10 * len(parts):
            break
        parts = parts[:-1]
    if not parts:
        return ()
    spans: list[Span] = []
    share = room
    for index, (label, tail, role) in enumerate(parts):
        rest = labels[index + 1 :]
        mine = max(share - sum(rest), share // (len(rest) + 1))
        said = shorten(label, mine)
        share -= width_of(said)
        spans.extend((Span(between if index else "", FAINT), Span(said + tail, role)))
    return line(*spans)


def prompt_line(snapshot: Snapshot, view: SlotView | None, width: int, *, named: bool = False) -> Line:
    """The prompt of the reading line, shortened in the place's name where it must be: slot and unit stay.

    named : a name stands in the line, whether of a slot or not.
    """
    full = asked(snapshot, view, named=named)
    if width_of(full) > width and view is not None:
        tail = f" {snapshot.marks.then} {view.title}, {view.own_unit}"
        name = place_name(view.place, snapshot.profile)
        full = (
            shorten(name, width - width_of(tail)) + tail if width - width_of(tail) >= 4 else tail.strip(" ·-")
        )
    return line(Span(full, HEAD if view is not None else FAINT))


def then_line(snapshot: Snapshot, width: int, *, listed: tuple[str, ...] = ()) -> Line:
    """The two slots that come after, and how many readings are owed; `listed`: the slots that a `;` list fills."""
    owed = snapshot.owed
    right = line(Span(f"{owed} owed" if owed else "none owed", WARN if owed else GOOD))
    room = width - line_width(right) - 2
    names = listed or snapshot.after[:2]
    if not names:
        return spread(line(), right, width)
    views = [snapshot.slot(name) for name in names]
    target = snapshot.slot(snapshot.target)
    here = target.place if target is not None else ""
    told = []
    for view in views:
        if view is None:
            continue
        told.append(
            view.title if view.place == here else f"{place_name(view.place, snapshot.profile)} {view.title}"
        )
        here = view.place
    word = "fills then" if listed else "then"
    return spread(line(Span(shorten(f"{word} {', '.join(told)}", room), FAINT)), right, width)
