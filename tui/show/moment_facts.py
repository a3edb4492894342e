"""What stands first at this moment of the work and is no figure: the slot wanted, a reading, a timer, a count.

Which facts those are stands with the assessment (`moments.py`); here is how each is said. Nothing is worked out.
"""

from collections.abc import Callable
from fnmatch import fnmatchcase

from logic.assessment.facts_now import FactNow, facts_now
from logic.assessment.moments import MOMENTS
from logic.data.figure import Figure
from logic.data.profile import Profile
from logic.data.state import SlotView
from logic.data.step import Step
from tui.show import numbers
from tui.show.clock import moment, span
from tui.show.desk_words import next_alarm
from tui.show.names import place_name
from tui.show.rows import BAD, GOOD, PLAIN, STRONG, WARN
from tui.show.snapshot import Snapshot

Fact = tuple[str, str, str]  # label, what is said, role
BOND = "bond-pad"
ROLES = {"good": GOOD, "off": BAD, "untested": WARN}


def facts_first(snapshot: Snapshot, here: str) -> list[Fact]:
    """The facts of the moment, the first ones first, the last ones last. `here`: the place at work, or empty."""
    order = MOMENTS.get(snapshot.assessment.moment)
    if order is None:
        return []
    names = (*order.first, *order.then, *order.last)
    worked = facts_now(snapshot.assessment, snapshot.state, names, here)
    told: list[Fact] = []
    for name in names:
        maker = FACTS.get(name)
        if maker is not None:
            told.extend(maker(snapshot, here))
        told.extend(in_words(snapshot, fact) for fact in worked.get(name, ()))
    return told


def figures_first(snapshot: Snapshot, here: str) -> list[tuple[str, Figure]]:
    """(label, figure) of those that stand first at this moment and are another place's than the one at work.

    Those of the place at work stand right below, in its own section. Of other places, those that belong to it
    count, and those of the whole rig.
    """
    order = MOMENTS.get(snapshot.assessment.moment)
    if order is None:
        return []
    profile = snapshot.profile
    near = related(profile, here)
    told: list[tuple[str, Figure]] = []
    for pattern in (*order.first, *order.then):
        found = [figure for figure in snapshot.assessment.figures if fnmatchcase(figure.id, pattern)]
        if any(figure.place == here for figure in found):
            continue
        told.extend(
            (f"{place_name(figure.place, profile)}, {figure.title}", figure)
            for figure in found
            if not here or figure.place in near or figure.place.partition(".")[0] in ("supply", "bay")
        )
    return told


def related(profile: Profile, here: str) -> set[str]:
    """The places that belong to a place: a pad's tank, a tank's pads and drains, what a run feeds."""
    kind, _, name = here.partition(".")
    on = {heater.id: heater.on for heater in profile.heaters}
    tank_of = {drain.id: drain.tank for drain in profile.drains}
    if kind == "run":
        fed = next((run.feeds for run in profile.runs if run.id == name), ())
        return {f"heater.{heater}" for heater in fed}
    if kind == "heater" and name in on:
        return {f"tank.{tank_of.get(on[name], on[name])}"}
    tank = tank_of.get(name, name)
    drains = {drain for drain, owner in tank_of.items() if owner == tank}
    pads = {f"heater.{heater}" for heater, at in on.items() if at == tank or at in drains}
    return {f"tank.{tank}", *(f"drain.{drain}" for drain in drains), *pads}


def in_words(snapshot: Snapshot, fact: FactNow) -> Fact:
    """A fact that the assessment works out."""
    place = f"{place_name(fact.place, snapshot.profile)} " if fact.place else ""
    mark = {"good": f" {snapshot.marks.holds}", "off": f" {snapshot.marks.fails}"}.get(fact.state, "")
    said = numbers.fill(fact.said, snapshot.units)
    return f"{place}{fact.label}", f"{said}{mark}", ROLES.get(fact.state, STRONG)


def of_slot(slot: str, label: str) -> Callable[[Snapshot, str], list[Fact]]:
    """A reading, or that there is none."""

    def fact(snapshot: Snapshot, _here: str) -> list[Fact]:
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


def alarm(snapshot: Snapshot, _here: str) -> list[Fact]:
    found = next_alarm(snapshot)
    if found is None:
        return [("next alarm", "none", PLAIN)]
    due, title = found
    return [("next alarm", f"{title} {moment(due, snapshot.now)}, in {span(due - snapshot.now.at)}", STRONG)]


def least_surface(snapshot: Snapshot, _here: str) -> list[Fact]:
    """What the sheet of the next pad asks of the surface."""
    step = next(iter(bonds(snapshot)), None)
    name = step.place.partition(".")[2] if step is not None else ""
    heater = next((each for each in snapshot.profile.heaters if each.id == name), None)
    if heater is None:
        return []
    least = numbers.value_text(heater.least_surface_degc, "temperature", snapshot.units)
    return [("least surface by its sheet", least, PLAIN)]


def dwells(snapshot: Snapshot, here: str) -> list[Fact]:
    """Every dwell that runs, with its end; only those at the place at work, where one is in hand."""
    near = {here, *related(snapshot.profile, here)}
    return [
        (
            f"dwell {place_name(step.place, snapshot.profile)}",
            f"until {moment(step.due, snapshot.now)}",
            PLAIN,
        )
        for step in snapshot.assessment.steps
        if step.template == "dwell"
        and step.due is not None
        and step.due > snapshot.now.at
        and (step.place in near or here.partition(".")[0] not in ("tank", "heater", "drain"))
    ]


def stops(snapshot: Snapshot, _here: str) -> list[Fact]:
    verdict = snapshot.assessment.verdict
    return [("stops", numbers.count_text(verdict.stop, "entry"), GOOD if verdict.closable else BAD)]


def needs_open(snapshot: Snapshot, _here: str) -> list[Fact]:
    count = snapshot.assessment.verdict.needs_open
    return [("want the belly open", numbers.count_text(count, "entry"), WARN if count else GOOD)]


def untested(snapshot: Snapshot, _here: str) -> list[Fact]:
    count = sum(1 for each in snapshot.assessment.findings if each.rule == "untested" and not each.accepted)
    return [("untested", numbers.count_text(count, "reading"), BAD if count else GOOD)]


def notes(snapshot: Snapshot, _here: str) -> list[Fact]:
    return [("notes", numbers.count_text(snapshot.assessment.verdict.note, "entry"), PLAIN)]


# What is wanted, what is owed and what was taken stand in the reading line, always.
FACTS: dict[str, Callable[[Snapshot, str], list[Fact]]] = {
    "@surface": of_slot("work.surface", "surface"),
    "@alarm": alarm,
    "@least-surface": least_surface,
    "@dwell": dwells,
    "@leads": of_slot("meter.leads", "meter's leads"),
    "@supply-volts": of_slot("supply.volts", "volts of the supply"),
    "@stops": stops,
    "@needs-open": needs_open,
    "@untested": untested,
    "@notes": notes,
}
