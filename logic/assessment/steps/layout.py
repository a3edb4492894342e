"""Which parts of a rig belong together for the work, and the steps that the templates make of it.

Only what decides ids, order and titles stands here, so that a reading never makes the steps anew.
"""

from functools import cached_property, lru_cache

import msgspec

from logic.assessment.steps.order import TEMPLATES
from logic.assessment.steps.template import StepTemplate
from logic.data.place_names import place_name
from logic.data.profile import Profile


class Layout(msgspec.Struct, frozen=True):
    """What of a profile decides its steps."""

    tanks: tuple[tuple[str, str], ...]  # id, place
    drains: tuple[tuple[str, str], ...]  # id, tank
    heaters: tuple[tuple[str, str, bool], ...]  # id, on, has a thermostat
    runs: tuple[tuple[str, str, bool, str, tuple[str, ...]], ...]  # id, from, fused, back, feeds
    bays: tuple[str, ...]
    names: tuple[tuple[str, str], ...]  # place, and what it is called


class PlannedStep(msgspec.Struct, frozen=True):
    """A step as a template makes it for one place, before anything happened."""

    id: str
    template: StepTemplate
    place: str
    title: str
    minutes: float
    after: tuple[str, ...]
    readings: tuple[str, ...]
    takes: tuple[str, ...]


def layout_of(profile: Profile) -> Layout:
    """What of a profile decides its steps. A run is fused where the profile says so, or says `auto`."""
    return Layout(
        tanks=tuple((tank.id, tank.place) for tank in profile.tanks),
        drains=tuple((drain.id, drain.tank) for drain in profile.drains),
        heaters=tuple((heater.id, heater.on, heater.thermostat is not None) for heater in profile.heaters),
        runs=tuple((run.id, run.from_, run.fuse != "none", run.back, run.feeds) for run in profile.runs),
        bays=tuple(bay.id for bay in profile.bays),
        names=tuple(
            (place, place_name(place, profile))
            for kind, parts in (
                ("tank", profile.tanks),
                ("heater", profile.heaters),
                ("run", profile.runs),
                ("bay", profile.bays),
            )
            for place in (f"{kind}.{part.id}" for part in parts)
        ),
    )


