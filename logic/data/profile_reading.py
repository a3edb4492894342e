"""Reading one table of a profile by its declared keys: every value to SI, every fault with its path.

What a single key can get wrong is found here: unknown, missing, another type or unit, out of its limits,
in a table of another shape or face. What hangs on several parts stands in the checks of those parts.
"""

import math
import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any

import msgspec

from logic.data import units
from logic.data.clean_text import clean_text, short_text
from logic.data.faults import FaultList, shown
from logic.data.profile_keys import ID_LIMIT, MOST_KEEPOUTS, MOST_SPOOLS, RATINGS, Key, Span
from logic.data.profile_lengths import plain_length
from logic.data.wiring_constants import GAUGES

ID_FORM = re.compile(rf"[a-z][a-z0-9-]{{0,{ID_LIMIT - 1}}}")
EXPECTED_ID = f"an id of 1 to {ID_LIMIT} of a-z, 0-9 and -, starting with a letter"
_BARE = re.compile(r"[A-Za-z0-9_-]{1,40}")
_GAUGE = re.compile(r"([0-9]{1,2})\s?AWG")


class _NoValue(Exception):
    """The value is at fault, and the fault is in the list."""


class Values(dict[str, Any]):
    """What a table says, by key, in SI, defaults in place; a key at fault is missing from it."""

    def have(self, *names: str) -> bool:
        """Whether all of these keys have a value."""
        return all(self.get(name) is not None for name in names)


class Part(msgspec.Struct, frozen=True):
    """One part of a list: values, path, id (empty where that is at fault), and the id as stated."""

    values: Values
    path: str
    id: str
    stated: str


def path_of(*parts: str) -> str:
    """A path of keys; a key that isn't plain is quoted and shortened."""
    return ".".join(part for part in parts if part)


def plain_key(key: str) -> str:
    """A key as a path shows it."""
    return key if _BARE.fullmatch(key) else f'"{short_text(key, limit=40)}"'


def read_table(table: Any, keys: tuple[Key, ...], faults: FaultList, *, path: str, what: str) -> Values:
    """The values of one table; its faults go to `faults`.

    what : how an error names such a table: `a tank`.
    """
    values = Values()
    if not isinstance(table, dict):
        faults.add(path, found=shown(table), expected=f"a table with {_key_list(keys)}")
        return values
    known = {key.name: key for key in keys}
    for name in table:
        if name not in known:
            near = faults.near(name, known)
            expected = f"a key of {what}{near}" if near else f"a key of {what}: {_key_list(keys)}"
            faults.add(path_of(path, plain_key(name)), found="an unknown key", expected=expected)
    for key in keys:
        try:
            values[key.name] = _read_key(table, key, faults, path=path_of(path, key.name), values=values)
        except _NoValue:
            continue
    return values


def _key_list(keys: tuple[Key, ...]) -> str:
    return ", ".join(key.name for key in keys)


def _read_key(table: dict[str, Any], key: Key, faults: FaultList, *, path: str, values: Values) -> Any:
    if key.name in table and key.only is not None:
        other, allowed = key.only
        stated = values.get(other)  # declared before this key; at fault itself: nothing more to say
        if stated is not None and stated not in allowed:
            wanted = " or ".join(allowed)
            faults.add(
                path,
                found=f"{key.name} with {other} {shown(stated)}",
                expected=f"{other} {wanted}, or no such key",
            )
            raise _NoValue
    if key.name not in table:
        if key.required or (key.wanted and key.only is not None and values.get(key.only[0]) in key.only[1]):
            faults.add(path, found="nothing", expected=_expected(key))
            raise _NoValue
        return default_value(key)
    return read_value(table[key.name], key, faults, path=path)


@lru_cache(maxsize=8192)  # a profile says the same again and again
def _read_quantity(text: str, kind: str) -> float:
    plain = plain_length(text) if kind == "length" else None
    return units.read_quantity(text, kind) if plain is None else plain


