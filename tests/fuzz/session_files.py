"""A session's folder, damaged in any way, opened by the program: what can be read is there, and nothing is lost.

Asked of every case:

- it opens with words, or is refused with words; every command answers so, and none of them waits for a pipe;
- an event whose line stands whole in a file that was read is among those that opened;
- what couldn't be read stands untouched in the folder, byte for byte, after the session was worked on;
- lines of kinds and fields that this version doesn't know are in the file that it writes.
"""

import os
import random
import re
from collections import Counter
from math import isfinite
from pathlib import Path

from logic.data.quantities import fill
from logic.session.document import Damaged, read_document
from logic.session.fold import fold
from logic.session.intents import Taken, WriteNote
from logic.session.session import Session, SessionFault, open_session
from tests.crash.faulty_files import QuickFiles
from tests.fuzz.answers import alarmed, sound
from tests.fuzz.damage import DAMAGES
from tests.fuzz.hostile import obeyed
from tests.fuzz.kept import LATER, KeptSession, kept_session, memory_folder

SESSION, JOURNAL = "session.json", "journal.jsonl"
_ID = re.compile(rb'"id":"([0-9a-f-]{25})"')


def try_session_file(chance: random.Random) -> str:
    """One damaged folder, opened, worked on, and opened again."""
    kept = kept_session()
    with memory_folder() as place:
        home = Path(place) / "home"
        folder = kept.place(home)
        _damage(folder, chance)
        asked = _ask(kept.id, home, chance)
        texts = _texts(folder)
        session = _opened(kept, home)
        if isinstance(session, SessionFault):
            assert not obeyed(fill(session.words, "us")), session
            assert _texts(folder) == texts, "refused, and touched all the same"
            _must_be_beyond_help(kept, texts)
            return f"session file refused {asked}"
        _look(session, kept, texts)
        answer = session.act(WriteNote("and on"), LATER)
        session.close()
        taken = isinstance(answer, Taken)
        if taken:
            _nothing_was_thrown_away(folder, kept, texts)
        again = _opened(kept, home)
        assert not isinstance(again, SessionFault), again
        assert {event.id for event in session.events} <= {event.id for event in again.events}
        again.close()
        return f"session file {'opened' if taken else 'looked at'} {asked}"


def _opened(kept: KeptSession, home: Path) -> Session | SessionFault:
    with alarmed():
        try:
            return open_session(kept.id, LATER, home=home, by="Cleo", files=QuickFiles())
        except SessionFault as fault:
            return fault


def _damage(folder: Path, chance: random.Random) -> None:
    """One to all of its files, once or twice; now and then what says who holds it."""
    names = chance.sample(sorted(path.name for path in folder.iterdir()), chance.choice((1, 1, 1, 2, 4)))
    for name in names:
        path = folder / name
        if chance.random() < 0.12:
            _no_file(path, folder.parent, chance)
            continue
        text = path.read_bytes()
        for _ in range(chance.choice((1, 1, 2))):
            text = chance.choice(DAMAGES)(text, chance)
        path.write_bytes(text)
    if chance.random() < 0.1:
        (folder / chance.choice(("lock", "holder.json"))).write_bytes(
            chance.choice(DAMAGES)(b'{"name":"x","host":"y","pid":1,"since":1e300,"offset":99999999}', chance)
        )


def _no_file(path: Path, home: Path, chance: random.Random) -> None:
    """Something else under a file's name: nothing, a folder, a pipe, a link out of the folder, or to itself."""
    text = path.read_bytes()
    path.unlink()
    kind = chance.choice(("gone", "folder", "pipe", "out", "zero", "loop", "dangling"))
    if kind == "folder":
        path.mkdir()
    elif kind == "pipe":
        os.mkfifo(path)
    elif kind == "out":
        outside = home.parent / f"outside-{path.name}"
        outside.write_bytes(text)
        path.symlink_to(outside)
    elif kind == "zero":
        path.symlink_to("/dev/zero")
    elif kind == "loop":
        path.symlink_to(path.name)
    elif kind == "dangling":
        path.symlink_to("nowhere")


