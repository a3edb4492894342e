"""The program with a screen: keys to deeds, typed text to readings, what came of it back to the panes."""

from importlib import import_module
from typing import TYPE_CHECKING, Any, ClassVar

from textual import events
from textual.app import SystemCommand
from textual.binding import Binding, BindingType
from textual.screen import Screen

from tui import garbage
from tui.bindings import ACTS, BY_ID, KEYED, key_text
from tui.desk import Desk
from tui.own_app import OwnApp
from tui.panes.pane import Pane
from tui.panes.rig import RigPane
from tui.reading_line import ReadingLine
from tui.show.marks import SIGNS, Marks, marks_for
from tui.show.rows import STRONG

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from logic.data.state import Instant
    from logic.session.intents import Intent, NotSaved, Refused, Taken
    from logic.session.session import Session
    from tui.foresight import Foresight
    from tui.show.snapshot import Snapshot
    from tui.wiring import Wiring

IDLE = 600.0  # seconds after which the screen on coming back is shown
# Loaded with the session, so that the first Enter doesn't wait for them.
AFTER_FIRST_FRAME = (
    "tui.foresight",
    "tui.deeds.record",
    "tui.deeds.look",
    "tui.show.figure_rows",
    "tui.show.slot_rows",
    "tui.show.step_rows",
    "tui.show.punch_rows",
    "tui.show.desk_lines",
)
FOLLOWED = 1.0  # seconds between looks at a session that another program holds


