"""The last walk before closing: place by place, as one crawls, everything that will be out of sight.

A tank, what is bonded to it, its drain; then the next tank; then the runs from the supply outwards; then what
holds for the whole underside. Each place says what lies there, what was read, proven and seen of it, and what
still stands there. Every stop of the punch list stands at one place of the walk, and at one only.
"""

from collections.abc import Iterable

import msgspec

from logic.assessment.case import Case, assessed_case
from logic.assessment.last_walk_record import lies_there, proven_at, read_at
from logic.assessment.steps.order import comes_before_closing
from logic.data.finding import NOTE, STOP, Finding
from logic.data.place_names import place_name
from logic.data.profile import Profile
from logic.data.state import Assessment, State
from logic.data.step import DONE, SKIPPED, Step
from logic.data.wording import Words, words

SEEN, OPEN, ACCEPTED = "done", "open", "accepted"
STEP, READ, PROVEN, FINDING, OTHER_STEP, ITEM = "step", "read", "proven", "finding", "other step", "item"


class Look(msgspec.Struct, frozen=True):
    """One thing to look at, lying there."""

    id: str  # of the step, the finding or the item that it stands for; of what was read or proven
    text: Words
    state: str  # done | open | accepted
    weight: str = ""  # of a finding, or of the finding about this step
    kind: str = STEP  # step | read | proven | finding | other step | item
    rule: str = ""  # of a finding
    about: str = ""  # the step, the slot or the place where it is put right
    remedy: Words | None = None

    @property
    def stops(self) -> bool:
        """Whether it stops closing."""
        return self.state == OPEN and self.weight == STOP


class Halt(msgspec.Struct, frozen=True):
    """One place on the way, and all that is looked at there."""

    place: str  # tank.galley | heater.galley-a | drain.… | run.… | rig
    title: str
    looks: tuple[Look, ...]
    there: Words | None = None  # what lies there

    @property
    def open(self) -> int:
        return sum(1 for look in self.looks if look.state == OPEN)

    @property
    def stops(self) -> int:
        """How many stops of the punch list stand here."""
        return sum(1 for look in self.looks if look.stops)


# Steps whose result is seen on the walk, in the order in which it is looked at.
LOOKED_AT = (
    "confirm-supports", "dry-fit", "bond-pad", "seal-edges", "dwell", "leak-check", "confirm-valve",
    "drill", "pull", "clamp", "splice", "returns",
    "confirm-clamps", "confirm-entries", "confirm-clear", "confirm-splices", "confirm-drip-loops",
    "confirm-loose", "confirm-shunt", "confirm-spare-mains", "photographs",
)  # fmt: skip

# Groups of which nothing is left under there but to look: closing is near when only these are open. Make safe is
# done again each day.
LAST_GROUPS = ("make safe", "confirm", "close")

# Rules that say what a step says itself.
_OF_STEPS = frozenset({"open-step", "held-step", "confirm", "dwell", "lapsed"})


def last_walk(case: Case, findings: tuple[Finding, ...]) -> tuple[Halt, ...]:
    """The halts of the last walk, in the order in which one crawls; a place with nothing to see is left out.

    `findings` : those of the same case. What is a note is left out: it changes nothing under there.
    """
    way = way_round(case)
    places = {place for place, _ in way}
    said_by_step = {finding.place: finding for finding in findings if finding.rule in _OF_STEPS}
    seen: dict[str, list[Step]] = {}
    looks: dict[str, list[Look]] = {place: [] for place in places}
    for step in case.steps:
        at = _halt_of(step.place, places)
        if step.template in LOOKED_AT:
            seen.setdefault(at, []).append(step)
    for place in places:
        looks[place] += _record_of(case, place)
        looks[place] += [_of_step(step, said_by_step) for step in sorted(seen.get(place, ()), key=_rank)]
    for finding in findings:
        if finding.weight == NOTE or _is_seen_as_step(finding):
            continue
        looks[_halt_of(part_of(finding.place), places)].append(_of_finding(finding))
    for item in case.state.items if case.state is not None else ():
        if item.state == "open" and item.weight != NOTE:
            look = Look(item.id, words("{text}", text=item.text), OPEN, item.weight, ITEM, about=item.place)
            looks[_halt_of(part_of(item.place), places)].append(look)
    return tuple(
        Halt(place=place, title=title, looks=tuple(looks[place]), there=lies_there(case, place))
        for place, title in way
        if looks[place]
    )


