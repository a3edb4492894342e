"""What the assessment of the full demo rig costs after one reading, everything that decides being read. By hand:

    python -m tests.benchmarks.assessment

Processor time of the process, since other programs may be busy: from the session's new state to the new assessment,
and before it what checking, storing and folding the reading takes. Exit code 1: a slot's median is over the limit.
"""

import gc
import tempfile
import time
from pathlib import Path
from statistics import median

import logic.assessment.assess  # noqa: F401 (loaded when first asked for: not what is measured)
from logic.data.state import Instant
from logic.session.intents import RecordReading, Taken
from tests.benchmarks.worked_session import MINUTE, worked_session

SIZES = (200, 1_000, 10_000)
MOST = 0.020  # s, at the first size
ROUNDS = 6
STEP = 0.0002  # m, by which each round's reading differs
SLOTS = (
    "tank.fresh.length",  # moves a bay, and with it three tanks
    "tank.gray.width",
    "tank.black.fall",
    "tank.fresh.wall",
    "heater.gray-pad.length",
    "heater.fresh-pad.x",
    "run.front-feed.length",  # moves the network, and a new choice of gauges is made
    "run.black-run.length",
    "drain.gray-leg.length",
    "tank.gray.outlet.x",
)


def measure(size: int) -> tuple[float, list[float], dict[str, list[float]]]:
    """The first assessment, each reading's record, and by slot the assessment after it. [s]"""
    with tempfile.TemporaryDirectory() as folder:
        session, now = worked_session(Path(folder), size)
        begun = time.process_time()
        values = {view.slot: view.value or 0.0 for view in session.assess(now).slots}
        first = time.process_time() - begun
        gc.collect()
        gc.freeze()  # as the program does once its screen stands
        at, records = now.at, []
        after: dict[str, list[float]] = {slot: [] for slot in SLOTS}
        for number in range(ROUNDS):
            for slot in SLOTS:
                at += MINUTE
                typed = f"{(values[slot] + STEP * (number + 1)) * 1000:.1f} mm"
                begun = time.process_time()
                answer = session.act(RecordReading(slot, typed), Instant(at))
                recorded = time.process_time()
                session.assess(Instant(at))
                done = time.process_time()
                assert isinstance(answer, Taken), answer
                if number:  # the first round warms up
                    records.append(recorded - begun)
                    after[slot].append(done - recorded)
        session.close()
    return first, records, after


def main() -> int:
    within = True
    for size in SIZES:
        first, records, after = measure(size)
        print(
            f"{size} events: first assessment {first * 1e3:.1f} ms, a reading's record {median(records) * 1e3:.2f} ms"
        )
        for slot, times in after.items():
            print(f"  {slot:24} {median(times) * 1e3:6.1f} ms")
            within &= size != SIZES[0] or median(times) < MOST
    return 0 if within else 1


if __name__ == "__main__":
    raise SystemExit(main())
