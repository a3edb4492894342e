"""The Rig pane: places, slots and how each is known, readings, and the values of the profile."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from tui.panes.pane import Pane
from tui.show.names import place_of_slot
from tui.show.rows import Row

if TYPE_CHECKING:
    from tui.show.snapshot import Snapshot

FOLDS = ("tank.", "drain.", "heater.", "run.", "bay.", "more:", "values:")


class RigPane(Pane):
    TITLE = "Rig"

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._unfolded_for: str | None = None
        # Told of a slot that the cursor was moved to: the reading line asks for it now.
        self.aimed: Callable[[str], None] | None = None

    def rows_of(self, snapshot: "Snapshot", width: int) -> Sequence[Row]:
        from tui.show.slot_rows import rig_rows  # with all that it brings: after the first frame

        return rig_rows(snapshot, width, self.view_of(snapshot))

    def view_of(self, snapshot: "Snapshot") -> frozenset[str]:
        """What is unfolded: with the place of a slot that wasn't asked for before, without the place of that before."""
        if not self._asks_anew(snapshot):
            return frozenset(self.opened)
        place = place_of_slot(snapshot.target or "")
        left = {self._unfolded_for} if self._unfolded_for != place else set()
        return frozenset((self.opened - left) | {place})

    def _asks_anew(self, snapshot: "Snapshot") -> bool:
        before = self.snapshot.target if self.snapshot is not None else None
        return snapshot.target is not None and snapshot.target != before

    def show(self, snapshot: "Snapshot") -> None:
        """Unfold the place of the slot that is asked for, and go with it."""
        follow = self._asks_anew(snapshot)
        if follow:
            self.unfold_for(place_of_slot(snapshot.target or ""))
        super().show(snapshot)
        if follow:
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

    def told_moved(self, key: str) -> None:
        if self.aimed is not None and key.startswith("slot:"):
            self.aimed(key.removeprefix("slot:"))

    def folds(self, key: str) -> bool:
        """Whether a row is one that folds."""
        return key in ("supply", "meter", "work", "design", "wiring", "parts", "rig") or key.startswith(FOLDS)
