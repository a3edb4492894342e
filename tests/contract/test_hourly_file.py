"""The CSV of hourly temperatures: every fault with its line, nothing read from outside its folder."""

import os
import random
import time
from datetime import datetime, timedelta

import pytest

from logic.data.faults import ProfileFaults
from logic.data.hourly_file import (
    LARGEST_FILE,
    MOST_ROWS,
    _plain_rows,
    hourly_text,
    parse_hourly,
    read_hourly,
    read_hourly_beside,
)
from logic.data.profile_file import load_profile
from tests.contract.profile_documents import SOUND

HEADER = "time,temperature_degC\n"
GOOD = HEADER + "2026-01-15T18:00,-2\n2026-01-15T19:00,-6.5\n2026-01-15T19:30,−4\n"


def found(text):
    with pytest.raises(ProfileFaults) as theirs:
        parse_hourly(text, file="week.csv")
    return theirs.value.faults


def test_rows_are_read_in_seconds_and_by_their_own_clock():
    rows = parse_hourly(GOOD, file="week.csv")
    assert rows.seconds == (0.0, 3600.0, 5400.0)
    assert rows.degc == (-2.0, -6.5, -4.0)
    assert rows.clock == (64800.0, 68400.0, 70200.0)


def test_fahrenheit_is_named_by_the_header():
    rows = parse_hourly(GOOD.replace("degC", "degF"), file="week.csv")
    assert rows.degc == pytest.approx((-34 / 1.8, -38.5 / 1.8, -36 / 1.8), abs=1e-12)


def test_days_go_by_each_row_s_own_clock_also_where_the_offset_changes():
    text = HEADER + "2026-03-08T01:00-06:00,1\n2026-03-08T03:00-05:00,2\n2026-03-08T04:00-05:00,3\n"
    rows = parse_hourly(text, file="week.csv")
    assert rows.seconds == (0.0, 3600.0, 7200.0)
    assert rows.clock == (3600.0, 10800.0, 14400.0)


@pytest.mark.parametrize(
    "stamps",
    [
        ("2026-01-15 18:00", "2026-01-15 19:00"),
        ("2026-01-15T18:00:00", "2026-01-15T19:00:00.000"),
        ("2026-01-15T18:00Z", "2026-01-15T19:00Z"),
        ("20260115T1800", "20260115T1900"),
        ("2026-01-15T18:00+0100", "2026-01-15T19:00+01"),
    ],
)
def test_the_usual_forms_of_iso_8601_are_read(stamps):
    rows = parse_hourly(HEADER + "".join(f"{stamp},1\n" for stamp in stamps), file="week.csv")
    assert rows.seconds == (0.0, 3600.0)


