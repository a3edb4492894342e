"""What stands first at this moment of the work and is no figure: the slot wanted, a reading, a timer, a count.

Which facts those are stands with the assessment (`moments.py`); here is how each is said. Nothing is worked out.
"""

from collections.abc import Callable

from logic.assessment.moments import MOMENTS
from logic.data.state import SlotView
from logic.data.step import Step
from tui.show import numbers
from tui.show.clock import moment, span
from tui.show.desk_words import next_alarm
from tui.show.names import place_name
from tui.show.rows import BAD, GOOD, PLAIN, STRONG, WARN
from tui.show.snapshot import Snapshot

Fact = tuple[str, str, str]  # label, what is said, role
BOND, PROVE = "bond-pad", "prove"


def facts_first(snapshot: Snapshot) -> list[Fact]:
    """The facts of the moment, the first ones first, the last ones last."""
    order = MOMENTS.get(snapshot.assessment.moment)
    if order is None:
        return []
    told: list[Fact] = []
    for name in (*order.first, *order.then, *order.last):
        maker = FACTS.get(name)
        if maker is not None:
            told.extend(maker(snapshot))
    return told


def of_slot(slot: str, label: str) -> Callable[[Snapshot], list[Fact]]:
    """A reading, or that there is none."""

    def fact(snapshot: Snapshot) -> list[Fact]:
        view = snapshot.slot(slot)
        return [(label, reading(snapshot, view), STRONG)] if view is not None else []

    return fact


def reading(snapshot: Snapshot, view: SlotView) -> str:
    if not view.readings:
        return "not read"
    last = view.readings[-1]
    return f"{numbers.reading_text(last, view.kind, snapshot.units)}, {moment(last.when.at, snapshot.now)}"


def bonds(snapshot: Snapshot) -> list[Step]:
    """The bonds that are not done."""
    return [step for step in snapshot.assessment.steps if step.template == BOND and step.state != "done"]


def dew(snapshot: Snapshot) -> list[Fact]:
    """What holds the next bond: the surface, the dew point; as its step says it."""
    step = next(iter(bonds(snapshot)), None)
    if step is None:
        return []
    return [
        (place_name(step.place, snapshot.profile), numbers.fill(block.text, snapshot.units), BAD)
        for block in step.blocks
        if not block.id.startswith("step:")
    ]


def alarm(snapshot: Snapshot) -> list[Fact]:
    found = next_alarm(snapshot)
    if found is None:
        return [("next alarm", "none", PLAIN)]
    due, title = found
    return [("next alarm", f"{title} {moment(due, snapshot.now)}, in {span(due - snapshot.now.at)}", STRONG)]


def least_surface(snapshot: Snapshot) -> list[Fact]:
    """What the sheet of the next pad asks of the surface."""
    step = next(iter(bonds(snapshot)), None)
    name = step.place.partition(".")[2] if step is not None else ""
    heater = next((each for each in snapshot.profile.heaters if each.id == name), None)
    if heater is None:
        return []
    least = numbers.value_text(heater.least_surface_degc, "temperature", snapshot.units)
    return [("least surface by its sheet", least, PLAIN)]


def dwells(snapshot: Snapshot) -> list[Fact]:
    """Every dwell that runs, with its end."""
    return [
        (
            f"dwell {place_name(step.place, snapshot.profile)}",
            f"until {moment(step.due, snapshot.now)}",
            PLAIN,
        )
        for step in snapshot.assessment.steps
        if step.template == "dwell" and step.due is not None and step.due > snapshot.now.at
    ]


def isolations(snapshot: Snapshot) -> list[Fact]:
    return [
        (f"{place_name(view.place, snapshot.profile)} isolation", reading(snapshot, view), PLAIN)
        for view in snapshot.assessment.slots
        if view.slot.endswith(".isolation")
    ]


def see_tests(snapshot: Snapshot) -> list[Fact]:
    return [("expected beside measured", "Ctrl+T", STRONG)]


def stops(snapshot: Snapshot) -> list[Fact]:
    verdict = snapshot.assessment.verdict
    return [("stops", numbers.count_text(verdict.stop, "entry"), GOOD if verdict.closable else BAD)]


def needs_open(snapshot: Snapshot) -> list[Fact]:
    count = snapshot.assessment.verdict.needs_open
    return [("want the belly open", numbers.count_text(count, "entry"), WARN if count else GOOD)]


def untested(snapshot: Snapshot) -> list[Fact]:
    count = sum(1 for each in snapshot.assessment.findings if each.rule == "untested" and not each.accepted)
    return [("untested", numbers.count_text(count, "reading"), BAD if count else GOOD)]


def notes(snapshot: Snapshot) -> list[Fact]:
    return [("notes", numbers.count_text(snapshot.assessment.verdict.note, "entry"), PLAIN)]


# What is wanted, what is owed and what was taken stand in the reading line, always.
FACTS: dict[str, Callable[[Snapshot], list[Fact]]] = {
    "@surface": of_slot("work.surface", "surface"),
    "@over-dew-point": dew,
    "@alarm": alarm,
    "@least-surface": least_surface,
    "@dwell": dwells,
    "@leads": of_slot("meter.leads", "meter's leads"),
    "@isolation": isolations,
    "@expected-current": see_tests,
    "@stops": stops,
    "@needs-open": needs_open,
    "@untested": untested,
    "@notes": notes,
}
