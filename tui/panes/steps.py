"""The Steps pane: the work in order, with what is held, the timers, and the time left today."""

from collections.abc import Hashable, Sequence
from typing import TYPE_CHECKING

from tui.panes.pane import Pane
from tui.show.rows import Row

if TYPE_CHECKING:
    from tui.show.snapshot import Snapshot

FINISHED = ("done", "skipped")


class StepsPane(Pane):
    TITLE = "Steps"

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._led_to: str | None = None

    def rows_of(self, snapshot: "Snapshot", width: int) -> Sequence[Row]:
        from tui.show.step_rows import step_rows  # with all that it brings: after the first frame

        return step_rows(snapshot, width, self.opened, chosen=self.chosen)

    @property
    def chosen(self) -> str:
        """The step under the cursor, which says all that there is to say about it; empty: none."""
        kind, _, step = (self.cursor or "").partition(":")
        return step if kind == "step" else ""

    def view_of(self, snapshot: "Snapshot") -> Hashable:
        return frozenset(self.opened), self.chosen

    def show(self, snapshot: "Snapshot") -> None:
        """Lead to the step at work, or the first that is offered, whenever that becomes another one.

        With the focus here a person may look at any step: the cursor is moved only from one that was just finished.
        """
        from tui.show.step_rows import led_to

        was_open = self._open_at_cursor()
        super().show(snapshot)
        step = led_to(snapshot)
        if step is None:
            return
        finished = was_open is not None and was_open in (
            each.id for each in snapshot.assessment.steps if each.state in FINISHED and not each.lapsed
        )
        if finished or (step.id != self._led_to and not self.has_focus):
            self.choose(f"step:{step.id}", tell=False)
        self._led_to = step.id

    def _open_at_cursor(self) -> str | None:
        """The step under the cursor, where it was not finished when it was last shown."""
        if self.snapshot is None or self.cursor is None:
            return None
        for step in self.snapshot.assessment.steps:
            if self.cursor == f"step:{step.id}":
                return step.id if step.state not in FINISHED or step.lapsed else None
        return None

    def frame(self) -> None:
        if self.snapshot is not None:
            from tui.show.step_rows import day_text

            self.subtitle(day_text(self.snapshot, self.frame_width))

    def folds(self, key: str) -> bool:
        return key.startswith("group:")
