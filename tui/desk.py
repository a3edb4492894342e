"""The desk: four panes, the lines around them, and the reading line; which of them are seen at which size."""

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.screen import Screen
from textual.widget import Widget

from tui.bindings import FOOTERS, key_text
from tui.panes.figures import FiguresPane
from tui.panes.kept_strips import keep_strips
from tui.panes.painted import Lines
from tui.panes.pane import Pane
from tui.panes.punch_list import PunchPane
from tui.panes.rig import RigPane
from tui.panes.steps import StepsPane
from tui.reading_line import ReadingLine
from tui.show.cells import width_of, wrap
from tui.show.large import large, large_fits
from tui.show.marks import LETTERS, Marks
from tui.show.rows import FAINT, STRONG, Span, line, line_width, spread
from tui.show.said import said_lines

if TYPE_CHECKING:
    from tui.show.snapshot import Snapshot

FOUR_WIDE, FOUR_HIGH = 100, 30
LEAST_WIDE, LEAST_HIGH = 80, 24
SAID_LINES = 3
LARGE_WIDTH = 32
FOUR, ONE, TINY, ASCII = SIZE_CLASSES = ("-four", "-one", "-tiny", "-ascii")
LEAST_TYPING = 18  # cells that stay for what is typed
# Cells of most prompts: what is typed begins at the same place, and nothing else has to be laid out anew for it.
PROMPT = 49


