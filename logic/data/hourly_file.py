"""A CSV of hourly outdoor temperatures to rows in SI: the columns `time` and `temperature_degC` or `_degF`.

Times are ISO 8601, rising, a step of up to an hour, all with an offset or none. Days go by each row's own
clock. One of the few modules that read a disk.
"""

import csv
import io
import math
import re
import stat
from datetime import UTC, datetime, timedelta, timezone
from itertools import pairwise
from pathlib import Path, PurePosixPath, PureWindowsPath

from logic.data.clean_text import short_text
from logic.data.faults import ProfileFault, ProfileFaults
from logic.data.profile import Hourly

MOST_ROWS = 100_000
LARGEST_FILE = 10 * 1024 * 1024  # bytes
LONGEST_STEP = 3600.0  # s
COLDEST, WARMEST = -80.0, 150.0  # °C
EXPECTED_NAME = "the name of a CSV file in the profile's folder"
_MOST_FAULTS = 10
_NUMBER = re.compile(r"[-+−]?[0-9]{1,6}(?:\.[0-9]{0,20})?(?:[eE][-+]?[0-9]{1,2})?")
_TIME = re.compile(
    r"\d{4}-?\d{2}-?\d{2}[T ]\d{2}(?::?\d{2}(?::?\d{2}(?:[.,]\d{1,9})?)?)?"
    r"\s?(?:Z|[-+−]\d{2}(?::?\d{2})?)?"
)
# A row as nearly every file has them: it needs no closer look, and a hundred thousand of them take no second.
_PLAIN_ROW = re.compile(
    r"([0-9]{4}-[0-9]{2}-[0-9]{2}[T ][0-9]{2}:[0-9]{2}(?::[0-9]{2})?(?:Z|[-+][0-9]{2}:[0-9]{2})?)"
    r",(-?[0-9]{1,6}(?:\.[0-9]{1,20})?)\r?\n"
)


class _RowFaults:
    def __init__(self, file: str) -> None:
        self.file = file
        self.faults: list[ProfileFault] = []

    def add(self, line: int, found: str, expected: str) -> None:
        if len(self.faults) <= _MOST_FAULTS:
            self.faults.append(ProfileFault(self.file, "", f"line {line}: {found}", expected))


def may_lie_beside(name: str) -> bool:
    """Whether a name, on any system, is one within the profile's folder: not empty, not absolute, no `..`."""
    parts = (*PurePosixPath(name).parts, *PureWindowsPath(name).parts)
    absolute = PurePosixPath(name).is_absolute() or bool(PureWindowsPath(name).anchor)
    return bool(PurePosixPath(name).parts) and not absolute and ".." not in parts and "\0" not in name


def read_hourly_beside(profile: Path, name: str) -> Hourly:
    """The rows of the file that a profile names, which must lie in the profile's own folder.

    Raises ProfileFaults: an absolute path, one that leads out of the folder, by a link too, no plain file.
    """
    if not may_lie_beside(name):
        raise _fault(name, found=f'"{short_text(name)}"', expected=EXPECTED_NAME)
    folder = profile.parent
    try:
        real = (folder / name).resolve(strict=False)
        inside = real.is_relative_to(folder.resolve())
    except (OSError, RuntimeError, ValueError):
        inside = False
    if not inside:
        raise _fault(
            name, found=f'"{short_text(name)}", which leads out of the folder', expected=EXPECTED_NAME
        )
    return read_hourly(real)


