"""Mistakes planted in the design of the two sound demo rigs: each must be found, at its place, with its weight."""

import copy
import tomllib
from collections.abc import Callable
from functools import lru_cache
from typing import Any

import pytest

from logic.assessment.assess import assess
from logic.data.profile_check import check_document
from tests.technician import RIGS

SMALL, FULL = "two-tanks", "full-belly"
Document = dict[str, Any]


@lru_cache(maxsize=2)
def sound(rig: str) -> Document:
    return tomllib.loads((RIGS / f"{rig}.toml").read_text(encoding="utf-8"))


def found(document: Document) -> set[tuple[str, str]]:
    """Every finding as (id, weight)."""
    profile = check_document(copy.deepcopy(document), file="planted.toml")
    return {(finding.id, finding.weight) for finding in assess(profile).findings}


@lru_cache(maxsize=2)
def found_in_sound(rig: str) -> frozenset[tuple[str, str]]:
    return frozenset(found(sound(rig)))


def part(document: Document, kind: str, part_id: str) -> Document:
    return next(each for each in document[kind] if each["id"] == part_id)


def change(kind: str, part_id: str, **values: Any) -> Callable[[Document], None]:
    """Values of one part; None takes a key away."""

    def edit(document: Document) -> None:
        target = part(document, kind, part_id) if part_id else document.setdefault(kind, {})
        for key, value in values.items():
            if value is None:
                target.pop(key, None)
            else:
                target[key] = value

    return edit


def add(kind: str, **values: Any) -> Callable[[Document], None]:
    return lambda document: document.setdefault(kind, []).append(values)


def both(*edits: Callable[[Document], None]) -> Callable[[Document], None]:
    def edit(document: Document) -> None:
        for one in edits:
            one(document)

    return edit


def at(x: str, y: str) -> dict[str, str]:
    return {"x": x, "y": y}


SPARE = {"on": "gray", "watts": "20 W", "length": "8 in", "width": "6 in", "face": "bottom"}
LEG = {"id": "gray-leg", "tank": "gray", "outside": "3.5 in", "inside": "3.07 in", "length": "18 in"}
COLD_PAN = change("bay", "belly", floor="R 60", pan="R 1", water=True)

