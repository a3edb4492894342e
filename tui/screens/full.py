"""The frame of every screen that lies over the whole desk: a title, rows, the keys. Esc goes back."""

from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType

from tui.bindings import key_text
from tui.panes.painted import Lines
from tui.panes.row_list import RowList
from tui.screens.early_keys import EarlyKeys
from tui.show.cells import plain, shorten
from tui.show.rows import FAINT, HEAD, Row, Span, line


class FullRows(RowList):
    """The rows of such a screen: laid out by the screen itself."""

    def lay_out(self, width: int) -> list[Row]:
        screen = self.screen
        return screen.rows(width) if isinstance(screen, Full) else []

    def cursor_moved(self) -> None:
        screen = self.screen
        if isinstance(screen, Full):
            screen.cursor_moved()


class Full(EarlyKeys[Any]):
    """A screen of rows."""

    DEFAULT_CSS = """
    Full { layout: vertical; }
    #full-title, #full-keys { height: 1; width: 100%; background: $ground; }
    #full-rows { height: 1fr; width: 100%; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "step_back", "back", show=False)]
    AUTO_FOCUS = "#full-rows"
    KEYS: ClassVar[tuple[tuple[str, str], ...]] = (("escape", "back"),)

    def compose(self) -> ComposeResult:
        yield Lines(id="full-title")
        yield FullRows(id="full-rows")
        yield Lines(id="full-keys")

    # --- what a screen says ---

    def title_text(self) -> str:
        return ""

    def rows(self, width: int) -> list[Row]:
        return []

    def cursor_moved(self) -> None:
        """For screens whose rows say more where the cursor stands."""

    # --- showing ---

    @property
    def list(self) -> FullRows:
        return self.query_one("#full-rows", FullRows)

    def on_mount(self) -> None:
        self.refresh_rows()

    def on_resize(self) -> None:
        self.show_frame()

    def refresh_rows(self) -> None:
        """Lay the rows out again: something changed."""
        self.show_frame()
        self.list.relay()

    def show_frame(self) -> None:
        width = self.app.size.width
        self.query_one("#full-title", Lines).put(
            line(Span(shorten(f" {plain(self.title_text())}", width), HEAD))
        )
        keys: list[Span] = []
        for number, (key, said) in enumerate(self.KEYS):
            keys.extend(
                (Span("   " if number else " "), Span(key_text(key), "strong"), Span(f" {said}", FAINT))
            )
        self.query_one("#full-keys", Lines).put(tuple(keys))

    def action_step_back(self) -> None:
        self.dismiss(None)
