"""A session that was worked on, as bytes: what the fuzz of session files begins each case with.

Its folder is as a killed program leaves it: a document, the generation before with its journal, and a journal
whose lines aren't folded in yet. Every kind of event is in it, and a kind and a field of a newer version.
"""

import random
import tempfile
from functools import cache
from pathlib import Path
from typing import NamedTuple
from unittest import mock

import msgspec

from logic.data.events import Event
from logic.data.profile_file import load_profile
from logic.data.rigs_folder import rigs_folder
from logic.data.state import Instant
from logic.session import intents
from logic.session.event_lines import event_line, read_line
from logic.session.seal import sealed
from logic.session.session import new_session, open_session
from tests.crash.faulty_files import QuickFiles
from tests.crash.kept_sessions import START, end_abruptly

MEMORY = Path("/dev/shm")
NAMES = ("session.json", "session.before.json", "journal.jsonl", "journal.before.jsonl")
LATER = Instant(START + 5e5, -3600)


class KeptSession(NamedTuple):
    id: str
    files: dict[str, bytes]
    events: tuple[Event, ...]

    @property
    def lines(self) -> dict[str, bytes]:
        """The line of each event, by its id."""
        return {event.id: event_line(event) for event in self.events}

    def place(self, home: Path) -> Path:
        """The session's folder, as it was left, in `home`."""
        folder = home / self.id
        folder.mkdir(parents=True)
        for name, text in self.files.items():
            (folder / name).write_bytes(text)
        return folder


def memory_folder() -> tempfile.TemporaryDirectory[str]:
    """A folder that costs no disk where there is one such."""
    return tempfile.TemporaryDirectory(dir=MEMORY if MEMORY.is_dir() else None, prefix="bellypan-test-")


@cache
def kept_session() -> KeptSession:
    drawn = random.Random(7)  # the same ids each time, so that a case can be tried again
    with memory_folder() as folder, mock.patch("os.urandom", drawn.randbytes):
        home = Path(folder)
        session = new_session(load_profile(rigs_folder() / "two-tanks.toml"), _at(0), home=home, by="Ann")
        _work(session, 1)
        session.close()
        session = open_session(session.id, _at(900), home=home, by="Ann", files=QuickFiles())
        stranger = {"id": f"{int((START + 950) * 1000):012x}-000-00000000", "at": START + 950, "offset": 0}
        newer = {**stranger, "id": stranger["id"][:-1] + "1", "more": [1], "by": "Bo"}
        session.take_in(
            [
                read_line(sealed(msgspec.json.encode({**stranger, "what": {"kind": "dreamt", "of": "sun"}}))),
                read_line(
                    sealed(
                        msgspec.json.encode(
                            {**newer, "what": {"kind": "note-written", "text": "n", "ink": 3}}
                        )
                    )
                ),
            ]
        )
        _work(session, 1000)
        end_abruptly(session)
        names = [name for name in NAMES if (session.folder / name).exists()]
        files = {name: (session.folder / name).read_bytes() for name in names}
        return KeptSession(session.id, files, tuple(session.events))


def _at(seconds: float) -> Instant:
    return Instant(START + seconds, -3600)


def _work(session, begin: float) -> None:
    """Some of everything that can be recorded."""
    deeds = (
        intents.BeginDay(), intents.SetTape("1/32"),
        intents.RecordReading("tank.gray.length", "41 3/8"), intents.RecordReading("tank.gray.width", "24"),
        intents.TakeBackReading(), intents.RecordReading("work.surface", "55"),
        intents.StartStep("chocks:rig"), intents.RecordInStep("chocks:rig", {"seen": "yes"}),
        intents.FinishStep("chocks:rig", "so"), intents.WriteItem("look again", "use", "tank.gray"),
        intents.WriteNote("a note"), intents.ChangeProfile("tank.gray.fill", 0.4 + begin / 1e4),
        intents.TickPart("cut:run.gray-feed", length=4.0), intents.MarkSheetMade(), intents.UndoLast(),
    )  # fmt: skip
    for number, intent in enumerate(deeds):
        session.act(intent, _at(begin + 40 * number))
