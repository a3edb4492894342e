"""Random hostile input at every door, for as long as it is told: `python -m tests.fuzz.long_run SECONDS [SEED]`.

Profiles are demo rigs with something changed in them, calls are words of calls put together anew, tape texts are made
of a tape's own signs. An answer or a fault in words is right; an exception, a number that isn't finite, a control
character on the way out or an answer after 2 s of processor time is a finding, and is printed with what led to it.
"""

import copy
import io
import json
import math
import random
import sys
import tempfile
import time
import tomllib
from collections import Counter
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from typing import Any

from logic.assessment.assess import assess
from logic.data.faults import ProfileFaults
from logic.data.profile import Profile
from logic.data.profile_check import check_document
from logic.data.slots import slots_of
from logic.data.tape import read_value
from logic.data.tape_fault import TapeFault
from tui.command_line.main import main as called

RIGS = sorted((Path(__file__).parents[2] / "rigs").glob("*.toml"))
LIMIT = 2.0  # s of processor time
SIGNS = "0123456789  //..,-+'\"½¼⅜′″±inftmcΩVA%°FCkMOL;\x1b[]\u202e"
TEXTS = (
    "", " ", "nan in", "inf m", "1e400 in", "0 in", "-3 in", "5 ft 6 in", "41 3/8 in",
    "9" * 400, "<b>", "[bold]x[/x]",
    "\x1b[31mred", "=1+1", "../../etc", "R 5", "-300 degF", "150 degC", "12 V", "1 A", "auto", "none", "own", "supply",
)  # fmt: skip
WORDS = (
    "check", "open", "read", "step", "punch", "status", "season", "sheet", "sources", "schema", "profile", "copy",
    "merge", "sessions", "--json", "--new", "--session", "--hourly",
    "-o", "-", "--", "--help", "--strike", "-1", "add", "done",
    "--weight", "stop", "\x1b[2J", "x" * 3000, "", "tank.gray.length", "38 1/2", "/nowhere/at/all.toml", "/tmp",
)  # fmt: skip


def changed(document: dict[str, Any], chance: random.Random) -> dict[str, Any]:
    """A document with one to four values replaced, removed, doubled or moved."""
    document = copy.deepcopy(document)
    for _ in range(chance.randint(1, 4)):
        holder: Any = document
        while True:
            keys = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
            if not keys:
                break
            key = chance.choice(keys)
            below = holder[key]
            if isinstance(below, dict | list) and below and chance.random() < 0.85:
                holder = below
                continue
            deed = chance.random()
            if deed < 0.7:
                holder[key] = chance.choice(
                    (*TEXTS, chance.random() * 10 ** chance.randint(-9, 9), 0, -1, True, [], {})
                )
            elif deed < 0.85:
                del holder[key]
            elif isinstance(holder, list):
                holder.append(copy.deepcopy(below))
            else:
                holder[chance.choice(TEXTS) or "key"] = below
            break
    return document


def try_profile(chance: random.Random) -> str:
    """A changed demo rig: faults in words, or an assessment whose numbers are finite."""
    document = changed(tomllib.loads(chance.choice(RIGS).read_text(encoding="utf-8")), chance)
    try:
        profile = check_document(document, file="changed.toml")
    except ProfileFaults as wrong:
        told = [fault.line() for fault in wrong.faults]
    else:
        return assessed(profile)
    assert told
    assert all(clean(each) for each in told), told
    return "profile refused"


def assessed(profile: Profile) -> str:
    """Every number is finite, and where there is none it says why."""
    for figure in assess(profile).figures:
        for number in (figure.value, figure.low, figure.high, figure.u):
            assert number is None or math.isfinite(number), figure.id
        assert figure.value is not None or figure.why_not is not None, figure.id
    return "profile assessed"


def try_tape(chance: random.Random) -> str:
    """A text at a slot: a value in its range, or a fault in words."""
    profile = check_document(tomllib.loads(RIGS[0].read_text(encoding="utf-8")), file=RIGS[0].name)
    slot = chance.choice(tuple(slots_of(profile)))
    typed = "".join(chance.choice(SIGNS) for _ in range(chance.randint(0, 14)))
    try:
        reading = read_value(typed, slot, metric=chance.random() < 0.5, tape_resolution=None)
    except TapeFault:
        return "tape refused"
    assert math.isfinite(reading.value), typed
    return "tape taken"


def try_call(chance: random.Random) -> str:
    """A call of random words: an exit code of ours, and nothing on the way out that a terminal would obey."""
    words = [chance.choice((*WORDS, str(chance.choice(RIGS)))) for _ in range(chance.randint(0, 5))]
    words.insert(0, chance.choice(WORDS[:14]))
    if words[:1] == ["read"] and "-" in words:
        words.remove("-")  # it would wait for standard input
    out, complaints = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(2))
    with redirect_stdout(out), redirect_stderr(complaints):
        try:
            code = called(words)
        except SystemExit as left:
            code = left.code if isinstance(left.code, int) else 2
    assert code in (0, 1, 2), (words, code)
    answered, said = (written(stream) for stream in (out, complaints))
    assert "Traceback" not in said, words
    assert "fault of this program" not in said, (words, said)
    assert clean(answered), words
    assert clean(said), words
    if "--json" in words and answered.strip() and code == 2:
        json.loads(answered)
    return f"call answered {code}"


def written(stream: io.TextIOWrapper) -> str:
    stream.flush()
    return stream.buffer.getvalue().decode("utf-8")  # type: ignore[attr-defined]


def clean(text: str) -> bool:
    return not any((sign < " " and sign not in "\n\t") or sign in "\x7f\u202e" for sign in text)


def main(seconds: float, seed: int) -> int:
    chance = random.Random(seed)
    counts: Counter[str] = Counter()
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        case = random.Random(chance.random())
        doors = (try_profile, try_tape, try_call)
        door = chance.choice(doors)
        begin = time.process_time()
        try:
            counts[door(case)] += 1
        except Exception as wrong:
            counts["FOUND"] += 1
            print(f"{door.__name__}: {type(wrong).__name__}: {wrong}"[:600])
        if time.process_time() - begin > LIMIT:
            counts["SLOW"] += 1
            print(f"{door.__name__}: {time.process_time() - begin:.1f} s")
    print(f"seed {seed}: " + ", ".join(f"{name} {count}" for name, count in sorted(counts.items())))
    return 1 if counts["FOUND"] or counts["SLOW"] else 0


if __name__ == "__main__":
    import os

    with tempfile.TemporaryDirectory() as home:
        os.environ["BELLYPAN_HOME"] = home
        os.chdir(home)
        sys.exit(main(float(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1))
