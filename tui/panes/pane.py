"""What the four panes have in common: a title, a snapshot, keys that go on to the reading line."""

from collections.abc import Callable, Hashable, Sequence
from typing import TYPE_CHECKING, ClassVar, NamedTuple

from textual import events
from textual.binding import Binding, BindingType

from tui.panes.row_list import Listed, RowList
from tui.show.cells import plain, shorten
from tui.show.rows import Row

if TYPE_CHECKING:
    from tui.show.snapshot import Snapshot


class Laid(NamedTuple):
    """Rows laid out for a snapshot that may be shown next."""

    snapshot: "Snapshot"
    width: int
    view: Hashable
    listed: Listed


class Pane(RowList):
    """One of the four panes: shows a snapshot, and sends what is typed to the reading line."""

    TITLE = ""
    BINDINGS: ClassVar[list[BindingType]] = [Binding("question_mark", "app.deed('help')", "help", show=False)]

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id, classes="pane")
        self.snapshot: Snapshot | None = None
        self.opened: set[str] = set()
        self.typed: Callable[[Pane, str], None] | None = None  # where typed letters go
        self.opener: Callable[[Pane, str], None] | None = None  # what opens a row
        self._ahead: Laid | None = None
        self._view: Hashable = ()  # in which the rows were laid out last

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

    def lay_out(self, width: int) -> Sequence[Row] | Listed:
        if self.snapshot is None:
            return ()
        view, ahead = self.view_of(self.snapshot), self._ahead
        self._view = view
        if ahead is not None and ahead[:3] == (self.snapshot, width, view):
            return ahead.listed
        return self.rows_of(self.snapshot, width)

    def lay_ahead(self, snapshot: "Snapshot") -> None:
        """Lay out a snapshot that may be shown next, as it would be shown."""
        if self.size.width > 0:
            width, view = self.row_width, self.view_of(snapshot)
            self._ahead = Laid(snapshot, width, view, Listed.of(self.rows_of(snapshot, width)))

    def rows_of(self, snapshot: "Snapshot", width: int) -> Sequence[Row]:
        """A snapshot's rows for a width, in the pane's view of it; each pane has its own."""
        return ()

    def view_of(self, snapshot: "Snapshot") -> Hashable:
        """All that the rows of a snapshot hang on besides it and their width: what is unfolded, chosen, left out."""
        return ()

    def cursor_moved(self) -> None:
        """Lay out again where the rows say something else now: some say more where the cursor stands."""
        if self.snapshot is not None and self.view_of(self.snapshot) != self._view:
            self.relay()

    def frame(self) -> None:
        """Title and subtitle for the width there is."""

    async def on_resize(self) -> None:
        if self.snapshot is not None:
            self.frame()

    def toggle(self, key: str) -> None:
        """Fold or unfold what stands below a row."""
        self.opened.symmetric_difference_update({key})
        self.relay()
        self.show_cursor()

    def tell_opened(self, key: str) -> None:
        if self.opener is not None:
            self.opener(self, key)

    def on_key(self, event: events.Key) -> None:
        """What a reading is made of goes to the line, at once and in order; a blank and `?` stay keys."""
        if self.typed is None or self.app.screen is not self.screen:
            return
        late = not self.has_focus  # the line has it already: the key was on its way here
        printable = event.is_printable and event.character is not None
        if (printable and (late or event.character not in (" ", "?"))) or (late and event.key == "enter"):
            event.stop()
            event.prevent_default()
            self.typed(self, event.character or "" if printable else "\n")
