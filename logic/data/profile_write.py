"""A raw document to TOML that a person likes to read, and that a load takes back as the same document.

Keys come in the order of their declarations, parts under a heading each, small tables on one line, and a list
of keep-outs one to a line. What this version doesn't know is written too, behind what it knows.
"""

import datetime
import math
import re
from typing import Any

from logic.data.profile_keys import SECTIONS, Key

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPES = {"\b": "\\b", "\t": "\\t", "\n": "\\n", "\f": "\\f", "\r": "\\r", '"': '\\"', "\\": "\\\\"}
LINE = 100  # characters; longer lists stand one item to a line


def profile_text(document: dict[str, Any], *, comment: str = "") -> str:
    """The document as TOML.

    comment : stands at the top, a `#` before each of its lines.
    """
    blocks = []
    if comment:
        blocks.append("\n".join(f"# {line}".rstrip() for line in comment.splitlines()))
    known = {section.name for section in SECTIONS}
    plain = {name: value for name, value in document.items() if name not in known and not _is_headed(value)}
    if plain:
        blocks.append("\n".join(_lines(plain, ())))
    for section in SECTIONS:
        if section.name in document:
            blocks += _headed(section.name, document[section.name], section.keys)
    for name, value in document.items():
        if name not in known and name not in plain:
            blocks += _headed(name, value, ())
    return "\n\n".join(block for block in blocks if block) + "\n"


def _is_headed(value: Any) -> bool:
    return isinstance(value, dict) or (
        isinstance(value, list) and bool(value) and all(isinstance(item, dict) for item in value)
    )


def _headed(name: str, value: Any, keys: tuple[Key, ...]) -> list[str]:
    """A table, or each of a list of tables, under its heading."""
    if isinstance(value, dict):
        return ["\n".join([f"[{_key(name)}]", *_lines(value, keys)])]
    if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
        return [f"{_key(name)} = {_value(value)}"]
    return ["\n".join([f"[[{_key(name)}]]", *_lines(table, keys)]) for table in value]


def _lines(table: dict[str, Any], keys: tuple[Key, ...]) -> list[str]:
    order = {key.name: number for number, key in enumerate(keys)}
    names = sorted(table, key=lambda name: order.get(name, len(order)))
    return [f"{_key(name)} = {_value(table[name])}" for name in names if table[name] is not None]


def _key(name: str) -> str:
    return name if _BARE.fullmatch(name) else _string(name)


def _value(value: Any) -> str:
    if isinstance(value, list | tuple):
        return _list(list(value))
    if isinstance(value, dict):
        return _inline(value)
    return _scalar(value)


def _inline(value: Any) -> str:
    """A value that must stay on one line, as TOML wants it within a table on one line."""
    if isinstance(value, dict):
        pairs = ", ".join(f"{_key(name)} = {_inline(item)}" for name, item in value.items())
        return f"{{ {pairs} }}" if pairs else "{}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(_inline(item) for item in value)}]"
    return _scalar(value)


def _list(items: list[Any]) -> str:
    on_one_line = _inline(items)
    if len(on_one_line) <= LINE and not any(isinstance(item, dict) for item in items):
        return on_one_line
    return "[\n" + "".join(f"    {_inline(item)},\n" for item in items) + "]"


def _scalar(value: Any) -> str:
    if isinstance(value, str):
        return _string(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float):
        if math.isfinite(value):
            return repr(value)
        return "nan" if math.isnan(value) else ("inf" if value > 0 else "-inf")
    if isinstance(value, datetime.datetime | datetime.date | datetime.time):
        return value.isoformat()
    raise TypeError(f"no TOML for {type(value).__name__}")


def _string(text: str) -> str:
    def escaped(character: str) -> str:
        if character in _ESCAPES:
            return _ESCAPES[character]
        return f"\\u{ord(character):04x}" if ord(character) < 0x20 or ord(character) == 0x7F else character

    return '"' + "".join(escaped(character) for character in text) + '"'