def last_walk_of(assessment: Assessment, state: State) -> tuple[Halt, ...]:
    """The last walk of an assessment that stands already."""
    return last_walk(assessed_case(assessment, state), assessment.findings)


def closing_is_near(steps: tuple[Step, ...]) -> bool:
    """Whether all work before closing is done or left out, but for what is confirmed and looked at on the way out."""
    before = [step for step in steps if comes_before_closing(step.template) and step.group not in LAST_GROUPS]
    return bool(before) and all(step.state in (DONE, SKIPPED) for step in before)


def way_round(case: Case) -> tuple[tuple[str, str], ...]:
    """Every place under the vehicle once, in the order in which one crawls, with its title."""
    profile = case.profile
    way: list[str] = []
    for tank in profile.tanks:
        way.append(f"tank.{tank.id}")
        way += [f"heater.{heater.id}" for heater in case.heaters_on(tank.id)]
        for drain in profile.drains:
            if drain.tank == tank.id:
                way.append(f"drain.{drain.id}")
                way += [f"heater.{heater.id}" for heater in case.heaters_on(drain.id)]
    way += [f"run.{run}" for run in outwards(case)]
    way += [f"bundle.{bundle}" for bundle in _bundles(case)]
    way += [f"bay.{bay.id}" for bay in profile.bays]
    way += ["wiring", "supply", "rig"]
    holds = {f"tank.{tank.id}": tank.holds for tank in profile.tanks}
    return tuple((place, _title(place, profile, holds=holds.get(place, ""))) for place in way)


def _title(place: str, profile: Profile, *, holds: str) -> str:
    """What a place of the walk is called; of a tank also what it holds, where its name doesn't say that."""
    if place == "rig":
        return "the whole underside"
    name = place_name(place, profile)
    return f"{name}, {holds}" if holds and holds not in name else name


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


def _halt_of(part: str, places: Iterable[str]) -> str:
    """The place of the walk at which something is looked at; what has no place of its own, at the whole.

    `supply.volts` is read at the supply, `meter.leads` nowhere under there.
    """
    if part in places:
        return part
    kind = part.partition(".")[0]
    return kind if kind in places else "rig"


def _is_seen_as_step(finding: Finding) -> bool:
    """Whether a finding says what a step of the walk says itself; `lapsed` is of the day, and not of the place."""
    if finding.rule in ("dwell", "lapsed"):
        return True
    return finding.rule in _OF_STEPS and finding.place.partition(":")[0] in LOOKED_AT


def _rank(step: Step) -> int:
    return LOOKED_AT.index(step.template)


def _record_of(case: Case, place: str) -> list[Look]:
    """What was read and proven of a place, and holds."""
    looks = []
    sizes = read_at(case, place)
    if sizes is not None:
        looks.append(Look(f"read:{place}", sizes, SEEN, kind=READ, about=place))
    looks += [
        Look(f"proven:{slot}", text, SEEN, kind=PROVEN, about=slot) for slot, text in proven_at(case, place)
    ]
    return looks


def _of_step(step: Step, said: dict[str, Finding]) -> Look:
    """A step as it stands. A skip that nobody accepted is open, as in the punch list."""
    finding = said.get(step.id)
    standing = finding is not None and finding.accepted is None
    state = SEEN if step.state == DONE else ACCEPTED if step.state == SKIPPED and not standing else OPEN
    return Look(
        id=step.id,
        text=words("{step}", step=step.title),
        state=state,
        weight=finding.weight if finding is not None and standing else "",
        about=step.id,
        remedy=finding.remedy if finding is not None and standing else None,
    )


def _of_finding(finding: Finding) -> Look:
    return Look(
        id=finding.id,
        text=finding.text,
        state=OPEN if finding.accepted is None else ACCEPTED,
        weight=finding.weight,
        kind=OTHER_STEP if finding.rule in _OF_STEPS else FINDING,
        rule=finding.rule,
        about=finding.place,
        remedy=finding.remedy,
    )
