"""The tables of heat, read once each: values with unit, plausible range, mark and source, and short series.

They are data files so that every row can be tested against its range and shown with its origin. What lives
here is only the reading of them; `constants.py` gives the rows their names.
"""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import msgspec

MARKS = ("FOUND", "COMPUTED", "MEMORY", "PRACTICE")
TABLES = ("materials", "films", "water", "limits")  # of single values
SERIES = ("air", "diurnal", "batteries")

_FOLDER = Path(__file__).parent / "tables"


class Row(msgspec.Struct, frozen=True):
    """One value with its origin."""

    table: str
    key: str
    value: float
    unit: str
    low: float  # plausible range
    high: float
    mark: str
    source: str
    note: str = ""


class Series(msgspec.Struct, frozen=True):
    """Values over temperatures (or over clock hours 1 to 24, where `degc` is empty), with their origin."""

    table: str
    key: str
    degc: tuple[float, ...]
    values: tuple[float, ...]
    unit: str
    low: float
    high: float
    shape: str  # rises | falls | any
    mark: str
    source: str


@cache
def document(table: str) -> dict[str, Any]:
    """The table's file as it stands."""
    with open(_FOLDER / f"{table}.toml", "rb") as file:
        return tomllib.load(file)


@cache
def rows(table: str) -> dict[str, Row]:
    """The rows of a table of single values, by key."""
    return {
        key: Row(
            table=table,
            key=key,
            value=float(row["value"]),
            unit=row["unit"],
            low=float(row["range"][0]),
            high=float(row["range"][1]),
            mark=row["mark"],
            source=row["source"],
            note=row.get("note", ""),
        )
        for key, row in document(table).items()
    }


def value(table: str, key: str) -> float:
    """One value, in its row's unit. KeyError where there is no such row."""
    return rows(table)[key].value


@cache
def series(table: str, key: str) -> Series:
    """One series. What a row doesn't say itself (temperatures, mark, source) its file says for all."""
    whole = document(table)
    row = whole[key]
    return Series(
        table=table,
        key=key,
        degc=tuple(float(t) for t in row.get("degc", whole.get("degc", ()))),
        values=tuple(float(v) for v in row["values"]),
        unit=row["unit"],
        low=float(row["range"][0]),
        high=float(row["range"][1]),
        shape=row.get("shape", "any"),
        mark=row.get("mark", whole.get("mark", "")),
        source=row.get("source", whole.get("source", "")),
    )


def series_keys(table: str) -> tuple[str, ...]:
    """The keys of a file's series, in its order."""
    return tuple(key for key, row in document(table).items() if isinstance(row, dict))
