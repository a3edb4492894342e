"""Which figures stand first at each moment of the work, and which moment it is."""

import msgspec

from logic.assessment.steps.order import BY_ID
from logic.assessment.work_facts import WorkFacts
from logic.data.step import DONE, READY, RUNNING, Step

LATER = "a night, later"


class MomentOrder(msgspec.Struct, frozen=True):
    """What stands first, then, and last.

    `*` stands for any id; what begins with `@` is no figure but a fact of the session: the slot wanted, the
    value just taken, a reading, a timer, a count of the punch list.
    """

    first: tuple[str, ...]
    then: tuple[str, ...]
    last: tuple[str, ...]


MOMENTS: dict[str, MomentOrder] = {
    "planning": MomentOrder(
        first=("tank.*.holds_to", "drain.*.holds_to"),
        then=("supply.nights", "bay.*.low"),
        last=("tank.*.volume", "supply.usable"),
    ),
    "survey": MomentOrder(
        first=("@wanted", "@owed"),
        then=("@taken",),
        last=("heater.*.clearance", "heater.*.u_clearance"),
    ),
    "dry fit": MomentOrder(
        first=("heater.*.clearance", "heater.*.to_outlet"),
        then=("tank.*.least_level",),
        last=("heater.*.density",),
    ),
    "bonding": MomentOrder(
        first=("@surface", "@over-dew-point"),
        then=("@alarm", "@least-surface"),
        last=("@dwell",),
    ),
    "wiring": MomentOrder(
        first=("run.*.gauge", "run.*.fuse", "run.*.cut"),
        then=("run.*.drop", "run.*.return_current"),
        last=("bundle.*.clamps", "bundle.*.sleeve"),
    ),
    "cold tests": MomentOrder(
        first=("@expected-ohms", "@thermostat-closed", "heater.*.resistance"),
        then=("@leads", "@isolation"),
        last=("run.*.resistance",),
    ),
    "loaded tests": MomentOrder(
        first=("@expected-current", "@expected-volts"),
        then=("@extra-resistance", "@warmth"),
        last=("@joint-watts",),
    ),
    "fill": MomentOrder(
        first=("@to-go", "tank.*.least", "tank.*.least_level"),
        then=("@may-fill", "@dwell"),
        last=("@full-weight", "tank.*.volume"),
    ),
    "closing": MomentOrder(
        first=("@stops", "@needs-open"),
        then=("@untested",),
        last=("@notes",),
    ),
    LATER: MomentOrder(
        first=("@levels",),
        then=(
            "@supply-volts",
            "supply.hours",
            "tank.*.hours_to_ice_least",
            "tank.*.hours_to_ice",
            "supply.usable",
        ),
        last=("tank.*.spell.duty",),
    ),
}


def moment_of(facts: WorkFacts, steps: tuple[Step, ...]) -> str:
    """The moment of the work: of the step that runs, else of the last one touched, else of the next."""
    running = [step for step in steps if step.state == RUNNING and step.template != "dwell"]
    newest = max(running, key=lambda step: step.started or 0.0, default=None)
    if newest is not None and BY_ID[newest.template].moment:
        return BY_ID[newest.template].moment
    if any(step.template == "close" and step.state == DONE for step in steps):
        return LATER
    touched = [
        (facts.steady.of(events[-1].id), BY_ID[step.partition(":")[0]].moment)
        for step, events in facts.events.items()
        if step.partition(":")[0] in BY_ID and BY_ID[step.partition(":")[0]].moment
    ]
    if touched:
        return max(touched)[1]
    ready = next((step for step in steps if step.state == READY and BY_ID[step.template].moment), None)
    return BY_ID[ready.template].moment if ready is not None else "planning"
