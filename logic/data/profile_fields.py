"""The keys of a place as values to change: what is stated, what holds when it isn't, what is typed for it.

For lists of values on a screen. The change itself is made by `profile_edit.py`, judged by `profile_check.py`.
"""

import re
from typing import Any

import msgspec

from logic.data.profile_keys import BY_NAME, Key

_TRUE, _FALSE = ("true", "yes"), ("false", "no")


class Field(msgspec.Struct, frozen=True):
    """One key of one table as it stands in a document; what a list of values to change is made of."""

    path: str
    key: Key
    stated: Any  # as the document has it; None: left out
    default: str  # what holds when it is left out, in words; empty where nothing does


def key_at(path: str) -> Key | None:
    """The declared key that a path leads to, whatever part it is of; None where there is none."""
    names = path.split(".")
    section = BY_NAME.get(names[0].partition("[")[0])
    if section is None:
        return None
    skipped = 2 if section.many and "[" not in names[0] else 1
    keys, found = section.keys, None
    for name in names[skipped:]:
        if name.isdigit() and found is not None and found.kind == "tables":
            continue
        found = next((key for key in keys if key.name == name), None)
        if found is None:
            return None
        keys = found.keys
    return found


def fields_of(table: dict[str, Any], place: str) -> tuple[Field, ...]:
    """The keys of a place (`design`, `tank.galley`) with what its table states, inner tables key by key.

    table : see `profile_edit.table_at`. Keys of another shape or face are left out.
    """
    section = BY_NAME[place.partition(".")[0].partition("[")[0]]
    return tuple(_fields(table, section.keys, place))


def _fields(table: dict[str, Any], keys: tuple[Key, ...], path: str) -> list[Field]:
    fields = []
    for key in keys:
        stated = table.get(key.name)
        if key.only is not None and stated is None and table.get(key.only[0]) not in key.only[1]:
            continue
        here = f"{path}.{key.name}"
        if key.kind == "table" and isinstance(stated, dict):
            fields += _fields(stated, key.keys, here)
        elif key.kind == "tables" and isinstance(stated, list):
            for number, item in enumerate(stated, start=1):
                fields += _fields(item if isinstance(item, dict) else {}, key.keys, f"{here}.{number}")
        else:
            fields.append(Field(here, key, stated, _default_words(key)))
    return fields


def _default_words(key: Key) -> str:
    if key.default is None:
        return ""
    if isinstance(key.default, bool):
        return "true" if key.default else "false"
    if isinstance(key.default, list):
        return ", ".join(str(item) for item in key.default)
    return str(key.default)


def value_from_text(key: Key, typed: str) -> Any:
    """What was typed for a key, as a document states it; what is no such value stays text, for the check."""
    text = typed.strip()
    if key.kind == "flag":
        lowered = text.lower()
        return True if lowered in _TRUE else False if lowered in _FALSE else text
    if key.kind in ("number", "count"):
        return _number(text, whole=key.kind == "count")
    if key.kind == "pair":
        return [_number(part.strip(), whole=False) for part in _split(text)]
    if key.kind in ("lengths", "references"):
        return _split(text)
    return text


def _split(text: str) -> list[str]:
    parts = re.split(r"[,;]", text.strip("[] "))
    return [part.strip().strip('"') for part in parts if part.strip()]


def _number(text: str, *, whole: bool) -> Any:
    plain = text.replace("−", "-")
    if re.fullmatch(r"-?[0-9]{1,9}", plain):
        return int(plain) if whole else float(plain)
    if re.fullmatch(r"-?(?:[0-9]{1,9}\.[0-9]{0,12}|\.[0-9]{1,12})", plain) and not whole:
        return float(plain)
    return text
