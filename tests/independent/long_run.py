"""Many random rigs by hand: `python -m tests.independent.long_run N [SEED]`, every difference printed.

Seeds are SEED, SEED + 1 … (from 0 where none is given). Exits 1 where anything differs.
"""

import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from tests.contract.headless import bellypan
from tests.independent.compare import differences
from tests.independent.random_rigs import written
from tests.independent.rig import Rig

MOST_LINES = 20  # of one rig


def main(count, first=0):
    began = time.monotonic()
    seen: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as folder:
        for seed in range(first, first + count):
            path = written(seed, Path(folder))
            answer = bellypan("check", path, "--json").json
            lines = differences(Rig.of_file(path), answer)
            seen["figures"] += len(answer.get("figures", ()))
            seen["bands"] += sum("low" in figure for figure in answer.get("figures", ()))
            seen["findings"] += len(answer.get("findings", ()))
            seen["rigs that differ"] += bool(lines)
            if lines:
                print(
                    f"seed {seed}: second reckoning / program", *lines[:MOST_LINES], sep="\n    ", flush=True
                )
            path.unlink()
    told = ", ".join(f"{number} {name}" for name, number in seen.items())
    print(f"{count} rigs, {told}, {time.monotonic() - began:.0f} s")
    return 1 if seen["rigs that differ"] else 0


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:3])))
