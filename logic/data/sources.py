"""Where every constant, table and rule comes from: an id, a title, the section, and a mark.

The lists are data files, one for each part of the job. A figure, a finding and a row of a table name their
sources by id; MEMORY and PRACTICE have ids as well, so that nothing is without an origin.
"""

import tomllib
from functools import lru_cache
from pathlib import Path

import msgspec

MARKS = {
    "FOUND": "found: read in the document, or in a page that reprints it",
    "COMPUTED": "computed: worked out, with its formula",
    "MEMORY": "memory: known to the trade or from study, not read in the document",
    "PRACTICE": "practice: common practice, no source",
}
PARTS = ("heat", "wiring", "readings", "work")
_FOLDER = Path(__file__).parent / "tables"


class Source(msgspec.Struct, frozen=True):
    """One origin."""

    id: str
    title: str
    section: str
    mark: str  # FOUND | COMPUTED | MEMORY | PRACTICE
    part: str = ""
    note: str = ""

    @property
    def text(self) -> str:
        """Title, section and note in one line."""
        line = f"{self.title}: {self.section}"
        return f"{line}; {self.note}" if self.note else line

    @property
    def mark_in_words(self) -> str:
        """The mark, and what it says."""
        return MARKS[self.mark]


@lru_cache(maxsize=1)
def all_sources() -> tuple[Source, ...]:
    """Every source, part by part, in the order of its file."""
    sources: list[Source] = []
    for part in PARTS:
        rows = tomllib.loads((_FOLDER / f"sources_{part}.toml").read_text(encoding="utf-8"))["source"]
        sources += [msgspec.convert({**row, "part": part}, Source) for row in rows]
    return tuple(sources)


def source(source_id: str) -> Source:
    """The source with this id. Raises KeyError: there is none."""
    return _by_id()[source_id]


@lru_cache(maxsize=1)
def _by_id() -> dict[str, Source]:
    return {one.id: one for one in all_sources()}
