"""On which side each figure is rounded for those who read it: the one on which nobody is promised too much.

How cold a place is held is never told as colder than it is, hours until ice or until the battery's floor never as
longer, what a night takes never as less. A figure's band is rounded as its value is, so that they stay in order. What
is held against a limit is rounded towards it: past a limit that can be shown, it is never shown as meeting it.

To the nearest: what is measured or marked out (volts, currents, resistances, places, clearances, sizes), what another
figure is reckoned from alone (conductance, shares), and watts needed and given, which are held against each other and
must not cross in the last digit. JSON has every figure's whole number.
"""

from logic.data.wording import DOWN, NEAREST, UP, Quantity

SIDES = {
    "tank": {
        "least": UP, "least_level": UP, "holds_to": UP, "holds_to_towing": UP, "hours_to_ice": DOWN,
        "hours_to_ice_least": DOWN, "hours_to_solid": DOWN, "hours_to_thaw": UP, "spell.lowest": DOWN,
        "spell.ice_hours": UP, "spell.ice_share": UP, "spell.duty": UP, "spell.energy": UP,
    },
    "bay": {"low": DOWN, "low_unheated": DOWN},
    "drain": {"holds_to": UP, "hours_to_ice": DOWN, "hours_to_solid": DOWN, "reach": DOWN},
    "heater": {"drop": UP, "wall": UP, "bare": UP, "dry": UP},
    "run": {"short": DOWN},
    "supply": {"usable": DOWN, "night": UP, "hours": DOWN, "nights": DOWN, "converter": UP},
}  # fmt: skip


def family_and_name(figure_id: str) -> tuple[str, str]:
    """`tank.galley.spell.lowest` is `tank` and `spell.lowest`, `supply.night` is `supply` and `night`."""
    family, _, rest = figure_id.partition(".")
    return family, rest if family in ("supply", "wiring") else rest.partition(".")[2]


def side_of(figure_id: str) -> int:
    """The side to which a figure is rounded, by its id; to the nearest where the table has none."""
    family, name = family_and_name(figure_id)
    return SIDES.get(family, {}).get(name, NEAREST)


def as_told(figure_id: str, value: float, kind: str) -> Quantity:
    """A figure's number for a sentence, rounded as the figure itself is shown.

    value, kind : see `Quantity`.
    """
    return Quantity(value, kind, side_of(figure_id))
