"""The reading line: always ready, it takes digits and Enter, and keeps what it can't take."""

from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import Input

from tui.taking import Question

MOST_TYPED = 1000


class ReadingLine(Input):
    """Where readings are typed. Up and down go to another slot; Esc steps back."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "another_slot(-1)", "slot before", show=False),
        Binding("down", "another_slot(1)", "slot after", show=False),
        Binding("escape", "step_back", "step back", show=False),
    ]

    class Entered(Message):
        """Enter was pressed with something in the line."""

        def __init__(self, source: "ReadingLine", typed: str) -> None:
            super().__init__()
            self.source = source
            self.typed = typed

        @property
        def control(self) -> "ReadingLine":
            return self.source

    class AnotherSlot(Message):
        """The slot before or after is wanted instead."""

        def __init__(self, by: int) -> None:
            super().__init__()
            self.by = by

    class LeftAlone(Message):
        """Esc in an empty line: the focus goes back where it came from."""

    class HelpAsked(Message):
        """`?` in an empty line."""

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id, max_length=MOST_TYPED, select_on_focus=False, compact=True)
        self.question: Question | None = None
        self._before: list[str] = []
        self._ahead: list[str] = []
        self._last = ""
        self._stepping = False

    # --- typing and its undo ---

    def on_input_changed(self, event: Input.Changed) -> None:
        if self.question is not None and event.value != self.question.typed:
            self.question = None
        if self._stepping:
            self._stepping = False
        elif event.value != self._last:
            self._before.append(self._last)
            self._ahead.clear()
        self._last = event.value
        if not event.value:
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

    def _step(self, source: list[str], onto: list[str]) -> None:
        self._stepping = True
        onto.append(self.value)
        self.put(source.pop() if source else "")

    def put(self, text: str) -> None:
        """Let the line say this, the cursor behind it."""
        self.value = text
        self.cursor_position = len(text)

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
            self.post_message(self.HelpAsked())
            return
        if event.character == " " and not self.value:
            event.stop()
            event.prevent_default()
            return
        await super()._on_key(event)

    async def action_submit(self) -> None:
        """Enter: in an empty line nothing happens."""
        if self.value.strip():
            self.post_message(self.Entered(self, self.value))

    def action_another_slot(self, by: int) -> None:
        self.post_message(self.AnotherSlot(by))

    def action_step_back(self) -> None:
        if self.value:
            self.put("")
        else:
            self.post_message(self.LeftAlone())
