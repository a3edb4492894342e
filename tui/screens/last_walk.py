"""The last walk before closing, place by place. Enter goes to what puts a thing right; what was seen is said here."""

from typing import ClassVar

from textual.binding import Binding, BindingType

from logic.assessment.last_walk import STEP, Halt, Look, last_walk_of
from logic.session.intents import FinishStep, NotSaved, Refused
from tui.screens.full import Full
from tui.show import numbers
from tui.show.last_walk_rows import last_walk_rows, look_of
from tui.show.rows import Row
from tui.wiring import Wiring

CONFIRMED = "confirm-"


class LastWalk(Full):
    KEYS = (("enter", "go to it, or open"), ("ctrl+s", "it was seen"), ("escape", "back"))
    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+s", "seen", "it was seen", show=False)]

    def __init__(self, wiring: Wiring) -> None:
        super().__init__()
        self.wiring = wiring
        self.opened: set[str] = set()
        self.said = ""
        self._walked: tuple[object, tuple[Halt, ...]] | None = None

    def title_text(self) -> str:
        return self.said or "the last walk: all that will be out of sight"

    def halts(self) -> tuple[Halt, ...]:
        """The walk as it stands; worked out once for each assessment, and not with each key."""
        snapshot = self.wiring.snapshot()
        if self._walked is None or self._walked[0] is not snapshot.assessment:
            self._walked = snapshot.assessment, last_walk_of(snapshot.assessment, snapshot.state)
        return self._walked[1]

    def rows(self, width: int) -> list[Row]:
        snapshot = self.wiring.snapshot()
        return last_walk_rows(
            self.halts(), width, snapshot.units, snapshot.marks, opened=self.opened, chosen=self.list.cursor
        )

    def chosen(self) -> Look | None:
        """The look under the cursor."""
        return look_of(self.halts(), self.list.cursor)

    def cursor_moved(self) -> None:
        """The look under the cursor says what would put it right."""
        self.list.relay()

    def row_opened(self, key: str) -> None:
        """Open what is folded; else go to the step, the slot or the place."""
        if key.startswith("fold:"):
            self.opened.symmetric_difference_update({key})
            self.refresh_rows()
            return
        look = look_of(self.halts(), key)
        if look is None or not look.about:
            return
        from tui.deeds.punch import go_to

        go_to(self.app, look.about)  # type: ignore[arg-type]

    def action_seen(self) -> None:
        """What is confirmed by looking at it is said here; all other steps are worked in their pane."""
        look = self.chosen()
        if look is None:
            return
        if look.kind != STEP or not look.id.startswith(CONFIRMED):
            self.say("only what is confirmed by a look is said here; Enter goes to this one")
            return
        result = self.wiring.send(FinishStep(look.id))
        words = result.reason if isinstance(result, Refused | NotSaved) else result.said
        self.say(numbers.fill(words, self.wiring.snapshot().units))

    def say(self, text: str) -> None:
        self.said = text
        self.refresh_rows()
