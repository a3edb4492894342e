"""What a profile says of a place beside its slots, as its file would state it; a default is called one."""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from logic.data.profile_fields import Field, fields_of
from logic.data.profile_keys import BY_NAME, Key
from tui.show.cells import plain

NONE = "none"
MANY = tuple(section.name for section in BY_NAME.values() if section.many)


class ProfileValue(NamedTuple):
    path: str  # tank.galley.outlet.x
    label: str
    text: str
    default: bool
    key: Key


def place_of_path(path: str) -> str:
    """The place that a path of the profile begins with: `tank.galley`, `design`."""
    kind, _, rest = path.partition(".")
    return f"{kind}.{rest.partition('.')[0]}" if kind in MANY else kind


def table_of(document: Mapping[str, Any], place: str) -> dict[str, Any] | None:
    """A place's own table in the document; None where the format or the document has none."""
    kind, _, name = place.partition(".")
    if kind not in BY_NAME:
        return None
    found = document.get(kind)
    if kind not in MANY:
        return found if isinstance(found, dict) else {}
    for part in found if isinstance(found, Sequence) else ():
        if isinstance(part, dict) and part.get("id") == name:
            return part
    return None


def values_of(document: Mapping[str, Any], place: str) -> list[ProfileValue]:
    """Every value of a place that its section of the format knows, given or by default."""
    table = table_of(document, place)
    if table is None:
        return []
    return [value_of(field, place) for field in fields_of(table, place) if field.key.name != "id"]


def value_of(field: Field, place: str) -> ProfileValue:
    """One field as a row has it."""
    label = field.path.removeprefix(f"{place}.").replace(".", " ").replace("_", " ")
    left_out = field.stated is None
    text = by_default(field) if left_out else text_of(field.stated)
    return ProfileValue(field.path, label, text, left_out, field.key)


def by_default(field: Field) -> str:
    """What holds where nothing is stated; by which rule, where no single value does."""
    if field.default:
        return {"true": "yes", "false": "no"}.get(field.default, field.default)
    _, left_out, rule = field.key.says.partition("left out: ")
    return plain(rule) if left_out else NONE


def text_of(stated: Any) -> str:
    """A value as a person would write it in the file."""
    if isinstance(stated, bool):
        return "yes" if stated else "no"
    if isinstance(stated, Sequence) and not isinstance(stated, str):
        return ", ".join(text_of(each) for each in stated) or NONE
    if isinstance(stated, float):
        return f"{stated:g}"
    return plain(str(stated)) or NONE
