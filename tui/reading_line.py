"""The reading line: always ready, it takes digits and Enter, and keeps what it can't take."""

from collections.abc import Callable
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType

from logic.data.clean_text import clean_piece
from tui.panes.in_order import InOrder
from tui.questions import Question

MOST_TYPED = 1000


class ReadingLine(InOrder):
    """Where readings are typed. Up and down go to another slot; Esc steps back."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "another_slot(-1)", "slot before", show=False),
        Binding("down", "another_slot(1)", "slot after", show=False),
        Binding("escape", "step_back", "step back", show=False),
    ]

    def __init__(self, *, id: str) -> None:
        self.question: Question | None = None
        # Whoever carries out what is asked for here. Calls and no messages: the next key must find it done.
        self.taker: Callable[[str], None] | None = None
        self.another_slot: Callable[[int], None] | None = None  # the slot before or after is wanted instead
        self.left_alone: Callable[[], None] | None = None  # Esc in an empty line: the focus goes back
        self.help_asked: Callable[[], None] | None = None  # `?` in an empty line
        self._before: list[str] = []
        self._ahead: list[str] = []
        self._stepping = False
        self._waits = False
        super().__init__(id=id, max_length=MOST_TYPED, select_on_focus=False, compact=True)
        # A program that lies open all day isn't woken twice a second, nor a line to a far machine, for a blink.
        self.set_reactive(ReadingLine.cursor_blink, False)

    # --- typing and its undo ---

    def watch_value(self, before: str, after: str) -> None:
        """Keep what the text was, at once: an undo may be the next key."""
        if self.question is not None and after != self.question.typed:
            self.question = None
        if self._stepping or before == after:
            return
        self._before.append(before)
        self._ahead.clear()
        if not after:
            self._before.clear()

    def undo_typing(self) -> bool:
        """Take back the last change of the text; False where the line is empty."""
        if not self.value:
            return False
        self._step(self._before, self._ahead)
        return True

    def redo_typing(self) -> bool:
        """Bring a change of the text back; False where there is none."""
        if not self._ahead:
            return False
        self._step(self._ahead, self._before)
        return True

    def forget_typing(self) -> None:
        """Something recorded was undone: a redo is about that now, not about typing."""
        self._ahead.clear()

    def _step(self, source: list[str], onto: list[str]) -> None:
        onto.append(self.value)
        self._stepping = True
        try:
            self.put(source.pop() if source else "")
        finally:
            self._stepping = False

    def put(self, text: str) -> None:
        """Let the line say this, the cursor behind it."""
        self.value = text
        self.cursor_position = len(text)

    def keep(self, text: str) -> None:
        """Let the line say what could not be taken, all of it selected: the next number typed takes its place."""
        self.put(text)
        if text:
            self.select_all()

    def add(self, text: str) -> None:
        """Go on with this, as if it had been typed here."""
        if self.selection.is_empty:
            self.put(self.value + text)
        else:
            self.replace(text, *self.selection)

    def pasted(self, text: str) -> str:
        """Several lines are several readings."""
        lines = map(clean_piece, text.splitlines())
        return "; ".join(line for line in lines if line.strip())

    # --- keys ---

    async def _on_key(self, event: events.Key) -> None:
        question = self.question
        if question is not None and question.choices and event.character in ("1", "2"):
            number = int(event.character) - 1
            if number < len(question.choices):
                event.stop()
                event.prevent_default()
                self.put(question.choices[number])
                return
        if event.character == "?" and not self.value:
            event.stop()
            event.prevent_default()
            if self.help_asked is not None:
                self.help_asked()
            return
        if event.character == " " and not self.value:
            event.stop()
            event.prevent_default()
            return
        await super()._on_key(event)

    async def action_submit(self) -> None:
        self.enter()

    def enter(self) -> None:
        """Hand over what is typed; in an empty line nothing happens.

        A call and no message: what is typed after Enter must find the line as Enter has left it.
        """
        if not self.value.strip():
            return
        if self.taker is None:
            self._waits = True  # the session is still being opened
        else:
            self.taker(self.value)

    def catch_up(self) -> None:
        """The session is open now: an Enter that came before it counts."""
        if self._waits:
            self._waits = False
            self.enter()

    def action_another_slot(self, by: int) -> None:
        if self.another_slot is not None:
            self.another_slot(by)

    def action_step_back(self) -> None:
        if self.value:
            self.put("")
        elif self.left_alone is not None:
            self.left_alone()
