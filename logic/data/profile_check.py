"""A raw document to a `Profile`: every fault at once, each with its path, what was found, what is expected.

Here stand the single tables and the order of the whole; tanks, drains, heaters and runs have files of their
own. Nothing here touches a disk: the rows of an hourly file come in, read by `hourly_file.py`.
"""

from collections.abc import Callable
from typing import Any

from logic.data import profile_defaults
from logic.data.clean_text import short_text
from logic.data.faults import FaultList, ProfileFaults, shown
from logic.data.hourly_file import EXPECTED_NAME, may_lie_beside
from logic.data.profile import Design, Hourly, Parts, Profile, Rig, Supply, Wiring
from logic.data.profile_check_circuit import check_runs
from logic.data.profile_check_places import check_bays, check_drains, check_heaters, check_tanks
from logic.data.profile_keys import (
    BY_NAME,
    DESIGN,
    FORMAT,
    MOST_PARTS,
    PARTS,
    RIG,
    SECTIONS,
    SUPPLY,
    WIRING,
    Section,
)
from logic.data.profile_reading import ID_FORM, Part, Values, path_of, plain_key, read_table

# Names of parts that mean something else where a part is referred to.
RESERVED = {"bay": ("open", "inside"), "run": ("supply", "own", "chassis")}

ReadHourly = Callable[[str], Hourly]


def check_document(
    document: dict[str, Any],
    *,
    file: str = "",
    hourly: Hourly | ReadHourly | None = None,
) -> Profile:
    """The profile that a raw document (as TOML gives it) describes.

    hourly : the rows of its hourly file, or what reads them by the name that the document gives.
    Raises ProfileFaults with every fault.
    """
    faults = FaultList(file)
    _check_format(document, faults)
    rig = _rig(read_table(document.get("rig", {}), RIG.keys, faults, path="rig", what="rig"))
    design = _design(document, faults, hourly)
    supply = _supply(
        read_table(document.get("supply", {}), SUPPLY.keys, faults, path="supply", what="supply")
    )
    wiring = _wiring(
        read_table(document.get("wiring", {}), WIRING.keys, faults, path="wiring", what="wiring")
    )
    parts = _parts(read_table(document.get("parts", {}), PARTS.keys, faults, path="parts", what="parts"))
    lists = {section.name: read_parts(document, section, faults) for section in SECTIONS if section.many}

    bays = check_bays(lists["bay"])
    tanks = check_tanks(lists["tank"], lists["bay"], faults)
    drains = check_drains(lists["drain"], lists["tank"], lists["bay"], faults)
    heaters = check_heaters(lists["heater"], lists["tank"], lists["drain"], faults)
    runs = check_runs(lists["run"], lists["heater"], faults)
    faults.raise_if_any()
    assert rig is not None
    assert design is not None
    assert supply is not None
    assert wiring is not None
    assert parts is not None
    return Profile(rig, design, supply, wiring, parts, bays, tanks, drains, heaters, runs)


def _check_format(document: dict[str, Any], faults: FaultList) -> None:
    known = ("format", *BY_NAME)
    for name in document:
        if name not in known:
            near = faults.near(name, known)
            faults.add(
                plain_key(name),
                found="an unknown key",
                expected=f"a key of a profile{near or ': ' + ', '.join(known)}",
            )
    stated = document.get("format")
    if stated != FORMAT or isinstance(stated, bool | float):
        faults.add(
            "format", found=shown(stated), expected=f"format = {FORMAT}, the one that this program reads"
        )


def read_parts(document: dict[str, Any], section: Section, faults: FaultList) -> list[Part]:
    """The parts of one kind, in the document's order."""
    raw = document.get(section.name, [])
    if not isinstance(raw, list):
        faults.add(
            section.name, found=shown(raw), expected=f"a list of parts, each begun by [[{section.name}]]"
        )
        return []
    if len(raw) > MOST_PARTS:
        faults.add(section.name, found=f"{len(raw)} of them", expected=f"up to {MOST_PARTS}")
    parts: list[Part] = []
    seen: set[str] = set()
    for number, table in enumerate(raw[:MOST_PARTS], start=1):
        part_id = table.get("id") if isinstance(table, dict) else None
        sound = isinstance(part_id, str) and ID_FORM.fullmatch(part_id) is not None
        by_number = f"{section.name}[{number}]"
        if sound and part_id in RESERVED.get(section.name, ()):
            faults.add(
                f"{by_number}.id", found=shown(part_id), expected="another id: this word means something else"
            )
            sound = False
        elif sound and part_id in seen:
            faults.add(
                f"{by_number}.id",
                found=f"{shown(part_id)}, used before",
                expected=f"another id for this {section.name}",
            )
            sound = False
        path = path_of(section.name, str(part_id)) if sound else by_number
        values = read_table(table, section.keys, faults, path=path, what=f"a {section.name}")
        if sound:
            seen.add(str(part_id))
        parts.append(Part(values, path, str(part_id) if sound else "", str(part_id)[:60]))
    return parts


