"""Two copies of a session, worked on apart, taken into each other in any order, one of them in a bad way.

Whatever the order, both end as the same; what was in one before is in it after, unchanged; a copy that can't be
taken in leaves everything as it was.
"""

import random
from pathlib import Path

from logic.data.quantities import fill
from logic.data.state import Instant
from logic.session import intents
from logic.session.copy import copy_session, take_in_copy
from logic.session.event_lines import event_line
from logic.session.fold import fold
from logic.session.merge import union
from logic.session.session import Session, SessionFault, open_session
from tests.crash.faulty_files import QuickFiles
from tests.crash.kept_sessions import START
from tests.fuzz.answers import alarmed, sound
from tests.fuzz.damage import DAMAGES
from tests.fuzz.hostile import obeyed, text_of
from tests.fuzz.kept import kept_session, memory_folder


def try_merge(chance: random.Random) -> str:
    """Copies carried to and fro: the union, whatever the order."""
    kept = kept_session()
    with memory_folder() as place:
        homes = [Path(place) / name for name in "ab"]
        for number, home in enumerate(homes):
            kept.place(home)
            _work(_open(kept.id, home, number), chance, number)
        copies = [
            _carried(kept.id, home, Path(place) / f"{number}.json", number)
            for number, home in enumerate(homes)
        ]
        order = [chance.randrange(2) for _ in range(3)] + [0, 1]
        chance.shuffle(order)
        for number in order:
            take_in_copy(copies[1 - number], _at(9000), home=homes[number], files=QuickFiles())
        first, second = (_open(kept.id, home, 7) for home in homes)
        assert [event_line(event) for event in first.events] == [event_line(event) for event in second.events]
        assert first.state == second.state == fold(first.events)
        assert first.profile == second.profile
        shuffled = list(first.events) * 2
        chance.shuffle(shuffled)
        assert union(shuffled) == list(first.events)
        first.close()
        second.close()
        return "merged"


def try_bad_copy(chance: random.Random) -> str:
    """A damaged or hostile copy: taken in or refused in words, and nothing that was there is another thing now."""
    kept = kept_session()
    with memory_folder() as place:
        home, path = Path(place) / "home", Path(place) / "copy.json"
        if chance.random() < 0.7:
            kept.place(home)
            session = _open(kept.id, home, 1)
            copy_session(session, path, files=QuickFiles())
            session.close()
        else:
            path.write_bytes(kept.files["session.json"])
        text = path.read_bytes()
        for _ in range(chance.choice((1, 1, 2, 3))):
            text = chance.choice(DAMAGES)(text, chance)
        path.write_bytes(text)
        before = _lines_of(kept.id, home)
        if chance.random() < 0.2:
            answer = f"by command {sound(['merge', path], home=home).code}"
        else:
            answer = _taken_in(path, home)
        assert path.read_bytes() == text, "a copy is only read"
        after = _lines_of(kept.id, home)
        assert before.items() <= after.items(), "what was there is gone, or another thing"
        return f"copy {answer}"


def _taken_in(path: Path, home: Path) -> str:
    said: SessionFault | None = None
    with alarmed():
        try:
            taken = take_in_copy(path, _at(9000), home=home, files=QuickFiles())
        except SessionFault as fault:
            said = fault
    if said is not None:
        assert not obeyed(fill(said.words, "us"))
        return "refused"
    assert (home / taken.id).parent == home
    session = _open(taken.id, home, 3)
    assert session.state == fold(session.events)
    assert all(
        figure.value is not None or figure.why_not is not None for figure in session.assess(_at(9e3)).figures
    )
    session.close()
    return "added" if taken.added else "taken in"


def _lines_of(session_id: str, home: Path) -> dict[str, bytes]:
    if not (home / session_id).exists():
        return {}
    session = _open(session_id, home, 5)
    session.close()
    return {event.id: event_line(event) for event in session.events}


def _at(seconds: float) -> Instant:
    return Instant(START + seconds, -3600)


def _open(session_id: str, home: Path, number: int) -> Session:
    return open_session(session_id, _at(5000 + number), home=home, by=f"P{number}", files=QuickFiles())


def _carried(session_id: str, home: Path, path: Path, number: int) -> Path:
    session = _open(session_id, home, number)
    copy_session(session, path, files=QuickFiles())
    session.close()
    return path


def _work(session: Session, chance: random.Random, number: int) -> None:
    """A few deeds at moments that lie between the other's, undo and edits that contradict among them."""
    for step in range(chance.randint(0, 8)):
        intent = chance.choice(
            (
                intents.RecordReading("tank.gray.length", f"{chance.randint(30, 45)}"), intents.UndoLast(),
                intents.RedoLast(), intents.TakeBackReading(), intents.WriteNote(text_of(chance)),
                intents.WriteItem(text_of(chance), "use", ""), intents.StartStep("chocks:rig"),
                intents.FinishStep("chocks:rig", text_of(chance)), intents.EndDay(), intents.BeginDay(),
                intents.ChangeProfile("tank.gray.fill", round(chance.random(), 2)), intents.SwapLastTwo(),
                intents.ChangeProfile("design.low", chance.choice(("-20 degF", "0 degF", "90 degF"))),
                intents.RemovePart("heater", "black-pad"), intents.TickPart("cut:run.gray-feed"),
            )
        )  # fmt: skip
        session.act(intent, _at(6000 + 10 * step + 3 * number))
    session.close()
