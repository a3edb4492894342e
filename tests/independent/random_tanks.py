"""Bays, tanks, drains and their heaters by chance."""

from typing import Any

from tests.independent.dice import Dice
from tests.independent.quantities import INCH, si

PADS = ((18, 12), (12, 6), (24, 10), (16, 4), (8, 8), (30, 20))


def add_tanks(dice: Dice, document):
    bays = [bay(dice, f"bay-{n}") for n in range(dice.choice([0, 0, 1, 1, 2]))]
    places = ["open", "open", "inside", *(one["id"] for one in bays), *(one["id"] for one in bays)]
    tanks = [tank(dice, f"tank-{n}", dice.choice(places)) for n in range(dice.randint(1, 3))]
    drains = [drain(dice, f"leg-{n}", one, places) for n, one in enumerate(tanks) if dice.maybe(0.6)]
    heaters: list[dict[str, Any]] = []
    for one in tanks:
        heaters += [pad(dice, f"pad-{len(heaters) + n}", one) for n in range(dice.choice([0, 1, 1, 2, 3]))]
    for one in drains:
        if dice.maybe(0.6):
            heaters.append(wrap(dice, f"wrap-{len(heaters)}", one))
    document |= {"bay": bays, "tank": tanks, "drain": drains, "heater": heaters}


def inches(text):
    return si(text) / INCH


def bottom(tank):
    """Length and width of a tank's bottom. [in]"""
    return tuple(inches(tank.get(f"bottom_{name}", tank[name])) for name in ("length", "width"))


def bay(dice, name):
    given = {
        "leak": f"{dice.uniform(0, 8):.1f} W/K",
        "heat": f"{dice.choice([0, 50, 300])} W",
        "water": dice.maybe(0.5),
    }
    size = {
        "area": dice.area(dice.uniform(80, 160)),
        "floor": dice.resistance(2, 10),
        "pan": dice.resistance(1, 8),
    }
    return {"id": name} | size | dice.some(given, 0.7)


def tank(dice, name, place):
    shape = dice.choice(["box", "box", "taper", "cylinder", "slope"])
    made = {"id": name, "holds": dice.choice(["fresh", "gray", "black"]), "shape": shape, "place": place}
    if shape == "cylinder":
        made |= {"length": dice.length(24, 50), "width": dice.length(11, 18)}
        made["height"] = made["width"]
    else:
        made |= {"length": dice.length(30, 60), "width": dice.length(18, 30), "height": dice.length(7, 14)}
    if shape == "taper":
        made["bottom_length"] = dice.exact(inches(made["length"]) - dice.uniform(0, 5))
        made["bottom_width"] = dice.exact(inches(made["width"]) - dice.uniform(0, 4))
    if shape == "slope":
        made["fall"] = dice.choice([dice.exact(0), dice.length(0.1, 2)])
    given = {
        "wall": dice.exact(dice.choice([0.1875, 0.25, 0.3])),
        "material": dice.choice(["abs", "polyethylene"]),
        "wall_conductivity": f"{dice.uniform(0.2, 0.5):.3f} W/m/K",
        "wall_limit": dice.temperature(dice.choice([122, 140, 158, 180])),
        "above": dice.choice(["air", "cabin"]),
        "floor": dice.resistance(0, 9),
        "insulation": dice.resistance(0, 8),
        "top_insulation": dice.resistance(0, 8),
        "fill": dice.choice([0, 0.0005, 0.02, 0.1, 0.3, 0.5, 0.75, 0.97, 1]),
        "origin": dice.choice(["front street", "front curb", "rear street", "rear curb"]),
    }
    made |= dice.some(given)
    along, across = bottom(made)
    if dice.maybe(0.7):
        x, y = dice.uniform(2.5, along - 2.5), dice.choice([across / 2, dice.uniform(2.5, across - 2.5)])
        made["outlet"] = {
            "x": dice.exact(x),
            "y": dice.exact(y),
            "diameter": dice.exact(dice.choice([1.5, 3])),
        }
    if dice.maybe(0.5):
        made["keepout"] = [keepout(dice, along, across) for _ in range(dice.choice([1, 1, 2, 3]))]
    return made


