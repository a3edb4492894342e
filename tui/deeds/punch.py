"""What keys do with the punch list: write an item, done, accept, jump to what it is about; and notes."""

from typing import TYPE_CHECKING

from logic.session.intents import AcceptItem, FinishItem, WriteItem, WriteNote
from tui.show.names import place_of_slot
from tui.show.punch_rows import Entry, entries, part_name, parts_named, put_right_at
from tui.show.rows import BAD, PLAIN

if TYPE_CHECKING:
    from tui.app import Bellypan

WEIGHTS = ("stop", "use", "note")


def chosen_entry(app: "Bellypan") -> Entry | None:
    """The entry under the cursor of the Punch list."""
    cursor = app.desk.pane("punch").cursor
    for entry in entries(app.wiring.snapshot()):
        if cursor == f"entry:{entry.id}":
            return entry
    return None


def place_in_hand(app: "Bellypan") -> str:
    """The place that a new item is about: where the line is, if anywhere."""
    target = app.wiring.snapshot().target
    return place_of_slot(target) if target is not None else ""


def write_item(app: "Bellypan") -> None:
    """Write an item: its text, its weight, its place."""
    from tui.screens.form import Field, Form

    def answered(answers: dict[str, str] | None) -> None:
        if answers is not None:
            app.send(WriteItem(answers["text"], answers["weight"] or "stop", answers["place"]))

    fields = [
        Field("text", "what is to be done"),
        Field(
            "weight",
            "weight",
            "stop",
            choices=WEIGHTS,
            about="stop: stops closing; use: before use; note: only noted",
        ),
        Field("place", "place", place_in_hand(app), about="tank.gray, run.feed, or nothing"),
    ]
    app.push_screen(Form("Write an item", fields), answered)


def finish_item(app: "Bellypan") -> None:
    """Set a written item to done; what a rule found goes when the facts do."""
    entry = chosen_entry(app)
    if entry is None:
        return
    if not entry.written:
        app.desk.say(("a rule found this: it goes when the facts do", BAD), (entry.remedy, PLAIN))
        return
    app.send(FinishItem(entry.id))


def accept(app: "Bellypan") -> None:
    """Accept an item or a finding, with a reason and a name; it stays listed."""
    entry = chosen_entry(app)
    if entry is None:
        return
    if not entry.acceptable:
        app.desk.say(("this can't be accepted: it has to be mended", BAD), (entry.remedy, PLAIN))
        return
    from tui.screens.form import Field, Form

    def answered(answers: dict[str, str] | None) -> None:
        if answers is not None:
            app.send(AcceptItem(entry.id, answers["reason"], answers["name"]))

    fields = [Field("reason", "accepted because"), Field("name", "name")]
    app.push_screen(Form(f"Accept: {entry.text}", fields), answered)


def jump(app: "Bellypan") -> None:
    """Go to the slot or step that the highlighted entry is about, or to its place."""
    entry = chosen_entry(app)
    if entry is not None:
        go_to(app, put_right_at(entry, app.wiring.snapshot()))


def go_to(app: "Bellypan", place: str) -> None:
    """Go to a slot, a step or a place, whatever screen lies over the desk."""
    from tui.deeds.look import to_desk

    to_desk(app)
    snapshot = app.wiring.snapshot()
    if snapshot.slot(place) is not None:
        app.wiring.target = place
        app.show()
        app.desk.go("rig")
        return
    if any(step.id == place for step in snapshot.assessment.steps):
        app.desk.go("steps")
        app.desk.pane("steps").choose(f"step:{place}")
        return
    pane = app.desk.pane("rig")
    app.desk.go("rig")
    for key in (place, f"values:{place}"):
        if place and key not in pane.opened:
            pane.toggle(key)
    pane.choose(place)


def by_place(app: "Bellypan") -> None:
    """Show the entries of one part of the rig alone, chosen from those that have any; or of all."""
    from tui.panes.punch_list import PunchPane
    from tui.screens.choose import Choice, Choose

    pane = app.desk.pane("punch")
    if not isinstance(pane, PunchPane):
        return
    snapshot = app.wiring.snapshot()
    parts = parts_named(snapshot)
    choices = [Choice("all", "all places", f"{sum(count for _, count in parts)}")]
    choices += [Choice(f"part:{part}", part_name(snapshot, part), f"{count}") for part, count in parts]

    def chosen(name: str | None) -> None:
        if name is not None:
            app.desk.go("punch")
            pane.show_part(None if name == "all" else name.removeprefix("part:"))

    app.push_screen(Choose("Which place?", choices), chosen)


def write_note(app: "Bellypan") -> None:
    from tui.screens.form import Field, Form

    def answered(answers: dict[str, str] | None) -> None:
        if answers is not None:
            app.send(WriteNote(answers["text"], answers["place"]))

    fields = [Field("text", "note"), Field("place", "place", place_in_hand(app), about="may stay empty")]
    app.push_screen(Form("Write a note", fields), answered)