def _complete(values: Values, section: Section) -> bool:
    return all(key.name in values for key in section.keys)


def _rig(values: Values) -> Rig | None:
    if not _complete(values, RIG):
        return None
    return Rig(values["name"], values["kind"], values["units"], values["note"])


def _design(document: dict[str, Any], faults: FaultList, hourly: Hourly | ReadHourly | None) -> Design | None:
    values = read_table(document.get("design", {}), DESIGN.keys, faults, path="design", what="design")
    rows = None
    if values.have("hourly"):
        rows = _hourly_rows(values["hourly"], hourly, faults)
    elif "low" in values and "hourly" in values and values["low"] is None:
        faults.add(
            "design.low", found="nothing", expected='a temperature such as "-12 degF", or an hourly file'
        )
    if values.have("low", "high") and not values.have("hourly") and values["high"] < values["low"]:
        faults.add(
            "design.high",
            found=f"{shown(document['design']['high'])}, below low",
            expected="a temperature not below low",
        )
    if values.have("hold") and values["hold"] <= 0.0:
        faults.add(
            "design.hold",
            found=shown(document["design"]["hold"]),
            expected="a temperature over 0 degC (32 degF)",
        )
    if not _complete(values, DESIGN):
        return None
    if rows is not None:
        low, high = min(rows.degc), max(rows.degc)
    elif values["low"] is not None:
        low = values["low"]
        high = values["high"] if values["high"] is not None else low + profile_defaults.DAILY_RANGE
    else:
        return None
    return Design(
        low_degc=low,
        high_degc=high,
        nights=values["nights"],
        hold_degc=values["hold"],
        wind=values["wind"],
        cabin_degc=values["cabin"],
        start_degc=values["start"],
        warm_degc=values["warm"],
        towing=values["towing"],
        hourly_file=values["hourly"],
        hourly=rows,
    )


def _hourly_rows(name: str, hourly: Hourly | ReadHourly | None, faults: FaultList) -> Hourly | None:
    if not may_lie_beside(name):
        faults.add("design.hourly", found=shown(name), expected=EXPECTED_NAME)
        return None
    if isinstance(hourly, Hourly):
        return hourly
    if hourly is None:
        faults.add(
            "design.hourly", found=shown(name), expected="the rows of that file, which are not at hand here"
        )
        return None
    try:
        return hourly(name)
    except ProfileFaults as theirs:
        for fault in theirs.faults:
            in_line = f"{short_text(name)}, " if fault.found.startswith("line ") else ""
            faults.add("design.hourly", found=in_line + fault.found, expected=fault.expected)
        return None


def _supply(values: Values) -> Supply | None:
    if not _complete(values, SUPPLY):
        return None
    chemistry = values["chemistry"]

    def by_chemistry(key: str, table: dict[str, float]) -> float:
        return values[key] if values[key] is not None else table[chemistry]

    return Supply(
        volts=by_chemistry("volts", profile_defaults.VOLTS),
        charging=by_chemistry("charging", profile_defaults.CHARGING),
        chemistry=chemistry,
        capacity_ah=values["capacity"],
        usable=by_chemistry("usable", profile_defaults.USABLE),
        peukert=by_chemistry("peukert", profile_defaults.PEUKERT),
        battery_degc=values["battery"],
        cutoff=values["cutoff"],
        converter=values["converter"],
        other=values["other"],
    )


def _wiring(values: Values) -> Wiring | None:
    if not _complete(values, WIRING):
        return None
    return Wiring(values["table"], values["conductor"], values["drop_limit"])


def _parts(values: Values) -> Parts | None:
    if not _complete(values, PARTS):
        return None
    return Parts(values["slack"], values["ends"], values["lay"], values["spools"])
