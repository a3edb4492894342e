"""The program's list of cuts and its spools beside the second reckoning. Tolerances: floats' last bits of sums."""

from logic.assessment.parts_list import parts_list
from logic.data.profile_file import load_profile
from tests.independent.cut_list import FITS, cuts, least_spools, wires
from tests.independent.gauges import chosen_gauges
from tests.independent.parts import parts_figures

ADDED_UP = 1e-6  # m, of a spool's cuts


def parts_of(path):
    """The program's parts list of a profile."""
    return parts_list(load_profile(path).profile)


def differences(rig, parts):
    """Lines `what: mine / the program's`. parts : the program's parts list."""
    gauges, _ = chosen_gauges(rig)
    whole = cuts(rig, gauges, parts_figures(rig, gauges))
    theirs = {(cut.run, cut.conductor): cut for cut in parts.cuts}
    if len(theirs) != len(parts.cuts) or theirs.keys() != whole.keys():
        yield f"cuts: {sorted(whole)} / {[cut.id for cut in parts.cuts]}"
        return
    for cut, (gauge, _, length) in whole.items():
        own = theirs[cut]
        if own.gauge != gauge or abs(own.length - length) > 1e-9 * length:
            yield f"cut {cut}: {gauge} AWG, {length} / {own.gauge} AWG, {own.length}"
    by_id = {cut.id: key for key, cut in theirs.items()}
    plans = {frozenset(by_id[one] for one in wire.cuts): wire for wire in parts.spools}
    groups = {frozenset(group): key for key, group in wires(whole).items()}
    if plans.keys() != groups.keys():
        yield f"wires: {sorted(map(sorted, groups))} / {sorted(map(sorted, plans))}"
        return
    for wire in plans.values():
        yield from plan_differences(wire, [whole[by_id[one]][2] for one in wire.cuts], rig.parts.spools)


def plan_differences(wire, lengths, on_offer):
    """Every cut lies whole in one spool that holds it, and no plan is better."""
    plan, longest = wire.plan, max(on_offer)
    wanted = tuple(n for n, length in enumerate(lengths) if length > longest + FITS)
    placed = sorted(n for _, group in plan.spools for n in group)
    if plan.too_long != wanted or placed != [n for n in range(len(lengths)) if n not in wanted]:
        yield f"{wire.id}: every cut once, too long {wanted} / {plan}"
        return
    for size, group in plan.spools:
        if (
            sum(lengths[n] for n in group) > size + ADDED_UP
            or min(abs(size - one) for one in on_offer) > FITS
        ):
            yield f"{wire.id}: more than a spool holds / {size}, {[lengths[n] for n in group]}"
    count, bought = least_spools([lengths[n] for n in placed], on_offer) if placed else (0, 0.0)
    if len(plan.spools) != count or abs(plan.bought - bought) > ADDED_UP:
        yield f"{wire.id}: {count} spools, {bought} m / {len(plan.spools)}, {plan.bought} m"
    if not plan.proven:
        yield f"{wire.id}: the least, and known to be / not proven"