def read_hourly(path: str | Path) -> Hourly:
    """The rows of a CSV file. Raises ProfileFaults, each fault with its line."""
    place = Path(path)
    try:
        kind = place.stat()
        if not stat.S_ISREG(kind.st_mode):
            raise _fault(str(path), found="no plain file", expected="a CSV file")
        with place.open("rb") as stream:
            raw = stream.read(LARGEST_FILE + 1)
    except ProfileFaults:  # one of ours, said already
        raise
    except FileNotFoundError:
        raise _fault(
            str(path), found=f'"{short_text(place.name)}": no such file', expected="a CSV file"
        ) from None
    except (OSError, ValueError) as error:
        reason = short_text(getattr(error, "strerror", None) or str(error))
        raise _fault(
            str(path), found=f"a file that can't be read ({reason})", expected="a CSV file"
        ) from None
    if len(raw) > LARGEST_FILE:
        raise _fault(str(path), found="more than 10 MiB", expected="a CSV file of up to 10 MiB")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise _fault(str(path), found=f"line {line}: no UTF-8", expected="a CSV file in UTF-8") from None
    return parse_hourly(text, file=str(path))


def parse_hourly(text: str, *, file: str) -> Hourly:
    """The rows of a CSV text. Raises ProfileFaults, each fault with its line."""
    plain = _plain_rows(text)
    if plain is not None:
        return _hourly(plain)
    faults = _RowFaults(short_text(file, limit=300))
    reader = csv.reader(io.StringIO(text.rstrip("\r\n \t") + "\n", newline=""), strict=True)
    rows: list[tuple[int, list[str]]] = []
    try:
        for row in reader:
            rows.append((reader.line_num, row))
            if len(rows) > MOST_ROWS + 1:
                raise _fault(file, found=f"more than {MOST_ROWS} rows", expected=f"up to {MOST_ROWS} rows")
    except csv.Error as error:
        raise _fault(
            file, found=f"line {reader.line_num}: {short_text(str(error))}", expected="a CSV file"
        ) from None
    header = [cell.strip() for cell in rows[0][1]] if rows else []
    if len(header) != 2 or header[0] != "time" or header[1] not in ("temperature_degC", "temperature_degF"):
        raise _fault(
            file,
            found=f"line 1: {short_text(','.join(header)) or 'nothing'}",
            expected='the header "time,temperature_degC" or "time,temperature_degF"',
        )
    in_fahrenheit = header[1].endswith("F")
    read = [_row(line, row, faults, in_fahrenheit=in_fahrenheit) for line, row in rows[1:]]
    if len(read) < 2 and not faults.faults:
        faults.add(2, f"{len(read)} rows", "two rows of temperature or more")
    _check_times(rows[1:], read, faults)
    if faults.faults:
        raise ProfileFaults(faults.faults[:_MOST_FAULTS])
    return _hourly([row for row in read if row is not None])


def _plain_rows(text: str) -> list[tuple[datetime, float]] | None:
    """The rows of a file without a fault, each row a plain one. None: anything else, to be read row by row."""
    header, _, rest = text.rstrip("\r\n \t").replace("\r\n", "\n").partition("\n")
    if header not in ("time,temperature_degC", "time,temperature_degF") or rest.count("\n") >= MOST_ROWS:
        return None
    rest += "\n"
    rows = _PLAIN_ROW.findall(rest)
    if len(rows) < 2 or sum(len(time) + len(number) + 2 for time, number in rows) != len(rest):
        return None
    try:
        moments = [datetime.fromisoformat(time) for time, _ in rows]
        steps_fit = all(
            timedelta(0) < later - earlier <= timedelta(seconds=LONGEST_STEP)
            for earlier, later in pairwise(moments)
        )
    except (ValueError, TypeError):  # no such day; an offset here and none there
        return None
    degc = [float(number) for _, number in rows]
    if header.endswith("F"):
        degc = [(number - 32.0) / 1.8 for number in degc]
    if not steps_fit or min(degc) < COLDEST or max(degc) > WARMEST:
        return None
    return list(zip(moments, degc, strict=True))


