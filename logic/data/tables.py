"""The door to the data files: keyed series of values, each row with unit, range, mark and source.

They are data and not code, so that every row can be tested against its plausible range and shown with its
origin. What lives here is only the reading of them; `constants.py`, `wiring_constants.py` and `work_constants.py`
give single values their names.
"""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import msgspec

MARKS = ("FOUND", "COMPUTED", "MEMORY", "PRACTICE")
SHAPES = ("rises", "falls", "never falls", "any")
HEAT_TABLES = ("materials", "films", "water", "limits", "air", "diurnal", "batteries")
WIRING_TABLES = ("conductors", "ampacity", "fuses", "bundles", "meters", "work_parts", "wiring_rules")
TABLES = (*HEAT_TABLES, *WIRING_TABLES, "work")

_FOLDER = Path(__file__).parent / "tables"


class Row(msgspec.Struct, frozen=True):
    """One value with its origin."""

    table: str  # the file
    series: str
    key: int | str
    value: float
    unit: str
    low: float  # plausible range
    high: float
    mark: str
    source: str
    note: str = ""


class Series(msgspec.Struct, frozen=True):
    """Rows of one kind in the file's order, and the shape that their values must have in it."""

    table: str
    name: str
    shape: str  # rises | falls | never falls | any
    rows: tuple[Row, ...]

    def values(self) -> dict[int | str, float]:
        """Values by key. Not to be changed by whoever asks: take `value` for one of them."""
        return {row.key: row.value for row in self.rows}


@cache
def tables(table: str) -> dict[str, Series]:
    """Every series of a data file, by name. What a row doesn't say (unit, range, mark, source) its series says
    for all.

    Raises FileNotFoundError: no such file; KeyError: a row without a value or a range.
    """
    with open(_FOLDER / f"{table}.toml", "rb") as file:
        document: dict[str, dict[str, Any]] = tomllib.load(file)
    return {
        name: Series(
            table=table,
            name=name,
            shape=whole.get("shape", "any"),
            rows=tuple(_row(table, name, whole, row) for row in whole["rows"]),
        )
        for name, whole in document.items()
    }


def _row(table: str, name: str, whole: dict[str, Any], row: dict[str, Any]) -> Row:
    low, high = row["range"] if "range" in row else whole["range"]
    return Row(
        table=table,
        series=name,
        key=row["key"],
        value=float(row["value"]),
        unit=row.get("unit", whole.get("unit", "")),
        low=float(low),
        high=float(high),
        mark=row.get("mark", whole.get("mark", "")),
        source=row.get("source", whole.get("source", "")),
        note=row.get("note", ""),
    )


@cache
def column(table: str, series: str) -> dict[int | str, float]:
    """The values of a series by key, in the rows' unit. Not to be changed by whoever asks."""
    return tables(table)[series].values()


def value(table: str, series: str, key: int | str) -> float:
    """One value, in its row's unit. KeyError where there is no such row."""
    return column(table, series)[key]


@cache
def course(table: str, series: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Keys and values of a series over numbers (degrees, hours), in the file's order."""
    found = column(table, series)
    return tuple(float(key) for key in found), tuple(found.values())
