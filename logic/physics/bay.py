"""A closed underside: one node of air in balance between the cabin, its pan and its leaks."""

import msgspec

from logic.data.constants import INDOOR_FLOOR_FILM, STILL_FILM


class Balance(msgspec.Struct, frozen=True):
    """Conductances from a bay's air. W/K, and W of heat."""

    floor: float
    pan: float
    leak: float
    heat: float

    @property
    def whole(self) -> float:
        """All conductances together. [W/K]"""
        return self.floor + self.pan + self.leak


def balance(
    *, area: float, tops: float, floor: float, pan: float, leak: float, heat: float, outer_film: float
) -> Balance:
    """The bay's balance. The tanks' own heat is left out: that errs on the cold side.

    area : of the pan, and of the floor with the tanks' tops [m²]. tops : of its tanks under the cabin's
    floor, not over `area` [m²]. floor, pan : insulation [m²K/W]. leak : air exchange [W/K]. heat : put in
    on purpose [W]. outer_film : under the pan [W/m²K]. Source `job-bay` (the model's own), films of
    `ashrae-still-air`.
    """
    return Balance(
        floor=max(area - tops, 0.0) / (floor + INDOOR_FLOOR_FILM + 1 / STILL_FILM),
        pan=area / (1 / STILL_FILM + pan + 1 / outer_film),
        leak=leak,
        heat=heat,
    )


def bay_degc(node: Balance, *, cabin_degc: float, out_degc: float) -> float:
    """Temperature of a bay's air, steady. [°C]"""
    taken = node.floor * cabin_degc + (node.pan + node.leak) * out_degc + node.heat
    return taken / node.whole


def share_of_outdoors(node: Balance) -> float:
    """How much the bay follows the air outside: d T_bay / d T_out, over 0 to 1. [1]"""
    return (node.pan + node.leak) / node.whole


def heat_to_reach(node: Balance, degc: float, *, cabin_degc: float, out_degc: float) -> float:
    """Heat put in at which the bay stands at a temperature; negative where it is warmer without. [W]"""
    return (
        (node.floor + node.pan + node.leak) * degc
        - node.floor * cabin_degc
        - (node.pan + node.leak) * out_degc
    )
