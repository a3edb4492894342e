"""Records three notes and leaves, for a trace of its system calls; says `taken` after each.

python -m tests.crash.traced_recorder HOME SESSION
"""

import os
import sys
from pathlib import Path

from logic.data.state import Instant
from logic.session.intents import Taken, WriteNote
from logic.session.session import open_session
from tests.crash.kept_sessions import START

NOTES = ("first-note", "second-note", "third-note")


def main() -> None:
    session = open_session(sys.argv[2], Instant(START + 100), home=Path(sys.argv[1]))
    for number, text in enumerate(NOTES):
        answer = session.act(WriteNote(text), Instant(START + 200 + number))
        assert isinstance(answer, Taken)
        os.write(1, f"taken {text}\n".encode())
    session.close()
    os.write(1, b"left\n")


if __name__ == "__main__":
    main()