def default_value(key: Key) -> Any:
    """The default of a key, in SI; None where it has none or where it hangs on another key."""
    default = key.default
    if isinstance(default, str) and key.kind in units.SI_UNITS:
        return _read_quantity(default, key.kind)
    if key.kind == "lengths":
        return tuple(_read_quantity(text, "length") for text in default)
    if key.kind == "gauge" and default == "auto":
        return None
    if key.kind == "tables":
        return ()
    return tuple(default) if isinstance(default, list) else default


def read_value(value: Any, key: Key, faults: FaultList, *, path: str) -> Any:
    """One value in SI; raises _NoValue after putting its fault into the list."""
    reader = _READERS.get(key.kind)
    if reader is not None:
        return reader(value, key, faults, path)
    return _quantity(value, key, faults, path)


def _refuse(value: Any, faults: FaultList, path: str, expected: str) -> _NoValue:
    faults.add(path, found=shown(value), expected=expected)
    return _NoValue()


def _expected(key: Key) -> str:
    """What a key wants, in words."""
    if key.kind in units.EXPECTED:
        said = units.EXPECTED[key.kind]
        return f"{said}; {key.span.says}" if key.span else said
    return {
        "text": f"a text of up to {key.limit} characters",
        "id": EXPECTED_ID,
        "reference": f"a text: {key.says}",
        "references": "a list of heaters' ids",
        "choice": "one of " + ", ".join(f'"{choice}"' for choice in key.choices),
        "flag": "true or false",
        "number": f"a number without a unit, {key.span.says}" if key.span else "a number",
        "count": key.span.says if key.span else "a whole number",
        "pair": "two numbers from -1 to 1, the first the lesser, such as [-0.05, 0.1]",
        "lengths": f'a list of 1 to {MOST_SPOOLS} lengths, such as ["25 ft", "100 ft"]',
        "gauge": '"auto", or an even gauge from "18 AWG" to "4 AWG"',
        "fuse": '"auto", "none", or a standard rating: '
        + ", ".join(f"{rating:g}" for rating in RATINGS)
        + " A",
        "table": "a table with " + _key_list(key.keys),
        "tables": f"a list of up to {MOST_KEEPOUTS} tables with " + _key_list(key.keys),
    }[key.kind]


def _within(number: float, span: Span | None) -> bool:
    if not math.isfinite(number):
        return False
    if span is None:
        return True
    # A limit given in another unit may come out a rounding away from itself.
    margin = 1e-12 * max(abs(span.low), abs(span.high))
    above = number > span.low if span.over else number >= span.low - margin
    return above and number <= span.high + margin


def _quantity(value: Any, key: Key, faults: FaultList, path: str) -> float:
    if not isinstance(value, str):
        raise _refuse(value, faults, path, _expected(key))
    try:
        number = _read_quantity(value, key.kind)
    except units.UnitFault as fault:
        raise _refuse(
            value, faults, path, f"{fault.expected}; {key.span.says}" if key.span else fault.expected
        ) from None
    if not _within(number, key.span):
        raise _refuse(value, faults, path, _expected(key))
    return number


def _text(value: Any, key: Key, faults: FaultList, path: str) -> str:
    if not isinstance(value, str):
        raise _refuse(value, faults, path, _expected(key))
    clean = clean_text(value)
    if len(clean) > key.limit:
        faults.add(path, found=f"{len(clean)} characters", expected=_expected(key))
        raise _NoValue
    if key.required and not clean:
        raise _refuse(value, faults, path, f"a text of 1 to {key.limit} characters")
    return clean


def _id(value: Any, key: Key, faults: FaultList, path: str) -> str:
    if not isinstance(value, str) or not ID_FORM.fullmatch(value):
        raise _refuse(value, faults, path, EXPECTED_ID)
    return value


def _reference(value: Any, key: Key, faults: FaultList, path: str) -> str:
    if not isinstance(value, str):
        raise _refuse(value, faults, path, _expected(key))
    return value


