"""What keys do with readings: take back, swap, strike, move, undo and redo; another slot; the tape."""

from typing import TYPE_CHECKING

from logic.data.typed_text import typed_with_unit
from logic.session.intents import (
    MoveReading,
    RedoLast,
    SetTape,
    StrikeReading,
    SwapLastTwo,
    TakeBackReading,
    UndoLast,
)
from tui.show.names import place_name
from tui.show.rows import FAINT
from tui.show.snapshot import blind

if TYPE_CHECKING:
    from tui.app import Bellypan


def take_back(app: "Bellypan") -> None:
    """Strike the reading taken last; what stands in the line stays."""
    app.send(TakeBackReading())


def swap(app: "Bellypan") -> None:
    app.send(SwapLastTwo())


def undo(app: "Bellypan") -> None:
    """Undo typing where something is typed, else the last thing recorded."""
    if app.screen is app.desk and app.desk.line.undo_typing():
        return
    app.desk.line.forget_typing()
    app.send(UndoLast())


def redo(app: "Bellypan") -> None:
    if app.screen is app.desk and app.desk.line.redo_typing():
        return
    app.send(RedoLast())


def strike(app: "Bellypan", reading: str) -> None:
    app.send(StrikeReading(reading))


def move(app: "Bellypan", reading: str) -> None:
    """Ask for the slot where a reading belongs, those that owe one first."""
    from tui.screens.choose import Choice, Choose

    snapshot = app.wiring.snapshot()
    taken = snapshot.reading(reading)
    here = snapshot.slot(taken.slot) if taken is not None else None
    if taken is None or here is None:
        return
    lengths = ("length", "route")
    fitting = [
        view for view in snapshot.assessment.slots
        if view.slot != here.slot and (view.kind == here.kind or (view.kind in lengths and here.kind in lengths))
    ]  # fmt: skip
    fitting.sort(key=lambda view: (view.place != here.place, not view.owed))
    choices = [
        Choice(
            view.slot,
            f"{place_name(view.place, snapshot.profile)}, {view.title}",
            f"owed {view.owed}" if view.owed else "",
        )
        for view in fitting
    ]
    said = "the reading" if blind(here) else typed_with_unit(taken.typed, taken.unit)
    title = f"{said} of {place_name(here.place, snapshot.profile)}, {here.title} belongs to"

    def moved(slot: str | None) -> None:
        if slot is not None:
            app.send(MoveReading(reading, slot))

    app.push_screen(Choose(title, choices), moved)


def another_slot(app: "Bellypan", by: int) -> None:
    """The slot before or after the one asked for, in the order in which the rig is walked."""
    snapshot = app.wiring.snapshot()
    order = [
        view.slot
        for view in snapshot.assessment.slots
        if view.deciding or view.readings or view.value is not None
    ]
    if not order:
        return
    if snapshot.target in order:
        number = (order.index(snapshot.target) + by) % len(order)
    else:
        number = 0 if by > 0 else len(order) - 1
    app.wiring.target = order[number]
    app.show()


def set_tape(app: "Bellypan") -> None:
    """Ask what the tape resolves."""
    from tui.screens.form import Field, Form

    def answered(answers: dict[str, str] | None) -> None:
        if answers is not None and answers["tape"]:
            app.send(SetTape(answers["tape"]))

    fields = [Field("tape", "the tape is divided into", "1/16", about="as 1/16, 1/32 or 1 mm")]
    app.push_screen(Form("The tape", fields), answered)


def say_how(app: "Bellypan") -> None:
    """What to do first, in three lines."""
    app.desk.say(
        ("Read what the line asks for, type it, Enter. It goes on to the next by itself.", FAINT),
        ("F1 helps, F4 says what can be done with a row, Ctrl+P lists everything.", FAINT),
    )
