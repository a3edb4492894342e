"""The day's record as rows: minutes planned and left, then everything that happened, by day, the newest day first."""

from collections.abc import Mapping, Sequence

from logic.data import events as happened
from logic.data.events import Event
from logic.data.state import Reading
from logic.data.typed_text import typed_with_unit
from tui.show import numbers
from tui.show.cells import pad, plain
from tui.show.clock import DAY, date, local_seconds, moment, time_of_day, weekday
from tui.show.names import name_of
from tui.show.rows import FAINT, HEAD, PLAIN, STRONG, Line, Row, Span, line, wrapped
from tui.show.snapshot import HIDDEN, Snapshot, blind
from tui.show.step_rows import day_text, step_title

TIME_COLUMN = 8
MOST_NAMED = 5  # steps that fit, by their titles


def day_rows(snapshot: Snapshot, events: Sequence[Event], width: int) -> list[Row]:
    """Deeds on top, then the days."""
    plan = (
        *wrapped(day_text(snapshot, width), width, STRONG),
        *left_lines(snapshot, width),
        *planned_lines(snapshot, width),
    )
    rows = [Row("plan", (*plan, ()), choosable=False)]  # nothing is done with it: Enter is for a deed
    for key, said in deeds(snapshot):
        rows.append(Row(key, (line(Span(said, HEAD)),)))
    undone = gone(events)
    days: dict[int, list[Event]] = {}
    for event in events:
        days.setdefault(local_seconds(event.at, event.offset) // DAY, []).append(event)
    for number in sorted(days, reverse=True):
        first = days[number][0]
        name = f"{weekday(first.at, first.offset)} {date(first.at, first.offset)}"
        rows.append(Row(f"day:{number}", ((), line(Span(name, HEAD))), choosable=False))
        rows.extend(event_row(snapshot, event, width, undone=event.id in undone) for event in days[number])
    return rows


def left_lines(snapshot: Snapshot, width: int) -> tuple[Line, ...]:
    """Today's stop, days worked."""
    days = snapshot.state.days
    if not days:
        return wrapped("no day begun yet: minutes are counted, today's stop is not", width, FAINT)
    open_day = days[-1].ended is None
    stop = days[-1].stop_at
    said = f"day {len(days)}, {'open' if open_day else 'ended'}"
    if open_day and stop is not None:
        said += f", stop at {moment(stop, snapshot.now)}"
    return wrapped(said, width, PLAIN)


def planned_lines(snapshot: Snapshot, width: int) -> tuple[Line, ...]:
    """Minutes spent today, what fits into what is left of it, what comes first tomorrow, and whose minutes they are."""
    day = snapshot.assessment.day
    if day is None:
        return ()
    titles = {step.id: step_title(snapshot, step) for step in snapshot.assessment.steps}
    told: list[tuple[str, str]] = []
    if day.spent >= 1:
        told.append((f"at work today: {numbers.minutes_span(day.spent)}", PLAIN))
    if day.minutes_left is not None:
        told.append((f"fits into today: {named(day.fits, titles) or 'no step that may start'}", PLAIN))
    if day.tomorrow:
        told.append((f"first tomorrow: {named(day.tomorrow, titles)}", PLAIN))
    told.append((numbers.fill(day.pace, snapshot.units), FAINT))
    return tuple(each for text, role in told for each in wrapped(text, width, role))


def named(steps: Sequence[str], titles: Mapping[str, str]) -> str:
    """The first few steps by their titles, and how many more there are."""
    said = "; ".join(titles.get(each, each) for each in steps[:MOST_NAMED])
    return f"{said}; and {len(steps) - MOST_NAMED} more" if len(steps) > MOST_NAMED else said


def deeds(snapshot: Snapshot) -> list[tuple[str, str]]:
    """What can be done from here with Enter."""
    days = snapshot.state.days
    is_open = bool(days) and days[-1].ended is None
    found = [("deed:begin-day", "set today's stop anew" if is_open else "begin a day, and say when it stops")]
    if is_open:
        found.append(("deed:end-day", "end the day"))
    whom = "a technician again" if snapshot.state.first_timer else "a first-timer: they take longer"
    found.append(("deed:pace", f"plan minutes for {whom}"))
    return [*found, ("deed:note", "write a note"), ("deed:tape", "say what the tape resolves")]


def gone(events: Sequence[Event]) -> set[str]:
    """Ids of events that an undo named, and no redo brought back."""
    from logic.session.undo import undone_ids

    return set(undone_ids(events))


def event_row(snapshot: Snapshot, event: Event, width: int, *, undone: bool) -> Row:
    """One event: when, what, by whom; an undone one says so."""
    said = event_text(snapshot, event)
    if undone:
        said += " (undone)"
    clock = pad(time_of_day(event.at, event.offset), TIME_COLUMN)
    first, *rest = wrapped(said, width - TIME_COLUMN, FAINT if undone else PLAIN)
    return Row(
        f"event:{event.id}",
        (line(Span(clock, FAINT), *first), *(line(" " * TIME_COLUMN, *each) for each in rest)),
    )


def event_text(snapshot: Snapshot, event: Event) -> str:
    """An event in words. A kind unknown to this version is called that."""
    payload = event.payload
    if payload is None:
        return "something that a newer version recorded"
    profile = snapshot.profile
    told: str
    match payload:
        case happened.SessionBegun():
            told = f"session begun: {payload.rig}"
        case happened.ReadingTaken():
            told = f"{name_of(payload.slot, profile)}: {as_read(snapshot, payload)}"
        case happened.ReadingStruck():
            told = f"struck: {taken(snapshot, payload.reading)}"
        case happened.ReadingMoved():
            told = f"moved to {name_of(payload.to, profile)}: {taken(snapshot, payload.reading)}"
        case happened.StepStarted() | happened.StepDone() | happened.StepHeld() | happened.StepSkipped():
            word = type(payload).__name__.removeprefix("Step").lower()
            note = f" ({payload.note})" if payload.note else ""
            told = f"step {word}: {name_of(payload.step, profile)}{note}"
        case happened.StepOverruled():
            gate = f"{payload.gate.replace('-', ' ')} of {name_of(payload.step, profile)}"
            told = f"overruled by {payload.name}: {gate} ({payload.reason})"
        case happened.StepRecorded():
            listed = ", ".join(f"{name}: {text}" for name, text in payload.recorded.items())
            told = f"{name_of(payload.step, profile)}: {listed}"
        case happened.ItemWritten():
            told = f"item, {payload.weight}: {payload.text}"
        case happened.NoteWritten():
            told = f"note: {payload.text}"
        case happened.ItemAccepted() | happened.FindingAccepted():
            about = payload.item if isinstance(payload, happened.ItemAccepted) else payload.finding
            told = f"accepted by {payload.name}: {accepted_text(snapshot, about)} ({payload.reason})"
        case happened.DayBegun():
            stop = f", stop at {moment(payload.stop_at, snapshot.now)}" if payload.stop_at is not None else ""
            told = f"day begun{stop}"
        case happened.PaceSet():
            told = f"minutes planned for a {'first-timer' if payload.first_timer else 'technician'}"
        case happened.ProfileChanged():
            value = bytes(payload.value).decode(errors="replace")
            told = (
                f"{name_of(payload.path, profile)} changed to {value.strip(chr(34))}"
                if value != "null"
                else f"{name_of(payload.path, profile)} left out: the default holds"
            )
        case happened.PartTicked():
            told = f"{'ticked' if payload.ticked else 'unticked'}: {payload.part}"
        case happened.PartAdded() | happened.PartRemoved():
            about = payload.part_kind + (
                f" {payload.id}" if isinstance(payload, happened.PartRemoved) else ""
            )
            told = f"{'added' if isinstance(payload, happened.PartAdded) else 'taken away'}: {about}"
        case _:
            told = str(payload.__struct_config__.tag).replace("-", " ")
    return plain(told)


def taken(snapshot: Snapshot, reading_id: str) -> str:
    """A reading by its place and what was typed."""
    reading = snapshot.reading(reading_id)
    return (
        f"{name_of(reading.slot, snapshot.profile)} {as_read(snapshot, reading)}"
        if reading is not None
        else "a reading"
    )


def as_read(snapshot: Snapshot, reading: Reading | happened.ReadingTaken) -> str:
    """What was typed, with the unit in which it was read; not before a blind second reading."""
    view = snapshot.slot(reading.slot)
    hidden = view is not None and blind(view)
    return HIDDEN if hidden else typed_with_unit(reading.typed, reading.unit)


def accepted_text(snapshot: Snapshot, about: str) -> str:
    """What was accepted: an item by what was written, a finding by what it is about."""
    item = next((each for each in snapshot.state.items if each.id == about), None)
    return item.text if item is not None else name_of(about, snapshot.profile)
