"""What the four panes have in common: a title, a snapshot, keys that go on to the reading line."""

from collections.abc import Callable
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.binding import Binding, BindingType

from tui.panes.row_list import RowList
from tui.show.cells import plain, shorten

if TYPE_CHECKING:
    from tui.show.snapshot import Snapshot


class Pane(RowList):
    """One of the four panes: shows a snapshot, and sends what is typed to the reading line."""

    TITLE = ""
    BINDINGS: ClassVar[list[BindingType]] = [Binding("question_mark", "app.deed('help')", "help", show=False)]

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id, classes="pane")
        self.snapshot: Snapshot | None = None
        self.opened: set[str] = set()
        self.typed: Callable[[Pane, str], None] | None = None  # where typed letters go

    def on_mount(self) -> None:
        self.title(self.TITLE)

    def title(self, text: str) -> None:
        """Name the pane in its frame; the text is no markup."""
        shown = shorten(plain(text), self.frame_width) if self.size.width else plain(text)
        shown = shown.replace("[", "\\[")
        if shown != self.border_title:
            self.border_title = shown

    @property
    def frame_width(self) -> int:
        """Cells that a title or a subtitle may take in the frame."""
        return max(10, self.size.width - 6)

    def subtitle(self, text: str) -> None:
        """What stands in the lower edge of the frame."""
        shown = plain(text).replace("[", "\\[")
        if shown != self.border_subtitle:
            self.border_subtitle = shown

    def show(self, snapshot: "Snapshot") -> None:
        """Take a new snapshot and draw what differs."""
        self.snapshot = snapshot
        self.marks = snapshot.marks
        self.relay()
        self.frame()

    def frame(self) -> None:
        """Title and subtitle for the width there is."""

    def on_resize(self) -> None:
        if self.snapshot is not None:
            self.frame()

    def toggle(self, key: str) -> None:
        """Fold or unfold what stands below a row."""
        self.opened.symmetric_difference_update({key})
        self.relay()
        self.show_cursor()

    def on_key(self, event: events.Key) -> None:
        """What a reading is made of goes to the line, at once and in order; a blank and `?` stay keys."""
        if self.typed is None:
            return
        late = not self.has_focus  # the line has it already: the key was on its way here
        printable = event.is_printable and event.character is not None
        if (printable and (late or event.character not in (" ", "?"))) or (late and event.key == "enter"):
            event.stop()
            event.prevent_default()
            self.typed(self, event.character or "" if printable else "\n")
