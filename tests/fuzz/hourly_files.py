"""An hourly CSV that is anything: text of every encoding, odd columns and times, no file at all, outside its folder.

Read through the profile that names it and through `season`. Rows or faults in words, each with its line; never a
row that isn't in the file, and nothing from outside the profile's folder.
"""

import math
import os
import random
import shutil
from datetime import datetime, timedelta
from pathlib import Path

from logic.data.faults import ProfileFaults
from logic.data.hourly_file import LONGEST_STEP, parse_hourly
from logic.data.rigs_folder import rigs_folder
from tests.fuzz.answers import sound
from tests.fuzz.hostile import obeyed, text_of
from tests.fuzz.kept import memory_folder

SECRET = "-17.2345678"  # a temperature that stands in no file but the one outside the folder
HEADERS = (
    "time,temperature_degC", "time,temperature_degC", "time,temperature_degC", "time,temperature_degF",
    "time;temperature_degC", "Time,Temperature_degC", "temperature_degC,time", "time,temperature_degC,", "time",
    "", "time\ttemperature_degC", '"time","temperature_degC"', " time , temperature_degC ", "time,temperature_degK",
    "time,time", "\ufefftime,temperature_degC",
)  # fmt: skip
STAMPS = (
    "%Y-%m-%dT%H:%M",
    "%Y-%m-%d %H:%M:%S",
    "%Y%m%dT%H%M",
    "%Y-%m-%dT%H:%MZ",
    "%Y-%m-%dT%H:%M-06:00",
    "%d/%m/%Y %H:%M",
)
CELLS = (
    "", "nan", "inf", "-1e99", "1e400", "9" * 400, "−4", "+3", "1,5", '"2"', "=1+1", "0x10", "1_0", "٣", "-80", "150",
    "-80.1", "150.1", "NULL", "-0", "1e2", "2026-02-30T01:00", "10000-01-01T00:00", "0000-01-01T00:00", "12:00",
)  # fmt: skip


def hourly_text(chance: random.Random) -> str:
    """Rows of a cold night, some of them wrong in one way or another."""
    moment = datetime(chance.choice((1, 1970, 2026, 9999)), 1, 1, chance.randint(0, 23))
    stamp, separator = chance.choice(STAMPS), chance.choice((",", ",", ",", ",", ";", "\t"))
    wrong = chance.choice((0.0, 0.0, 0.05, 0.5))
    if chance.random() < 0.4:
        stamp, separator, wrong = STAMPS[0], ",", chance.choice((0.0, 0.01))
    lines = [chance.choice(HEADERS[:3] if chance.random() < 0.5 else HEADERS)]
    for _ in range(chance.choice((0, 1, 2, 3, 30, 200))):
        cells = [moment.strftime(stamp), f"{chance.uniform(-30, 10):.2f}"]
        if chance.random() < wrong:
            cells[chance.randrange(2)] = chance.choice((*CELLS, text_of(chance)))
        if chance.random() < wrong / 4:
            cells.append(chance.choice(CELLS))
        lines.append(separator.join(cells))
        try:
            moment += timedelta(
                minutes=chance.choice((60, 60, 60, 30)) if chance.random() > wrong / 4 else -60
            )
        except OverflowError:
            break
    return chance.choice(("\n", "\n", "\r\n", "\r")).join(lines) + chance.choice(("\n", "", "\n\n", "\x00"))


def try_hourly_text(chance: random.Random) -> str:
    """A text: rows that are sound, or up to ten faults with their lines."""
    text = hourly_text(chance)
    try:
        rows = parse_hourly(text, file="week.csv")
    except ProfileFaults as wrong:
        faults = wrong.faults
    else:
        assert len(rows.seconds) == len(rows.degc) == len(rows.clock) <= text.count("\n") + text.count("\r")
        assert all(math.isfinite(degc) and -80 <= degc <= 150 for degc in rows.degc)
        assert all(
            0 < later - earlier <= LONGEST_STEP
            for earlier, later in zip(rows.seconds, rows.seconds[1:], strict=False)
        )
        return "hourly taken"
    assert 1 <= len(faults) <= 10
    assert not any(obeyed(fault.line()) for fault in faults), faults
    return "hourly refused"


def try_hourly_file(chance: random.Random) -> str:
    """A file beside a profile, or what stands under its name: `check` and `season` answer with words."""
    with memory_folder() as place:
        outside = Path(place)
        folder = outside / "rigs"
        folder.mkdir()
        rows = f"time,temperature_degC\n2026-01-15T18:00,{SECRET}\n2026-01-15T19:00,{SECRET}\n"
        (outside / "outside.csv").write_text(rows)
        name = _something(folder, chance)
        document = (rigs_folder() / "two-tanks.toml").read_text(encoding="utf-8")
        named = "".join(f"\\U{ord(sign):08x}" for sign in name if not 0xD800 <= ord(sign) < 0xE000)
        (folder / "rig.toml").write_text(
            document.replace("[design]", f'[design]\nhourly = "{named}"', 1), encoding="utf-8"
        )
        answer = sound(["check", folder / "rig.toml", "--json"], home=outside / "home")
        assert SECRET not in answer.output + answer.errors, name
        shutil.copy(rigs_folder() / "two-tanks.toml", folder / "plain.toml")
        if "\0" not in name:
            sound(
                ["season", folder / "plain.toml", "--hourly", str(folder / name), "--json"],
                home=outside / "home",
            )
        return f"hourly file {answer.code}"


def _something(folder: Path, chance: random.Random) -> str:
    """What the profile names; it may be there, or be something else, or lie elsewhere."""
    kind = chance.choice(
        ("text", "text", "text", "bytes", "pipe", "folder", "link", "loop", "device", "name", "deep")
    )
    path = folder / "week.csv"
    if kind == "text":
        coding = chance.choice(
            ("utf-8", "utf-8", "utf-8", "utf-8-sig", "utf-16", "latin-1", "cp1252", "utf-32")
        )
        path.write_bytes(hourly_text(chance).encode(coding, "replace"))
    elif kind == "bytes":
        path.write_bytes(chance.randbytes(chance.randint(0, 300)))
    elif kind == "pipe":
        os.mkfifo(path)
    elif kind == "folder":
        path.mkdir()
    elif kind == "link":
        path.symlink_to(
            chance.choice(("../outside.csv", str(folder.parent / "outside.csv"), "/etc/hostname", "nowhere"))
        )
    elif kind == "loop":
        path.symlink_to("week.csv")
    elif kind == "device":
        path.symlink_to(chance.choice(("/dev/zero", "/dev/null", "/dev/stdin", "/dev/full")))
    elif kind == "deep":
        (folder / "in").symlink_to("..")
        return chance.choice(
            ("in/outside.csv", "./../outside.csv", "rigs/../../outside.csv", "in/rigs/../outside.csv")
        )
    else:
        return chance.choice(
            ("../outside.csv", str(folder.parent / "outside.csv"), "..\\outside.csv", "C:outside.csv", "", ".", "/",
             "\0", "x" * 300, "a/" * 3000, "~/outside.csv", "$HOME/x", "file:///etc/hostname", text_of(chance))
        )  # fmt: skip
    return "week.csv"
