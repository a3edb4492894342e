"""The Figures pane: the live calculators, with band or uncertainty, limit, and what the last event moved."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from tui.panes.pane import Pane
from tui.show.rows import KeptRows, Row

if TYPE_CHECKING:
    from tui.show.snapshot import Snapshot


class FiguresPane(Pane):
    TITLE = "Figures"

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._kept = KeptRows()

    def rows_of(self, snapshot: "Snapshot", width: int) -> Sequence[Row]:
        from tui.show.figure_rows import figure_rows  # with all that it brings: after the first frame

        return figure_rows(snapshot, width, self._kept)

    def frame(self) -> None:
        if self.snapshot is not None:
            from tui.show.figure_rows import place_at_work
            from tui.show.names import place_name

            here = place_at_work(self.snapshot)
            self.title(f"Figures, {place_name(here, self.snapshot.profile)}" if here else "Figures")

    def show(self, snapshot: "Snapshot") -> None:
        """Begin with the place at work: the list goes back to its head when that changes."""
        from tui.show.figure_rows import place_at_work

        here = place_at_work(snapshot)
        changed = self.snapshot is None or place_at_work(self.snapshot) != here
        super().show(snapshot)
        if changed and not self.has_focus:
            self.scroll_to(y=0, animate=False, immediate=True)
            first = next((row.key for row in self.rows if row.choosable), None)
            self.choose(first, tell=False)
            self.scroll_to(y=0, animate=False, immediate=True)