# What went wrong · in which rig · how · what must be found · its weight
MISTAKES: list[tuple[str, str, Callable[[Document], None], str, str]] = [
    # circuits
    ("one ground wire for two fused pads", SMALL,
     both(change("run", "gray-feed", gauge="14 AWG", fuse="15 A"),
          change("run", "black-feed", gauge="14 AWG", fuse="15 A")),
     "return-above-wire:run.gray-feed", "stop"),
    ("a fuse of 20 A before 16 AWG", SMALL, change("run", "gray-feed", gauge="16 AWG", fuse="20 A"),
     "fuse-above-wire:run.gray-feed", "stop"),
    ("a fuse that carries more than it may for hours", SMALL, change("run", "gray-feed", fuse="2 A"),
     "fuse-small:run.gray-feed", "stop"),
    ("no fuse at the supply", SMALL, change("run", "black-feed", fuse="none"), "no-fuse:run.black-feed", "stop"),
    ("the fuse holder where there was room, 30 in on", SMALL, change("run", "gray-feed", fuse_at="30 in"),
     "fuse-far:run.gray-feed", "stop"),
    ("a switch for a lamp", SMALL, change("run", "gray-feed", switch="4 A"), "switch:run.gray-feed", "stop"),
    ("thin wire on a long way", SMALL, change("run", "black-feed", gauge="18 AWG", length="40 ft"),
     "drop:heater.black-pad", "use"),
    ("so long and thin that a short opens slowly", SMALL,
     change("run", "black-feed", gauge="18 AWG", length="90 ft", back="own", fuse="5 A"),
     "slow-fuse:run.black-feed", "note"),
    ("a heater that nobody wired", SMALL, add("heater", id="spare", **SPARE), "unfed:heater.spare", "stop"),
    ("a drop limit that no wire on offer keeps", SMALL,
     both(change("run", "gray-feed", length="250 ft"), change("wiring", "", drop_limit="0.2 %")),
     "no-gauge:wiring", "stop"),
    ("thin wire in a tight bundle", SMALL, change("run", "gray-feed", gauge="18 AWG"),
     "bundle-hot:run.gray-feed", "use"),
    ("a second fuse above the wire behind it", FULL, change("run", "fresh-run", gauge="18 AWG", fuse="10 A"),
     "fuse-above-wire:run.fresh-run", "stop"),
    ("a branch behind a fuse too big for it", FULL, change("run", "gray-leg-run", gauge="18 AWG"),
     "fuse-above-wire:run.gray-run", "stop"),
    # fit
    ("a pad over a rib", SMALL, change("heater", "gray-pad", at=at("6 in", "2 in")), "pad-fit:heater.gray-pad", "stop"),
    ("a pad over the edge", SMALL, change("heater", "gray-pad", at=at("16 in", "12 in")),
     "pad-fit:heater.gray-pad", "stop"),
    ("a pad over the outlet", SMALL, change("heater", "gray-pad", at=at("20 in", "5 in")),
     "pad-fit:heater.gray-pad", "stop"),
    ("two pads one over the other", SMALL,
     both(change("heater", "gray-pad", at=at("16 in", "1 in")),
          add("heater", id="spare", at=at("18 in", "2 in"), **SPARE)),
     "pad-fit:heater.spare", "stop"),
    ("a pad longer than the tank", SMALL, change("heater", "gray-pad", length="40 in"),
     "pad-fit:heater.gray-pad", "stop"),
    ("a pad at the far end from the outlet", SMALL, change("heater", "gray-pad", at=at("1 in", "1 in"), turned=True),
     "pad-far:heater.gray-pad", "note"),
    ("a side pad that stands over the tank's top", SMALL, change("heater", "gray-pad", face="side", foot="2 in"),
     "pad-fit:heater.gray-pad", "stop"),
    ("a wrap longer than its drain", FULL, change("heater", "gray-wrap", length="30 in"),
     "pad-fit:heater.gray-wrap", "stop"),
    ("a wrap that overlaps itself", FULL, change("heater", "gray-wrap", width="14 in"),
     "pad-fit:heater.gray-wrap", "stop"),
    ("a wrap on half a drain", FULL, change("heater", "gray-wrap", length="10 in"),
     "wrap-short:heater.gray-wrap", "use"),
    # heat
    ("foam over a pad whose sheet says nothing", SMALL, change("heater", "gray-pad", covered=None),
     "foam-over:heater.gray-pad", "stop"),
    ("foam over a wrap whose sheet says nothing", FULL, change("heater", "black-wrap", covered=None),
     "foam-over:heater.black-wrap", "stop"),
    ("a pad far too weak", SMALL, change("heater", "gray-pad", watts="5 W"), "cold:tank.gray", "use"),
    ("no heat at all on a tank", SMALL, change("tank", "black", insulation="R 0"), "cold:tank.black", "use"),
    ("a pad that holds in the middle of the band only", SMALL, change("heater", "gray-pad", watts="18.5 W"),
     "cold-band:tank.gray", "note"),
    ("a drain whose wrap is too weak", FULL,
     both(change("heater", "gray-wrap", watts="0.2 W"), change("drain", "gray-leg", place="open")),
     "cold:drain.gray-leg", "use"),
    ("ice in the spell", SMALL, change("tank", "gray", insulation="R 0", top_insulation="R 0"),
     "spell-ice:tank.gray", "use"),
    ("a drain left without heat", SMALL, add("drain", **LEG), "drain-first:drain.gray-leg", "use"),
    ("a thermostat below what is to be held", SMALL,
     change("heater", "gray-pad", thermostat={"on": "36 degF", "off": "49 degF"}),
     "thermostat-low:heater.gray-pad", "use"),
    ("a thermostat that opens by the wall's warmth", SMALL,
     change("heater", "gray-pad", thermostat={"on": "40 degF", "off": "41 degF"}),
     "thermostat-wall:heater.gray-pad", "note"),
    ("a plain switch on a pad whose dry wall grows too hot", SMALL, change("heater", "gray-pad", thermostat=None),
     "dry-hot:heater.gray-pad", "use"),
    ("less liquid planned than the pad wants", SMALL, change("tank", "gray", fill=0.05), "low-liquid:tank.gray", "use"),
    ("a side pad so high that the tank would run over", SMALL,
     change("heater", "gray-pad", face="side", width="2 in", foot="6 1/2 in"), "low-liquid:tank.gray", "use"),
    ("water pipes in a bay that freezes", FULL, COLD_PAN, "bay-freezes:bay.belly", "use"),
    ("towing with wet tanks that don't hold on the road", SMALL,
     both(change("tank", "gray", insulation="R 1"), change("heater", "gray-pad", watts="60 W")),
     "cold-towing:tank.gray", "note"),
    # energy
    ("a battery short of the nights asked", SMALL, change("supply", "", capacity="60 Ah"), "battery:supply", "use"),
    ("a converter at its limit", SMALL, change("supply", "", converter="9 A"), "converter:supply", "use"),
    ("a lithium battery out in the frost", SMALL, change("supply", "", battery="20 degF"),
     "lithium-cold:supply", "use"),
    ("nobody said where the lithium battery stands", SMALL, change("supply", "", battery=None),
     "lithium-cold:supply", "note"),
    ("the battery's own cut-off just under its loaded volts", SMALL, change("supply", "", cutoff="12.7 V"),
     "cutoff:supply", "use"),
    ("the furnace's blower forgotten", SMALL, change("supply", "", other=None), "other-none:supply", "note"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("rig", "plant", "expected", "weight"), [row[1:] for row in MISTAKES], ids=[row[0] for row in MISTAKES]
)
def test_a_mistake_in_the_design_is_found(rig, plant, expected, weight):
    document = copy.deepcopy(sound(rig))
    plant(document)
    assert (expected, weight) not in found_in_sound(rig)
    assert (expected, weight) in found(document)


def test_no_mistake_is_planted_twice():
    assert len({row[0] for row in MISTAKES}) == len(MISTAKES)