class Relations:
    """Who belongs to whom in one layout. Places as everywhere: `tank.galley`, `run.feed`, `rig`."""

    def __init__(self, layout: Layout) -> None:
        tanks = dict(layout.tanks)
        drains = dict(layout.drains)
        self.tank_of_heater = {
            heater: on if on in tanks else drains[on]
            for heater, on, _ in layout.heaters
            if on in tanks or on in drains
        }
        self.on_walls = {tank: tuple(h for h, on, _ in layout.heaters if on == tank) for tank in tanks}
        self.heaters_of_tank = {
            tank: tuple(h for h, owner in self.tank_of_heater.items() if owner == tank) for tank in tanks
        }
        self.bay_of_tank = {tank: place for tank, place in layout.tanks if place in layout.bays}
        self.drained = frozenset(drains.values())
        self.thermostats = frozenset(heater for heater, _, has in layout.heaters if has)
        self.parent = {run: head for run, head, *_ in layout.runs}
        self.fused = frozenset(run for run, _, fused, *_ in layout.runs if fused)
        self.returning = frozenset(run for run, _, _, back, _ in layout.runs if back in ("own", "chassis"))
        self.run_of_heater = {heater: run for run, *_, feeds in layout.runs for heater in feeds}
        self.layout = layout
        self._ups: dict[str, tuple[str, ...]] = {}

    def up(self, run: str) -> tuple[str, ...]:
        """The run and those it comes from, towards the supply."""
        known = self._ups.get(run)
        if known is None:
            chain: dict[str, None] = {}
            at = run
            while at in self.parent and at not in chain:
                chain[at] = None
                at = self.parent[at]
            known = self._ups[run] = tuple(chain)
        return known

    @cached_property
    def _behind(self) -> dict[str, tuple[str, ...]]:
        found: dict[str, list[str]] = {}
        for each, *_ in self.layout.runs:
            for run in self.up(each):
                found.setdefault(run, []).append(each)
        return {run: tuple(those) for run, those in found.items()}

    @cached_property
    def _heaters_behind(self) -> dict[str, tuple[str, ...]]:
        found: dict[str, list[str]] = {}
        for heater, *_ in self.layout.heaters:
            if heater in self.run_of_heater:
                for run in self.up(self.run_of_heater[heater]):
                    found.setdefault(run, []).append(heater)
        return {run: tuple(those) for run, those in found.items()}

    def circuit_of_run(self, run: str) -> str | None:
        """The nearest fused run at or before this one."""
        return next((each for each in self.up(run) if each in self.fused), None)

    def circuit_of_heater(self, heater: str) -> str | None:
        run = self.run_of_heater.get(heater)
        return self.circuit_of_run(run) if run is not None else None

    def behind(self, run: str) -> tuple[str, ...]:
        """The run and all that come from it, later fuses in."""
        return self._behind.get(run, ())

    def heaters_behind(self, run: str) -> tuple[str, ...]:
        return self._heaters_behind.get(run, ())

    def places(self, per: str, when: str) -> tuple[str, ...]:
        """The places that a template is made for, in the profile's order."""
        layout = self.layout
        if per == "rig":
            return ("rig",)
        if per == "tank":
            wanted = {
                "": lambda tank: True,
                "heated": lambda tank: bool(self.heaters_of_tank[tank]),
                "padded": lambda tank: bool(self.on_walls[tank]),
                "drained": lambda tank: tank in self.drained,
            }[when]
            return tuple(f"tank.{tank}" for tank, _ in layout.tanks if wanted(tank))
        if per == "bay":
            used = frozenset(self.bay_of_tank.values())
            return tuple(f"bay.{bay}" for bay in layout.bays if bay in used)
        if per == "heater":
            return tuple(f"heater.{h}" for h, _, has in layout.heaters if has or when != "thermostat")
        if per == "circuit":
            return tuple(f"run.{run}" for run, *_ in layout.runs if run in self.fused)
        return tuple(f"run.{run}" for run, *_ in layout.runs if when != "returns" or run in self.returning)

    def related(self, place: str, *, per: str, other: str) -> tuple[str, ...] | None:
        """The places of kind `other` that belong to a place of kind `per`; None: all of them."""
        if other == "rig":
            return ("rig",)
        if per == "rig":
            return None
        name = place.partition(".")[2]
        if per == other:
            return (place,)
        found: tuple[str | None, ...]
        if per == "tank":
            heaters = self.heaters_of_tank[name]
            found = {
                "bay": (self.bay_of_tank.get(name),),
                "heater": heaters,
                "run": tuple(self.run_of_heater.get(heater) for heater in heaters),
                "circuit": tuple(self.circuit_of_heater(heater) for heater in heaters),
            }[other]
        elif per == "bay":
            tanks = tuple(tank for tank, bay in self.bay_of_tank.items() if bay == name)
            if other != "tank":
                return None
            found = tanks
        elif per == "heater":
            found = {
                "tank": (self.tank_of_heater.get(name),),
                "bay": (self.bay_of_tank.get(self.tank_of_heater.get(name, "")),),
                "run": (self.run_of_heater.get(name),),
                "circuit": (self.circuit_of_heater(name),),
            }[other]
        elif per == "run":
            feeds = next(feeds for run, *_, feeds in self.layout.runs if run == name)
            found = {
                "heater": feeds,
                "circuit": (self.circuit_of_run(name),),
                "tank": tuple(self.tank_of_heater.get(heater) for heater in feeds),
                "bay": (),
            }[other]
        else:  # a circuit: all behind it, and the wire before it that it hangs on
            heaters = self.heaters_behind(name)
            found = {
                "heater": heaters,
                "run": tuple(dict.fromkeys((*self.up(name), *self.behind(name)))),
                "tank": tuple(self.tank_of_heater.get(heater) for heater in heaters),
                "bay": (),
            }[other]
        kind = "run" if other == "circuit" else other
        return tuple(dict.fromkeys(f"{kind}.{one}" for one in found if one is not None))


@lru_cache(maxsize=64)
def relations_of(layout: Layout) -> Relations:
    return Relations(layout)


@lru_cache(maxsize=64)
def planned_steps(layout: Layout) -> tuple[PlannedStep, ...]:
    """Every step of the work for this rig, in the order of the templates, then of the profile."""
    relations = relations_of(layout)
    places = {each.id: relations.places(each.per, each.when) for each in TEMPLATES}
    order = {step: {at: number for number, at in enumerate(found)} for step, found in places.items()}
    per = {each.id: each.per for each in TEMPLATES}
    names = dict(layout.names)
    steps = []
    for template in TEMPLATES:
        for place in places[template.id]:
            after = []
            for before in template.after:
                related = relations.related(place, per=template.per, other=per[before])
                if related is None:
                    after += [f"{before}:{at}" for at in places[before]]
                    continue
                known = order[before]
                after += [f"{before}:{at}" for at in sorted(known.keys() & related, key=known.__getitem__)]
            steps.append(
                PlannedStep(
                    id=f"{template.id}:{place}",
                    template=template,
                    place=place,
                    title=template.title.format(name=names.get(place, place)),
                    minutes=_share(template, count=len(places[template.id]), heaters=len(layout.heaters)),
                    after=tuple(after),
                    readings=tuple(slot.format(place=place) for slot in template.readings),
                    takes=tuple(slot.format(place=place) for slot in template.takes),
                )
            )
    return tuple(steps)


def _share(template: StepTemplate, *, count: int, heaters: int) -> float:
    """A step's part of the minutes that the trade's table gives for two tanks with a pad each."""
    if template.scale == "each":
        return template.minutes
    if template.scale == "tank":
        return template.minutes / 2
    if template.scale == "heater":
        return template.minutes * heaters / 2 / count
    return template.minutes / count
