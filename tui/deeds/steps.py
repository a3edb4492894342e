"""What keys do with steps and days: start, done, hold, skip, overrule, record; begin and end a day."""

from typing import TYPE_CHECKING

from logic.assessment.make_safe_record import record_faults
from logic.data.step import Step
from logic.session.intents import (
    BeginDay,
    EndDay,
    FinishStep,
    HoldStep,
    OverruleStep,
    RecordInStep,
    SetPace,
    SkipStep,
    StartStep,
)
from tui.show import numbers
from tui.show.clock import TIMES_TO_COME, time_to_come
from tui.show.record_words import ABOUT
from tui.show.rows import BAD
from tui.show.step_rows import led_to, step_title

if TYPE_CHECKING:
    from tui.app import Bellypan


def chosen_step(app: "Bellypan") -> Step | None:
    """The step under the cursor of the Steps pane where that has the focus, else the one at work or the next."""
    snapshot = app.wiring.snapshot()
    pane = app.desk.pane("steps")
    if app.desk.focused is pane or app.screen is not app.desk:
        for step in snapshot.assessment.steps:
            if pane.cursor == f"step:{step.id}":
                return step
    return led_to(snapshot)


def start_or_finish(app: "Bellypan") -> None:
    """Start the step, its caution first; or finish it when it runs."""
    step = chosen_step(app)
    if step is None:
        app.desk.say(("no step may start now: see what holds them in the Steps pane", BAD))
    elif step.state == "running" and not step.lapsed:
        finish(app, step)
    else:
        start(app, step)


def start(app: "Bellypan", step: Step) -> None:
    """Start a step. Its caution is shown before; what holds it is said instead."""
    if not step.caution or step.blocks:
        app.send(StartStep(step.id))
        return
    from tui.screens.caution import Caution

    def answered(go_on: bool | None) -> None:
        if go_on:
            app.send(StartStep(step.id))

    snapshot = app.wiring.snapshot()
    app.push_screen(Caution(step_title(snapshot, step), step.caution, live=step.live), answered)


def finish(app: "Bellypan", step: Step) -> None:
    """Finish a step; what it wants recorded is asked for first, each with Enter."""
    if not step.record:
        app.send(FinishStep(step.id))
        return
    from tui.screens.form import Field, Form

    def answered(answers: dict[str, str] | None) -> None:
        if answers is None:
            return
        note = answers.pop("note", "")
        app.send(FinishStep(step.id, note, {name: text for name, text in answers.items() if text}))

    def check(answers: dict[str, str]) -> tuple[str, ...]:
        return tuple(numbers.fill(fault.text, units) for fault in record_faults(step, answers))

    units = app.wiring.snapshot().units
    fields = [Field(name, name, about=ABOUT.get(name, "")) for name in step.record]
    fields.append(Field("note", "note", about="may stay empty"))
    title = f"Done: {step_title(app.wiring.snapshot(), step)}"
    app.push_screen(Form(title, fields, check=check), answered)


def record(app: "Bellypan", step: Step | None = None) -> None:
    """Write down what a step asks for, whatever its state."""
    step = step or chosen_step(app)
    if step is None:
        return
    from tui.screens.form import Field, Form

    asked = step.record or ("seen",)

    def answered(answers: dict[str, str] | None) -> None:
        recorded = {name: text for name, text in (answers or {}).items() if text}
        if recorded:
            app.send(RecordInStep(step.id, recorded))

    title = f"Record: {step_title(app.wiring.snapshot(), step)}"
    fields = [Field(name, name, about=ABOUT.get(name, "")) for name in asked]
    app.push_screen(Form(title, fields), answered)


def hold(app: "Bellypan", step: Step | None = None) -> None:
    """Hold a step, with a note that says why."""
    step = step or chosen_step(app)
    if step is None:
        return
    from tui.screens.form import Field, Form

    def answered(answers: dict[str, str] | None) -> None:
        if answers is not None:
            app.send(HoldStep(step.id, answers["note"]))

    fields = [Field("note", "held because", about="parts, dark, weather, adhesive")]
    app.push_screen(Form(f"Hold: {step_title(app.wiring.snapshot(), step)}", fields), answered)


def skip(app: "Bellypan", step: Step | None = None) -> None:
    """Skip a step, with a reason and a name."""
    step = step or chosen_step(app)
    if step is None:
        return
    from tui.screens.form import Field, Form

    def answered(answers: dict[str, str] | None) -> None:
        if answers is not None:
            app.send(SkipStep(step.id, answers["note"], answers["name"]))

    fields = [Field("note", "skipped because"), Field("name", "name")]
    app.push_screen(Form(f"Skip: {step_title(app.wiring.snapshot(), step)}", fields), answered)


def overrule(app: "Bellypan", step: Step | None = None) -> None:
    """Set aside what holds a step, with a reason and a name: only what may be overruled."""
    step = step or chosen_step(app)
    if step is None:
        return
    units = app.wiring.snapshot().units
    open_to_it = [block for block in step.blocks if block.overrulable]
    if not open_to_it:
        first = f"{numbers.fill(step.blocks[0].text, units)}: this can't be overruled" if step.blocks else ""
        app.desk.say((first or "nothing holds this step", BAD))
        return
    from tui.screens.choose import Choice, Choose
    from tui.screens.form import Field, Form

    def reasoned(gate: str, answers: dict[str, str] | None) -> None:
        if answers is not None:
            app.send(OverruleStep(step.id, gate, answers["reason"], answers["name"]))

    def chosen(gate: str | None) -> None:
        if gate is None:
            return
        block = next(block for block in open_to_it if block.id == gate)
        fields = [Field("reason", "overruled because"), Field("name", "name")]
        form = Form(f"Overrule: {numbers.fill(block.text, units)}", fields)
        app.push_screen(form, lambda answers: reasoned(gate, answers))

    if len(open_to_it) == 1:
        chosen(open_to_it[0].id)
        return
    choices = [Choice(block.id, numbers.fill(block.text, units)) for block in open_to_it]
    app.push_screen(Choose("What is overruled?", choices), chosen)


def begin_day(app: "Bellypan") -> None:
    """Begin a day, and say when it stops: a time of today's clock, or nothing."""
    from tui.screens.form import Field, Form

    def answered(answers: dict[str, str] | None) -> None:
        if answers is None:
            return
        typed = answers["stop"]
        app.send(BeginDay(time_to_come(typed, app.wiring.now()) if typed else None))

    def check(answers: dict[str, str]) -> tuple[str, ...]:
        typed = answers["stop"]
        bad = typed and time_to_come(typed, app.wiring.now()) is None
        return (f"found {typed}; expected {TIMES_TO_COME}",) if bad else ()

    days = app.wiring.snapshot().state.days
    title = "Today's stop" if days and days[-1].ended is None else "The day begins"
    fields = [Field("stop", "stop at", about="as 16:30, 1630 or 4:30 pm; may stay empty")]
    app.push_screen(Form(title, fields, check=check), answered)


def end_day(app: "Bellypan") -> None:
    app.send(EndDay())


def set_pace(app: "Bellypan") -> None:
    """Plan minutes for a first-timer, or for a technician again: the other of what stands."""
    app.send(SetPace(not app.wiring.snapshot().state.first_timer))
