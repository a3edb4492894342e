"""From a few plain answers to a whole profile document: what *New rig* asks, its defaults, the wiring patterns.

Everything that isn't asked is left to the format's own defaults, which the program calls defaults wherever it
shows them. Sizes asked here are guesses until the tape replaces them: every slot starts as planned.
"""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from logic.data.profile_fields import value_from_text
from logic.data.profile_keys import BY_NAME
from tui.show.pad_grid import corners


class Ask(NamedTuple):
    """One question: what it is called, its default, and what may be answered."""

    id: str
    label: str
    default: str
    choices: tuple[str, ...] = ()
    about: str = ""


YES_NO = ("yes", "no")
# A furnace's blower, about 7 A for nearly half the night: its mean. Common practice, no source.
FURNACE_MEAN = "3 A"
BAY = {"id": "belly", "area": "80 ft²", "floor": "R 7", "pan": "R 4", "leak": "4 W/K"}
MOST_TANKS = 6
MOST_PADS = 6

PATTERNS = ("each its own", "one feed", "shared return")
PATTERN_COSTS = {
    "each its own": "one run for each tank from the supply, each with its own return: the most wire, nothing shared",
    "one feed": "one feed and branches: one fuse for all, a thicker feed",
    "shared return": "each tank its own run and fuse, one return for all: it must carry the sum of the fuses",
}

RIG = (
    Ask("name", "name of the rig", "my rig"),
    Ask("tanks", "how many tanks", "2", about=f"1 to {MOST_TANKS}"),
    Ask("belly", "belly", "open", ("open", "closed"), "closed: a pan under the tanks"),
    Ask("low", "how cold it gets", "10 degF", about="forecast low, as 10 degF or -12 degC"),
    Ask("nights", "how many nights", "2", about="of such cold, one after another"),
    Ask("chemistry", "battery", "lithium", ("lithium", "agm", "flooded")),
    Ask("capacity", "its capacity", "200 Ah", about="at the 20 h rate"),
    Ask("inside", "battery inside", "yes", YES_NO, "no: in the cold"),
    Ask("charging", "charger's highest volts", "", about="as 14.6 V; empty: by the kind of battery"),
    Ask("furnace", "a furnace", "yes", YES_NO, f"its blower counts as {FURNACE_MEAN} all night (practice)"),
)

HOLDS = ("gray", "black", "fresh")


def tank_questions(number: int) -> tuple[Ask, ...]:
    """What is asked of one tank and the pads at hand for it."""
    holds = HOLDS[(number - 1) % len(HOLDS)] if number <= len(HOLDS) else "gray"
    return (
        Ask(
            "id",
            "its name",
            holds if number <= len(HOLDS) else f"tank-{number}",
            about="letters, digits and -",
        ),
        Ask("holds", "holds", holds, ("fresh", "gray", "black")),
        Ask("length", "length, along the vehicle", "40 in"),
        Ask("width", "width, across", "24 in"),
        Ask("height", "height", "9 in"),
        Ask("pads", "pads at hand for it", "1", about=f"0 to {MOST_PADS}"),
        Ask("watts", "watts on a pad's label", "60 W", about="at 12 V"),
        Ask("pad_length", "a pad's length", "18 in"),
        Ask("pad_width", "a pad's width", "12 in"),
        Ask("thermostat", "a thermostat in the pad", "yes", YES_NO, "on at 45 degF, off at 65 degF"),
    )


WIRING = (
    Ask("pattern", "wiring", PATTERNS[0], PATTERNS),
    Ask("route", "route from supply to tank", "12 ft", about="one way; each run's own can be changed"),
    Ask("switch", "a switch for each tank", "20 A", about="its d.c. rating; empty: none"),
    Ask("fuse_at", "fuse from the supply", "7 in", about="distance of the fuse from the point of supply"),
)


class Answers(NamedTuple):
    """All answers: of the rig, of each tank, of the wiring."""

    rig: Mapping[str, str]
    tanks: Sequence[Mapping[str, str]]
    wiring: Mapping[str, str]


def defaults(asks: Sequence[Ask]) -> dict[str, str]:
    return {ask.id: ask.default for ask in asks}


