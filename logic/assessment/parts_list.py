"""What is cut and what is bought: the cut list, the spools it comes from, holes, joints and the shopping list.

Counted from the design as it stands, with the readings in. Each line has an id by which it is ticked when it is
bought or cut (`State.ticks`). Prices are the owner's, and not here.
"""

from collections import Counter
from collections.abc import Iterable
from functools import lru_cache
from math import ceil

import msgspec

from logic.assessment.bundle_case import Bundle, bundles, outside_of
from logic.assessment.circuit_case import wired
from logic.assessment.cut_list import Cut, Splice, cuts, splices
from logic.data.profile import Profile
from logic.data.state import Tick
from logic.data.wiring_constants import (
    CLEANER_PER_AREA,
    SEALANT_BEAD,
    SEALANT_CARTRIDGE,
    SEALANT_PER_HOLE,
    SPARE_SPLICES,
    WIPES_PER_AREA,
)
from logic.data.wording import Quantity, Words, quantity, words
from logic.physics.cutting import SpoolPlan, spools_for
from logic.physics.protection import least_switch
from logic.physics.sleeves import Hole, clamps, hole_for, sleeve_bore


class WireSpools(msgspec.Struct, frozen=True):
    """The spools of one wire: what is bought, and which cuts come from which."""

    id: str  # buy:wire-14-red
    gauge: int
    colour: str
    cuts: tuple[str, ...]  # their ids, in the plan's places
    plan: SpoolPlan


class SleevedHole(msgspec.Struct, frozen=True):
    """A hole through which a sleeve (or a lone run) comes in: drill, line its edge, seal."""

    id: str  # hole:bundle.main | hole:run.feed
    through: str
    bore: float  # m, of the sleeve
    hole: Hole


class Purchase(msgspec.Struct, frozen=True):
    """One line of the shopping list."""

    id: str  # buy:…
    what: Words
    amount: Quantity
    source: str
    ticked: bool = False


class PartsList(msgspec.Struct, frozen=True):
    cuts: tuple[Cut, ...]
    spools: tuple[WireSpools, ...]
    holes: tuple[SleevedHole, ...]
    splices: tuple[Splice, ...]
    shopping: tuple[Purchase, ...]
    feasible: bool  # False: no gauges keep every rule, and thick ones stand in the list for them


def parts_list(profile: Profile, ticks: Iterable[Tick] = ()) -> PartsList:
    """Everything to cut and to buy for a rig, with what has been ticked."""
    marked = tuple(ticks)
    ids = {tick.part for tick in marked}
    whole = cuts(profile, marked)
    spools = wire_spools(whole, profile.parts.spools)
    holes = sleeved_holes(profile)
    joints = splices(profile)
    shopping = [
        *_wires(spools, whole),
        *_sleeves(profile),
        *_clamps(profile),
        *_holes(holes),
        *_joints(joints),
        *_at_the_supply(profile),
        *_for_the_pads(profile, len(holes)),
    ]
    return PartsList(
        cuts=whole,
        spools=spools,
        holes=holes,
        splices=joints,
        shopping=tuple(
            msgspec.structs.replace(line, ticked=True) if line.id in ids else line for line in shopping
        ),
        feasible=wired(profile).choice.gauges is not None,
    )


def wire_spools(whole: Iterable[Cut], on_offer: tuple[float, ...]) -> tuple[WireSpools, ...]:
    """The spools of each gauge and colour, thickest first."""
    groups: dict[tuple[int, str], list[Cut]] = {}
    for cut in whole:
        groups.setdefault((cut.gauge, cut.colour), []).append(cut)
    return tuple(
        WireSpools(
            id=f"buy:wire-{gauge}-{slug(colour)}",
            gauge=gauge,
            colour=colour,
            cuts=tuple(cut.id for cut in group),
            plan=_spools(tuple(cut.length for cut in group), on_offer),
        )
        for (gauge, colour), group in sorted(groups.items())
    )


@lru_cache(maxsize=256)
def _spools(lengths: tuple[float, ...], on_offer: tuple[float, ...]) -> SpoolPlan:
    return spools_for(lengths, on_offer)


