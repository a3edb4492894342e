"""The program's answer beside the second reckoning: every figure, unit, band, place and finding that differs.

Tolerances, and why they are what they are:
- EXACT: both sides are closed formulas on floats. What is left is rounding, through a matrix on one side and sums on
  the other, or a halving to the last bit: a part in 10⁹ of the value, or of 0.02 where the value is smaller than that.
- PRINTED: a bundle's diameter, as packing ratios are tabled to four decimals and some stand here in closed form.
- STEPPED: what hangs on the spell, which stands here in steps of a minute, each with its middle's temperature, and
  which finds a switching to a hundredth of a second. Where something still differs it is looked at again in steps
  of 4 s and to a tenth of a millisecond (contents that graze 0 °C), by the same tolerance.
- A free pad's place: see `place_differences`.
"""

import math

from tests.independent.format_units import unit_of
from tests.independent.places import TIE, off_by
from tests.independent.places import distance as to_aim
from tests.independent.reckoning import COARSE, FINE, reckon

EXACT, PRINTED, STEPPED = 1e-9, 3e-5, 2e-4
SPELL = (".spell.", "supply.night", "supply.hours")
AT_FLAT = 1e-3  # m along an edge, see `place_differences`
SILENT = (".u_clearance",)  # without readings it has no value


def hangs_on_spell(name):
    return any(mark in name for mark in SPELL) or name.startswith(("spell-ice", "battery"))


def alike(name, mine, theirs):
    if mine is None or theirs is None:
        return mine is theirs
    if name.endswith(".turned"):
        return True  # part of a place: see `place_differences`
    if hangs_on_spell(name):
        return abs(mine - theirs) <= STEPPED * max(abs(mine), 1.0)
    return abs(mine - theirs) <= (PRINTED if name.endswith(".diameter") else EXACT) * max(abs(mine), 0.02)


def differences(rig, answer):
    """Lines `figure or finding: mine / the program's` for an answer of `check --json`."""
    if "errors" in answer:
        return [f"refused: {answer['errors']}"]
    theirs = {figure["id"]: figure for figure in answer["figures"]}
    lines = at_step(rig, answer, theirs, COARSE)
    if any(hangs_on_spell(line) for line in lines):
        lines = at_step(rig, answer, theirs, FINE)
    return lines


def at_step(rig, answer, theirs, step):
    spots = spots_of(rig, theirs)
    mine = reckon(rig, found=spots, step=step)
    return [
        *figure_differences(mine.figures, theirs),
        *left_over(mine.figures, theirs),
        *place_differences(rig, mine.free, spots, theirs),
        *finding_differences(mine.findings, answer["findings"]),
        *verdict_differences(answer),
    ]


def figure_differences(mine, theirs):
    for name, value in mine.items():
        if name.endswith(".band"):
            yield from band_differences(name.removesuffix(".band"), value, mine, theirs)
        elif name not in theirs:
            yield f"{name}: {value} / not there"
        elif not alike(name, value, theirs[name]["value"]):
            yield f"{name}: {value} / {theirs[name]['value']}"


def band_differences(name, edges, mine, theirs):
    given = [theirs[name].get("low"), theirs[name].get("high")]
    known = sorted(edge for edge in edges if edge is not None)
    wanted = [*known, None, None][:2] if mine[name] is not None else [None, None]
    if not all(alike(name, a, b) for a, b in zip(wanted, given, strict=True)):
        yield f"{name} band: {wanted} / {given}"


def left_over(mine, theirs):
    """What only the program says, and what no figure may be without."""
    for name, figure in theirs.items():
        value = figure["value"]
        if name not in mine and (value is not None or not name.endswith(SILENT)):
            yield f"{name}: not known / {value}"
        if figure["unit"] != unit_of(name):
            yield f"{name} unit: {unit_of(name)} / {figure['unit']}"
        if f"{name}.band" not in mine and (figure.get("low"), figure.get("high")) != (None, None):
            yield f"{name} band: none / {figure.get('low'), figure.get('high')}"
        if value is None and not figure.get("why_not"):
            yield f"{name}: null without a reason"


def spots_of(rig, theirs):
    """Where the program puts its pads: (x, y, along, across)."""
    spots = {}
    for heater in rig.heaters.values():
        x, y, turned = (theirs[f"heater.{heater.id}.{name}"]["value"] for name in ("x", "y", "turned"))
        if x is not None:
            along, across = (heater.width, heater.length) if turned else (heater.length, heater.width)
            spots[heater.id] = (x, y, along, across)
    return spots


def place_differences(rig, free, spots, theirs):
    """A place given must stand as given. A free one must keep every distance, be as near as any, and be the first.

    "As near" is a tie within TIE, and where the distance is flat (a corner passing a round outlet, the middle passing
    the bottom's) a tie of 10⁻⁷ m is one of some tenths of a millimetre along it: within AT_FLAT both places are the
    same one. What follows from a place is reckoned from the program's, so that no figure inherits this.
    """
    for pad_id, own in free.items():
        given, turned = spots.get(pad_id), theirs[f"heater.{pad_id}.turned"]["value"]
        pad, name = rig.heaters[pad_id], f"heater.{pad_id} place"
        if own is None or given is None:
            if own is not given:
                yield f"{name}: {own and own.wanted} / {given}"
        elif pad.at:
            if math.dist(given, own.wanted) > EXACT or turned != int(own.turned):
                yield f"{name}: {own.wanted} turned {own.turned} / {given} turned {turned}"
        else:
            tank = rig.tanks[pad.on]
            gap = off_by(tank, given, [spots[other] for other in own.after if other in spots])
            if gap < -TIE:
                yield f"{name}: a gap is short by nothing / {-gap} m at {given}"
            if to_aim(tank, given) > own.distance + 2 * TIE:
                yield f"{name}: {own.distance} m away / {to_aim(tank, given)} m"
            # a nearer place, or of places as near one before the one that was found here, was missed here: by a hair
            # of a margin, or between the lines
            nearer = to_aim(tank, given) < own.distance - 2 * TIE
            before = (turned, *given[:2]) < (int(own.turned), *own.wanted[:2])
            first = (nearer or before) and gap >= -TIE
            apart = turned != int(own.turned) or math.dist(own.wanted[:2], given[:2]) > AT_FLAT
            if apart and not first:
                yield f"{name}: {own.wanted} turned {own.turned} / {given} turned {turned}"


def finding_differences(mine, listed):
    """By id and weight; each once, and the place must be the id's."""
    theirs = {finding["id"]: finding["weight"] for finding in listed}
    for name in sorted(mine.keys() | theirs.keys()):
        if mine.get(name) != theirs.get(name):
            yield f"{name}: {mine.get(name)} / {theirs.get(name)}"
    if len(theirs) != len(listed):
        yield f"findings: each once / {sorted(finding['id'] for finding in listed)}"
    for finding in listed:
        if finding["place"] != finding["id"].partition(":")[2]:
            yield f"{finding['id']} place: its own / {finding['place']}"


def verdict_differences(answer):
    """The verdict must be the count of what is listed, by weight."""
    weights = [finding["weight"] for finding in answer["findings"]]
    counts = {weight: weights.count(weight) for weight in ("stop", "use", "note")}
    verdict = {"closable": counts["stop"] == 0, **counts}
    if verdict != answer["verdict"]:
        yield f"verdict: {verdict} / {answer['verdict']}"
