"""The frame of every dialog: a title, something in it, the keys that leave it. Esc steps back and changes
nothing."""

from typing import ClassVar, TypeVar

from textual.app import ComposeResult
from textual.await_complete import AwaitComplete
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.screen import ModalScreen

from tui.panes.painted import Lines
from tui.screens.early_keys import EarlyKeys
from tui.show.cells import plain, wrap
from tui.show.marks import LETTERS
from tui.show.rows import FAINT, HEAD, Line, Span, line

Answer = TypeVar("Answer")


class Dialog(EarlyKeys[Answer], ModalScreen[Answer]):
    """A box over the desk."""

    DEFAULT_CSS = """
    Dialog { align: center middle; background: $paper 30%; } /* the verdict behind it can still be read */
    Dialog #box { width: 90%; max-width: 96; height: auto; max-height: 90%;
        border: heavy $frame-focus; background: $paper;
           padding: 0 1; }
    Dialog.-ascii #box { border: ascii $frame-focus; }
    #title, #hint { height: auto; width: 100%; }
    #title { padding-bottom: 1; }
    #hint { padding-top: 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "step_back", "step back", show=False),
        Binding("f1", "help", "help", show=False),
    ]
    HINT = "Enter take · F1 help · Esc back"

    def __init__(self, title: str) -> None:
        super().__init__()
        self.said_title = plain(title)

    def compose(self) -> ComposeResult:
        with Container(id="box"):
            yield Lines(id="title")
            yield from self.inside()
            yield Lines(id="hint")

    def inside(self) -> ComposeResult:
        """What stands between title and keys."""
        yield from ()

    def on_mount(self) -> None:
        self.set_class(getattr(self.app, "marks", None) is LETTERS, "-ascii")
        self.lay_out()

    def on_resize(self) -> None:
        self.lay_out()

    def box_width(self) -> int:
        """Cells inside the frame."""
        return max(20, min(96, self.app.size.width * 9 // 10) - 4)

    def lay_out(self) -> None:
        """Fit title and hint to the width there is."""
        width = self.box_width()
        self.fill("title", [line(Span(each, HEAD)) for each in wrap(self.said_title, width)])
        self.fill("hint", [line(Span(each, FAINT)) for each in wrap(self.HINT, width)])

    def fill(self, name: str, lines: list[Line]) -> None:
        """Give one of the text parts these lines, and as many rows."""
        widget = self.query_one(f"#{name}", Lines)
        padding = 1 if name in ("title", "hint") else 0
        widget.styles.height = len(lines) + padding
        widget.put(*lines)

    def dismiss(self, result: Answer | None = None) -> AwaitComplete:
        """Leave with an answer, once: two keys may come before the first has taken the box away.

        Whoever asked hears it at once, not a little later as with Textual's own: what is opened next then stands
        before the next key comes.
        """
        if not self.is_active:
            return AwaitComplete.nothing()
        asked = self._result_callbacks[-1] if self._result_callbacks else None
        answered = None
        if asked is not None:
            answered, asked.callback = asked.callback, None
        left = super().dismiss(result)
        if answered is not None:
            with self.app._context():
                answered(result)
        return left

    def action_step_back(self) -> None:
        self.dismiss(None)

    def action_help(self) -> None:
        """Say what is asked here; what is typed stays."""
        from tui.screens.dialog_help import DialogHelp

        self.app.push_screen(DialogHelp((f"Asked here: {self.said_title}", *self.help_told())))

    def help_told(self) -> tuple[str, ...]:
        """What the keys do here, a sentence or two each; each dialog has its own."""
        return ()
