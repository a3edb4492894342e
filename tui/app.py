"""The program with a screen: keys to deeds, typed text to readings, what came of it back to the panes."""

from importlib import import_module
from typing import TYPE_CHECKING, Any, ClassVar

from textual.app import App, SystemCommand
from textual.binding import Binding, BindingType
from textual.screen import Screen

from logic.session.intents import Intent, NotSaved, Refused, Taken
from tui.bindings import ACTS, BY_ID, KEYED, key_text
from tui.desk import Desk
from tui.panes.rig import RigPane
from tui.panes.row_list import RowList
from tui.reading_line import ReadingLine
from tui.show.desk_words import moved_text, taken_text
from tui.show.marks import LETTERS, Marks, marks_for
from tui.show.rows import BAD, MOVED, PLAIN, STRONG
from tui.show.snapshot import Snapshot
from tui.taking import filled, refusal_lines, take
from tui.themes import THEMES, roles_from
from tui.wiring import Wiring, this_moment

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from logic.data.state import Instant
    from logic.session.session import Session

IDLE = 600.0  # seconds after which the screen on coming back is shown
FIRST_WORDS = (
    "Read on the tape what this line asks for, type it, Enter: it goes on to the next by itself.",
    "F4: what can be done with a row. F1: help. Ctrl+P: everything.",
)
FOLLOWED = 2.0  # seconds between looks at a session that another program holds