class Desk(Screen[None]):
    """The screen on which the work is done."""

    AUTO_FOCUS = "#line"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("tab", "next_pane(1)", "next pane", show=False),
        Binding("shift+tab", "next_pane(-1)", "pane before", show=False),
        Binding("escape", "to_line", "reading line", show=False),
    ]

    def __init__(self, ready: Callable[[], None], marks: Marks, *, wide: int, high: int) -> None:
        """`ready` is called once, when all parts are there. `wide`, `high`: the terminal's size at the start."""
        super().__init__(id="desk", classes=" ".join(_size_classes(wide, high, marks)))
        self._ready = ready
        self._marks = marks
        self.snapshot: Snapshot | None = None
        self.came_from: Widget | None = None  # the pane that a digit was typed in
        self._said: tuple[tuple[str, str], ...] = ()
        self.refused = False  # what is said is about a text that stays in the line
        self._large = ""
        self._said_laid: tuple[object, ...] = ()  # what was laid out last, and for which width
        self._shown = "rig"

    def compose(self) -> ComposeResult:
        yield Lines(id="head")
        with Container(id="panes"):
            rig = RigPane(id="rig")
            rig.add_class("-shown", update=False)
            yield rig
            yield FiguresPane(id="figures")
            yield StepsPane(id="steps")
            yield PunchPane(id="punch")
        yield Lines(id="small")
        yield Lines(id="alarm")
        with Container(id="dock"):
            with Container(id="dock-left"):
                with Container(id="entry"):
                    yield Lines(id="prompt")
                    yield ReadingLine(id="line")
                yield Lines(id="then")
                yield Lines(id="said")
            yield Lines(id="large")
        yield Lines(id="keys")

    def on_mount(self) -> None:
        keep_strips(self, *self.query(Container))
        self.lines("head").put(line(Span("bellypan, opening the session", FAINT)))
        self.lines("prompt").put(spread((), (Span(self._marks.bar, FAINT),), PROMPT))
        self.lines("prompt").styles.width = PROMPT
        for pane in self.panes:
            pane.typed = self.typed_in
        self._ready()

    def typed_in(self, pane: Pane, text: str) -> None:
        """A letter or digit typed in a pane opens the line with it; Enter gives the focus back."""
        line = self.line
        if text == "\n":
            line.enter()
            return
        if self.focused is not line:
            self.came_from = pane
            self.set_focus(line)
        line.add(text)

    def on_paste(self, event: events.Paste) -> None:
        """What is pasted in a pane goes to the line, as what is typed there does."""
        pane = self.focused
        if isinstance(pane, Pane):
            self.came_from = pane
            self.set_focus(self.line)
            self.line.paste(event.text)

    # --- parts ---

    @property
    def line(self) -> ReadingLine:
        return self.query_one("#line", ReadingLine)

    def lines(self, name: str) -> Lines:
        return self.query_one(f"#{name}", Lines)

    def pane(self, name: str) -> Pane:
        return self.query_one(f"#{name}", Pane)

    @property
    def panes(self) -> tuple[Pane, ...]:
        return tuple(self.pane(name) for name in ("rig", "figures", "steps", "punch"))

    # --- size ---

    def on_resize(self, event: events.Resize) -> None:
        self.fit(event.size.width, event.size.height)

    def fit(self, width: int, height: int) -> None:
        """Four panes where there is room, one where there is less, a plain message below that."""
        now = _size_classes(width, height, self._marks)
        for name in SIZE_CLASSES:
            self.set_class(name in now, name)
        tiny = TINY in now
        self.show_pane(self._shown)
        if tiny:
            self.line.focus()
        if self.snapshot is not None:
            self.call_after_refresh(self.show_lines)

    def show_pane(self, name: str) -> None:
        """Where one pane is seen at a time: this one."""
        self._shown = name
        for pane in self.panes:
            pane.set_class(pane.id == name, "-shown")

    def go(self, name: str) -> None:
        """Give a pane the focus, and show it: at once, so that the next key finds it there."""
        if self.has_class(TINY):
            return
        self.show_pane(name)
        self.set_focus(self.pane(name))

    def action_next_pane(self, by: int) -> None:
        """From the line to the pane that is shown, then round the four and back to the line."""
        names = [pane.id or "" for pane in self.panes]
        focused = self.focused.id if self.focused is not None else "line"
        if focused not in names:
            self.go(self._shown if by > 0 else names[-1])
            return
        number = names.index(focused) + by
        if 0 <= number < len(names):
            self.go(names[number])
        else:
            self._shown = names[0 if by > 0 else -1]
            self.show_pane(self._shown)
            self.set_focus(self.line)

    def action_to_line(self) -> None:
        self.came_from = None
        self.set_focus(self.line)

    # --- showing ---

    def show(self, snapshot: "Snapshot") -> None:
        """Show a snapshot in every part; each draws only what differs."""
        self.snapshot = snapshot
        with self.app.batch_update():
            for pane in self.panes:
                pane.show(snapshot)
            self.show_lines()

    def lay_ahead(self, snapshot: "Snapshot") -> Iterator[None]:
        """Lay out what may be shown next, pane by pane, so that it is there when it is."""
        for pane in self.panes:
            pane.lay_ahead(snapshot)
            yield

    def show_lines(self) -> None:
        """The lines around the panes, at the width there is."""
        snapshot = self.snapshot
        if snapshot is None or not self.size.width:
            return
        from tui.show.desk_lines import alarm_line, head_line

        width = self.size.width
        self.lines("head").put(head_line(snapshot, width))
        self.lines("alarm").put(alarm_line(snapshot, width))
        self.show_prompt()
        self.show_said()
        if self.has_class(TINY):
            said = (
                f"The window is {width} by {self.size.height}: the panes need {LEAST_WIDE} by {LEAST_HIGH}. "
            )
            told = wrap(f"{said}Readings are still taken in the line below.", width)
            self.lines("small").put(*(line(Span(each)) for each in told))

    def show_prompt(self) -> None:
        """What the line asks for; with a list or a name in it, what that means."""
        snapshot = self.snapshot
        if snapshot is None:
            return
        from tui.show.desk_lines import prompt_line, then_line
        from tui.show.slot_names import parted
        from tui.taking import slots_for

        pieces = self.line.value.split(";")
        slots = slots_for(snapshot, [piece.strip() for piece in pieces])
        target = slots[0] if slots else snapshot.target
        left = max(20, self.lines("then").size.width or self.size.width)
        named = bool(parted(pieces[0]).name)
        prompt = prompt_line(snapshot, snapshot.slot(target), left - LEAST_TYPING, named=named)
        widget = self.lines("prompt")
        said = (*prompt, Span(f" {snapshot.marks.bar}", FAINT))
        room = max(LEAST_TYPING, width_of(self.line.value) + 2)  # a long name takes what the prompt leaves it
        blank = max(0, min(PROMPT, left - room) - line_width(said))
        full = (Span(" " * blank), *said)
        widget.styles.width = line_width(full)
        widget.put(full)
        listed = tuple(slot for slot in slots[1:] if slot)
        self.lines("then").put(then_line(snapshot, left, listed=listed))

    def on_input_changed(self, event: ReadingLine.Changed) -> None:
        """With every letter: a name in the line asks for another slot, a list for several."""
        if not self.is_attached:
            return
        self.show_prompt()
        if self.refused and not self.line.value:
            self.say()

    def say(self, *lines: tuple[str, str], large: str | None = None) -> None:
        """Say something beside the line: (text, role) each; `large`: the value to be read from afar."""
        self._said = lines
        self.refused = False
        if large is not None:
            self._large = large
        self.show_said()

    @property
    def said(self) -> tuple[tuple[str, str], ...]:
        return self._said

    def show_said(self) -> None:
        widget = self.lines("said")
        width = widget.size.width or self.size.width
        laid = (self._said, self._large, width)
        if laid == self._said_laid:
            return
        self._said_laid = laid
        widget.put(*said_lines(self._said, width, SAID_LINES, between=f" {self._marks.then} "))
        self._show_large()

    def _show_large(self) -> None:
        widget = self.lines("large")
        if not self._large or not large_fits(self._large, LARGE_WIDTH - 2):
            widget.put()
            return
        rows = large(self._large, ascii_only=self._marks == LETTERS)
        width = LARGE_WIDTH
        widget.put(
            (),
            *(
                line(Span(" " * max(0, width - line_width((Span(row),)) - 1)), Span(row, STRONG))
                for row in rows
            ),
        )

    def show_keys(self) -> None:
        """The keys of the moment, by what has the focus."""
        name = (self.focused.id or "line") if self.focused is not None else "line"
        spans: list[Span] = []
        for number, (key, said) in enumerate(FOOTERS.get(name, FOOTERS["line"])):
            spans.extend(
                (Span("   " if number else " "), Span(key_text(key), STRONG), Span(f" {said}", FAINT))
            )
        self.lines("keys").put(tuple(spans))

    def on_descendant_focus(self) -> None:
        focused = self.focused
        if isinstance(focused, Pane) and focused.id is not None and focused.id != self._shown:
            self.show_pane(focused.id)
        self.show_keys()


def _size_classes(width: int, height: int, marks: Marks) -> tuple[str, ...]:
    """What the stylesheet goes by: how many panes there is room for, and whether frames are plain letters."""
    if width < LEAST_WIDE or height < LEAST_HIGH:
        room = TINY
    else:
        room = FOUR if width >= FOUR_WIDE and height >= FOUR_HIGH else ONE
    return (room, ASCII) if marks == LETTERS else (room,)
