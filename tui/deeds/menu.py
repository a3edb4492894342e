"""What can be done with a row: the list behind F4, and what Enter does at once."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from logic.data.state import Reading
from logic.data.typed_text import typed_with_unit
from tui.panes.pane import Pane
from tui.panes.rig import RigPane
from tui.show.names import name_of
from tui.show.rows import FAINT
from tui.show.snapshot import HIDDEN, blind
from tui.show.step_rows import step_title

if TYPE_CHECKING:
    from tui.app import Bellypan

Deed = Callable[[], object]
WALKED = ("confirm", "close")  # groups of steps from which the last walk is one key away
PARTS = ("tank", "drain", "heater", "run", "bay")


def open_row(app: "Bellypan", pane: Pane, key: str) -> None:
    """Enter on a row: fold, open the working, or the list of what can be done."""
    folds = getattr(pane, "folds", None)
    if folds is not None and folds(key):
        pane.toggle(key)
    elif pane.id == "figures":
        from tui.deeds.look import show_working

        show_working(app, key)
    elif key.startswith("value:"):
        from tui.deeds.profile import change_value

        change_value(app)
    elif key.startswith("slot:"):
        pane.toggle(key)
    else:
        open_menu(app)


def open_menu(app: "Bellypan") -> None:
    """The list of what can be done with the highlighted row of the pane in use."""
    from tui.screens.choose import Choice, Choose

    focused = app.desk.focused
    pane = focused if isinstance(focused, Pane) else app.desk.pane("rig")
    title, deeds = deeds_for(app, pane)
    if app.wiring.holder_gone or app.wiring.session.unsaved:
        from tui.deeds import keeping

        title, deeds = keeping.urgent(app), [*keeping.deeds(app), *deeds]
    if not deeds:
        app.desk.say(("nothing can be done with this row", FAINT))
        return

    def chosen(name: str | None) -> None:
        if name is not None:
            deeds[int(name)][1]()

    app.push_screen(
        Choose(title, [Choice(str(number), said) for number, (said, _) in enumerate(deeds)]), chosen
    )


def deeds_for(app: "Bellypan", pane: Pane) -> tuple[str, list[tuple[str, Deed]]]:
    """Title and deeds for the row under the cursor of a pane."""
    makers = {"rig": of_rig, "figures": of_figures, "steps": of_steps, "punch": of_punch}
    return makers[pane.id or "rig"](app, pane)


def of_rig(app: "Bellypan", pane: Pane) -> tuple[str, list[tuple[str, Deed]]]:
    from tui.deeds import profile, readings

    key = pane.cursor or ""
    rig = app.wiring.snapshot().profile
    deeds: list[tuple[str, Deed]] = []
    title = "Rig"
    if key.startswith("reading:"):
        name = key.removeprefix("reading:")
        taken = app.wiring.snapshot().reading(name)
        title = f"{name_of(taken.slot, rig)}: {as_typed(app, taken)}" if taken is not None else "Reading"
        if taken is not None and not taken.struck:
            deeds.append(
                ("strike it: it stays in the list and doesn't count", lambda: readings.strike(app, name))
            )
            deeds.append(("move it to the slot where it belongs", lambda: readings.move(app, name)))
        deeds.append(("swap the last two readings", lambda: readings.swap(app)))
    elif key.startswith("slot:"):
        slot = key.removeprefix("slot:")
        title = name_of(slot, rig)
        deeds.extend(of_slot(app, pane, slot, key))
    elif key.startswith("value:"):
        title = name_of(key.removeprefix("value:"), rig)
        deeds.append(("change it", lambda: profile.change_value(app)))
        deeds.append(("leave it out: the default holds", lambda: profile.leave_out(app)))
    if isinstance(pane, RigPane):
        place = place_of_row(key)
        if place.partition(".")[0] in PARTS and "." in place:
            part = name_of(place, rig)
            deeds.append((f"copy {part}", lambda: profile.copy_part(app)))
            deeds.append((f"take {part} away", lambda: profile.remove_part(app)))
            if place.startswith("tank."):
                deeds.append(("look at its bottom, to scale", lambda: app.action_deed("bottom")))
                deeds.append(
                    ("add a keep-out: a rib, a strap, a fitting", lambda: profile.add_keepout(app, place))
                )
        deeds.append(("add a tank, drain, heater, run or bay", lambda: profile.add_part(app)))
    return title, deeds


def of_slot(app: "Bellypan", pane: Pane, slot: str, key: str) -> list[tuple[str, Deed]]:
    """A slot's deeds: its list of readings, and each reading's strike and move."""
    from tui.deeds import profile, readings

    deeds: list[tuple[str, Deed]] = []
    said = "fold its readings away" if key in pane.opened else "show every reading taken of it"
    deeds.append((said, lambda: pane.toggle(key)))
    view = app.wiring.snapshot().slot(slot)
    if view is not None and view.readings:
        last = view.readings[-1]
        what = "its reading" if blind(view) else f"{as_typed(app, last)}, its last reading"
        deeds.append((f"strike {what}", lambda: readings.strike(app, last.id)))
        deeds.append((f"move {what} to the slot where it belongs", lambda: readings.move(app, last.id)))
    deeds.append(("change what the profile says of it", lambda: profile.change_path(app, slot)))
    return deeds


def as_typed(app: "Bellypan", reading: Reading) -> str:
    """What was typed, with the unit in which it was read; not before a blind second reading."""
    view = app.wiring.snapshot().slot(reading.slot)
    hidden = view is not None and blind(view) and not reading.struck
    return HIDDEN if hidden else typed_with_unit(reading.typed, reading.unit)


def place_of_row(key: str) -> str:
    """The place that a row of the Rig pane belongs to."""
    from tui.show.names import place_of_slot

    head, colon, rest = key.partition(":")
    if not colon:
        return key
    return place_of_slot(rest) if head in ("slot", "value") else rest if head in ("more", "values") else ""


def of_figures(app: "Bellypan", pane: Pane) -> tuple[str, list[tuple[str, Deed]]]:
    from tui.deeds import look

    key = pane.cursor or ""
    deeds: list[tuple[str, Deed]] = [
        ("open its working: formula, numbers, source", lambda: look.show_working(app, key)),
        ("what if: change a value of the profile and see what moves", lambda: app.action_deed("what-if")),
    ]
    if key.startswith("tank."):
        deeds.append(("the nights as a plot", lambda: app.action_deed("spell")))
    return (name_of(key, app.wiring.snapshot().profile) if "." in key else "Figures"), deeds


def of_steps(app: "Bellypan", pane: Pane) -> tuple[str, list[tuple[str, Deed]]]:
    from tui.deeds import steps

    snapshot = app.wiring.snapshot()
    step = next((each for each in snapshot.assessment.steps if pane.cursor == f"step:{each.id}"), None)
    if step is None:
        return "Steps", []
    deeds: list[tuple[str, Deed]] = []
    if step.group in WALKED:
        deeds.append(("look at the last walk, place by place", lambda: app.action_deed("last-walk")))
    if step.state == "running" and not step.lapsed:
        deeds.append(("done", lambda: steps.finish(app, step)))
    else:
        deeds.append(("start it", lambda: steps.start(app, step)))
        deeds.append(("done, without having started it here", lambda: steps.finish(app, step)))
    if step.state not in ("done", "skipped"):
        deeds.append(("hold it, with a note", lambda: steps.hold(app, step)))
        if step.skippable:
            deeds.append(("skip it, with a reason and a name", lambda: steps.skip(app, step)))
    if any(block.overrulable for block in step.blocks):
        deeds.append(("overrule what holds it, with a reason and a name", lambda: steps.overrule(app, step)))
    deeds.append(("record something in it", lambda: steps.record(app, step)))
    return step_title(snapshot, step), deeds


def of_punch(app: "Bellypan", pane: Pane) -> tuple[str, list[tuple[str, Deed]]]:
    from tui.deeds import punch
    from tui.show.punch_rows import put_right_at

    entry = punch.chosen_entry(app)
    deeds: list[tuple[str, Deed]] = []
    if entry is not None:
        where = put_right_at(entry, app.wiring.snapshot())
        if where:
            deeds.append((f"go to {name_of(where, app.wiring.snapshot().profile)}", lambda: punch.jump(app)))
        if entry.state == "open":
            if entry.written:
                deeds.append(("done", lambda: punch.finish_item(app)))
            deeds.append(("accept it, with a reason and a name", lambda: punch.accept(app)))
    deeds.append(("write an item", lambda: punch.write_item(app)))
    deeds.append(("show one place alone, or all", lambda: punch.by_place(app)))
    return (entry.text if entry is not None else "Punch list"), deeds
