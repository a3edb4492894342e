"""Changing a raw document: a value, a part added, copied or taken away. Each gives a new document.

A change is judged by `profile_check.py`, with the texts that a file would get. Nothing is mended on the way:
taking away a tank leaves its heaters without a seat, and the check says so.
"""

import copy
import re
from typing import Any

from logic.data.faults import ProfileFault, ProfileFaults, nearest_word, shown
from logic.data.profile_fields import key_at
from logic.data.profile_keys import BY_NAME, SECTIONS, Section
from logic.data.units import quantity_text, route_text

_NUMBERED = re.compile(r"([a-z]+)\[([1-9][0-9]{0,3})\]")


def changed(document: dict[str, Any], path: str, value: Any) -> dict[str, Any]:
    """The document with one value changed; None takes it out, so that its default holds.

    path : `design.low`, `tank.galley.length`, `tank.galley.outlet.x`, `tank.galley.keepout.1.x`, or a whole
        inner table. Raises ProfileFaults where the path leads nowhere; a wrong value is the check's to find.
    """
    new = copy.deepcopy(document)
    _change(new, path, value)
    return new


def _change(document: dict[str, Any], path: str, value: Any) -> None:
    """The same in a document that nobody else has."""
    table, names = table_at(document, path)
    single = BY_NAME.get(path.partition(".")[0])
    if single is not None and not single.many and value is not None:
        table = document.setdefault(single.name, table)
    if not names:
        raise _nowhere(path, "a key of it")
    for name in names[:-1]:
        table = _inner(table, name, path, make=value is not None)
        if table is None:
            return
    _put(table, names[-1], value, path)


def added(document: dict[str, Any], kind: str, part: dict[str, Any], *, place: int = -1) -> dict[str, Any]:
    """The document with a part more of a kind (`tank`, `run`); place : among its kind, from 0; −1: last."""
    _section(kind)
    new = copy.deepcopy(document)
    parts = new.setdefault(kind, [])
    if not isinstance(parts, list):
        raise _nowhere(kind, f"a list of parts, each begun by [[{kind}]]")
    parts.insert(len(parts) if place < 0 else place, copy.deepcopy(part))
    return new


def copied(document: dict[str, Any], kind: str, part_id: str, *, new_id: str) -> dict[str, Any]:
    """The document with a copy of a part behind it, under another id; what it feeds isn't copied."""
    parts = _parts(document, kind)
    number = _number_of(parts, kind, part_id)
    twin = {**copy.deepcopy(parts[number]), "id": new_id}
    twin.pop("feeds", None)
    return added(document, kind, twin, place=number + 1)


def removed(document: dict[str, Any], kind: str, part_id: str) -> dict[str, Any]:
    """The document without a part. What referred to it still does: the check will say where."""
    number = _number_of(_parts(document, kind), kind, part_id)
    new = copy.deepcopy(document)
    del new[kind][number]
    if not new[kind]:
        del new[kind]
    return new


def as_built(document: dict[str, Any], values: dict[str, float], *, metric: bool = False) -> dict[str, Any]:
    """The document with readings in place of what was planned.

    values : slot → value in SI, for the slots of sizes and positions that have one; others are passed over.
        A pad's place needs both `heater.<id>.x` and `.y`. A cylinder's `height` is its `width` as well.
    """
    new = copy.deepcopy(document)
    for slot, value in values.items():
        kind, _, rest = slot.partition(".")
        part_id, _, name = rest.partition(".")
        if kind == "heater" and name in ("x", "y"):
            if all(f"heater.{part_id}.{side}" in values for side in ("x", "y")):
                _change(new, f"heater.{part_id}.at.{name}", quantity_text(value, "length", metric=metric))
            continue
        key = key_at(slot)
        if key is None or key.kind != "length":
            continue
        is_route = slot.endswith(".length") and kind == "run"
        text = route_text(value, metric=metric) if is_route else quantity_text(value, "length", metric=metric)
        _change(new, slot, text)
        is_diameter = kind == "tank" and name == "height"
        if is_diameter and value_at(new, f"tank.{part_id}.shape") == "cylinder":
            _change(new, f"tank.{part_id}.width", text)
    return new


def value_at(document: dict[str, Any], path: str) -> Any:
    """What the document states at a path; None: nothing. Raises ProfileFaults: no such place."""
    table, names = table_at(document, path)
    stated: Any = table
    for name in names:
        if isinstance(stated, list):
            number = int(name) if name.isdigit() else 0
            stated = stated[number - 1] if 1 <= number <= len(stated) else None
        else:
            stated = stated.get(name) if isinstance(stated, dict) else None
    return stated


# --- finding the way ---


def _section(kind: str) -> Section:
    section = BY_NAME.get(kind)
    if section is None:
        near = nearest_word(kind, BY_NAME)
        raise _nowhere(kind, near or ", ".join(section.name for section in SECTIONS))
    return section


def _parts(document: dict[str, Any], kind: str) -> list[dict[str, Any]]:
    if not _section(kind).many:
        raise _nowhere(
            kind, "a kind of part: " + ", ".join(section.name for section in SECTIONS if section.many)
        )
    parts = document.get(kind, [])
    return parts if isinstance(parts, list) else []


def _number_of(parts: list[dict[str, Any]], kind: str, part_id: str) -> int:
    for number, part in enumerate(parts):
        if isinstance(part, dict) and part.get("id") == part_id:
            return number
    known = [str(part.get("id")) for part in parts if isinstance(part, dict)]
    raise _nowhere(f"{kind}.{part_id}", f"a {kind} of the profile: {', '.join(known) or 'there is none'}")


def table_at(document: dict[str, Any], path: str) -> tuple[dict[str, Any], list[str]]:
    """The table that a path begins in, and the names left to walk from there.

    A single table that isn't there yet is an empty one, and no part of the document.
    """
    first, *names = path.split(".")
    numbered = _NUMBERED.fullmatch(first)
    section = _section(numbered[1] if numbered else first)
    if not section.many:
        return document.get(section.name, {}), names
    parts = _parts(document, section.name)
    if numbered:
        number = int(numbered[2])
        if number > len(parts):
            raise _nowhere(path, f"a number up to {len(parts)}")
        return parts[number - 1], names
    if not names:
        raise _nowhere(path, f"a {section.name}'s id behind it")
    return parts[_number_of(parts, section.name, names[0])], names[1:]


def _inner(table: Any, name: str, path: str, *, make: bool) -> Any:
    if isinstance(table, list):
        number = int(name) if name.isdigit() else 0
        if not 1 <= number <= len(table):
            raise _nowhere(path, f"a number from 1 to {len(table)}")
        return table[number - 1]
    stated = table.get(name)
    if stated is None:
        return table.setdefault(name, {}) if make else None
    if not isinstance(stated, dict | list):
        raise _nowhere(path, f"{name}, which is no table")
    return stated


def _put(table: Any, name: str, value: Any, path: str) -> None:
    if isinstance(table, list):
        number = int(name) if name.isdigit() else 0
        if value is not None and number == len(table) + 1:
            table.append(value)
            return
        if not 1 <= number <= len(table):
            raise _nowhere(path, f"a number from 1 to {len(table) + 1}")
        if value is None:
            del table[number - 1]
        else:
            table[number - 1] = value
    elif value is None:
        table.pop(name, None)
    else:
        table[name] = copy.deepcopy(value)


def _nowhere(path: str, expected: str) -> ProfileFaults:
    return ProfileFaults([ProfileFault("", path, f"{shown(path)}, which is nowhere", expected)])
