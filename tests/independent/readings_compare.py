"""The program's account of a rig's readings beside the second reckoning: what was taken, what stands, what follows.

Tolerances: slots are sums and roots of a few floats (EXACT). An uncertainty is a difference on both sides: of 10⁻⁶ m
there, of twice that here, which leaves DIFFERENCED and some NOISE of the value. Where a figure bends at its value (two
distances that are equally small), each side has its own slope, and any between them will do.
"""

from functools import partial

from tests.independent.compare import (
    EXACT,
    alike,
    band_differences,
    finding_differences,
    hangs_on_spell,
    place_differences,
    spots_of,
    verdict_differences,
)
from tests.independent.findings_of_readings import RULES, findings_of
from tests.independent.marked import with_marks_completed
from tests.independent.measured import decides, tape_slots
from tests.independent.proving import Proving
from tests.independent.reckoning import COARSE, FINE, reckon
from tests.independent.standing import standing
from tests.independent.uncertainty import gains, with_places_held

DIFFERENCED, NOISE = 1e-5, 1e-7
OF_SMALL = 1e-3  # a value below it is as noisy as this one
COUNTED, OF_COUNTED = 1e-2, 1e-6  # of u and of the value, where a spell is counted in steps on one side
FEW = 5  # slots: more would cost a spell in steps for each
# A wire without a length, or hardly any, is lost in the matrix until it is long enough to bend.
SHORT, AT_ZERO = 0.05, 2e-3
BENT = 2e-3  # a bend up to 10⁻⁹ m away, where a free place keeps its distances to so much, of a difference of 10⁻⁶ m
OF_THE_WORK = {"open-step", "held-step", "dwell", "lapsed", "confirm", "no-sheet"}


def differences(rig, account, views, answer):
    """Lines `what: mine / the program's`. views : its slots by id; answer : of `check --session --json`."""
    mine = standing(rig, account.standing())
    theirs = {figure["id"]: figure for figure in answer["figures"]}
    hidden = {name for name, one in theirs.items() if mine.impossible.intersection(one["slots"])}
    measured, lines = with_marks_completed(mine.measured, rig, theirs, hidden)
    lines = [*account.wrong, *slot_differences(mine, views), *lines]
    lines += hidden_differences(hidden, theirs)
    own, others = figures_and_findings(measured, theirs, hidden)
    lines += others
    sure = uncertainties(measured, mine, theirs)
    lines += uncertainty_differences(sure, mine, theirs, hidden)
    if len(mine.values) <= FEW:
        lines += spell_differences(measured, mine, theirs, hidden)
    found = findings_of(
        rig,
        mine,
        account.meters,
        planned=tape_slots(rig),
        decides=partial(decides, rig),
        figures=own.figures,
        u_clearance=u_clearances(measured, mine, sure),
    )
    found |= Proving(measured, own.circuit, account.meters, {}).findings()
    if not mine.impossible:  # a figure without a value leaves a rule of the design without an answer
        found |= own.findings
    listed = [one for one in answer["findings"] if counted(one["id"], mine.impossible)]
    return [*lines, *finding_differences(found, listed), *verdict_differences(answer)]


def counted(finding, impossible):
    rule = finding.partition(":")[0]
    return rule in RULES if impossible else rule not in OF_THE_WORK


def figures_and_findings(measured, theirs, hidden):
    """The reckoning of the measured rig, and where its figures, bands and places differ."""
    spots = spots_of(measured, theirs)
    for step in (COARSE, FINE):
        own = reckon(measured, found=spots, step=step)
        lines = []
        for name, value in own.figures.items():
            plain = name.removesuffix(".band")
            if plain not in theirs:
                lines.append(f"{plain}: {value} / not there")
            elif plain not in hidden and plain != name:
                lines += band_differences(plain, value, own.figures, theirs)
            elif plain not in hidden and not alike(name, value, theirs[name]["value"]):
                lines.append(f"{name}: {value} / {theirs[name]['value']}")
        if not any(map(hangs_on_spell, lines)):
            break
    if not hidden:
        lines += place_differences(measured, own.free, spots, theirs)
    return own, lines


