"""Findings that a session adds from its readings: what is owed, differs, can't be, is far off, fits barely.

What a meter finds stands in `proving.py`.
"""

INCH = 0.0254
RULES = {
    "planned",
    "single",
    "dispute",
    "impossible",
    "far-from-plan",
    "pad-tight",
    "untested",
    "resistance",
    "isolation",
    "current",
    "volts",
    "joint",
}


def findings_of(rig, standing, meters, *, planned, decides, figures, u_clearance):
    """id → weight. planned : the profile's value of each slot. u_clearance : of each pad, None unless it has one.

    meters : readings of a slot; only whether there is one counts here.
    """
    found: dict[str, str] = {}
    for slot, one in standing.known.items():
        if one.state in ("planned", "single") and decides(slot):
            found[f"{one.state}:{slot}"] = "stop"
        if one.state == "in dispute":
            found[f"dispute:{slot}"] = "stop"
        if slot in standing.impossible:
            found[f"impossible:{slot}"] = "stop"
        if one.state != "planned" and planned[slot] is not None and far(one.value, planned[slot]):
            found[f"far-from-plan:{slot}"] = "note"
    for pad, u in u_clearance.items():
        clearance = figures[f"heater.{pad}.clearance"]
        if u is not None and clearance is not None and 0 <= clearance < 2 * u:
            found[f"pad-tight:heater.{pad}"] = "use"
    return found | untested(rig, meters)


def far(value, planned):
    off = abs(value - planned)
    return off > 0.1 * abs(planned) + 1e-12 and off > INCH + 1e-12


def untested(rig, meters):
    """What must be read by a meter and wasn't."""
    slots = [f"heater.{heater}.{name}" for heater in rig.heaters for name in ("resistance", "volts")]
    for run in rig.runs.values():
        if run.fuse is not None:
            slots += [f"run.{run.id}.{name}" for name in ("isolation", "current")]
    return {f"untested:{slot}": "stop" for slot in slots if slot not in meters}
