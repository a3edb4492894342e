"""What keeping the session asks of the screen: not saved and tried again, copied away, held by another, taken over.

Whatever the disk does, what was typed stays: it is said not to be saved, waits, and is tried again by itself.
"""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from logic.session.intents import NotSaved
from tui.show import numbers
from tui.show.rows import BAD, GOOD, PLAIN, STRONG

if TYPE_CHECKING:
    from tui.app import Bellypan

TRIED_AGAIN = 5.0  # seconds between two tries to save what waits
STAY, COPY, LEAVE = "stay", "copy", "leave"


# --- not saved ---


def watch(app: "Bellypan") -> None:
    """Something waits to be saved: try again soon, until it is."""
    if not app.trying_again:
        app.trying_again = True
        app.set_timer(TRIED_AGAIN, lambda: try_again(app), name="save")


def try_again(app: "Bellypan") -> None:
    """Once more; where it can't be saved yet, again a little later."""
    app.trying_again = False
    if app.wiring.session.unsaved:
        app.wiring.save_again()
        app.show()


def say_saved(app: "Bellypan") -> None:
    """What waited is on the disk: said above what is being said."""
    count, app.wiring.late = app.wiring.late, 0
    if not count:
        return
    what = "the record that waited is" if count == 1 else f"{count} records that waited are"
    app.desk.say((f"saved now: {what} on the disk", GOOD), *app.desk.said)


# --- leaving ---


def leave(app: "Bellypan", answer: str | None = None) -> None:
    """Leave the program, or for another session; with something not saved, a person says whether to."""
    from tui.screens.choose import Choice, Choose

    session = app.wiring.session
    if isinstance(app.screen, Choose) and app.screen.id == "leaving":
        return
    result = session.save_again(app.wiring.now())
    if not isinstance(result, NotSaved):
        app.exit(answer)
        return

    def chosen(what: str | None) -> None:
        if what == LEAVE:
            app.exit(answer)
        elif what == COPY:
            copy_away(app)

    count = len(session.unsaved)
    what = "1 record is" if count == 1 else f"{count} records are"
    reason = numbers.fill(result.reason, "us").removeprefix("not saved: ")
    choices = [
        Choice(STAY, "stay: it is tried again every few seconds"),
        Choice(COPY, "copy the session to a file elsewhere, with what isn't saved"),
        Choice(LEAVE, f"leave, and lose what isn't saved: {count} of {len(session.events) + count}"),
    ]
    screen = Choose(f"{what} not saved: {reason}", choices)
    screen.id = "leaving"
    app.push_screen(screen, chosen)


# --- a copy elsewhere, or the session itself ---


def urgent(app: "Bellypan") -> str:
    """What stands above the list behind F4, where the session itself is in question."""
    count = len(app.wiring.session.unsaved)
    return f"not saved: {count}" if count else app.wiring.snapshot().held_by


def deeds(app: "Bellypan") -> list[tuple[str, Callable[[], object]]]:
    """What then comes first in that list."""
    copy = ("copy the session to a file elsewhere, with what isn't saved", lambda: copy_away(app))
    over = ("take the session over: what is typed here is then recorded", lambda: take_over(app))
    return [over] if app.wiring.holder_gone else [copy]


def copy_away(app: "Bellypan") -> None:
    """Ask for a new file, and write the whole session to it, what isn't saved too."""
    from tui.screens.form import Field, Form

    def written(answers: dict[str, str]) -> tuple[str, ...]:
        """Writes it; why it can't be, so that the form stays open with the name as typed."""
        from logic.session.copy import copy_session
        from logic.session.recovery import SessionFault

        if not answers["path"]:
            return ("a copy needs the name of a new file",)
        try:
            copy_session(app.wiring.session, Path(answers["path"]).expanduser())
        except SessionFault as fault:
            return (numbers.fill(fault.words, "us"),)
        return ()

    def answered(answers: dict[str, str] | None) -> None:
        if answers is None:
            return
        count = len(app.wiring.session.unsaved)
        also = f", {count} of them not saved here yet" if count else ""
        total = len(app.wiring.session.events) + count
        app.desk.say((f"copied to {answers['path']}: {total} records{also}", STRONG))

    about = "a new file on another disk or stick; what isn't saved goes with it"
    app.push_screen(Form("Copy the session", [Field("path", "file", about=about)], check=written), answered)


def take_over(app: "Bellypan") -> None:
    """From now on this program records in the session; what the other one recorded is all here."""
    from logic.session.recovery import SessionFault

    if not app.wiring.session.read_only:
        app.desk.say(("this session is this program's already", PLAIN))
        return
    try:
        ours = app.wiring.take_over()
    except SessionFault as fault:
        app.desk.say((numbers.fill(fault.words, "us"), BAD))
        return
    app.show()
    if not ours:
        app.desk.say(("it can't be taken over now", BAD), (app.wiring.snapshot().held_by, PLAIN))
        return
    notices = [(numbers.fill(each, "us"), STRONG) for each in app.wiring.session.notices]
    app.desk.say(("taken over: what is typed here is recorded now", GOOD), *notices[:1])


# --- with every tick ---


def look(app: "Bellypan") -> bool:
    """What another program recorded, whether it has gone (True: one of these is news), whether the clock went back."""
    wiring = app.wiring
    went = wiring.holder_gone
    news = wiring.follow()
    if wiring.holder_gone and not went:
        app.desk.say((f"{wiring.snapshot().held_by}: F4 takes the session over", BAD))
    for said in wiring.clock_went_back():
        app.desk.say((said, BAD))
    return news