def _row(
    line: int, row: list[str], faults: _RowFaults, *, in_fahrenheit: bool
) -> tuple[datetime, float] | None:
    if len(row) != 2:
        faults.add(line, f"{len(row)} values" if row else "an empty line", "a time and a temperature")
        return None
    moment, temperature = _time(row[0].strip()), _temperature(row[1].strip(), in_fahrenheit=in_fahrenheit)
    if moment is None:
        faults.add(line, f'"{short_text(row[0])}"', "a time such as 2026-01-15T18:00")
    if temperature is None:
        faults.add(line, f'"{short_text(row[1])}"', "a temperature from -80 to 150 degC")
    return None if moment is None or temperature is None else (moment, temperature)


def _time(text: str) -> datetime | None:
    if _TIME.fullmatch(text) is None:
        return None
    try:
        return datetime.fromisoformat(text.replace("−", "-").replace(" ", "T", 1).replace(" ", ""))
    except ValueError:
        return None


def _temperature(text: str, *, in_fahrenheit: bool) -> float | None:
    if _NUMBER.fullmatch(text) is None:
        return None
    number = float(text.replace("−", "-"))
    degc = (number - 32.0) / 1.8 if in_fahrenheit else number
    return degc if math.isfinite(degc) and COLDEST - 1e-9 <= degc <= WARMEST + 1e-9 else None


def _check_times(
    rows: list[tuple[int, list[str]]], read: list[tuple[datetime, float] | None], faults: _RowFaults
) -> None:
    """Each row that could be read against the first one, and against the one right before it."""
    with_offset: bool | None = None
    before: datetime | None = None  # of the row right before, where it could be read
    for (line, _), row in zip(rows, read, strict=True):
        if row is None:
            before = None
            continue
        moment = row[0]
        with_offset = moment.tzinfo is not None if with_offset is None else with_offset
        if (moment.tzinfo is not None) != with_offset:
            faults.add(
                line,
                "a time with an offset among times without, or the reverse",
                "all with an offset, or none",
            )
            return
        step = 1.0 if before is None else (moment - before).total_seconds()
        if step <= 0:
            faults.add(line, "a time not after the one before", "rising times")
        elif step > LONGEST_STEP:
            faults.add(line, f"a step of {step / 3600:.4g} h", "a step of up to 1 h")
        before = moment


def _hourly(rows: list[tuple[datetime, float]]) -> Hourly:
    first = rows[0][0]
    midnight = first.replace(hour=0, minute=0, second=0, microsecond=0, tzinfo=None)
    second = timedelta(seconds=1)
    return Hourly(
        seconds=tuple((moment - first).total_seconds() for moment, _ in rows),
        degc=tuple(degc for _, degc in rows),
        clock=tuple((moment.replace(tzinfo=None) - midnight) / second for moment, _ in rows),
        first=first.isoformat(),
    )


def hourly_text(hourly: Hourly) -> str:
    """The rows as a CSV in °C, which reads back as the same rows; what a session writes beside its profile.

    Times have an offset where the rows' own clocks were changed on the way, or the first row had one.
    """
    first = datetime.fromisoformat(hourly.first) if hourly.first else datetime(2001, 1, 1)
    if not hourly.first:
        first += timedelta(seconds=hourly.clock[0])
    # What each row's own clock is ahead of the first row's.
    ahead = [
        (clock - hourly.clock[0]) - seconds
        for clock, seconds in zip(hourly.clock, hourly.seconds, strict=True)
    ]
    changes = any(abs(seconds) >= 1e-6 for seconds in ahead)
    lines = ["time,temperature_degC"]
    for seconds, extra, degc in zip(hourly.seconds, ahead, hourly.degc, strict=True):
        base = first if first.tzinfo is not None or not changes else first.replace(tzinfo=UTC)
        moment = base + timedelta(seconds=seconds)
        offset = base.utcoffset()
        if offset is not None:
            moment = moment.astimezone(timezone(offset + timedelta(seconds=round(extra))))
        lines.append(f"{moment.isoformat()},{degc!r}")
    return "\n".join(lines) + "\n"


def _fault(file: str, *, found: str, expected: str) -> ProfileFaults:
    return ProfileFaults([ProfileFault(short_text(file, limit=300), "", found, expected)])