def _texts(folder: Path) -> dict[str, bytes]:
    """What the plain files hold, save the two that say who has the session."""
    return {
        path.name: path.read_bytes()
        for path in folder.iterdir()
        if path.is_file() and not path.is_symlink() and path.name not in ("lock", "holder.json")
    }


def _ask(session_id: str, home: Path, chance: random.Random) -> str:
    """One command that looks at it, and answers in words."""
    words = chance.choice(
        (
            ["status", session_id], ["sessions", "--json"], ["sessions"], ["check", "--session", session_id],
            ["check", "--session", session_id, "--json"], ["step", session_id, "--json"], ["punch", session_id],
            ["profile", session_id], ["copy", session_id, str(home.parent / "copy.json")],
            ["status", str(home / session_id / SESSION)], ["status", session_id[:6]],
        )
    )  # fmt: skip
    return f"{words[0]} {sound(words, home=home).code}"


def _lines(text: bytes) -> set[bytes]:
    """Whatever stands on a line of its own, a table's number before it and a comma behind it or not."""
    found = set()
    for line in text.split(b"\n"):
        record = line.rstrip(b",")
        found |= {record, record.partition(b":")[2]}
    return found


def _readable(kept: KeptSession, texts: dict[str, bytes]) -> set[str]:
    """Ids of the events that stand, as they were written, in a file which the program has to read.

    Where another line claims the same id, either may count: this program never writes two.
    """
    text = texts.get(SESSION, b"")
    names = [SESSION, JOURNAL] if _is_whole(text) else list(texts)
    lines: set[bytes] = set()
    for name in names:
        if name == JOURNAL and _is_whole(text) and read_document(text).meta.get("id") != kept.id:
            continue  # it says of itself that it is another session
        if name.startswith("journal") and kept.id.encode() not in texts.get(name, b"").split(b"\n")[0]:
            continue  # of which session it is isn't said
        lines |= _lines(texts.get(name, b""))
    claimed = Counter(found.decode() for line in lines for found in _ID.findall(line))
    return {event_id for event_id, line in kept.lines.items() if line in lines and claimed[event_id] == 1}


def _is_whole(text: bytes) -> bool:
    try:
        read_document(text)
    except Damaged:
        return False
    return True


def _must_be_beyond_help(kept: KeptSession, texts: dict[str, bytes]) -> None:
    """A refusal is right only where no profile is left, or none that is one."""
    begun = next(line for line in kept.files[SESSION].split(b"\n") if b'"of":"begun"' in line)
    whole = [name for name in texts if name.startswith("session") and begun in texts[name].split(b"\n")]
    assert SESSION not in whole, "the profile stands in the file, and it was refused"


def _look(session: Session, kept: KeptSession, texts: dict[str, bytes]) -> None:
    """What opened is sound."""
    found = {event.id for event in session.events}
    missing = _readable(kept, texts) - found
    assert not missing, f"lost: {sorted(missing)}"
    assert session.state == fold(session.events)
    for notice in session.notices:
        assert not obeyed(fill(notice, "us")), notice
    assessment = session.assess(LATER)
    for figure in assessment.figures:
        assert figure.value is not None or figure.why_not is not None, figure.id
        for number in (figure.value, figure.low, figure.high, figure.u):
            assert number is None or isfinite(number), (figure.id, number)


def _nothing_was_thrown_away(folder: Path, kept: KeptSession, before: dict[str, bytes]) -> None:
    after = _texts(folder)
    text = before.get(SESSION, b"")
    if text.strip() and not _is_whole(text):
        assert text in after.values(), "the damaged file isn't there any more"
    readable = _readable(kept, before)
    wanted = {line for event_id, line in kept.lines.items() if event_id in readable}
    # Where a folder stands in the place of the generation before, the journal stays beside the document.
    written = _lines(after[SESSION]) | _lines(after.get(JOURNAL, b""))
    assert wanted <= written, f"written otherwise than it came: {sorted(wanted - written)[0][:200]!r}"