# (text, line of the first fault)
WRONG = {
    "nothing at all": ("", 1),
    "only a header": (HEADER, 2),
    "one row": (HEADER + "2026-01-15T18:00,1\n", 2),
    "no header": ("2026-01-15T18:00,1\n2026-01-15T19:00,1\n", 1),
    "a header without a unit": ("time,temperature\n2026-01-15T18:00,1\n", 1),
    "a header with more columns": ("time,temperature_degC,wind\n2026-01-15T18:00,1,2\n", 1),
    "a header the other way round": ("temperature_degC,time\n1,2026-01-15T18:00\n", 1),
    "a blank temperature": (HEADER + "2026-01-15T18:00,1\n2026-01-15T19:00,\n", 3),
    "a blank time": (HEADER + ",1\n2026-01-15T19:00,1\n", 2),
    "an empty line": (HEADER + "2026-01-15T18:00,1\n\n2026-01-15T19:00,1\n", 3),
    "nan": (HEADER + "2026-01-15T18:00,nan\n2026-01-15T19:00,1\n", 2),
    "infinity": (HEADER + "2026-01-15T18:00,inf\n2026-01-15T19:00,1\n", 2),
    "a huge exponent": (HEADER + "2026-01-15T18:00,1e99\n2026-01-15T19:00,1\n", 2),
    "a word": (HEADER + "2026-01-15T18:00,cold\n2026-01-15T19:00,1\n", 2),
    "a decimal comma": (HEADER + '2026-01-15T18:00,"1,5"\n2026-01-15T19:00,1\n', 2),
    "too cold": (HEADER + "2026-01-15T18:00,-80.1\n2026-01-15T19:00,1\n", 2),
    "too warm": (HEADER + "2026-01-15T18:00,150.1\n2026-01-15T19:00,1\n", 2),
    "three values": (HEADER + "2026-01-15T18:00,1,2\n2026-01-15T19:00,1\n", 2),
    "one value": (HEADER + "2026-01-15T18:00\n2026-01-15T19:00,1\n", 2),
    "a day without a time": (HEADER + "2026-01-15,1\n2026-01-16,1\n", 2),
    "no such day": (HEADER + "2026-02-30T18:00,1\n2026-03-01T19:00,1\n", 2),
    "a day in another order": (HEADER + "01/15/2026 18:00,1\n01/15/2026 19:00,1\n", 2),
    "the same time twice": (HEADER + "2026-01-15T18:00,1\n2026-01-15T18:00,1\n", 3),
    "a time that goes back": (HEADER + "2026-01-15T18:00,1\n2026-01-15T17:00,1\n", 3),
    "a step over an hour": (HEADER + "2026-01-15T18:00,1\n2026-01-15T19:01,1\n", 3),
    "an offset on the way": (HEADER + "2026-01-15T18:00,1\n2026-01-15T19:00Z,1\n", 3),
    "no offset on the way": (HEADER + "2026-01-15T18:00Z,1\n2026-01-15T19:00,1\n", 3),
    "an open quotation": (HEADER + '2026-01-15T18:00,"1\n2026-01-15T19:00,1\n', 3),
    "a control character": (HEADER + "2026-01-15T18:00,\x1b1\n2026-01-15T19:00,1\n", 2),
}


@pytest.mark.parametrize("case", WRONG)
def test_a_wrong_row_is_a_fault_with_its_line(case):
    text, line = WRONG[case]
    faults = found(text)
    assert faults[0].found.startswith(f"line {line}: ")
    assert all(fault.expected and fault.line().isprintable() for fault in faults)


def test_several_wrong_rows_are_told_together_and_not_without_end():
    assert len(found(HEADER + "x,1\n" * 3 + "2026-01-15T18:00,1\n")) == 3
    assert len(found(HEADER + "x,y\n" * 5000)) == 10


def test_the_limits_of_rows_and_size(tmp_path):
    path = tmp_path / "week.csv"
    first = datetime(2026, 1, 1)
    lines = [f"{(first + timedelta(minutes=5 * n)).isoformat()},1" for n in range(MOST_ROWS + 1)]
    path.write_text(HEADER + "\n".join(lines[:-1]))
    assert len(read_hourly(path).seconds) == MOST_ROWS
    path.write_text(HEADER + "\n".join(lines))
    with pytest.raises(ProfileFaults, match="more than 100000 rows"):
        read_hourly(path)
    path.write_bytes(b" " * (LARGEST_FILE + 1))
    with pytest.raises(ProfileFaults, match="more than 10 MiB"):
        read_hourly(path)


@pytest.mark.parametrize("content", ["\n" * 5_000_000, ",\n" * 3_000_000, '"' * 9_000_000, "x" * 9_000_000])
def test_a_file_made_to_hang_is_refused_in_time(tmp_path, content):
    path = tmp_path / "week.csv"
    path.write_text(content)
    began = time.process_time()
    with pytest.raises(ProfileFaults):
        read_hourly(path)
    assert time.process_time() - began < 2.0


@pytest.fixture
def folder(tmp_path):
    inner = tmp_path / "rigs"
    inner.mkdir()
    (inner / "week.csv").write_text(GOOD)
    (tmp_path / "outside.csv").write_text(GOOD)
    return inner


def load_with(folder, name):
    text = SOUND.replace('low = "-12 degF"', f"hourly = {name!r}")
    (folder / "rig.toml").write_text(text)
    return load_profile(folder / "rig.toml").profile


def test_a_file_beside_the_profile_replaces_low_and_high(folder):
    design = load_with(folder, "week.csv").design
    assert (design.low_degc, design.high_degc, design.hourly_file) == (-6.5, -2.0, "week.csv")
    assert design.hourly is not None
    (folder / "years").mkdir()
    (folder / "years" / "week.csv").write_text(GOOD)
    assert load_with(folder, "years/week.csv").design.hourly == design.hourly


