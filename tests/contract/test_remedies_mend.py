"""What a remedy says in numbers is done to the profile, to the digit: the finding must be gone.

On random rigs, so that each number meets its rounding and each new gauge the fuse that it then asks for.
"""

import copy
import re

import pytest

from tests.contract.headless import bellypan
from tests.independent.quantities import si
from tests.independent.random_rigs import SERIES, random_rig, toml

SEEDS = (*range(13), 28, 34, 36, 60)
LITRES = {"gal": 3.785411784, "L": 1.0}


def part(document, place):
    kind, name = place.split(".")
    return next(one for one in document[kind] if one["id"] == name)


def setting(table, key, unit=""):
    """Puts the first number that was found into the table of the profile, with a unit."""

    def edit(document, _, found):
        document[table][key] = found[1] + unit

    return edit


def at_place(key, unit=""):
    """The same for the finding's own part."""

    def edit(document, finding, found):
        part(document, finding["place"])[key] = found[1] + unit

    return edit


def gauges(document, _, found):
    for run in found[2].split(", "):
        part(document, f"run.{run}")["gauge"] = f"{found[1]} AWG"


def lesser_fuse_and_gauges(document, finding, found):
    part(document, finding["place"])["fuse"] = f"{found[1]} A"
    gauges(document, finding, (None, found[2], found[3]))


def corner(document, finding, found):
    part(document, finding["place"]).update(at={"x": found[1], "y": found[2]}, turned=found[3] == "turned")


def smaller_side_pad(document, finding, found):
    pad = part(document, finding["place"])
    sides = (found[2], found[1]) if pad.get("turned") else (found[1], found[2])
    pad["length"], pad["width"] = sides


def holder_nearer(document, finding, found):
    run = part(document, finding["place"])
    run["fuse_at"] = f"{(si(run['fuse_at']) - si(found[1])) * 1000:.6f} mm"


def warmer(document, finding, found):
    document["design"]["low"] = f"{found[1].replace('−', '-')} deg{found[2]}"
    document["design"].pop("high", None)


def thermostat(key):
    def edit(document, finding, found):
        heater = part(document, finding["place"])
        other = {"off": "150 degC"} if key == "on" else {}
        heater["thermostat"] = (
            heater["thermostat"] | other | {key: f"{found[1].replace('−', '-')} deg{found[2]}"}
        )

    return edit


def more_liquid(document, finding, found):
    figures = {one["id"]: one["value"] for one in answer_of(document)["figures"]}
    whole, now = (figures[f"{finding['place']}.{name}"] for name in ("volume", "contents"))
    part(document, finding["place"])["fill"] = (now + float(found[1]) * LITRES[found[2]]) / whole


N = r"(−?[\d.]+)"
RUNS = r"((?:run-\d+(?:, )?)+?)(?:, or|$)"
TRIED = [
    ("battery", rf"{N} Ah of capacity", setting("supply", "capacity", " Ah")),
    ("converter", rf"one of {N} A", setting("supply", "converter", " A")),
    ("switch", rf"at least {N} A", at_place("switch", " A")),
    ("wrap-short", r"at least (.+?),", at_place("length")),
    ("fuse-far", r"move the holder (.+?) nearer", holder_nearer),
    ("low-liquid", rf"^{N} (gal|L) more", more_liquid),
    ("drop", r"^(\d+) AWG in ([\w, -]+):", gauges),
    ("fuse-above-wire", rf"^at least (\d+) AWG in {RUNS}", gauges),
    ("fuse-above-wire", rf"^a fuse of {N} A, and at least (\d+) AWG in {RUNS}", lesser_fuse_and_gauges),
    ("fuse-above-wire", rf"^a fuse of {N} A:", at_place("fuse", " A")),
    ("fuse-small", rf"^a fuse of {N} A:", at_place("fuse", " A")),
    ("return-above-wire", r"^(\d+) AWG in (run-\d+)", gauges),
    ("slow-fuse", r"^at least (\d+) AWG in it", at_place("gauge", " AWG")),
    ("bundle-hot", r"^at least (\d+) AWG in it", at_place("gauge", " AWG")),
    ("pad-fit", r"its corner at x (.+?), y (.+?), (turned|unturned), is clear", corner),
    ("pad-far", r"its corner at x (.+?), y (.+?), (turned|unturned), is clear$", corner),
    ("pad-fit", r"one of at most (.+?) along the wall and (.+?) upright", smaller_side_pad),
    ("dry-hot", rf"{N} W on this area", at_place("watts", " W")),
    ("cold", rf"not below {N} °([FC]) outdoors", warmer),
    ("cold-band", rf"not below {N} °([FC]) outdoors", warmer),
    ("thermostat-low", rf"comes on at {N} °([FC])", thermostat("on")),
    ("thermostat-wall", rf"goes off above {N} °([FC])", thermostat("off")),
]  # fmt: skip


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def answer_of(document, series=None):
    with open("rig.toml", "w", encoding="utf-8") as file:
        file.write(toml(document))
    if series is not None:
        with open(SERIES, "w", encoding="utf-8") as file:
            file.write(series)
    return bellypan("check", "rig.toml", "--json").json


def test_a_remedy_done_to_the_digit_mends(folder):
    tried = set()
    for seed in SEEDS:
        document, series = random_rig(seed)
        for finding in answer_of(document, series)["findings"]:
            tried |= mended(document, series, finding)
    assert tried == {rule for rule, _, _ in TRIED}


def mended(document, series, finding):
    """The finding's rule, where its remedy could be done; it must be gone then."""
    rule = finding["id"].partition(":")[0]
    done = set()
    for name, pattern, edit in TRIED:
        found = re.search(pattern, finding["remedy"])
        if name != rule or found is None or (edit is warmer and series is not None):
            continue
        other = copy.deepcopy(document)
        edit(other, finding, found)
        answer = answer_of(other, series)
        if "errors" in answer:  # what is asked for is beyond the format's limits: no such part
            continue
        done.add(rule)
        left = {one["id"]: one for one in answer["findings"]}
        assert finding["id"] not in left, (finding["remedy"], left[finding["id"]]["text"])
    return done
