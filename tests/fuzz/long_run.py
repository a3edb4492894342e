"""Random hostile input at every door, for as long as it is told: `python -m tests.fuzz.long_run SECONDS [SEED]`.

Profiles are demo rigs with something changed in them, calls are words of calls put together anew; session files,
copies, hourly files and typed values have modules of their own beside this one. An answer or a fault in words is
right; an exception, a number that isn't finite, a sign on the way out that a terminal obeys, a wait without end or
an answer after 2 s of processor time is a finding, and is printed with what led to it.
"""

import copy
import math
import os
import random
import sys
import tempfile
import time
import tomllib
from collections import Counter
from pathlib import Path
from typing import Any

from logic.assessment.assess import assess
from logic.data.faults import ProfileFaults
from logic.data.profile import Profile
from logic.data.profile_check import check_document
from tests.fuzz.answers import Hung, sound
from tests.fuzz.hostile import obeyed, value_of
from tests.fuzz.hourly_files import try_hourly_file, try_hourly_text
from tests.fuzz.kept import kept_session
from tests.fuzz.merges import try_bad_copy, try_merge
from tests.fuzz.session_files import try_session_file
from tests.fuzz.tapes import try_tape

RIGS = sorted((Path(__file__).parents[2] / "rigs").glob("*.toml"))
LIMIT = 2.0  # s of processor time
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
                odd = chance.random() * 10 ** chance.randint(-9, 9)
                holder[key] = chance.choice(
                    (*TEXTS, odd, 0, -1, True, [], {}, value_of(chance), value_of(chance))
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
    assert not any(obeyed(each) for each in told), told
    return "profile refused"


def assessed(profile: Profile) -> str:
    """Every number is finite, and where there is none it says why."""
    for figure in assess(profile).figures:
        for number in (figure.value, figure.low, figure.high, figure.u):
            assert number is None or math.isfinite(number), figure.id
        assert figure.value is not None or figure.why_not is not None, figure.id
    return "profile assessed"


def try_call(chance: random.Random) -> str:
    """A call of random words: an exit code of ours, and nothing on the way out that a terminal would obey."""
    words = [chance.choice((*WORDS, str(chance.choice(RIGS)))) for _ in range(chance.randint(0, 5))]
    words.insert(0, chance.choice(WORDS[:14]))
    if words[:1] == ["read"] and "-" in words:
        words.remove("-")  # it would wait for standard input
    return f"call answered {sound(words, home=Path(os.environ['BELLYPAN_HOME'])).code}"


DOORS = (
    try_profile, try_tape, try_tape, try_tape, try_call, try_session_file, try_merge, try_bad_copy, try_hourly_text,
    try_hourly_file,
)  # fmt: skip


def main(seconds: float, seed: int) -> int:
    """Cases are numbered from the seed on, so that each can be tried again by itself: `DOOR(Random(NUMBER))`."""
    counts: Counter[str] = Counter()
    kept_session()
    end = time.monotonic() + seconds
    number = seed * 1_000_000
    while time.monotonic() < end:
        number += 1
        door = DOORS[number % len(DOORS)]
        begin = time.process_time()
        try:
            counts[door(random.Random(number))] += 1
        except (Exception, Hung) as wrong:
            counts["FOUND"] += 1
            print(f"{door.__name__} {number}: {type(wrong).__name__}: {wrong}"[:600], flush=True)
        if time.process_time() - begin > LIMIT:
            counts["SLOW"] += 1
            print(f"{door.__name__} {number}: {time.process_time() - begin:.1f} s", flush=True)
    print(f"seed {seed}, {sum(counts.values())} cases: ")
    print("\n".join(f"{count:>9} {name}" for name, count in sorted(counts.items())))
    return 1 if counts["FOUND"] or counts["SLOW"] else 0


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as home:
        os.environ["BELLYPAN_HOME"] = home
        os.chdir(home)
        sys.exit(main(float(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1))
