"""The Punch list: what was found and written, by weight, with the verdict on closing below it."""

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType

from tui.panes.pane import Pane
from tui.show.rows import Row

FILTERS = ("", "stop", "use", "note")


class PunchPane(Pane):
    TITLE = "Punch list"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "filter(-1)", "fewer weights", show=False),
        Binding("right", "filter(1)", "by weight", show=False),
    ]

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self.only = ""

    def lay_out(self, width: int) -> Sequence[Row]:
        if self.snapshot is None:
            return ()
        from tui.show.punch_rows import punch_rows  # with all that it brings: after the first frame

        return punch_rows(
            self.snapshot, width, only=self.only, chosen=self.cursor if self.has_focus else None
        )

    def frame(self) -> None:
        if self.snapshot is not None:
            from tui.show.punch_rows import verdict_counts

            self.title("Punch list" + (f", {self.only} only" if self.only else ""))
            self.subtitle(verdict_counts(self.snapshot.assessment.verdict, self.frame_width))

    def cursor_moved(self) -> None:
        """The entry under the cursor says its remedy."""
        self.relay()

    def watch_has_focus(self, _has_focus: bool) -> None:
        super().watch_has_focus(_has_focus)
        self.relay()

    def action_filter(self, by: int) -> None:
        """The next weight alone, or all of them."""
        self.only = FILTERS[(FILTERS.index(self.only) + by) % len(FILTERS)]
        if self.snapshot is not None:
            self.show(self.snapshot)