def test_a_link_that_stays_in_the_folder_is_followed(folder):
    (folder / "link.csv").symlink_to("week.csv")
    assert load_with(folder, "link.csv").design.low_degc == -6.5


@pytest.mark.parametrize(
    "name",
    [
        "../outside.csv", "years/../../outside.csv", "/etc/hostname", "link.csv", "linked/outside.csv", "",
        ".", "..", "years", "pipe", "nowhere.csv", "C:\\\\outside.csv", "..\\\\outside.csv", "~/outside.csv",
    ],
)  # fmt: skip
def test_what_lies_outside_the_folder_or_is_no_plain_file_is_a_fault(folder, name):
    (folder / "years").mkdir()
    (folder / "link.csv").symlink_to(folder.parent / "outside.csv")
    (folder / "linked").symlink_to(folder.parent)
    os.mkfifo(folder / "pipe")
    with pytest.raises(ProfileFaults) as theirs:
        load_with(folder, name)
    assert [fault.path for fault in theirs.value.faults] == ["design.hourly"]


def test_the_rows_of_a_wrong_file_are_told_at_the_profile_s_key_with_their_line(folder):
    (folder / "week.csv").write_text(GOOD + "2026-01-15T23:00,1\n")
    with pytest.raises(ProfileFaults) as theirs:
        load_with(folder, "week.csv")
    (fault,) = theirs.value.faults
    assert fault.path == "design.hourly"
    assert "line 5" in fault.found
    assert "week.csv" in fault.found


def test_an_absolute_path_to_the_profile_s_own_folder_is_a_fault_too(folder):
    with pytest.raises(ProfileFaults):
        read_hourly_beside(folder / "rig.toml", str(folder / "week.csv"))


@pytest.mark.parametrize("stamp", ["2026-01-15T18:00", "2026-01-15T18:00-06:00", "2026-01-15T18:00Z"])
def test_rows_written_are_read_back_as_the_same_rows(stamp):
    chance = random.Random(7)
    first = datetime.fromisoformat(stamp)
    lines = [f"{(first + timedelta(hours=n)).isoformat()},{chance.uniform(-20, 5)!r}" for n in range(200)]
    rows = parse_hourly(HEADER + "\n".join(lines), file="week.csv")
    assert parse_hourly(hourly_text(rows), file="again.csv") == rows


def test_rows_over_a_change_of_clocks_are_written_and_read_back():
    text = HEADER + "2026-03-08T01:00-06:00,1\n2026-03-08T03:00-05:00,2\n2026-03-08T04:00-05:00,3\n"
    rows = parse_hourly(text, file="week.csv")
    assert parse_hourly(hourly_text(rows), file="again.csv") == rows


ROWS = ["2026-01-15T18:00,-2", "2026-01-15T19:00,-6.5", "2026-01-15T19:30:30,4.25", "2026-01-15T20:00,40"]


@pytest.mark.parametrize("offset", ["", "Z", "-07:00"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("unit", ["degC", "degF"])
def test_plain_rows_are_read_at_once_and_are_what_reading_row_by_row_gives(offset, end, unit):
    rows = [row.replace(",", offset + ",") for row in ROWS]
    plain = end.join([f"time,temperature_{unit}", *rows]) + end
    assert _plain_rows(plain) is not None
    quoted = plain.replace(rows[0], '"' + rows[0].replace(",", '","') + '"')
    assert _plain_rows(quoted) is None
    assert parse_hourly(plain, file="week.csv") == parse_hourly(quoted, file="week.csv")


@pytest.mark.parametrize(
    "row",
    [
        "2026-01-15T21:01,1", "2026-01-15T20:00,1", "2026-02-30T20:30,1", "2026-01-15T20:30Z,1",
        "2026-01-15T20:30,151", "2026-01-15T20:30,nan", "2026-01-15T20:30,1,1", "", "2026-01-15T20:30,٣",
    ],
)  # fmt: skip
def test_a_row_at_fault_is_never_a_plain_one(row):
    text = "\n".join([HEADER.strip(), *ROWS, row, "2026-01-15T20:45,2", ""])
    assert _plain_rows(text) is None
    assert len(found(text)) >= 1
