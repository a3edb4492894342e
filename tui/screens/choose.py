"""One of several: by arrows and Enter, by its number, or by typing a part of its name."""

from collections.abc import Sequence
from typing import NamedTuple

from textual import events
from textual.app import ComposeResult

from tui.panes.row_list import RowList
from tui.screens.dialog import Dialog
from tui.show.cells import plain
from tui.show.rows import FAINT, PLAIN, STRONG, Row, Span, beside, line, wrapped

NUMBERED = 9
MOST_ROWS = 16


class Choice(NamedTuple):
    id: str
    text: str
    more: str = ""  # beside it, faint
    about: str = ""  # below it, faint


class ChoiceList(RowList):
    """The list inside: numbers before the first nine."""

    def __init__(self, choices: Sequence[Choice]) -> None:
        super().__init__(id="choices")
        self.choices = tuple(choices)
        self.typed = ""

    def on_key(self, event: events.Key) -> None:
        """What is typed narrows the list at once, so that Enter takes what it was narrowed down to."""
        screen = self.app.screen
        if screen is self.screen and isinstance(screen, Choose) and screen.take_key(event):
            event.stop()
            event.prevent_default()

    def offered(self) -> list[Choice]:
        wanted = self.typed.lower().split()
        return [each for each in self.choices if all(part in each.text.lower() for part in wanted)]

    def lay_out(self, width: int) -> list[Row]:
        rows = []
        for number, choice in enumerate(self.offered(), start=1):
            label = f"{number} " if number <= NUMBERED else "  "
            more = line(Span(f"  {plain(choice.more)}", FAINT)) if choice.more else ()
            lines = beside(
                f"{label}{plain(choice.text)}", more, width, column=width - sum(len(s.text) for s in more)
            )
            about = wrapped(plain(choice.about), width, FAINT, indent="    ") if choice.about else ()
            rows.append(Row(choice.id, (*lines, *about)))
        if not rows:
            rows.append(
                Row("none", (line(Span(f"nothing is called {plain(self.typed)}", PLAIN)),), choosable=False)
            )
        return rows


class Choose(Dialog[str]):
    """Dismisses with the id of the choice, or None."""

    DEFAULT_CSS = "#choices { height: auto; max-height: 100%; width: 100%; }"
    HINT = "arrows, Enter, or its number · letters narrow · F1 help · Esc back"

    def __init__(self, title: str, choices: Sequence[Choice]) -> None:
        super().__init__(title)
        self.choices = ChoiceList(choices)
        self.narrow = len(choices) > NUMBERED

    def inside(self) -> ComposeResult:
        yield self.choices

    def lay_out(self) -> None:
        super().lay_out()
        rows = self.choices.lay_out(self.box_width() - 3)
        needed = sum(len(row.lines) for row in rows)
        most = max(3, self.app.size.height * 9 // 10 - 7)
        self.choices.styles.height = min(needed, most)
        self.choices.relay()

    def take(self, name: str | None) -> None:
        if name is not None and name != "none":
            self.dismiss(name)

    def row_opened(self, key: str) -> None:
        self.take(key)

    def help_told(self) -> tuple[str, ...]:
        return (
            "Enter: take the line that is marked.",
            "Up and down: mark another line; Page up and Page down, Home and End as well.",
            f"1 to {NUMBERED}: take the line with that number at once.",
            "Letters: leave only the lines that have them in their name; Backspace takes one back.",
            "Esc: back without taking any; nothing is changed by it.",
        )

    def take_key(self, event: events.Key) -> bool:
        """Take a number, or narrow the list by a letter; whether the key was one of these."""
        typed, character = self.choices.typed, event.character
        if character == "?" and not typed:
            self.action_help()
            return True
        if event.key == "backspace":
            self.choices.typed = typed[:-1]
        elif character is not None and character.isdigit() and not typed:
            offered = self.choices.offered()
            number = int(character)
            if 1 <= number <= min(NUMBERED, len(offered)):
                self.take(offered[number - 1].id)
                return True
            return False
        elif event.is_printable and character is not None and len(typed) < 40:
            self.choices.typed = typed + character
        else:
            return False
        shown = f" {self.choices.typed}" if self.choices.typed else ""
        self.fill("hint", [line(Span("narrowed by:", FAINT), Span(shown, STRONG))] if shown else [])
        self.choices.relay()
        return True