def _references(value: Any, key: Key, faults: FaultList, path: str) -> tuple[str, ...]:
    if not isinstance(value, list) or not all(isinstance(item, str) for item in value):
        raise _refuse(value, faults, path, _expected(key))
    return tuple(value)


def _choice(value: Any, key: Key, faults: FaultList, path: str) -> str:
    if isinstance(value, str) and value in key.choices:
        return value
    near = faults.near(value, key.choices) if isinstance(value, str) else ""
    raise _refuse(value, faults, path, _expected(key) + near)


def _flag(value: Any, key: Key, faults: FaultList, path: str) -> bool:
    if not isinstance(value, bool):
        raise _refuse(value, faults, path, _expected(key))
    return value


def _is_number(value: Any, span: Span | None) -> bool:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    # An integer of thousands of digits has no float.
    return _within(float(value), span) if isinstance(value, float) or abs(value) < 10**15 else False


def _number(value: Any, key: Key, faults: FaultList, path: str) -> float:
    if not _is_number(value, key.span):
        raise _refuse(value, faults, path, _expected(key))
    return float(value)


def _count(value: Any, key: Key, faults: FaultList, path: str) -> int:
    if not _is_number(value, key.span) or int(value) != value:
        raise _refuse(value, faults, path, _expected(key))
    return int(value)


def _pair(value: Any, key: Key, faults: FaultList, path: str) -> tuple[float, float]:
    fits = (
        isinstance(value, list) and len(value) == 2 and all(_is_number(number, key.span) for number in value)
    )
    if not fits or not value[0] < value[1]:
        found = shown(value) if not isinstance(value, list) else _shown_list(value)
        faults.add(path, found=found, expected=_expected(key))
        raise _NoValue
    return float(value[0]), float(value[1])


def _shown_list(value: list[Any]) -> str:
    return "[" + ", ".join(shown(item) for item in value[:4]) + (", …]" if len(value) > 4 else "]")


def _lengths(value: Any, key: Key, faults: FaultList, path: str) -> tuple[float, ...]:
    if not isinstance(value, list) or not 1 <= len(value) <= MOST_SPOOLS:
        raise _refuse(value, faults, path, _expected(key))
    one = Key(key.name, "length", key.says, span=key.span)
    return tuple(_quantity(item, one, faults, path) for item in value)


def _gauge(value: Any, key: Key, faults: FaultList, path: str) -> int | None:
    if value == "auto":
        return None
    match = _GAUGE.fullmatch(value) if isinstance(value, str) else None
    if match is None or int(match[1]) not in GAUGES:
        raise _refuse(value, faults, path, _expected(key))
    return int(match[1])


def _fuse(value: Any, key: Key, faults: FaultList, path: str) -> float | str:
    if not isinstance(value, str):
        raise _refuse(value, faults, path, _expected(key))
    if value in ("auto", "none"):
        return value
    try:
        rating = units.read_quantity(value, "amps")
    except units.UnitFault:
        raise _refuse(value, faults, path, _expected(key)) from None
    if rating not in RATINGS:
        raise _refuse(value, faults, path, _expected(key))
    return rating


def _table(value: Any, key: Key, faults: FaultList, path: str) -> Values:
    return read_table(value, key.keys, faults, path=path, what=f"{key.name}")


def _tables(value: Any, key: Key, faults: FaultList, path: str) -> tuple[Values, ...]:
    if not isinstance(value, list) or len(value) > MOST_KEEPOUTS:
        raise _refuse(value, faults, path, _expected(key))
    return tuple(
        read_table(item, key.keys, faults, path=f"{path}.{number}", what=f"{key.name}")
        for number, item in enumerate(value, start=1)
    )


_READERS: dict[str, Callable[[Any, Key, FaultList, str], Any]] = {
    "text": _text,
    "id": _id,
    "reference": _reference,
    "references": _references,
    "choice": _choice,
    "flag": _flag,
    "number": _number,
    "count": _count,
    "pair": _pair,
    "lengths": _lengths,
    "gauge": _gauge,
    "fuse": _fuse,
    "table": _table,
    "tables": _tables,
}