def slot_differences(mine, views):
    """Of each slot: state, value, u, what it owes, and whether it contradicts another."""
    for slot, one in mine.known.items():
        view = views[slot]
        theirs = ("planned" if view.state == "not read" else view.state, view.owed, bool(view.impossible))
        if theirs != (one.state, one.owed, slot in mine.impossible):
            yield f"{slot}: {one}, impossible {slot in mine.impossible} / {theirs}"
        for name in ("value", "u"):
            a, b = getattr(one, name), getattr(view, name)
            if (a is None) != (b is None) or (a is not None and abs(a - b) > EXACT * max(a, 0.02)):
                yield f"{slot} {name}: {a} / {b}"


def hidden_differences(hidden, theirs):
    """What hangs on a reading that can't be has no value, and says why."""
    for name in hidden:
        one = theirs[name]
        if one["value"] is not None or one["u"] is not None or not one.get("why_not"):
            yield f"{name}: null, with a reason / {one['value']}, u {one['u']}, {one.get('why_not')}"


def uncertainties(measured, mine, theirs, *, spells=None):
    """What each figure gains by each slot that is read and counts."""
    places = {
        pad: [theirs[f"heater.{pad}.{name}"]["value"] for name in ("x", "y", "turned")]
        for pad in spots_of(measured, theirs)
    }
    held = with_places_held(measured, places)
    values = {slot: value for slot, value in mine.values.items() if moves(slot, held)}
    return gains(held, values, mine.known, spells=spells)


def moves(slot, rig):
    """Not a level, nor a mark of a pad that has no place by it."""
    kind, place, name = slot.split(".", 2)
    return name != "level" and not (kind == "heater" and name in ("x", "y") and rig.heaters[place].at is None)


def uncertainty_differences(sure, mine, theirs, hidden):
    """Of all figures without a spell: the slots that move them are listed, and u is what they come to."""
    at_zero = {slot for slot, value in mine.values.items() if slot.startswith("run.") and value < SHORT}
    for name, by_slot in sure.above.items():
        one = theirs.get(name)
        if one is None or name in hidden or hangs_on_spell(name):
            continue
        least = NOISE * abs(one["value"] or 0.0)
        moved = {slot for slot, gain in by_slot.items() if gain and abs(gain) > least}
        if not moved <= set(one["slots"]):
            yield f"{name}: hangs on {sorted(moved)} / {one['slots']}"
        read = [slot for slot in one["slots"] if slot in mine.values]
        yield from u_differences(
            name, sure, read, one, AT_ZERO if at_zero.intersection(read) else DIFFERENCED, NOISE
        )


def spell_differences(measured, mine, theirs, hidden):
    """The same of what hangs on the spell; once more in finer steps where it isn't alike."""
    lines = []
    for step in (COARSE, FINE):
        sure = uncertainties(measured, mine, theirs, spells=step)
        lines = [
            line
            for name in sure.above
            if hangs_on_spell(name) and name in theirs and name not in hidden
            for line in u_differences(
                name, sure, [slot for slot in theirs[name]["slots"] if slot in mine.values], theirs[name],
                COUNTED, OF_COUNTED,
            )
        ]  # fmt: skip
        if not lines:
            break
    return lines


def u_differences(name, sure, read, figure, share, noise):
    """share : of u, noise : of the value, by which both may differ."""
    if not read or figure["value"] is None:
        if figure["u"] is not None:
            yield f"{name} u: none / {figure['u']}"
        return
    wanted = sure.of(name, read)
    if wanted is None:  # it comes or goes beside its value
        return
    least, most = wanted
    bent = most - least > BENT * most
    off = max(share, BENT if bent else 0.0) * most + noise * max(abs(figure["value"]), OF_SMALL)
    if figure["u"] is None or not least - off <= figure["u"] <= most + off:
        yield f"{name} u: {wanted} / {figure['u']}"


def u_clearances(measured, mine, sure):
    """pad → uncertainty of its clearance: None unless both its sides are read."""
    found = {}
    for heater in measured.heaters.values():
        if heater.face == "bottom":
            sides = {f"heater.{heater.id}.{name}" for name in ("length", "width")}
            known = (
                sure.of(f"heater.{heater.id}.clearance", list(mine.values))
                if sides <= mine.values.keys()
                else None
            )
            found[heater.id] = known and known[1]
    return found
