"""What only looks: panes, other screens, help, themes, units. Each screen is loaded when it is first asked
for."""

from typing import TYPE_CHECKING, Any

from textual.screen import Screen

from tui.panes.pane import Pane
from tui.show import numbers
from tui.show.rows import FAINT, STRONG

if TYPE_CHECKING:
    from tui.app import Bellypan

FIRST_WORDS = (
    "Read on the tape what this line asks for, type it, Enter: it goes on to the next by itself.",
    "F4: what can be done with a row. F1: help. Ctrl+P: everything.",
)


def go_rig(app: "Bellypan") -> None:
    to_desk(app)
    app.desk.go("rig")


def go_figures(app: "Bellypan") -> None:
    to_desk(app)
    app.desk.go("figures")


def go_steps(app: "Bellypan") -> None:
    to_desk(app)
    app.desk.go("steps")


def go_punch(app: "Bellypan") -> None:
    to_desk(app)
    app.desk.go("punch")


def to_desk(app: "Bellypan") -> None:
    """Leave whatever screen lies over the desk."""
    while len(app.screen_stack) > 1:
        app.pop_screen()


def greet(app: "Bellypan") -> None:
    """What to do first; or, for a session worked on before, where it stood, unless someone types already."""
    snapshot = app.wiring.snapshot()
    if app.opened_with is None or app.opened_with.state is not snapshot.state:
        return  # someone is at work already
    told = [numbers.fill(each, snapshot.units) for each in app.wiring.session.notices]
    app.desk.say(*((each, STRONG if told else FAINT) for each in told or FIRST_WORDS))
    if (snapshot.state.readings or snapshot.state.steps) and not app.desk.line.value:
        come_back(app, told)


def come_back(app: "Bellypan", notices: list[str] | None = None) -> None:
    """One screen that says where things stand; any key goes on."""
    from tui.screens.coming_back import ComingBack

    if isinstance(app.screen, ComingBack):
        return
    app.push_screen(ComingBack(app.wiring.snapshot(), notices or [], app.go_on), app.go_on)


def show_help(app: "Bellypan") -> None:
    from tui.screens.help import Help

    focused = app.focused
    pane = focused.id if isinstance(focused, Pane) else "line"
    put(app, Help(pane or "line", app.wiring.marks))


def show_working(app: "Bellypan", figure_id: str) -> None:
    from tui.screens.working import Working

    put(app, Working(app.wiring, figure_id))


def put(app: "Bellypan", screen: Screen[Any]) -> None:
    """Show a screen over the desk; one of the same kind is not piled on itself."""
    if type(app.screen) is type(screen):
        app.pop_screen()
    app.push_screen(screen, lambda _: app.back())


def next_theme(app: "Bellypan") -> None:
    """Sun, dim, then Textual's own."""
    names = ["sun", "dim", "textual-dark", "textual-light", "textual-ansi"]
    names = [name for name in names if name in app.available_themes]
    number = names.index(app.theme) + 1 if app.theme in names else 0
    app.theme = names[number % len(names)]
    app.desk.say((f"theme: {app.theme}", FAINT))


def switch_units(app: "Bellypan") -> None:
    """Show the other units; what is typed may always be in either."""
    from tui.screens.full import Full

    units = app.wiring.switch_units()
    app.show()
    if isinstance(app.screen, Full):
        app.screen.refresh_rows()
    said = "inches, feet, gallons, °F" if units == "us" else "mm, m, litres, °C"
    app.desk.say(
        (f"shown in {said}; what is typed may be either, the line says what a bare number means", FAINT)
    )


def place_in_hand(app: "Bellypan") -> str:
    """The place that a drawing begins with: the highlighted row's, else the slot asked for."""
    from tui.deeds.menu import place_of_row
    from tui.show.names import place_of_slot

    focused = app.desk.focused
    if isinstance(focused, Pane) and focused.cursor:
        if focused.id == "rig":
            return place_of_row(focused.cursor)
        if focused.id == "figures":
            return ".".join(focused.cursor.split(".")[:2])
    target = app.wiring.snapshot().target
    return place_of_slot(target) if target is not None else ""


def show_bottom(app: "Bellypan") -> None:
    from tui.screens.bottom_view import BottomView

    put(app, BottomView(app.wiring, place_in_hand(app)))


def show_spell(app: "Bellypan") -> None:
    from tui.screens.spell_plot import SpellPlot

    put(app, SpellPlot(app.wiring, place_in_hand(app)))


def show_wiring(app: "Bellypan") -> None:
    from tui.screens.wiring_tree import WiringTree

    put(app, WiringTree(app.wiring))


def show_tests(app: "Bellypan") -> None:
    from tui.screens.tests import Tests

    put(app, Tests(app.wiring))


def show_cut_list(app: "Bellypan") -> None:
    from tui.screens.cut_list import CutList

    put(app, CutList(app.wiring))


def show_day(app: "Bellypan") -> None:
    from tui.screens.day import DayRecord

    put(app, DayRecord(app.wiring))


def show_last_walk(app: "Bellypan") -> None:
    from tui.screens.last_walk import LastWalk

    put(app, LastWalk(app.wiring))


def show_what_if(app: "Bellypan") -> None:
    from tui.screens.what_if import WhatIf

    put(app, WhatIf(app.wiring, place_in_hand(app)))


def another_rig(app: "Bellypan") -> None:
    """Leave this session and ask which to open, or begin one."""
    if app.wiring.session.unsaved:
        from tui.deeds.keeping import leave

        leave(app, "another")
    else:
        app.exit("another")