def keepout(dice, along, across):
    """A rib across the whole bottom, or a fitting."""
    if dice.maybe(0.5):
        return {"x": dice.exact(dice.uniform(0, along - 2)), "y": dice.exact(0), "length": dice.exact(1),
                "width": dice.exact(across), "why": "rib"}  # fmt: skip
    x, y = dice.uniform(0, along - 5), dice.uniform(0, across - 5)
    return {"x": dice.exact(x), "y": dice.exact(y), "length": dice.length(1, 5), "width": dice.length(1, 5)}


def drain(dice, name, tank, places):
    outside = dice.choice([1.9, 2.375, 3.5])
    given = {
        "material": dice.choice(["abs", "pvc", "polyethylene"]),
        "insulation": dice.length(0, 2),
        "conductivity": f"{dice.uniform(0.025, 0.05):.3f} W/m/K",
        "place": dice.choice(places),
    }
    size = {
        "outside": dice.exact(outside),
        "inside": dice.exact(outside * 0.88),
        "length": dice.length(3, 30),
    }
    return {"id": name, "tank": tank["id"]} | size | dice.some(given, 0.4)


def thermostat(dice, least=33, most=48):
    on = dice.uniform(least, most)
    return {"on": dice.temperature(on), "off": dice.temperature(on + dice.uniform(1, 20))}


def pad(dice, name, tank):
    length, width = dice.choice(PADS)
    face = dice.choice(["bottom", "bottom", "side"])
    made = {
        "id": name,
        "on": tank["id"],
        "watts": f"{dice.choice([25, 40, 60, 80, 120, 120, 300])} W",
        "face": face,
    }
    made |= {"length": dice.exact(length), "width": dice.exact(width)}
    if dice.maybe(0.3):
        made["turned"] = True
    if face == "side" and dice.maybe(0.6):
        made["foot"] = dice.exact(dice.uniform(0, 3))
    if face == "bottom" and dice.maybe(0.5):
        along, across = bottom(tank)
        x, y = dice.uniform(0, max(1, along - length + 1)), dice.uniform(0, max(1, across - width + 1))
        made["at"] = {"x": dice.exact(x), "y": dice.exact(y)}
    given = {
        "insulation": dice.resistance(0, 6),
        "volts": dice.choice(["13 V", "12.8 V", "24 V"]),
        "thermostat": thermostat(dice),
        "covered": dice.maybe(0.7),
        **sheet(dice),
    }
    return made | dice.some(given, 0.45)


def sheet(dice):
    """What a heater's own sheet says: kept for the work, without a share in any figure here."""
    return {
        "over_rib": dice.maybe(0.5),
        "least_surface": dice.temperature(dice.uniform(45, 60)),
        "dwell": f"{dice.randint(0, 100)} h",
        "before_filling": f"{dice.randint(0, 48)} h",
        "tolerance": [round(dice.uniform(-0.2, 0), 3), round(dice.uniform(0, 0.2), 3)],
        "element": dice.choice(["resistive", "self-regulating"]),
    }


def wrap(dice, name, drain):
    length = inches(drain["length"]) * dice.choice([0.5, 0.89, 0.95, 1, 1.1])
    around = inches(drain["outside"]) * dice.choice([1.5, 3, 3.3])
    made = {"id": name, "on": drain["id"], "watts": f"{dice.choice([5, 10, 20, 30])} W", "face": "wrap"}
    made |= {"length": dice.exact(length), "width": dice.exact(around)}
    return made | dice.some({"thermostat": thermostat(dice, 32.2, 48), "covered": True, **sheet(dice)}, 0.6)
