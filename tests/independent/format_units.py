"""The unit of every figure, as the format's table has it."""

UNITS = {
    "tank": {
        "volume": "L", "volume_outside": "L", "contents": "L", "least": "L", "contents_level": "m",
        "least_level": "m", "conductance": "W/K", "effective": "degC", "needed": "W", "delivered": "W",
        "holds_to": "degC", "hours_to_ice": "h", "hours_to_solid": "h", "hours_to_thaw": "h",
        "hours_to_ice_least": "h", "holds_to_towing": "degC", "spell.lowest": "degC", "spell.ice_hours": "h",
        "spell.ice_share": "1", "spell.duty": "1", "spell.energy": "Wh",
    },
    "bay": {"low": "degC", "low_unheated": "degC"},
    "drain": {"holds_to": "degC", "hours_to_ice": "h", "hours_to_solid": "h", "reach": "m"},
    "heater": {
        "resistance": "ohm", "volts": "V", "watts": "W", "drop": "1", "share": "1", "wall": "degC", "bare": "degC",
        "dry": "degC", "density": "W/m²", "current": "A", "x": "m", "y": "m", "turned": "1", "clearance": "m",
        "to_outlet": "m", "u_clearance": "m",
    },
    "run": {
        "current": "A", "return_current": "A", "gauge": "1", "fuse": "A", "drop": "V", "cut": "m", "short": "A",
        "resistance": "ohm",
    },
    "bundle": {"diameter": "m", "sleeve": "m", "clamps": "1"},
    "supply": {
        "current": "A", "usable": "Ah", "night": "Ah", "hours": "h", "nights": "1", "converter": "1",
    },
    "wiring": {"copper": "kg"},
}  # fmt: skip


def unit_of(name):
    """Of a figure's whole id; None for one that the format doesn't know."""
    kind, _, rest = name.partition(".")
    own = rest if kind in ("supply", "wiring") else rest.partition(".")[2]
    return UNITS[kind].get(own)
