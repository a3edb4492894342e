"""The screen on coming back: what was taken last, what is next, what is live, what has changed. Any key
goes on."""

from collections.abc import Callable

from textual import events
from textual.app import ComposeResult
from textual.screen import ModalScreen

from tui.panes.painted import Lines
from tui.show.coming_back import coming_back_lines
from tui.show.snapshot import Snapshot


class ComingBack(ModalScreen[str]):
    """Dismisses with the letter that was pressed, so that a digit isn't lost."""

    DEFAULT_CSS = """
    ComingBack { align: center middle; background: $paper; }
    #told { width: 90%; max-width: 90; height: auto; border: heavy $frame-focus; padding: 0 1; }
    """

    def __init__(self, snapshot: Snapshot, notices: list[str], go_on: Callable[[str | None], None]) -> None:
        super().__init__()
        self.go_on = go_on
        self.snapshot = snapshot
        self.notices = notices
        self.leaving = False

    def compose(self) -> ComposeResult:
        yield Lines(id="told")

    def on_mount(self) -> None:
        self.lay_out()

    def on_resize(self) -> None:
        self.lay_out()

    def lay_out(self) -> None:
        width = max(20, min(90, self.app.size.width * 9 // 10) - 4)
        told = coming_back_lines(self.snapshot, self.notices, width, self.app.size.height - 4)
        widget = self.query_one("#told", Lines)
        widget.styles.height = len(told) + 2
        widget.put(*told)

    def on_key(self, event: events.Key) -> None:
        event.stop()
        self.leave(event.character if event.is_printable and event.character else "")

    def on_click(self) -> None:
        self.leave("")

    def leave(self, typed: str) -> None:
        """Go on. What is typed faster than this screen goes away follows the first letter, in its order."""
        if not self.leaving:
            self.leaving = True
            self.dismiss(typed)
        else:
            self.app.call_next(self.go_on, typed)
