"""Which rig to start with: a session begun before, a demo rig, a profile's file, or a few questions.

An app of its own, so that the program's first frame is this list and nothing of a session is loaded for it.
"""

from typing import Any

from logic.data.clean_text import clean_text
from logic.data.faults import ProfileFaults
from logic.data.wording import Words
from logic.session.folder import SessionEntry, find_sessions
from tui.own_app import OwnApp
from tui.screens.choose import Choice, Choose
from tui.screens.form import Field, Form
from tui.show import numbers
from tui.show.clock import moment
from tui.show.marks import Marks
from tui.wiring import this_moment

MOST_SESSIONS = 30


def ask_for_session(marks: Marks) -> Any:
    """The session that a person chose or began; None where they left."""
    return Start(marks).run()


class StartList(Choose):
    """The list, with help: nobody has seen the program before it."""

    HINT = "arrows, Enter, its number · letters narrow · F1 or ? help · Esc leave"

    def action_help(self) -> None:
        from tui.screens.help import Help

        self.app.push_screen(Help("start", self.choices.marks))


class Start(OwnApp):
    """The list, and behind it the questions."""

    TITLE = "bellypan"
    CSS_PATH = "../bellypan.tcss"
    ENABLE_COMMAND_PALETTE = False  # all that can be done stands in the list

    def __init__(self, marks: Marks) -> None:
        super().__init__()
        self.marks = marks

    def on_mount(self) -> None:
        self.choose()

    def choose(self, fault: str = "") -> None:
        """Show the list; `fault` says why the last choice came to nothing."""
        title = f"{fault}. Which rig?" if fault else "Which rig? The program estimates; it certifies nothing."
        self.push_screen(StartList(title, self.choices()), self.chosen)

    def choices(self) -> list[Choice]:
        """Sessions, the one worked on last first; then what a new one can begin with."""
        from logic.data.rigs_folder import demo_rigs

        found = [
            Choice(f"session:{each.id}", each.rig or each.id, last_said(each)) for each in find_sessions()
        ]
        new = [Choice("new", "a new rig: a few questions")]
        demos = [
            Choice(f"demo:{path.stem}", f"begin with the demo rig {path.stem.replace('-', ' ')}")
            for path in demo_rigs()
        ]
        return [*found[:MOST_SESSIONS], *new, *demos, Choice("file", "begin with a profile's file")]

    def chosen(self, name: str | None) -> None:
        """Open what was chosen, or ask on."""
        if name is None:
            self.exit(None)
            return
        kind, _, rest = name.partition(":")
        if kind == "session":
            self.open(rest)
        elif kind == "demo":
            from logic.data.rigs_folder import demo_rig

            self.begin_with_file(str(demo_rig(rest)))
        elif kind == "file":
            self.push_screen(Form("Begin with a profile's file", [Field("path", "file")]), self.file_named)
        else:
            from tui.screens.new_rig import NewRig

            NewRig(self, self.rig_answered).begin()

    def open(self, session_id: str) -> None:
        from logic.session.recovery import SessionFault
        from logic.session.session import open_session

        try:
            self.exit(open_session(session_id, this_moment()))
        except SessionFault as fault:
            self.choose(said(fault.words))

    def file_named(self, answers: dict[str, str] | None) -> None:
        if answers is None or not answers["path"]:
            self.choose()
        else:
            self.begin_with_file(answers["path"])

    def begin_with_file(self, path: str) -> None:
        """Begin a session with a profile's file; its faults are said."""
        from logic.data.profile_file import load_profile

        try:
            loaded = load_profile(path)
        except ProfileFaults as faults:
            more = len(faults.faults) - 1
            first = faults.faults[0].line()
            self.choose(f"{first}{f' (and {more} faults more: bellypan check says all)' if more else ''}")
            return
        self.begin(loaded)

    def rig_answered(self, document: dict[str, Any] | None) -> None:
        """Begin a session with the document that the questions made."""
        if document is None:
            self.choose()
            return
        from logic.data.profile_check import check_document
        from logic.data.profile_file import LoadedProfile

        document["rig"]["name"] = clean_text(document["rig"]["name"])
        self.begin(LoadedProfile(check_document(document, file=""), document))

    def begin(self, loaded: Any) -> None:
        from logic.session.recovery import SessionFault
        from logic.session.session import new_session

        try:
            self.exit(new_session(loaded, this_moment()))
        except SessionFault as fault:
            self.choose(said(fault.words))


def last_said(entry: SessionEntry) -> str:
    """When a session was worked on last."""
    if not entry.readable:
        return "can't be read"
    return f"last {moment(entry.last, this_moment())}"


def said(template: Words) -> str:
    return numbers.fill(template, "us")