def count_of(text: str, most: int) -> int | None:
    """A count from the form; None where it is none, or too many."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 3 and int(text) <= most else None


def document_from(answers: Answers) -> dict[str, Any]:
    """The profile document that the answers make. Wrong values stay as typed, for the check to find."""
    rig = answers.rig
    place = "belly" if rig["belly"] == "closed" else "open"
    document: dict[str, Any] = {
        "format": 1,
        "rig": {"name": rig["name"]},
        "design": {"low": rig["low"], "nights": stated("design", "nights", rig["nights"])},
        "supply": supply_from(rig),
    }
    if place == "belly":
        document["bay"] = [dict(BAY)]
    document["tank"] = [tank_from(tank, place) for tank in answers.tanks]
    heaters = [heater for tank in answers.tanks for heater in heaters_from(tank)]
    if heaters:
        document["heater"] = heaters
    runs = runs_from(answers.tanks, answers.wiring)
    if runs:
        document["run"] = runs
    return document


def stated(section: str, name: str, text: str) -> Any:
    """A text as the document states it, by the kind of its key."""
    key = BY_NAME[section].key(name)
    return value_from_text(key, text) if key is not None else text


def supply_from(rig: Mapping[str, str]) -> dict[str, Any]:
    supply: dict[str, Any] = {"chemistry": rig["chemistry"], "capacity": rig["capacity"]}
    if rig["charging"]:
        supply["charging"] = rig["charging"]
    if rig["inside"] == "yes":
        supply["battery"] = "60 degF"
    supply["other"] = FURNACE_MEAN if rig["furnace"] == "yes" else "0 A"
    return supply


def tank_from(tank: Mapping[str, str], place: str) -> dict[str, Any]:
    sizes = {name: tank[name] for name in ("length", "width", "height")}
    return {"id": tank["id"], "holds": tank["holds"], "shape": "box", **sizes, "place": place}


def pad_ids(tank: Mapping[str, str]) -> list[str]:
    """The ids of a tank's pads: `gray-a`, `gray-b`."""
    count = count_of(tank["pads"], MOST_PADS) or 0
    return [f"{tank['id'][:22]}-{'abcdef'[number]}" for number in range(count)]


def heaters_from(tank: Mapping[str, str]) -> list[dict[str, Any]]:
    heaters = []
    names = pad_ids(tank)
    bottom, pad = (tank["length"], tank["width"]), (tank["pad_length"], tank["pad_width"])
    places = corners(len(names), bottom, pad)
    for number, name in enumerate(names):
        heater: dict[str, Any] = {
            "id": name,
            "on": tank["id"],
            "watts": tank["watts"],
            "length": tank["pad_length"],
            "width": tank["pad_width"],
            "face": "bottom",
        }
        if places:
            heater["at"] = {"x": places[number].x, "y": places[number].y}
            if places[number].turned:
                heater["turned"] = True
        if tank["thermostat"] == "yes":
            heater["thermostat"] = {"on": "45 degF", "off": "65 degF"}
        heaters.append(heater)
    return heaters


def runs_from(tanks: Sequence[Mapping[str, str]], wiring: Mapping[str, str]) -> list[dict[str, Any]]:
    """The runs of a pattern: for each tank with pads one run, with its switch, and what they share."""
    heated = [tank for tank in tanks if pad_ids(tank)]
    pattern = wiring["pattern"]
    runs: list[dict[str, Any]] = []
    if pattern == "one feed" and heated:
        feed: dict[str, Any] = {"id": "feed", "from": "supply", "length": wiring["route"]}
        if wiring["fuse_at"]:
            feed["fuse_at"] = wiring["fuse_at"]
        runs.append(feed)
    for tank in heated:
        name = f"{tank['id'][:20]}-run"
        run: dict[str, Any] = {
            "id": name,
            "from": "feed" if pattern == "one feed" else "supply",
            "length": "4 ft" if pattern == "one feed" else wiring["route"],
            "feeds": pad_ids(tank),
        }
        if pattern == "shared return" and runs:
            run["back"] = runs[0]["id"]
        if wiring["fuse_at"] and run["from"] == "supply":
            run["fuse_at"] = wiring["fuse_at"]
        if wiring["switch"]:
            run["switch"] = wiring["switch"]
        runs.append(run)
    return runs
