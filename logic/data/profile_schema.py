"""The JSON Schema of a profile, for editors: draft 2020-12, made from the declared keys.

It knows keys, types, units, signs and choices. Sizes against each other, references and circuits are beyond a
schema: a profile that it accepts may still have faults, which the check finds.
"""

from typing import Any

from logic.data.profile_keys import (
    DESIGN,
    FORMAT,
    MOST_KEEPOUTS,
    MOST_PARTS,
    MOST_SPOOLS,
    SECTIONS,
    Key,
    Section,
)
from logic.data.profile_patterns import FUSE, GAUGE, ID, quantity_pattern
from logic.data.units import EXPECTED

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def profile_schema() -> dict[str, Any]:
    """The schema of a profile as plain data, ready to be written as JSON."""
    properties: dict[str, Any] = {"format": {"const": FORMAT, "description": "The format of this file"}}
    for section in SECTIONS:
        table = _table(section.keys, section.says)
        if section.many:
            properties[section.name] = {"type": "array", "items": table, "maxItems": MOST_PARTS}
        else:
            properties[section.name] = table
    properties[DESIGN.name]["anyOf"] = [{"required": ["low"]}, {"required": ["hourly"]}]
    return {
        "$schema": DRAFT,
        "title": "A rig profile",
        "type": "object",
        "properties": properties,
        "required": ["format", *(section.name for section in SECTIONS if _must_be_there(section))],
        "additionalProperties": False,
    }


def _must_be_there(section: Section) -> bool:
    return section is DESIGN or (not section.many and any(key.required for key in section.keys))


def _table(keys: tuple[Key, ...], says: str) -> dict[str, Any]:
    table: dict[str, Any] = {
        "type": "object",
        "description": says,
        "properties": {key.name: _key(key) for key in keys},
        "additionalProperties": False,
    }
    required = [key.name for key in keys if key.required]
    if required:
        table["required"] = required
    rules = _rules(keys)
    if rules:
        table["allOf"] = rules
    return table


def _rules(keys: tuple[Key, ...]) -> list[dict[str, Any]]:
    """Which keys may stand only with some values of another, and which such a value asks for."""
    rules = []
    for key in keys:
        if key.only is None:
            continue
        other, values = key.only
        rule: dict[str, Any] = {
            "if": {"properties": {other: {"enum": list(values)}}, "required": [other]},
            "else": {"not": {"required": [key.name]}},
        }
        if key.wanted:
            rule["then"] = {"required": [key.name]}
        rules.append(rule)
    return rules


def _key(key: Key) -> dict[str, Any]:
    says = key.says
    if key.kind in EXPECTED:
        said = f"{says}: {EXPECTED[key.kind]}"
        if key.span is not None:
            said += f"; {key.span.says}"
        schema: dict[str, Any] = {"type": "string", "pattern": quantity_pattern(key), "description": said}
    else:
        schema = {**_plain(key), "description": says}
    if key.default is not None:
        schema["default"] = key.default
    return schema


def _plain(key: Key) -> dict[str, Any]:
    """A key without a unit."""
    limits: dict[str, Any] = {}
    if key.span is not None:
        limits = {"exclusiveMinimum" if key.span.over else "minimum": key.span.low, "maximum": key.span.high}
    if key.kind == "lengths":
        one = Key(key.name, "length", key.says, span=key.span)
        item = {"type": "string", "pattern": quantity_pattern(one)}
        return {"type": "array", "items": item, "minItems": 1, "maxItems": MOST_SPOOLS}
    if key.kind == "table":
        return _table(key.keys, key.says)
    if key.kind == "tables":
        return {"type": "array", "items": _table(key.keys, key.says), "maxItems": MOST_KEEPOUTS}
    # Characters that are taken out of a text don't count against its limit, so a schema sets none on length.
    plain: dict[str, dict[str, Any]] = {
        "text": {"type": "string", **({"minLength": 1} if key.required else {})},
        "id": {"type": "string", "pattern": ID},
        "reference": {"type": "string", "pattern": ID},
        "references": {"type": "array", "items": {"type": "string", "pattern": ID}},
        "choice": {"enum": list(key.choices)},
        "flag": {"type": "boolean"},
        "number": {"type": "number", **limits},
        "count": {"type": "integer", **limits},
        "pair": {"type": "array", "items": {"type": "number", **limits}, "minItems": 2, "maxItems": 2},
        "gauge": {"type": "string", "pattern": GAUGE},
        "fuse": {"type": "string", "pattern": FUSE},
    }
    return plain[key.kind]
