"""The Punch list: what was found and written, by weight and by place, with the verdict on closing below it."""

from collections.abc import Hashable, Sequence
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType

from tui.panes.pane import Pane
from tui.show.rows import Row

if TYPE_CHECKING:
    from tui.show.snapshot import Snapshot

FILTERS = ("", "stop", "use", "note")


class PunchPane(Pane):
    TITLE = "Punch list"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "filter(-1)", "fewer weights", show=False),
        Binding("right", "filter(1)", "by weight", show=False),
        Binding("shift+left", "filter_part(-1)", "place before", show=False),
        Binding("shift+right", "filter_part(1)", "by place", show=False),
    ]

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self.only = ""
        self.part: str | None = None  # the part of the rig that alone is shown; empty: items that name none

    def rows_of(self, snapshot: "Snapshot", width: int) -> Sequence[Row]:
        from tui.show.punch_rows import punch_rows  # with all that it brings: after the first frame

        return punch_rows(
            snapshot,
            width,
            only=self.only,
            part=self.part,
            chosen=self.chosen,
            opened=self.opened,
        )

    def view_of(self, snapshot: "Snapshot") -> Hashable:
        return frozenset(self.opened), self.only, self.part, self.chosen

    @property
    def chosen(self) -> str | None:
        """The entry under the cursor, which says its remedy while the focus is here."""
        entry = self.has_focus and self.cursor is not None and self.cursor.startswith("entry:")
        return self.cursor if entry else None

    def frame(self) -> None:
        if self.snapshot is not None:
            from tui.show.punch_rows import part_name, verdict_counts

            alone = [self.only] if self.only else []
            if self.part is not None:
                alone.append(part_name(self.snapshot, self.part))
            self.title("Punch list" + (f", {' of '.join(alone)} only" if alone else ""))
            self.subtitle(verdict_counts(self.snapshot.assessment.verdict, self.frame_width))

    def watch_has_focus(self, _has_focus: bool) -> None:
        super().watch_has_focus(_has_focus)
        self.cursor_moved()

    def folds(self, key: str) -> bool:
        """Whether a row is one that opens: many entries of one rule."""
        return key.startswith("fold:")

    def action_filter(self, by: int) -> None:
        """The next weight alone, or all of them."""
        self.only = FILTERS[(FILTERS.index(self.only) + by) % len(FILTERS)]
        self.again()

    def action_filter_part(self, by: int) -> None:
        """The next part of the rig that has an open entry alone, or all of them."""
        if self.snapshot is None:
            return
        from tui.show.punch_rows import parts_named

        parts = [None, *(part for part, _ in parts_named(self.snapshot))]
        number = parts.index(self.part) if self.part in parts else 0
        self.show_part(parts[(number + by) % len(parts)])

    def show_part(self, part: str | None) -> None:
        """Show one part of the rig alone; None: all."""
        self.part = part
        self.again()

    def again(self) -> None:
        if self.snapshot is not None:
            self.show(self.snapshot)
