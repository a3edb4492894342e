"""Where a session is kept: a folder with `session.json`, the generation before it, the journal and the lock.

An event is on the disk when `append` returns. The journal takes it; `fold_in` writes the document anew,
beside, synced and renamed over, and keeps the generation before together with the journal that leads from it
to the new one. So at every moment the newest generation with its journal is complete, and so is the one
before with both.
"""

from collections.abc import Sequence
from itertools import count
from pathlib import Path

from logic.data.events import Event
from logic.data.wording import Words
from logic.session.document import document_text
from logic.session.event_lines import event_line
from logic.session.files import LARGEST_FILE, Files, keep_as, remove_if_there
from logic.session.journal import JOURNAL, JOURNAL_BEFORE, Journal
from logic.session.merge import union
from logic.session.recovery import SESSION, SESSION_BEFORE, Opened

# After so many lines the journal is folded in between two events: it is read anew at each opening. Measured
# with tests/benchmarks/save_cost.py: reading and folding 2,000 lines takes about 15 ms.
LONGEST_JOURNAL, LARGE_JOURNAL = 2000, 4 * 1024 * 1024
# A document so large isn't written anew for each time that somebody leaves: some 17,000 records, 60 ms.
LARGE_DOCUMENT = 4 * 1024 * 1024


class Store:
    """A session's folder, held by this program alone (see `lock.py`)."""

    def __init__(self, folder: Path, opened: Opened, files: Files) -> None:
        """Touches nothing yet: a session that is only looked at leaves its files as they are."""
        self.folder, self.files = folder, files
        self.document = opened.document
        self.notices: tuple[Words, ...] = opened.notices
        self._opened = opened
        self._journal: Journal | None = None
        self._main_is_good = SESSION not in opened.to_set_aside and (folder / SESSION).exists()
        self._unfolded = opened.unfolded
        self._cleaned = False

    # --- the journal ---

    def append(self, events: Sequence[Event]) -> None:
        """The events are on the disk, and in `document`. Raises OSError: none of them counts."""
        journal = self._ready_journal()
        journal.append([event_line(event) for event in events])
        self.document.events.extend(events)
        self._unfolded = True

    def take_in(self, events: Sequence[Event], strangers: Sequence[bytes]) -> None:
        """Events of another copy, wherever they sort. Raises OSError: none of them counts."""
        before = self.document.events, self.document.strangers
        self.document.events = union(before[0], events)
        self.document.strangers = list(dict.fromkeys([*before[1], *strangers]))
        try:
            self.fold_in()
        except OSError:
            self.document.events, self.document.strangers = before
            raise

    @property
    def is_long(self) -> bool:
        """Whether the journal wants folding in."""
        journal = self._journal
        return journal is not None and (journal.count >= LONGEST_JOURNAL or journal.length >= LARGE_JOURNAL)

    def _ready_journal(self) -> Journal:
        journal = self._journal
        if journal is not None and not journal.spoiled and journal.path.exists():
            return journal
        if journal is None and self._goes_on():
            found = self._opened.journal
            journal = Journal(self.folder / JOURNAL, self.files, length=found.length, ended=found.ended)
            journal.count = len(found.events)
        else:
            journal = self._begun_anew()
        self._journal = journal
        return journal

    def _may_go_on(self) -> bool:
        """Whether the journal as it stands on the disk is one to go on with."""
        journal = self._journal
        if journal is None:
            return self._goes_on() and not self._opened.journal.torn
        return not journal.spoiled and journal.path.exists() and bool(self.document.meta.get("journal"))

    def _is_large(self) -> bool:
        try:
            return (self.folder / SESSION).stat().st_size > LARGE_DOCUMENT
        except OSError:
            return False

    def _goes_on(self) -> bool:
        """Whether the journal that was found can be written on as it is."""
        found = self._opened.journal
        return (
            found.there
            and not self._opened.to_set_aside
            and self._main_is_good
            and bool(self.document.meta.get("journal"))
            and found.session == self._id()
            and found.damaged == 0
        )

    # --- the document ---

    def fold_in(self, *, closing: bool = False) -> None:
        """The document holds all of its events, on the disk. Raises OSError: everything before is as it was.

        closing : no journal goes on after it.
        """
        if closing:
            self._write_document(journal=False)
            self._end_journal()
        else:
            self._begun_anew()
        self._unfolded = False

    def _begun_anew(self) -> Journal:
        """The whole document is written, with an empty journal that it knows of."""
        self.files.make_folder(self.folder)
        path = self.folder / JOURNAL
        if not path.exists():
            # The journal is there before a document says so: a missing one is then missing indeed.
            Journal.begin(path, self.files, session=self._id()).close()
        self._write_document(journal=True)
        # What the journal holds is in the document now; it stays one generation longer.
        keep_as(self.files, path, self.folder / JOURNAL_BEFORE)
        journal = Journal.begin(path, self.files, session=self._id())
        if self._journal is not None:
            self._journal.close()
        self._journal = journal
        return journal

    def _end_journal(self) -> None:
        if self._journal is not None:
            self._journal.close()
            self._journal = None
        path = self.folder / JOURNAL
        if path.exists():
            self.files.rename(path, self.folder / JOURNAL_BEFORE)
            self.files.sync_folder(self.folder)

    def _write_document(self, *, journal: bool) -> None:
        self._prepare()
        meta = {**self.document.meta, "journal": journal}
        if self.document.events:
            meta["last"] = self.document.events[-1].at
        text = document_text(self.document, meta)
        if len(text) > LARGEST_FILE:
            raise OSError(
                f"a session's file holds up to {LARGEST_FILE >> 20} MiB"
            )  # more wouldn't be read back
        # TinyDB is loaded with the first write: who only looks at a session does without.
        from logic.session.atomic_storage import AtomicStorage

        storage = AtomicStorage(self.folder / SESSION, before=self.folder / SESSION_BEFORE, files=self.files)
        storage.write_text(text, keep_before=self._main_is_good)
        self.document.meta = meta
        self._main_is_good = True

    def _id(self) -> str:
        return str(self.document.meta.get("id", self.folder.name))

    def _prepare(self) -> None:
        """Set damaged files aside, untouched, and clear away what a crash left half written. Once."""
        self.files.make_folder(self.folder)
        if self._cleaned:
            return
        for name in (SESSION, SESSION_BEFORE, JOURNAL, JOURNAL_BEFORE):
            remove_if_there(self.files, self.folder / f"{name}.new")
        for name in self._opened.to_set_aside:
            keep_as(self.files, self.folder / name, self._aside(name))
        self._cleaned = True

    def _aside(self, name: str) -> Path:
        stem, _, ending = name.partition(".")
        names = (self.folder / f"{stem}.damaged-{number}.{ending}" for number in count(1))
        return next(path for path in names if not path.exists())

    # --- leaving ---

    def heal(self) -> None:
        """Write at once what was put together from a damaged session. Raises OSError."""
        if self._opened.to_set_aside or not self._main_is_good:
            self._begun_anew()

    def close(self) -> None:
        """Fold the journal in, if anything is in it. Raises OSError: the journal then stays, complete.

        Beside a large document it stays as well, until it is long: the next one to open goes on with it.
        """
        try:
            something = self._unfolded or self._journal is not None or self.document.meta.get("journal")
            if something and not (self._may_go_on() and self._is_large()):
                self.fold_in(closing=True)
        finally:
            if self._journal is not None:
                self._journal.close()