class Bellypan(App[Any]):
    """One session on the screen."""

    TITLE = "bellypan"
    CSS_PATH = "bellypan.tcss"
    ENABLE_COMMAND_PALETTE = True
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(act.key, f"deed('{act.id}')", act.label, show=False, id=act.id, tooltip=act.about)
        for act in KEYED
    ]

    def __init__(self, wiring: Wiring) -> None:
        super().__init__()
        self.wiring = wiring
        self.desk = Desk(self.desk_ready)
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = THEMES[0].name
        self.opened_with: Snapshot | None = None  # the session as it stood when it was opened
        self._due_before = wiring.touched

    # --- start ---

    def get_css_variables(self) -> dict[str, str]:
        """A theme of Textual's knows none of our roles: they are led back to its own."""
        variables = super().get_css_variables()
        return {**roles_from(variables), **variables}

    def get_default_screen(self) -> Desk:
        return self.desk

    def desk_ready(self) -> None:
        """The desk's parts are there: the first frame has everything in it."""
        self.desk.set_class(self.wiring.marks == LETTERS, "-ascii")
        self.desk.fit(self.size.width, self.size.height)
        self.desk.line.taker = self.take
        self.opened_with = self.wiring.snapshot()
        self.show()
        notices = [filled(each, "us") for each in self.wiring.session.notices]
        self.desk.say(*((each, STRONG) for each in notices or FIRST_WORDS))
        self.call_after_refresh(self.begin)

    def begin(self) -> None:
        """What waits until the first frame stands: the greeting, and the clock."""
        deed("look", "greet")(self)
        self.set_clock()

    # --- the way of an intent ---

    def send(self, intent: Intent, *, quiet: bool = False) -> Taken | Refused | NotSaved:
        """Have an intent recorded, show what became of it, and say it beside the line."""
        result = self.wiring.send(intent)
        self.show()
        if not quiet:
            self.say_result(result)
        return result

    def say_result(self, result: Taken | Refused | NotSaved) -> None:
        units = self.wiring.snapshot().units
        if isinstance(result, Refused):
            first, *rest = refusal_lines(result, units)
            self.desk.say((first, BAD), *((each, PLAIN) for each in rest))
        elif isinstance(result, NotSaved):
            said = f"NOT SAVED: {filled(result.said, units)}. {filled(result.reason, units)}"
            self.desk.say((said, BAD))
        else:
            beside = " ".join(filled(each, units) for each in result.beside)
            moved = moved_text(self.wiring.snapshot())
            lines = [(filled(result.said, units), STRONG), (beside or moved, MOVED if not beside else BAD)]
            self.desk.say(*lines, large="")

    def show(self) -> None:
        """Show the session as it stands now."""
        self.desk.show(self.wiring.snapshot())

    def back(self) -> None:
        """Another screen was left: the desk shows what was recorded there, and the line asks what was chosen there."""
        self.show()

    # --- the reading line ---

    def take(self, typed: str) -> None:
        """Enter in the line: record what can be, keep the rest, say what came of it."""
        line = self.desk.line
        outcome = take(self.wiring, typed, line.question)
        line.put(outcome.left)
        line.question = outcome.question
        self.show()
        snapshot = self.wiring.snapshot()
        told: list[tuple[str, str]] = []
        value = None
        for reading in outcome.taken:
            said, value = taken_text(snapshot, reading)
            told.append((said, STRONG))
        if outcome.not_saved:
            told.append((outcome.not_saved, BAD))
        told.extend((each, BAD if not number else PLAIN) for number, each in enumerate(outcome.refused))
        if outcome.taken and not outcome.refused and len(told) == 1:
            told.append((moved_text(snapshot), MOVED))
        self.desk.say(*told[-2:], large=value)
        if not outcome.left:
            self.focus_back()

    def focus_back(self) -> None:
        """After Enter, the focus goes where it was when the first digit was typed."""
        pane, self.desk.came_from = self.desk.came_from, None
        if pane is not None and pane.is_attached and pane.display:
            pane.focus()

    def on_reading_line_another_slot(self, message: ReadingLine.AnotherSlot) -> None:
        deed("readings", "another_slot")(self, message.by)

    def on_reading_line_left_alone(self) -> None:
        self.wiring.target = None
        self.show()
        self.focus_back()

    def on_reading_line_help_asked(self) -> None:
        self.action_deed("help")

    def on_rig_pane_slot_aimed(self, message: RigPane.SlotAimed) -> None:
        self.wiring.target = message.slot
        self.show()

    def on_row_list_opened(self, message: RowList.Opened) -> None:
        if message.source in self.desk.panes:
            deed("menu", "open_row")(self, message.source, message.key)

    def go_on(self, typed: str | None) -> None:
        """After the screen on coming back: a digit pressed there goes into the line."""
        self.wiring.touched = self.wiring.now().at
        line = self.desk.line
        line.focus()
        if typed and typed not in (" ", "?"):
            line.put(line.value + typed)

    # --- deeds ---

    def action_deed(self, name: str) -> Any:
        """Carry out one of the declared actions."""
        module, _, function = BY_ID[name].deed.partition(":")
        return deed(module, function)(self)

    def get_system_commands(self, screen: Screen[Any]) -> "Iterable[SystemCommand]":
        for act in ACTS:
            title = f"{act.about}" + (f"  ({key_text(act.key)})" if act.key else "")
            yield SystemCommand(title, act.label, lambda name=act.id: self.action_deed(name))
        yield SystemCommand("Leave the program  (Ctrl+Q)", "everything recorded is on disk", self.action_quit)

    # --- the clock ---

    def set_clock(self) -> None:
        """Wake at the next minute, or when the next timer ends, whichever comes first."""
        at = self.wiring.now().at
        waits = [FOLLOWED if self.wiring.session.read_only else 60.0 - at % 60.0]
        waits.extend(
            step.due - at
            for step in self.wiring.snapshot().assessment.steps
            if step.due is not None and step.due > at
        )
        self.set_timer(max(1.0, min(waits) + 0.05), self.tick, name="clock")

    def tick(self) -> None:
        """The time went on: timers, what has lapsed, the screen on coming back."""
        now = self.wiring.now().at
        rang = [
            step for step in self.wiring.snapshot().assessment.steps
            if step.due is not None and self._due_before < step.due <= now
        ]  # fmt: skip
        self._due_before = now
        self.wiring.follow()
        self.wiring.save_again()
        self.wiring.tick()
        self.show()
        if rang:
            self.bell()
            self.desk.say((f"its time is up: {', '.join(step.title for step in rang)}", STRONG))
        if now - self.wiring.touched > IDLE:
            self.wiring.touched = now
            deed("look", "come_back")(self)
        self.set_clock()

    def on_key(self) -> None:
        self.wiring.touched = self.wiring.now().at


def deed(module: str, function: str) -> Any:
    """A function of a deeds module, loaded when it is first asked for."""
    return getattr(import_module(f"tui.deeds.{module}"), function)


def terminal_marks() -> Marks:
    """The marks that the terminal in use can show."""
    import os
    import sys

    return marks_for(getattr(sys.stdout, "encoding", None), terminal=os.environ.get("TERM", ""))


def run_screen(session: "Session | None" = None, now: "Callable[[], Instant] | None" = None) -> int:
    """Open the screen on a session; None: ask first which rig to start with. 0, or 1 where it ended in an error."""
    marks = terminal_marks()
    while True:
        if session is None:
            from tui.screens.start import ask_for_session

            session = ask_for_session(marks)
            if session is None:
                return 0
        app = Bellypan(Wiring(session, marks=marks, now=now or this_moment))
        try:
            answer = app.run()
        finally:
            session.close()
        if answer != "another":
            return app.return_code or 0
        session = None
