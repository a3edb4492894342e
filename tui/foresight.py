"""While a number is being typed: what Enter will show is worked out already, in the pauses between keys.

Nothing of it is seen or recorded before Enter. A key stops it at once; with every text in the line it begins anew.
"""

import asyncio
from collections.abc import Iterator
from time import perf_counter
from typing import TYPE_CHECKING

from tui.taking import reading_meant

if TYPE_CHECKING:
    from tui.app import Bellypan

PAUSE = 0.08  # s after a key, before it begins: a hand in full flow is not met
SLICE, BREATH = 0.002, 0.001  # s of work, then s for whatever else there is to do


class Foresight:
    """Works out ahead what stands in the reading line of a program's desk."""

    def __init__(self, app: "Bellypan") -> None:
        self.app = app
        self._waits: asyncio.TimerHandle | None = None
        self._work: asyncio.Task[None] | None = None

    def look(self) -> None:
        """Something else stands in the line, or what stands there would come to something else."""
        self.halt()
        if self.app.desk.line.value:
            self._waits = asyncio.get_running_loop().call_later(PAUSE, self._begin)

    def halt(self) -> None:
        """A key was pressed: it comes first."""
        if self._waits is not None:
            self._waits.cancel()
        if self._work is not None:
            self._work.cancel()
        self._waits = self._work = None

    @property
    def at_work(self) -> bool:
        """Whether something is being worked out, or is about to be."""
        return self._waits is not None or (self._work is not None and not self._work.done())

    def _begin(self) -> None:
        self._waits = None
        self._work = asyncio.create_task(self._work_out())

    async def _work_out(self) -> None:
        until = perf_counter() + SLICE
        try:
            for _ in self._pieces():
                if perf_counter() > until:
                    await asyncio.sleep(BREATH)
                    until = perf_counter() + SLICE
        except Exception:  # whatever it is, it comes again at Enter, and is said there
            return

    def _pieces(self) -> Iterator[None]:
        app = self.app
        line = app.desk.line
        intent = reading_meant(app.wiring.snapshot(), line.value, line.question)
        if intent is None:
            return
        snapshot = yield from app.wiring.foresee(intent)
        if snapshot is not None:
            yield from app.desk.lay_ahead(snapshot)
