"""The Rig pane: places, slots and how each is known, readings, and the values of the profile."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.message import Message

from tui.panes.pane import Pane
from tui.show.names import place_of_slot
from tui.show.rows import Row

if TYPE_CHECKING:
    from tui.show.snapshot import Snapshot

FOLDS = ("tank.", "drain.", "heater.", "run.", "bay.", "more:", "values:")


class RigPane(Pane):
    TITLE = "Rig"

    class SlotAimed(Message):
        """The cursor was moved to a slot: the reading line asks for it now."""

        def __init__(self, source: "RigPane", slot: str) -> None:
            super().__init__()
            self.source = source
            self.slot = slot

        @property
        def control(self) -> "RigPane":
            return self.source

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._unfolded_for: str | None = None

    def lay_out(self, width: int) -> Sequence[Row]:
        if self.snapshot is None:
            return ()
        from tui.show.slot_rows import rig_rows  # with all that it brings: after the first frame

        return rig_rows(self.snapshot, width, self.opened)

    def show(self, snapshot: "Snapshot") -> None:
        """Unfold the place of the slot that is asked for, and go with it."""
        before = self.snapshot.target if self.snapshot is not None else None
        follow = snapshot.target != before or self.snapshot is None
        if snapshot.target is not None and follow:
            self.unfold_for(place_of_slot(snapshot.target))
        super().show(snapshot)
        if follow and snapshot.target is not None:
            self.choose(f"slot:{snapshot.target}", tell=False)

    def unfold_for(self, place: str) -> None:
        """Unfold a place for the slot asked for, and fold the one that was unfolded for the last."""
        if self._unfolded_for is not None and self._unfolded_for != place:
            self.opened.discard(self._unfolded_for)
        if place not in self.opened:
            self.opened.add(place)
            self._unfolded_for = place

    def toggle(self, key: str) -> None:
        if key == self._unfolded_for:
            self._unfolded_for = None  # the person's own wish from here on
        super().toggle(key)

    def on_row_list_moved(self, message: Pane.Moved) -> None:
        if message.key.startswith("slot:"):
            self.post_message(self.SlotAimed(self, message.key.removeprefix("slot:")))

    def folds(self, key: str) -> bool:
        """Whether a row is one that folds."""
        return key in ("supply", "meter", "work", "design", "wiring", "parts", "rig") or key.startswith(FOLDS)
