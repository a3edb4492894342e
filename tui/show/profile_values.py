"""What a profile says of a place beside its slots, as its file would state it; a default is called one."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from logic.data.profile_keys import BY_NAME, Key, Section
from tui.show.cells import plain
from tui.show.snapshot import Snapshot

NONE = "none"


class ProfileValue(NamedTuple):
    path: str  # tank.galley.outlet.x
    label: str
    text: str
    default: bool
    key: Key


def section_of(place: str) -> Section | None:
    """The section of the format that a place belongs to; None for what has none (meter, weather, sleeves)."""
    return BY_NAME.get(place.partition(".")[0])


def table_of(document: Mapping[str, Any], place: str) -> Mapping[str, Any] | None:
    """A place's own table in the document; None where the document has none."""
    kind, _, name = place.partition(".")
    found = document.get(kind)
    if not name:
        return found if isinstance(found, Mapping) else {}
    for part in found if isinstance(found, Sequence) else ():
        if isinstance(part, Mapping) and part.get("id") == name:
            return part
    return None


def values_of(snapshot: Snapshot, place: str) -> list[ProfileValue]:
    """Every value of a place that its section of the format knows, given or by default."""
    section = section_of(place)
    table = table_of(snapshot.document, place) if section is not None else None
    if section is None or table is None:
        return []
    return list(rows_of(section.keys, table, place, table))


def rows_of(
    keys: Sequence[Key], table: Mapping[str, Any], path: str, outer: Mapping[str, Any], prefix: str = ""
) -> Iterator[ProfileValue]:
    for key in keys:
        if key.name == "id" or not belongs(key, outer):
            continue
        here, label = f"{path}.{key.name}", f"{prefix}{key.name}".replace("_", " ")
        found = table.get(key.name)
        if key.kind == "table" and isinstance(found, Mapping):
            yield from rows_of(key.keys, found, here, outer, f"{label} ")
        elif key.kind == "tables":
            for number, part in enumerate(found or (), start=1):
                yield from rows_of(key.keys, part, f"{here}.{number}", outer, f"{label} {number} ")
        else:
            yield ProfileValue(here, label, text_of(found, key), key.name not in table, key)


def belongs(key: Key, table: Mapping[str, Any]) -> bool:
    """Whether a key may stand beside what the table says: a taper's bottom only in a taper."""
    return key.only is None or table.get(key.only[0]) in key.only[1]


def text_of(found: Any, key: Key) -> str:
    """A value as a person would write it in the file."""
    if found is None:
        found = key.default
    if found is None:
        _, left_out, by = key.says.partition("left out: ")
        return plain(by) if left_out else NONE
    if found is True or found is False:
        return "yes" if found else "no"
    if isinstance(found, Sequence) and not isinstance(found, str):
        return ", ".join(plain(str(each)) for each in found) or NONE
    if isinstance(found, float):
        return f"{found:g}"
    return plain(str(found)) or NONE
