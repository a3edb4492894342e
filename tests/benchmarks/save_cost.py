"""What keeping one more reading costs, beside a raw write and fsync of the same bytes.

    python -m tests.benchmarks.save_cost [folder]

At 10, 1,000 and 10,000 events, alternating in one run, since fsync on a shared machine has a fast and a slow
regime. Beside it: what the whole document costs, what a plain TinyDB insert costs, and what opening takes.
"""

import os
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

from logic.data.events import Event, ReadingTaken
from logic.data.profile_file import load_profile
from logic.data.rigs_folder import rigs_folder
from logic.data.state import Instant
from logic.session.event_ids import next_id
from logic.session.event_lines import event_line
from logic.session.intents import RecordReading, Taken
from logic.session.session import new_session, open_session

SIZES = (10, 1_000, 10_000)
SAVES = 60
MOST_RATIO = 3.0
START = 1_767_600_000.0


def events_from(last: str, count: int) -> list[Event]:
    """Readings as they are taken in a survey."""
    made = []
    for number in range(count):
        last = next_id(last, START + number, "00000000")
        payload = ReadingTaken("tank.gray.length", "41 3/8", 1.050925, "in", 0.0015875)
        made.append(Event(last, START + number, 0, "bench", payload))
    return made


def timed(action: Callable[[], object]) -> float:
    """Seconds that an action takes."""
    begun = time.perf_counter()
    action()
    return time.perf_counter() - begun


class RawFile:
    """The same bytes appended to a plain file and synced, nothing else."""

    def __init__(self, path: Path) -> None:
        self.descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)

    def save(self, data: bytes) -> None:
        os.write(self.descriptor, data)
        os.fsync(self.descriptor)


def measure(home: Path, size: int) -> dict[str, float]:
    """Medians, in milliseconds, for a session of `size` events."""
    loaded = load_profile(rigs_folder() / "two-tanks.toml")
    session = new_session(loaded, Instant(START), home=home)
    session.take_in(events_from(session.events[-1].id, size - 1))
    raw = RawFile(home / f"raw-{size}")
    now, ours, bare, acts = START + 2 * size, [], [], []
    store = session._store
    assert store is not None
    for number in range(SAVES):
        event = events_from(session.events[-1].id, 1)[0]
        line = event_line(event) + b"\n"
        bare.append(timed(lambda line=line: raw.save(line)))
        ours.append(timed(lambda event=event: store.append([event])))
        session._fold.add(event)
        intent = RecordReading("tank.gray.width", f"{20 + number / 64}", confirmed=True)
        when = Instant(now + 60 * number)
        acts.append(timed(lambda intent=intent, when=when: taken(session.act(intent, when))))
    whole = [timed(lambda: store.fold_in()) for _ in range(5)]
    session.close()
    opening = [timed(lambda: open_session(session.id, Instant(now), home=home).close()) for _ in range(5)]
    return {
        "raw": 1e3 * median(bare),
        "append": 1e3 * median(ours),
        "act": 1e3 * median(acts),
        "whole": 1e3 * median(whole),
        "tinydb": 1e3 * median(tinydb_inserts(session.folder / "session.json")),
        "open": 1e3 * median(opening),
        "ratio": median(ours) / median(bare),
    }


def taken(answer: object) -> None:
    assert isinstance(answer, Taken), answer


def tinydb_inserts(path: Path) -> list[float]:
    """A plain TinyDB insert into a copy of the session: everything read and encoded again, nothing synced."""
    from tinydb import TinyDB

    copy = path.with_name("plain.json")
    copy.write_bytes(path.read_bytes())
    database = TinyDB(copy)
    events = database.table("events")
    spent = [timed(lambda: events.insert({"id": "x", "at": START})) for _ in range(5)]
    database.close()
    copy.unlink()
    return spent


def main() -> int:
    """Print the table; 1 where a save costs more than three raw ones."""
    with tempfile.TemporaryDirectory(dir=sys.argv[1] if len(sys.argv) > 1 else None) as folder:
        rows = {size: measure(Path(folder), size) for size in SIZES}
    print("medians in ms  raw write+fsync   append  act with checks  whole document  TinyDB insert   open")
    for size, row in rows.items():
        print(
            f"{size:>7} events {row['raw']:>15.3f} {row['append']:>8.3f} {row['act']:>16.3f} "
            f"{row['whole']:>15.2f} {row['tinydb']:>14.2f} {row['open']:>6.1f}  append/raw {row['ratio']:.2f}"
        )
    return 0 if all(row["ratio"] <= MOST_RATIO for row in rows.values()) else 1


if __name__ == "__main__":
    raise SystemExit(main())