def sleeved_holes(profile: Profile) -> tuple[SleevedHole, ...]:
    """One hole for each bundle, and for each lone run that comes from the supply."""
    found = [
        SleevedHole(
            f"hole:bundle.{bundle.name}", f"bundle.{bundle.name}", bundle.sleeve, hole_for(bundle.sleeve)
        )
        for bundle in bundles(profile)
        if bundle.sleeve is not None and _from_supply(profile, bundle)
    ]
    for run in profile.runs:
        if run.bundle or run.from_ != "supply" or run.length == 0:
            continue
        wide = outside_of(profile, run) * (2 if run.back == "own" else 1)
        bore = sleeve_bore(wide)
        if bore is not None:
            found.append(SleevedHole(f"hole:run.{run.id}", f"run.{run.id}", bore, hole_for(bore)))
    return tuple(found)


def slug(text: str) -> str:
    """Small letters, digits and hyphens, for an id."""
    return "-".join("".join(c if c.isalnum() else " " for c in text.lower()).split()) or "plain"


def _from_supply(profile: Profile, bundle: Bundle) -> bool:
    return any(run.from_ == "supply" for run in profile.runs if run.bundle == bundle.name)


def _count(number: int) -> Quantity:
    return quantity(number, "count")


def _wires(spools: Iterable[WireSpools], whole: Iterable[Cut]) -> list[Purchase]:
    lengths = {cut.id: cut.length for cut in whole}
    lines = []
    for wire in spools:
        parts: dict[str, Quantity | str] = {"gauge": quantity(wire.gauge, "gauge"), "colour": wire.colour}
        bought = Counter(length for length, _ in wire.plan.spools)
        for number, (length, count) in enumerate(sorted(bought.items(), reverse=True)):
            lines.append(
                Purchase(
                    id=f"{wire.id}-{number + 1}",
                    what=words(
                        "{gauge} {colour} wire, spool of {length}", **parts, length=quantity(length, "route")
                    ),
                    amount=_count(count),
                    source="practice-slack",
                )
            )
        lines += [
            Purchase(
                id=f"{wire.id}-{wire.cuts[place].removeprefix('cut:').replace('.', '-')}",
                what=words(
                    "{gauge} {colour} wire in one length, longer than any spool on offer ({cut})",
                    **parts,
                    cut=wire.cuts[place].removeprefix("cut:"),
                ),
                amount=quantity(lengths[wire.cuts[place]], "route"),
                source="practice-slack",
            )
            for place in wire.plan.too_long
        ]
    return lines


def _sleeves(profile: Profile) -> list[Purchase]:
    lengths: Counter[float] = Counter()
    for bundle in bundles(profile):
        if bundle.sleeve is not None:
            lengths[bundle.sleeve] += bundle.route
    return [
        Purchase(
            id=f"buy:sleeve-{_sixteenths(bore)}",
            what=words("sleeve, {bore} bore", bore=quantity(bore, "length")),
            amount=quantity(length, "route"),
            source="ac-43.13-1b-11-249",
        )
        for bore, length in sorted(lengths.items())
    ]


def _clamps(profile: Profile) -> list[Purchase]:
    counts: Counter[float | None] = Counter()
    for bundle in bundles(profile):
        counts[bundle.sleeve] += bundle.clamps
    lone = sum(clamps(run.length) for run in profile.runs if not run.bundle and run.length > 0)
    lines = [
        Purchase(
            id=f"buy:clamp-{'large' if bore is None else _sixteenths(bore)}",
            what=words("cushioned clamp over a bundle too large for a sleeve")
            if bore is None
            else words("cushioned clamp over a {bore} sleeve", bore=quantity(bore, "length")),
            amount=_count(count),
            source="iso-10133-7.3",
        )
        for bore, count in sorted(counts.items(), key=lambda item: item[0] or 1.0)
    ]
    if lone:
        lines.append(Purchase("buy:clamp-wire", words("cushioned clamp over a run without sleeve"),
                              _count(lone), "iso-10133-7.3"))  # fmt: skip
    return lines


def _holes(holes: Iterable[SleevedHole]) -> list[Purchase]:
    counts = Counter(each.hole.drill for each in holes)
    return [
        Purchase(
            id=f"buy:grommet-{_sixteenths(drill)}",
            what=words("grommet for a {drill} hole", drill=quantity(drill, "length")),
            amount=_count(count),
            source="practice-hole",
        )
        for drill, count in sorted(counts.items())
    ]


