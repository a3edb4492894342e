"""Which spools the wires are cut from, and which holes their sleeves go through."""

from collections.abc import Iterable
from functools import lru_cache

import msgspec

from logic.assessment.bundle_case import Bundle, bundles, outside_of
from logic.assessment.cut_list import Cut
from logic.data.profile import Profile
from logic.physics.cutting import SpoolPlan, spools_for
from logic.physics.sleeves import Hole, hole_for, sleeve_bore


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


def _from_supply(profile: Profile, bundle: Bundle) -> bool:
    return any(run.from_ == "supply" for run in profile.runs if run.bundle == bundle.name)


def slug(text: str) -> str:
    """Small letters, digits and hyphens, for an id."""
    return "-".join("".join(c if c.isalnum() else " " for c in text.lower()).split()) or "plain"
