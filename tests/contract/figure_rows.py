"""The rows of the format's table of figures, with their units, as the contract tests compare them.

A row is `kind.figure`, its place left out: `tank.volume` stands for `tank.<id>.volume`.
"""

ROWS = {
    "tank.volume": "L",
    "tank.volume_outside": "L",
    "tank.contents": "L",
    "tank.least": "L",
    "tank.contents_level": "m",
    "tank.least_level": "m",
    "tank.conductance": "W/K",
    "tank.effective": "degC",
    "tank.needed": "W",
    "tank.delivered": "W",
    "tank.holds_to": "degC",
    "tank.hours_to_ice": "h",
    "tank.hours_to_solid": "h",
    "tank.hours_to_thaw": "h",
    "tank.hours_to_ice_least": "h",
    "tank.holds_to_towing": "degC",
    "tank.spell.lowest": "degC",
    "tank.spell.ice_hours": "h",
    "tank.spell.ice_share": "1",
    "tank.spell.duty": "1",
    "tank.spell.energy": "Wh",
    "bay.low": "degC",
    "bay.low_unheated": "degC",
    "drain.holds_to": "degC",
    "drain.hours_to_ice": "h",
    "drain.hours_to_solid": "h",
    "drain.reach": "m",
    "heater.resistance": "ohm",
    "heater.volts": "V",
    "heater.watts": "W",
    "heater.drop": "1",
    "heater.share": "1",
    "heater.wall": "degC",
    "heater.bare": "degC",
    "heater.dry": "degC",
    "heater.density": "W/m²",
    "heater.current": "A",
    "heater.x": "m",
    "heater.y": "m",
    "heater.turned": "1",
    "heater.clearance": "m",
    "heater.to_outlet": "m",
    "heater.u_clearance": "m",
    "run.current": "A",
    "run.return_current": "A",
    "run.gauge": "1",
    "run.fuse": "A",
    "run.drop": "V",
    "run.cut": "m",
    "run.short": "A",
    "run.resistance": "ohm",
    "bundle.diameter": "m",
    "bundle.sleeve": "m",
    "bundle.clamps": "1",
    "supply.current": "A",
    "supply.usable": "Ah",
    "supply.night": "Ah",
    "supply.hours": "h",
    "supply.nights": "1",
    "supply.converter": "1",
    "wiring.copper": "kg",
}

# Rows that no figure is made for yet. It shrinks, and is empty at the end.
NOT_YET_BUILT: frozenset[str] = frozenset()


def row_of(figure_id: str) -> str:
    """`tank.galley.spell.lowest` → `tank.spell.lowest`."""
    kind, _, rest = figure_id.partition(".")
    if kind in ("supply", "wiring"):
        return figure_id
    return f"{kind}.{rest.partition('.')[2]}"


def place_of(figure_id: str) -> str:
    """`tank.galley.spell.lowest` → `tank.galley`."""
    kind, _, rest = figure_id.partition(".")
    return kind if kind in ("supply", "wiring") else f"{kind}.{rest.partition('.')[0]}"
