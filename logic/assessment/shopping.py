"""The shopping list: wire, sleeves, clamps, grommets, joints, what stands at the supply, what pads need."""

from collections import Counter
from collections.abc import Iterable, Iterator
from math import ceil

import msgspec

from logic.assessment.bundle_case import bundles
from logic.assessment.circuit_case import wired
from logic.assessment.cut_list import Cut, Splice
from logic.assessment.spools_and_holes import SleevedHole, WireSpools
from logic.data.profile import Profile
from logic.data.wiring_constants import (
    CLEANER_PER_AREA,
    INCH,
    SEALANT_BEAD,
    SEALANT_CARTRIDGE,
    SEALANT_PER_HOLE,
    SPARE_SPLICES,
    WIPES_PER_AREA,
)
from logic.data.wording import Quantity, Words, quantity, words
from logic.physics.protection import least_switch
from logic.physics.sleeves import clamps


class Purchase(msgspec.Struct, frozen=True):
    """One line of the shopping list."""

    id: str  # buy:…
    what: Words
    amount: Quantity
    source: str
    ticked: bool = False


def shopping_list(
    profile: Profile,
    cuts: Iterable[Cut],
    *,
    spools: Iterable[WireSpools],
    holes: tuple[SleevedHole, ...],
    joints: Iterable[Splice],
) -> list[Purchase]:
    """Every line, none of them ticked."""
    return [
        *_wires(spools, cuts),
        *_sleeves(profile),
        *_clamps(profile),
        *_holes(holes),
        *_joints(joints),
        *_at_the_supply(profile),
        *_switches(profile),
        *_for_the_pads(profile, len(holes)),
    ]


def _count(number: int) -> Quantity:
    return quantity(number, "count")


def _wires(spools: Iterable[WireSpools], whole: Iterable[Cut]) -> list[Purchase]:
    lengths = {cut.id: cut.length for cut in whole}
    lines = []
    for wire in spools:
        parts: dict[str, Quantity | str] = {"gauge": quantity(wire.gauge, "gauge"), "colour": wire.colour}
        bought = Counter(length for length, _ in wire.plan.spools)
        for number, (spool, count) in enumerate(sorted(bought.items(), reverse=True)):
            lines.append(
                Purchase(
                    id=f"{wire.id}-{number + 1}",
                    what=words(
                        "{gauge} {colour} wire, spool of {length}", **parts, length=quantity(spool, "route")
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
    lengths: dict[float, float] = {}
    for bundle in bundles(profile):
        if bundle.sleeve is not None:
            lengths[bundle.sleeve] = lengths.get(bundle.sleeve, 0.0) + bundle.route
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


def _at_the_supply(profile: Profile) -> Iterator[Purchase]:
    """Terminals, fuse holders, and fuses with a spare of each rating."""
    whole = wired(profile)
    rings: Counter[int] = Counter()
    holders: Counter[int] = Counter()
    fuses: Counter[float] = Counter()
    for run in profile.runs:
        circuit = whole.runs[run.id]
        if run.from_ == "supply":
            rings[circuit.gauge] += 1
        if run.back == "chassis" or (run.back == "own" and run.from_ == "supply"):
            rings[circuit.gauge] += 1  # a chassis return also has its bond, cleaned and plated
        if circuit.fuse is not None:
            holders[circuit.gauge] += 1
            fuses[circuit.fuse] += 1
    for gauge, count in sorted(rings.items()):
        what = words("ring terminal for {gauge}", gauge=quantity(gauge, "gauge"))
        yield Purchase(f"buy:ring-{gauge}", what, _count(count), "nec-2020-552.10")
    for gauge, count in sorted(holders.items()):
        what = words("fuse holder, sealed, for {gauge}", gauge=quantity(gauge, "gauge"))
        yield Purchase(f"buy:holder-{gauge}", what, _count(count), "practice-parts")
    for rating, count in sorted(fuses.items()):
        what = words("fuse, {rating}, one spare with it", rating=quantity(rating, "rating"))
        yield Purchase(f"buy:fuse-{rating:g}", what, _count(count + 1), "iso-8820-3")


def _switches(profile: Profile) -> Iterator[Purchase]:
    for run in profile.runs:
        if run.switch is not None:
            least = quantity(least_switch(wired(profile).runs[run.id].amps), "amps")
            what = words("switch for {run}, {least} d.c. and more", run=run.id, least=least)
            yield Purchase(f"buy:switch-{run.id}", what, _count(1), "practice-switch-125")


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
            Purchase("buy:wipes", words("lint-free wipes"),
                     _count(ceil(area * WIPES_PER_AREA)), "practice-parts"),
        ]  # fmt: skip
    if bead > 0:
        lines.append(Purchase("buy:sealant", words("sealant that the pads' sheet allows, cartridges"),
                              _count(ceil(bead / SEALANT_CARTRIDGE - 1e-9)), "practice-parts"))  # fmt: skip
    if profile.heaters:
        lines.append(Purchase("buy:label", words("label beside the switch"), _count(1), "practice-parts"))
    return lines


def _sixteenths(size: float) -> str:
    """A size in sixteenths of an inch, for an id."""
    return f"{round(size / INCH * 16)}-16"
