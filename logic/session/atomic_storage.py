"""TinyDB's storage for a session's document: whole or not at all, whatever stops a save.

TinyDB's own storage writes over the file in place: a save that is stopped half-way has then destroyed both
the old and the new. Here the new text is written beside, synced, and takes the file's name by a rename; the
generation before is kept. A session saves ready-made text (`write_text`); anyone else may open the file
through TinyDB:

    TinyDB(path, storage=AtomicStorage)
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import msgspec
from tinydb.storages import Storage

from logic.session.document import EVENTS, META, PROFILE, tables_text
from logic.session.files import Files, keep_as, read_plain, write_beside
from logic.session.seal import sealed


class AtomicStorage(Storage):
    """One document in one file."""

    def __init__(self, path: str | Path, *, before: Path | None = None, files: Files | None = None) -> None:
        """before : where the generation before is kept; left out: nowhere."""
        self.path, self.before = Path(path), before
        self.files = files or Files()

    def read(self) -> dict[str, dict[str, Any]] | None:
        """The tables, as TinyDB wants them; None where there is no file.

        Raises OSError; msgspec.DecodeError where the file isn't whole: it is never taken for an empty one.
        """
        try:
            text = read_plain(self.path)
        except FileNotFoundError:
            return None
        return msgspec.json.decode(text, type=dict[str, dict[str, Any]])

    def write(self, data: Mapping[str, Mapping[str, Any]]) -> None:
        """The tables as they are now, each record sealed anew. Raises OSError: the file is as it was."""
        tables = {name: dict(records) for name, records in data.items()}
        if META in tables and PROFILE in tables:
            count = len(tables.get(EVENTS, {}))
            tables[META] = {key: {**record, "events": count} for key, record in tables[META].items()}
        self.write_text(
            tables_text(
                {
                    name: {str(key): sealed_anew(record) for key, record in records.items()}
                    for name, records in tables.items()
                }
            )
        )

    def write_text(self, text: bytes, *, keep_before: bool = True) -> None:
        """A ready text. The order is: written beside, synced, old generation kept, renamed, folder synced.

        Raises OSError: the file is as it was, or, where only the last sync failed, the new one.
        """
        beside = write_beside(self.files, self.path, text)
        if keep_before and self.before is not None and self.path.exists():
            keep_as(self.files, self.path, self.before)
        self.files.rename(beside, self.path)
        self.files.sync_folder(self.path.parent)


def sealed_anew(record: Mapping[str, Any]) -> bytes:
    """A record as its line, with the seal that belongs to it."""
    return sealed(msgspec.json.encode({key: value for key, value in record.items() if key != "sum"}))
