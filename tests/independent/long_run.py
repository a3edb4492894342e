"""Many random rigs by hand: `python -m tests.independent.long_run N [SEED] [rigs|readings]`, every difference printed.

Seeds are SEED, SEED + 1 … (from 0 where none is given). Without a last word each rig is checked as a design, and once
more with readings. Exits 1 where anything differs; an interrupt tells what was looked at so far.
"""

import contextlib
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from tests.contract.headless import bellypan
from tests.independent.compare import differences
from tests.independent.parts_compare import differences as parts_differences
from tests.independent.parts_compare import parts_of
from tests.independent.random_rigs import written
from tests.independent.random_sessions import recorded
from tests.independent.rig import Rig

MOST_LINES = 20  # of one rig
KINDS = ("rigs", "readings")


def main(count, first=0, *kinds):
    began = time.monotonic()
    seen: Counter[str] = Counter()
    with contextlib.suppress(KeyboardInterrupt):  # what was looked at until then is told
        for seed in range(first, first + count):
            for kind in kinds or KINDS:
                look(kind, seed, seen)
            seen["seeds"] += 1
    told = ", ".join(f"{number} {name}" for name, number in seen.items())
    print(f"{told}, {time.monotonic() - began:.0f} s")
    return 1 if any(seen[f"{kind} that differ"] for kind in KINDS) else 0


def look(kind, seed, seen):
    """One rig, as a design or with readings; its differences printed, everything counted."""
    with tempfile.TemporaryDirectory() as folder:
        lines, answer = LOOKED_AT[kind](seed, Path(folder), seen)
    seen["figures"] += len(answer.get("figures", ()))
    seen["bands"] += sum("low" in figure for figure in answer.get("figures", ()))
    seen["uncertainties"] += sum(figure.get("u") is not None for figure in answer.get("figures", ()))
    seen["findings"] += len(answer.get("findings", ()))
    seen[f"{kind} that differ"] += bool(lines)
    if lines:
        print(
            f"seed {seed}, {kind}: second reckoning / program", *lines[:MOST_LINES], sep="\n    ", flush=True
        )


def of_design(seed, folder, seen):
    path = written(seed, folder)
    answer = bellypan("check", path, "--json").json
    rig, parts = Rig.of_file(path), parts_of(path)
    seen["cuts"] += len(parts.cuts)
    seen["wires on spools"] += len(parts.spools)
    return [*differences(rig, answer), *parts_differences(rig, parts)], answer


def of_readings(seed, folder, seen):
    one = recorded(seed, folder)
    seen["readings taken"] += len(one.account.entries)
    seen["tests of the wiring"] += len(one.tests[0].trials)
    seen["joints"] += len(one.tests[0].joints)
    return one.differences, one.answer


LOOKED_AT = {"rigs": of_design, "readings": of_readings}

if __name__ == "__main__":
    words = sys.argv[1:]
    numbers = [int(word) for word in words if word not in KINDS]
    sys.exit(main(numbers[0], *(numbers[1:] or [0]), *(word for word in words if word in KINDS)))
