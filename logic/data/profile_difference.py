"""In what two profiles differ, by the paths of their files: for a session beside the file that it began with.

Two spellings of one value (`41 3/8 in`, `41.375 in`, a default written out) are no difference: what counts is
the checked profile; the raw documents only say how a person wrote it.
"""

from collections.abc import Iterator
from typing import Any

import msgspec

from logic.data.profile import Profile

LEFT_OUT = "left out"
_MISSING = object()


class Difference(msgspec.Struct, frozen=True):
    """One value, or one whole part, that is not the same; as each side writes it."""

    path: str
    mine: str
    theirs: str


def differences(
    mine: Profile, theirs: Profile, *, my_document: dict[str, Any], their_document: dict[str, Any]
) -> tuple[Difference, ...]:
    """Every difference, in the order of `my_document`, then what only the other one has."""
    my_values, their_values = dict(leaves(my_document)), dict(leaves(their_document))
    my_parts, their_parts = set(parts(my_document)), set(parts(their_document))
    found = [Difference(part, "there", LEFT_OUT) for part in parts(my_document) if part not in their_parts]
    found += [Difference(part, LEFT_OUT, "there") for part in parts(their_document) if part not in my_parts]
    one_sided = tuple(f"{part}." for part in my_parts ^ their_parts)
    for path in dict.fromkeys([*my_values, *their_values]):
        if path.startswith(one_sided):
            continue
        if my_values.get(path) == their_values.get(path):
            continue
        my_value, their_value = value_at(mine, path), value_at(theirs, path)
        if my_value is _MISSING or their_value is _MISSING or my_value != their_value:
            found.append(Difference(path, written(my_values, path), written(their_values, path)))
    return tuple(found)


def parts(document: dict[str, Any]) -> Iterator[str]:
    """`tank.galley`, `run.feed`: each part of a document that has an id."""
    for kind, value in document.items():
        if isinstance(value, list):
            for part in value:
                if isinstance(part, dict) and "id" in part:
                    yield f"{kind}.{part['id']}"


def leaves(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Each value of a document that is no table, with its path."""
    if isinstance(value, dict):
        for key, inner in value.items():
            if key != "id":
                yield from leaves(inner, f"{path}.{key}" if path else key)
    elif isinstance(value, list) and value and all(isinstance(item, dict) for item in value):
        for number, item in enumerate(value, start=1):
            yield from leaves(item, f"{path}.{item.get('id', number)}")
    else:
        yield path, value


def value_at(profile: Profile, path: str) -> Any:
    """The checked value behind a path of the file; a marker of ours where the profile has none there."""
    here: Any = profile
    for name in path.split("."):
        if isinstance(here, tuple):
            here = _item(here, name)
        else:
            here = _field(here, name)
        if here is _MISSING:
            break
    return here


def written(values: dict[str, Any], path: str) -> str:
    """A value as its document writes it."""
    if path not in values:
        return LEFT_OUT
    value = values[path]
    return value if isinstance(value, str) else str(value).lower() if isinstance(value, bool) else str(value)


def _item(items: tuple[Any, ...], name: str) -> Any:
    if name.isdigit():
        return items[int(name) - 1] if 0 < int(name) <= len(items) else _MISSING
    return next((item for item in items if getattr(item, "id", None) == name), _MISSING)


def _field(part: Any, name: str) -> Any:
    """The field of a struct that a key of the file became: itself, with its unit, or in the plural."""
    fields = getattr(part, "__struct_fields__", ())
    for candidate in (name, f"{name}s", f"{name}_", f"{name}_degc", f"{name}_ah", f"{name}_file"):
        if candidate in fields:
            return getattr(part, candidate)
    return _MISSING
