"""Valid rigs by chance: a seed gives a profile's document and, where it names a series, the series' text."""

import datetime
from typing import Any

from tests.independent.dice import Dice
from tests.independent.random_tanks import add_tanks
from tests.independent.random_wiring import add_wiring

SERIES = "series.csv"
SPOOLS = (
    ["25 ft"],
    ["20 ft", "35 ft", "50 ft"],
    ["10 m", "25 m", "90 m"],
    ["8 m"],
    ["12 ft", "40 ft", "100 ft"],
)


def random_rig(seed):
    """(document, text of the hourly series or None)"""
    dice = Dice(seed)
    dice.metric = dice.maybe(0.4)
    document: dict[str, Any] = {
        "format": 1,
        "rig": {"name": f"seed {seed}", "units": "metric" if dice.metric else "us"},
    }
    low = dice.uniform(-30, 31)
    document["design"] = design(dice, low)
    series = None
    if dice.maybe(0.25):
        document["design"]["hourly"] = SERIES
        document["design"] = {
            key: one for key, one in document["design"].items() if key != "low" or dice.maybe(0.5)
        }
        series = hourly(dice, low)
    document["supply"] = supply(dice)
    document["wiring"] = dice.some({
        "table": dice.choice(["sae", "awg"]),
        "conductor": dice.temperature(dice.choice([68, 86, 140])),
        "drop_limit": f"{dice.choice([2, 3, 4, 5, 8])} %",
    })  # fmt: skip
    document["parts"] = dice.some({
        "slack": f"{dice.randint(0, 30)} %", "ends": dice.length(6, 18), "lay": dice.length(1.5, 3),
    })  # fmt: skip
    add_tanks(dice, document)
    add_wiring(dice, document)
    if document["parts"]:  # dice of their own
        spools = Dice(f"spools {seed}")
        document["parts"] |= spools.some({"spools": spools.choice(SPOOLS)})
    return document, series


def design(dice, low):
    given = {
        "high": dice.temperature(low + dice.uniform(0, 40)),
        "hold": dice.temperature(dice.uniform(33, 45)),
        "wind": dice.speed(dice.choice([0, 0.3, 1, 1.2, 5, 10, 11, 11.5, 12.3, 25, 60])),
        "cabin": dice.temperature(dice.choice([20, 32, 40, 55, 70])),
        "start": dice.temperature(dice.choice([50, 60, 40, 33, 32, 20, -10])),
        "towing": dice.speed(dice.choice([45, 60])),
        "warm": dice.temperature(dice.uniform(40, 80)),
    }
    return {"low": dice.temperature(low), "nights": dice.choice([1, 2, 2, 3, 7])} | dice.some(given, 0.6)


def supply(dice):
    given = {
        "volts": f"{dice.uniform(11.5, 13.4):.2f} V",
        "charging": f"{dice.uniform(13.5, 15):.2f} V",
        "usable": round(dice.uniform(0.3, 1), 2),
        "peukert": dice.choice([1, 1.1, 1.25, 1.4]),
        "battery": dice.temperature(dice.uniform(-20, 90)),
        "cutoff": f"{dice.uniform(10.5, 12.5):.1f} V",
        "converter": f"{dice.choice([20, 45, 75])} A",
        "other": f"{dice.choice([0, 1.2, 3, 5.5])} A",
    }
    chemistry = dice.choice(["lithium", "agm", "flooded"])
    return {"chemistry": chemistry, "capacity": f"{dice.randint(40, 800)} Ah"} | dice.some(given)


def hourly(dice, low):
    """A series of half a day to four days, odd steps among its hours, with or without an offset."""
    fahrenheit = dice.maybe(0.5)
    offset = dice.choice(["", "+01:00", "-07:00", "Z"])
    clock = datetime.datetime(2026, 1, dice.randint(1, 20), dice.randrange(24), dice.choice([0, 0, 17, 30]))
    value, lines = low + dice.uniform(0, 15), []
    for _ in range(dice.randint(12, 96)):
        value = max(-60.0, value + dice.uniform(-4, 4.2))
        shown = value if fahrenheit else (value - 32) / 1.8
        lines.append(f"{clock.isoformat()}{offset},{shown:.2f}")
        clock += datetime.timedelta(minutes=dice.choice([60, 60, 60, 30, 45]))
        if offset == "+01:00" and dice.maybe(0.02):  # summer time begins: the clock goes on by an hour
            offset, clock = "+02:00", clock + datetime.timedelta(hours=1)
        elif offset == "-07:00" and dice.maybe(0.02):  # it ends: the clock goes back
            offset, clock = "-08:00", clock - datetime.timedelta(hours=1)
    header = "time,temperature_degF" if fahrenheit else "time,temperature_degC"
    return "\n".join([header, *lines]) + "\n"


def toml(document):
    """A document as TOML's text."""
    lines, tables = [], []
    for key, value in document.items():
        if isinstance(value, dict):
            tables.append((f"[{key}]", value))
        elif isinstance(value, list) and value and isinstance(value[0], dict):
            tables += [(f"[[{key}]]", one) for one in value]
        else:
            lines.append(f"{key} = {text(value)}")
    for head, table in tables:
        lines += ["", head, *(f"{key} = {text(value)}" for key, value in table.items())]
    return "\n".join(lines) + "\n"


def text(value):
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return '"' + value.replace('"', '\\"') + '"'
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {text(one)}" for key, one in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(text, value)) + "]"
    return repr(value)


def written(seed, folder):
    """The rig's files in a folder; path of the profile."""
    document, series = random_rig(seed)
    if series is not None:
        (folder / SERIES).write_text(series)
    path = folder / f"seed-{seed}.toml"
    path.write_text(toml(document))
    return path
