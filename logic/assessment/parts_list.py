"""What is cut and what is bought: the cut list, the spools it comes from, holes, joints and the shopping
list.

Counted from the design as it stands, with the readings in. Each line has an id by which it is ticked when it
is bought or cut (`State.ticks`). Prices are the owner's, and not here.
"""

from collections.abc import Iterable

import msgspec

from logic.assessment.circuit_case import wired
from logic.assessment.cut_list import Cut, Splice, cuts, splices
from logic.assessment.shopping import Purchase, shopping_list
from logic.assessment.spools_and_holes import SleevedHole, WireSpools, sleeved_holes, wire_spools
from logic.data.profile import Profile
from logic.data.state import Tick


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
    whole = cuts(profile, marked)
    spools = wire_spools(whole, profile.parts.spools)
    holes = sleeved_holes(profile)
    joints = splices(profile)
    ids = {tick.part for tick in marked}
    return PartsList(
        cuts=whole,
        spools=spools,
        holes=holes,
        splices=joints,
        shopping=tuple(
            msgspec.structs.replace(line, ticked=True) if line.id in ids else line
            for line in shopping_list(profile, whole, spools=spools, holes=holes, joints=joints)
        ),
        feasible=wired(profile).choice.gauges is not None,
    )