class Bellypan(OwnApp):
    """One session on the screen."""

    TITLE = "bellypan"
    CSS_PATH = "bellypan.tcss"
    ENABLE_COMMAND_PALETTE = True
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(act.key, f"deed('{act.id}')", act.label, show=False, id=act.id, tooltip=act.about)
        for act in KEYED
    ]

    def __init__(self, opener: "Callable[[], Wiring]", *, marks: Marks = SIGNS) -> None:
        """`opener` is called once the first frame stands, in a thread: it opens the session."""
        super().__init__()
        self.opener = opener
        self.marks = marks
        self.opened_with: Snapshot | None = None  # the session as it stood when it was opened
        self.fault: BaseException | None = None  # why it could not be opened
        self._wiring: Wiring | None = None
        self._due_before = 0.0
        self._minute = 0  # in which the session was last shown by the clock
        self.trying_again = False  # a try to save what waits is under way
        self.foresight: Foresight | None = None

    # --- start ---

    def get_default_screen(self) -> Desk:
        self.desk = Desk(self.desk_ready, self.marks, wide=self.size.width, high=self.size.height)
        return self.desk

    def desk_ready(self) -> None:
        """The desk's parts are there: the first frame, with the line ready for typing; then the session."""
        self.call_after_refresh(self.begin)

    def begin(self) -> None:
        """Open the session while keys are taken already."""
        self.run_worker(self._open, thread=True, group="open", exclusive=True, exit_on_error=False)

    def _open(self) -> None:
        try:
            wiring = self.opener()
            wiring.snapshot()
            for module in AFTER_FIRST_FRAME:
                import_module(module)
        except BaseException as fault:  # whatever it is, it is said once the screen is gone
            self.call_from_thread(self.not_opened, fault)
        else:
            self.call_from_thread(self.is_open, wiring)

    def not_opened(self, fault: BaseException) -> None:
        self.fault = fault
        self.exit(return_code=2)

    def is_open(self, wiring: "Wiring") -> None:
        """The session is there: show it, say where it stands, take what was typed meanwhile."""
        self._wiring = wiring
        self._due_before = wiring.touched
        self.opened_with = wiring.snapshot()
        self.show()
        self.call_after_refresh(self.begin_work)

    def begin_work(self) -> None:
        """The desk is painted: say where things stand over it, take what was typed meanwhile, start the clock."""
        self.wiring.clock_went_back()
        deed("look", "greet")(self)
        line = self.desk.line
        line.taker, line.another_slot = self.take, self.another_slot
        line.left_alone, line.help_asked = self.left_alone, self.help_asked
        self.desk.query_one("#rig", RigPane).aimed = self.slot_aimed
        for pane in self.desk.panes:
            pane.opener = self.open_row
        line.catch_up()
        self.set_clock()
        from tui.foresight import Foresight

        self.foresight = Foresight(self)
        garbage.resume()

    @property
    def wiring(self) -> "Wiring":
        """The session as the screen sees it. Only once it is open."""
        assert self._wiring is not None
        return self._wiring

    # --- the way of an intent ---

    def send(self, intent: "Intent", *, quiet: bool = False) -> "Taken | Refused | NotSaved":
        """Have an intent recorded, show what became of it, and say it beside the line."""
        return deed("record", "send")(self, intent, quiet=quiet)

    def say_result(self, result: "Taken | Refused | NotSaved") -> None:
        deed("record", "say_result")(self, result)

    def show(self) -> None:
        """Show the session as it stands now."""
        self.desk.show(self.wiring.snapshot())
        if self.foresight is not None:
            self.foresight.look()
        if self.wiring.session.unsaved:
            deed("keeping", "watch")(self)
        elif self.wiring.late:
            self.call_next(deed("keeping", "say_saved"), self)

    def back(self) -> None:
        """Another screen was left: show what was recorded there, and ask what was chosen there."""
        self.show()

    # --- the reading line ---

    def take(self, typed: str) -> None:
        """Enter in the line."""
        deed("record", "take_typed")(self, typed)

    def on_input_changed(self, message: ReadingLine.Changed) -> None:
        """What is being typed is looked at ahead, in the pauses between keys."""
        if self.foresight is not None and message.input is self.desk.line:
            self.foresight.look()

    async def on_event(self, event: events.Event) -> None:
        """A key comes before whatever is worked out ahead."""
        if self.foresight is not None and isinstance(event, events.Key):
            self.foresight.halt()
        await super().on_event(event)

    def focus_back(self) -> None:
        """After Enter, the focus goes where it was when the first digit was typed."""
        pane, self.desk.came_from = self.desk.came_from, None
        if pane is not None and pane.is_attached and pane.display:
            self.desk.set_focus(pane)

    def another_slot(self, by: int) -> None:
        """Up or down in the line."""
        deed("readings", "another_slot")(self, by)

    def left_alone(self) -> None:
        """Esc in the empty line."""
        self.wiring.target = None
        self.show()
        self.focus_back()

    def help_asked(self) -> None:
        """`?` in the empty line."""
        self.action_deed("help")

    def slot_aimed(self, slot: str) -> None:
        """The cursor of the Rig pane was moved to a slot."""
        self.wiring.target = slot
        self.show()

    def open_row(self, pane: Pane, key: str) -> None:
        """Enter, or a second click, on a row of a pane."""
        deed("menu", "open_row")(self, pane, key)

    def go_on(self, typed: str | None) -> None:
        """After the screen on coming back: a digit pressed there goes into the line."""
        self.wiring.touched = self.wiring.now().at
        line = self.desk.line
        self.desk.set_focus(line)
        if typed and (line.value or typed not in (" ", "?")):
            line.add(typed)

    # --- deeds ---

    def action_deed(self, name: str) -> Any:
        """Carry out one of the declared actions, once there is a session to do it with."""
        if self._wiring is None:
            return None
        module, _, function = BY_ID[name].deed.partition(":")
        return deed(module, function)(self)

    def get_system_commands(self, screen: Screen[Any]) -> "Iterable[SystemCommand]":
        for act in ACTS:
            title = f"{act.about}" + (f"  ({key_text(act.key)})" if act.key else "")
            yield SystemCommand(title, act.label, lambda name=act.id: self.action_deed(name))
        yield SystemCommand("Leave the program  (Ctrl+Q)", "everything recorded is on disk", self.action_quit)

    def action_command_palette(self) -> None:
        """Open the palette, once: it may lie below another screen already."""
        from tui.palette import Palette

        if not any(isinstance(screen, Palette) for screen in self.screen_stack):
            self.push_screen(Palette(id="--command-palette"))

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
        news = deed("keeping", "look")(self)
        # One who looks on wakes every second: shown anew is what is new, and each minute.
        if news or rang or int(now // 60.0) != self._minute or not self.wiring.session.read_only:
            self._minute = int(now // 60.0)
            self.wiring.tick()
            self.show()
        if rang:
            self.bell()
            self.desk.say((f"its time is up: {', '.join(step.title for step in rang)}", STRONG))
        if now - self.wiring.touched > IDLE:
            self.wiring.touched = now
            deed("look", "come_back")(self)
        self.set_clock()

    async def action_quit(self) -> None:
        """Leave; with something that isn't saved, a person says whether to."""
        if self._wiring is not None and self._wiring.session.unsaved:
            deed("keeping", "leave")(self)
        else:
            self.exit()

    def on_key(self) -> None:
        if self._wiring is not None:
            self._wiring.touched = self._wiring.now().at


def deed(module: str, function: str) -> Any:
    """A function of a deeds module, loaded when it is first asked for."""
    return getattr(import_module(f"tui.deeds.{module}"), function)


def terminal_marks() -> Marks:
    """The marks that the terminal in use can show."""
    import os
    import sys

    return marks_for(getattr(sys.stdout, "encoding", None), terminal=os.environ.get("TERM", ""))


def run_screen(
    session: "Session | Callable[[], Session | None] | None" = None,
    now: "Callable[[], Instant] | None" = None,
) -> int:
    """Open the screen on a session, or on what opens one; None: ask first which rig to start with.

    0, or 1 where the screen ended in an error. What opening a session raises is raised from here, when the screen
    is gone; a session given as a function is opened after the first frame, which then comes sooner, and where it
    gives none the screen asks.
    """
    marks = terminal_marks()
    while True:
        if session is None:
            from tui.screens.start import ask_for_session

            garbage.resume()
            session = ask_for_session(marks)
            if session is None:
                return 0
        app = Bellypan(opener_of(session, marks, now), marks=marks)
        try:
            answer = app.run()
        finally:
            if app._wiring is not None:
                app._wiring.session.close()
            elif not callable(session):
                session.close()
        if app.fault is not None and not isinstance(app.fault, NoSession):
            raise app.fault
        if app.fault is None and answer != "another":
            return app.return_code or 0
        session = None


class NoSession(Exception):
    """There was none to open after all."""


def opener_of(
    session: "Session | Callable[[], Session | None]", marks: Marks, now: "Callable[[], Instant] | None"
) -> "Callable[[], Wiring]":
    """What gives the screen its wiring, when it is called."""

    def opener() -> "Wiring":
        from tui.wiring import Wiring, this_moment

        opened = session() if callable(session) else session
        if opened is None:
            raise NoSession
        return Wiring(opened, marks=marks, now=now or this_moment)

    return opener
