"""The Steps pane: the work in order, with what is held, the timers, and the time left today."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from tui.panes.pane import Pane
from tui.show.rows import Row

if TYPE_CHECKING:
    from tui.show.snapshot import Snapshot


class StepsPane(Pane):
    TITLE = "Steps"

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._led_to: str | None = None

    def lay_out(self, width: int) -> Sequence[Row]:
        if self.snapshot is None:
            return ()
        from tui.show.step_rows import step_rows  # with all that it brings: after the first frame

        chosen = (self.cursor or "").removeprefix("step:")
        return step_rows(self.snapshot, width, self.opened, chosen=chosen)

    def show(self, snapshot: "Snapshot") -> None:
        """Lead to the step at work, or the first that may start, whenever that becomes another one."""
        from tui.show.step_rows import next_step

        super().show(snapshot)
        step = next_step(snapshot.assessment.steps)
        if step is not None and step.id != self._led_to:
            self._led_to = step.id
            if not self.has_focus:
                self.choose(f"step:{step.id}", tell=False)

    def frame(self) -> None:
        if self.snapshot is not None:
            from tui.show.step_rows import day_text

            self.subtitle(day_text(self.snapshot, self.frame_width))

    def cursor_moved(self) -> None:
        """The step under the cursor says all that there is to say about it."""
        self.relay()

    def folds(self, key: str) -> bool:
        return key.startswith("group:")
