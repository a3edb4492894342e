"""A sound document that has every kind of part, and a way to change one value of it, for tests of the check."""

import copy
import tomllib
from typing import Any

from logic.data.faults import ProfileFault, ProfileFaults
from logic.data.profile import Profile
from logic.data.profile_check import check_document

SOUND = """
format = 1
[rig]
name = "sound"
[design]
low = "-12 degF"
[supply]
chemistry = "lithium"
capacity = "200 Ah"
[[bay]]
id = "belly"
area = "80 ft²"
floor = "R 7"
pan = "R 4"
[[tank]]
id = "galley"
holds = "gray"
shape = "box"
length = "41 3/8 in"
width = "24 in"
height = "9 in"
place = "open"
outlet = { x = "38 in", y = "12 in", diameter = "3 in" }
keepout = [ { x = "10 in", y = "0 in", length = "2 in", width = "24 in", why = "rib" } ]
[[tank]]
id = "black"
holds = "black"
shape = "taper"
length = "34 in"
width = "24 in"
height = "10 in"
bottom_length = "30 in"
bottom_width = "20 in"
place = "belly"
[[tank]]
id = "fresh"
holds = "fresh"
shape = "slope"
length = "40 in"
width = "30 in"
height = "12 in"
fall = "1 in"
place = "belly"
[[drain]]
id = "galley-valve"
tank = "galley"
outside = "3.5 in"
inside = "3.07 in"
length = "18 in"
[[heater]]
id = "galley-a"
on = "galley"
watts = "60 W"
length = "18 in"
width = "12 in"
face = "bottom"
at = { x = "16 in", y = "6 in" }
thermostat = { on = "45 degF", off = "65 degF" }
[[heater]]
id = "black-a"
on = "black"
watts = "40 W"
length = "12 in"
width = "6 in"
face = "side"
foot = "1 in"
[[heater]]
id = "valve"
on = "galley-valve"
watts = "20 W"
length = "18 in"
width = "8 in"
face = "wrap"
[[run]]
id = "feed"
from = "supply"
length = "6 ft"
[[run]]
id = "a"
from = "feed"
length = "12 ft"
feeds = ["galley-a"]
[[run]]
id = "b"
from = "feed"
length = "12 ft"
back = "a"
feeds = ["black-a", "valve"]
"""


class _LeftOut:
    def __repr__(self) -> str:
        return "left out"


LEFT_OUT = _LeftOut()


def sound() -> dict[str, Any]:
    """A document without a fault."""
    return tomllib.loads(SOUND)


def with_value(path: str, value: Any, *, document: dict[str, Any] | None = None) -> dict[str, Any]:
    """The sound document with the value at a path changed; LEFT_OUT takes it away.

    A number in a path counts the parts of a list from 1: `tank.1.length`, `tank.1.keepout.1.x`.
    """
    changed = copy.deepcopy(document) if document is not None else sound()
    table: Any = changed
    *names, last = path.split(".")
    for name in names:
        if isinstance(table, list):
            table = table[int(name) - 1]
        else:
            table = table.setdefault(name, {})
    if value is LEFT_OUT:
        del table[int(last) - 1 if isinstance(table, list) else last]
    elif isinstance(table, list):
        table[int(last) - 1] = value
    else:
        table[last] = value
    return changed


def faults_of(document: dict[str, Any]) -> tuple[ProfileFault, ...]:
    """The faults that the check finds; none where it takes the document."""
    try:
        check_document(document, file="rig.toml")
    except ProfileFaults as theirs:
        return theirs.faults
    return ()


def paths_of(document: dict[str, Any]) -> list[str]:
    """The paths of the faults, in the order found."""
    return [fault.path for fault in faults_of(document)]


def profile_of(document: dict[str, Any]) -> Profile:
    """The profile of a document that must be sound."""
    return check_document(document, file="rig.toml")