def _joints(joints: Iterable[Splice]) -> list[Purchase]:
    counts = Counter((joint.colour, joint.gauge if not joint.colour else 0) for joint in joints)
    lines = []
    for (colour, gauge), count in sorted(counts.items()):
        what = (
            words("crimp splice with adhesive-lined sleeve, {colour}, a spare in ten with it", colour=colour)
            if colour
            else words(
                "uninsulated splice for {gauge} and adhesive-lined tube, a spare in ten with it",
                gauge=quantity(gauge, "gauge"),
            )
        )
        lines.append(
            Purchase(
                id=f"buy:splice-{colour or gauge}",
                what=what,
                amount=_count(ceil(count * (1 + SPARE_SPLICES) - 1e-9)),
                source="practice-parts",
            )
        )
    return lines


def _at_the_supply(profile: Profile) -> list[Purchase]:
    """Terminals, fuse holders, fuses with a spare of each rating, switches."""
    whole = wired(profile)
    rings: Counter[int] = Counter()
    holders: Counter[int] = Counter()
    fuses: Counter[float] = Counter()
    lines = []
    for run in profile.runs:
        circuit = whole.runs[run.id]
        if run.from_ == "supply":
            rings[circuit.gauge] += 1
        if run.back == "chassis" or (run.back == "own" and run.from_ == "supply"):
            rings[circuit.gauge] += 1  # a chassis return also has its bond, cleaned and plated
        if circuit.fuse is not None:
            holders[circuit.gauge] += 1
            fuses[circuit.fuse] += 1
        if run.switch is not None:
            least = quantity(least_switch(circuit.amps), "amps")
            lines.append(Purchase(f"buy:switch-{run.id}", words("switch for {run}, {least} d.c. and more", run=run.id,
                                  least=least), _count(1), "practice-switch-125"))  # fmt: skip
    for gauge, count in sorted(rings.items()):
        lines.append(Purchase(f"buy:ring-{gauge}", words("ring terminal for {gauge}", gauge=quantity(gauge, "gauge")),
                              _count(count), "nec-2020-552.10"))  # fmt: skip
    for gauge, count in sorted(holders.items()):
        lines.append(Purchase(f"buy:holder-{gauge}", words("fuse holder, sealed, for {gauge}",
                              gauge=quantity(gauge, "gauge")), _count(count), "practice-parts"))  # fmt: skip
    for rating, count in sorted(fuses.items()):
        lines.append(Purchase(f"buy:fuse-{rating:g}", words("fuse, {rating}, one spare with it",
                              rating=quantity(rating, "rating")), _count(count + 1), "iso-8820-3"))  # fmt: skip
    return lines


def _for_the_pads(profile: Profile, holes: int) -> list[Purchase]:
    """Cleaner, wipes and sealant, by the pads' area and edges and by the holes."""
    bonded = [heater for heater in profile.heaters if heater.face != "wrap"]
    area = sum(heater.length * heater.width for heater in bonded)
    edges = sum(2 * (heater.length + heater.width) for heater in bonded)
    bead = edges * SEALANT_BEAD**2 / 2 + holes * SEALANT_PER_HOLE
    lines = []
    if area > 0:
        lines += [
            Purchase("buy:cleaner", words("isopropyl alcohol and water, 50:50, at least"),
                     quantity(area * CLEANER_PER_AREA, "volume"), "practice-parts"),
            Purchase("buy:wipes", words("lint-free wipes"), _count(ceil(area * WIPES_PER_AREA)), "practice-parts"),
        ]  # fmt: skip
    if bead > 0:
        lines.append(Purchase("buy:sealant", words("sealant that the pads' sheet allows, cartridges"),
                              _count(ceil(bead / SEALANT_CARTRIDGE - 1e-9)), "practice-parts"))  # fmt: skip
    if profile.heaters:
        lines.append(Purchase("buy:label", words("label beside the switch"), _count(1), "practice-parts"))
    return lines


def _sixteenths(size: float) -> str:
    """A size in sixteenths of an inch, for an id."""
    return f"{round(size / 0.0254 * 16)}-16"
