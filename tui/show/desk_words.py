"""Sentences that several parts of the screen say alike: what is asked, what was taken, what it moved, alarms."""

from collections.abc import Sequence

from logic.data.state import SlotView
from tui.show import numbers
from tui.show.clock import moment
from tui.show.names import ordinal, place_name
from tui.show.said import ENTRY
from tui.show.snapshot import Snapshot, blind

# Rules about a reading that is taken all the same, and asked about beside it.
ASKED_BESIDE = ("dispute", "impossible", "far-from-plan")


def next_alarm(snapshot: Snapshot) -> tuple[float, str] | None:
    """(when, what) of the timer that ends next; None where none runs."""
    timers = [
        (
            step.due,
            f"{step.title}{of_place(step.title, step.place)}",
        )
        for step in snapshot.assessment.steps
        if step.due is not None and step.due > snapshot.now.at
    ]
    return min(timers, default=None)


def of_place(title: str, place: str) -> str:
    """Whose a timer is, where its title doesn't say so itself; nothing for the rig's."""
    name = "" if place == "rig" else place.rpartition(".")[2]
    return f", {name}" if name and name not in title.replace(",", " ").split() else ""


def stop_of_today(snapshot: Snapshot) -> float | None:
    """When today's work stops, epoch seconds; None where no day is open or no stop was set."""
    days = snapshot.state.days
    return days[-1].stop_at if days and days[-1].ended is None else None


def asked(snapshot: Snapshot, view: SlotView | None, *, named: bool = False) -> str:
    """What the reading line asks for: place, slot, unit, which reading it is; `named`: a name is being typed."""
    if view is None and named:
        return "which slot? parts of its name, then the value"
    if view is None:
        return "nothing is owed: type a slot's name and a value"
    number = len(view.readings) + 1
    which = f", {ordinal(number)} reading" if number > 1 or view.deciding else ""
    return f"{place_name(view.place, snapshot.profile)} {snapshot.marks.then} {view.title}, {view.own_unit}{which}"


def taken_text(snapshot: Snapshot, reading_id: str) -> tuple[str, str]:
    """(what was recorded in words, its value as shown) of a reading just taken."""
    reading = snapshot.reading(reading_id)
    view = snapshot.slot(reading.slot) if reading is not None else None
    if reading is None or view is None:
        return "", ""
    value = numbers.reading_text(reading, view.kind, snapshot.units)
    clock = moment(reading.when.at, snapshot.now)
    said = f"taken {clock}: {place_name(view.place, snapshot.profile)}, {view.title} {value}"
    words = numbers.in_words(reading, view.kind, snapshot.units)
    return (f"{said} ({words})" if words else said), value


def asked_beside(snapshot: Snapshot, readings: Sequence[str]) -> list[str]:
    """What the rules about readings say of the slots just read: in dispute, contradicting, far from the plan."""
    read = {reading.slot for each in readings if (reading := snapshot.reading(each)) is not None}
    told = []
    for finding in snapshot.assessment.findings:
        if finding.place in read and finding.rule in ASKED_BESIDE:
            text, remedy = (numbers.fill(said, snapshot.units) for said in (finding.text, finding.remedy))
            told.append(f"{text}: {remedy}")
    return told


def moved_text(snapshot: Snapshot) -> str:
    """Which figures the last event moved, with the value before: those of the slot's own place first."""
    if not snapshot.moved:
        return ""
    target = snapshot.state.readings[-1].slot if snapshot.state.readings else ""
    figures = {figure.id: figure for figure in snapshot.assessment.figures}
    names = sorted(
        (name for name in snapshot.moved if name in figures),
        key=lambda name: target not in figures[name].slots,
    )
    told = []
    for name in names:
        figure = figures[name]
        text = numbers.figure_text(figure, snapshot.units)
        before = snapshot.moved[name]
        now = f"{numbers.BAND}{text.band}" if before.startswith(numbers.BAND) else text.value
        told.append(f"{figure.title} {now} (was {before})")
    return ENTRY.join(told)


def last_taken(snapshot: Snapshot) -> str:
    """The reading taken last, its value out of sight where the second is still owed."""
    standing = [reading for reading in snapshot.state.readings if not reading.struck]
    if not standing:
        return "no reading taken yet"
    reading = standing[-1]
    view = snapshot.slot(reading.slot)
    if view is None:
        return f"last taken: {reading.slot}"
    value = "" if blind(view) else f" {numbers.reading_text(reading, view.kind, snapshot.units)}"
    place, when = place_name(view.place, snapshot.profile), moment(reading.when.at, snapshot.now)
    return f"last taken: {place} {view.title}{value}, {when}"
