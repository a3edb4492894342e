"""The last walk before closing: place by place, as one crawls, everything that will be out of sight.

A tank, what is bonded to it, its drain; then the next tank; then the runs from the supply outwards; then what
holds for the whole underside. Each look says what to see, whether the record has it, and what still stands
there.
"""

import msgspec

from logic.assessment.case import Case
from logic.data.finding import Finding
from logic.data.step import DONE, SKIPPED, Step
from logic.data.wording import Words, words

SEEN, OPEN, ACCEPTED = "done", "open", "accepted"


class Look(msgspec.Struct, frozen=True):
    """One thing to look at, lying there."""

    id: str  # of the step or the finding that it stands for
    text: Words
    state: str  # done | open | accepted
    weight: str = ""  # of a finding


class Halt(msgspec.Struct, frozen=True):
    """One place on the way, and all that is looked at there."""

    place: str  # tank.galley | heater.galley-a | drain.… | run.… | rig
    title: str
    looks: tuple[Look, ...]

    @property
    def open(self) -> int:
        return sum(1 for look in self.looks if look.state == OPEN)


# Steps whose result is seen on the walk, in the order in which it is looked at.
LOOKED_AT = (
    "confirm-supports", "dry-fit", "bond-pad", "seal-edges", "dwell", "leak-check", "confirm-valve",
    "drill", "pull", "clamp", "splice", "returns",
    "confirm-clamps", "confirm-entries", "confirm-clear", "confirm-splices", "confirm-drip-loops",
    "confirm-loose", "confirm-shunt", "confirm-spare-mains", "photographs",
)  # fmt: skip


def last_walk(case: Case, findings: tuple[Finding, ...]) -> tuple[Halt, ...]:
    """The halts of the last walk, in the order in which one crawls; a place with nothing to see is left out.

    `findings` : those of the same case. What is a note is left out: it changes nothing under there.
    """
    steps: dict[str, list[Step]] = {}
    for step in case.steps:
        if step.template in LOOKED_AT:
            steps.setdefault(step.place, []).append(step)
    found: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.weight != "note" and finding.rule not in _OF_STEPS:
            found.setdefault(part_of(finding.place), []).append(finding)
    halts = []
    for place, title in way_round(case):
        looks = [_of_step(step) for step in sorted(steps.get(place, ()), key=_rank)]
        looks += [_of_finding(finding) for finding in found.get(place, ())]
        if looks:
            halts.append(Halt(place=place, title=title, looks=tuple(looks)))
    return tuple(halts)


# What these say is said by the step itself.
_OF_STEPS = frozenset({"open-step", "held-step", "confirm", "dwell", "lapsed"})


def way_round(case: Case) -> tuple[tuple[str, str], ...]:
    """Every place under the vehicle once, in the order in which one crawls, with its title."""
    profile = case.profile
    way: list[tuple[str, str]] = []
    for tank in profile.tanks:
        way.append((f"tank.{tank.id}", f"{tank.id}, {tank.holds} tank"))
        way += [(f"heater.{heater.id}", f"pad {heater.id}") for heater in case.heaters_on(tank.id)]
        for drain in profile.drains:
            if drain.tank == tank.id:
                way.append((f"drain.{drain.id}", f"drain {drain.id}"))
                way += [(f"heater.{heater.id}", f"wrap {heater.id}") for heater in case.heaters_on(drain.id)]
    way += [(f"run.{run}", f"run {run}") for run in outwards(case)]
    way += [(f"bundle.{bundle}", f"bundle {bundle}") for bundle in _bundles(case)]
    way += [(f"bay.{bay.id}", f"bay {bay.id}") for bay in profile.bays]
    way += [("wiring", "wiring"), ("supply", "supply"), ("rig", "the whole underside")]
    return tuple(way)


def outwards(case: Case) -> tuple[str, ...]:
    """The runs from the supply outwards, each before those that come from it, in the profile's order."""
    children: dict[str, list[str]] = {}
    for run in case.profile.runs:
        children.setdefault(run.from_, []).append(run.id)
    found: list[str] = []
    waiting = list(reversed(children.get("supply", ())))
    while waiting:
        run_id = waiting.pop()
        found.append(run_id)
        waiting += reversed(children.get(run_id, ()))
    return tuple(found)


def _bundles(case: Case) -> tuple[str, ...]:
    return tuple(dict.fromkeys(run.bundle for run in case.profile.runs if run.bundle is not None))


def part_of(place: str) -> str:
    """The part that a place belongs to: `heater.a.resistance` → `heater.a`, `clamp:run.b` → `run.b`."""
    at = place.rpartition(":")[2]
    return ".".join(at.split(".")[:2])


def _rank(step: Step) -> int:
    return LOOKED_AT.index(step.template)


def _of_step(step: Step) -> Look:
    state = SEEN if step.state == DONE else ACCEPTED if step.state == SKIPPED else OPEN
    return Look(id=step.id, text=words("{step}", step=step.title), state=state)


def _of_finding(finding: Finding) -> Look:
    state = OPEN if finding.accepted is None else ACCEPTED
    return Look(id=finding.id, text=finding.text, state=state, weight=finding.weight)
