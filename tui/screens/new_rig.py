"""*New rig*: a few questions, each with a default that is said to be one; then all that was assumed, once.

The answers become a document (`rig_questions.py`), judged by the file's own check; a fault stands in the form
that can mend it.
"""

from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from textual.app import App
from textual.binding import Binding, BindingType

from logic.data.faults import ProfileFault, ProfileFaults
from logic.data.profile_fields import key_at, value_from_text
from tui.panes.row_list import RowList
from tui.screens.form import Field, Form
from tui.screens.full import Full
from tui.show.profile_values import text_of, values_of
from tui.show.rig_questions import (
    MOST_PADS,
    MOST_TANKS,
    PATTERN_COSTS,
    RIG,
    WIRING,
    Answers,
    Ask,
    count_of,
    defaults,
    document_from,
    tank_questions,
)
from tui.show.rows import FAINT, GOOD, HEAD, PLAIN, STRONG, Row, Span, beside, line


def faults_of(document: Mapping[str, Any]) -> tuple[ProfileFault, ...]:
    """What the file's own check finds in a document."""
    from logic.data.profile_check import check_document

    try:
        check_document(dict(document), file="")
    except ProfileFaults as found:
        return found.faults
    return ()


class NewRig:
    """The questions one after another; `done` gets the document, or None where it was left."""

    def __init__(self, app: App[Any], done: Any) -> None:
        self.app = app
        self.done = done
        self.rig: dict[str, str] = {}
        self.tanks: list[dict[str, str]] = []

    def begin(self) -> None:
        self.ask(
            "A new rig: Enter takes what stands there, a default until you change it",
            RIG,
            self.rig_answered,
            self.check_rig,
        )

    def ask(self, title: str, asks: Sequence[Ask], then: Any, check: Any) -> None:
        fields = [
            Field(
                ask.id,
                ask.label,
                ask.default,
                ask.choices,
                f"{ask.about}; default {ask.default}".strip("; ") if ask.default else ask.about,
            )
            for ask in asks
        ]

        def answered(answers: dict[str, str] | None) -> None:
            if answers is None:
                self.done(None)
            else:
                then(answers)

        self.app.push_screen(Form(title, fields, check=check), answered)

    # --- the rig ---

    def check_rig(self, answers: Mapping[str, str]) -> list[str]:
        count = count_of(answers["tanks"], MOST_TANKS)
        if not count:
            return [
                f"found {answers['tanks'] or 'nothing'}; expected a number of tanks from 1 to {MOST_TANKS}"
            ]
        trial = Answers(answers, [defaults(tank_questions(1))], defaults(WIRING))
        return [fault.line() for fault in faults_of(document_from(trial))]

    def rig_answered(self, answers: dict[str, str]) -> None:
        self.rig = answers
        self.ask_tank(1)

    # --- the tanks ---

    def ask_tank(self, number: int) -> None:
        count = int(self.rig["tanks"])
        title = f"Tank {number} of {count}, and the pads at hand for it"

        def answered(answers: dict[str, str]) -> None:
            self.tanks.append(answers)
            if number < count:
                self.ask_tank(number + 1)
            else:
                told = "; ".join(f"{name}: {cost}" for name, cost in PATTERN_COSTS.items())
                self.ask(f"Wiring. {told}", WIRING, self.wiring_answered, self.check_wiring)

        self.ask(title, tank_questions(number), answered, self.check_tank)

    def check_tank(self, answers: Mapping[str, str]) -> list[str]:
        if count_of(answers["pads"], MOST_PADS) is None:
            return [f"found {answers['pads'] or 'nothing'}; expected a number of pads from 0 to {MOST_PADS}"]
        trial = Answers(self.rig, [*self.tanks, answers], defaults(WIRING))
        return [fault.line() for fault in faults_of(document_from(trial))]

    # --- the wiring ---

    def check_wiring(self, answers: Mapping[str, str]) -> list[str]:
        return [fault.line() for fault in faults_of(document_from(Answers(self.rig, self.tanks, answers)))]

    def wiring_answered(self, answers: dict[str, str]) -> None:
        document = document_from(Answers(self.rig, self.tanks, answers))
        self.app.push_screen(Assumed(document), self.done)


class Assumed(Full):
    """All values of the new rig, given and assumed; Enter changes one, Ctrl+S begins with it."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+s", "begin", "begin", show=False)]
    KEYS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("ctrl+s", "begin with this rig"),
        ("enter", "change"),
        ("escape", "drop it"),
    )

    def __init__(self, document: dict[str, Any]) -> None:
        super().__init__()
        self.document = document

    def title_text(self) -> str:
        name = self.document["rig"]["name"]
        return f"{name}: everything that was answered and assumed; the tape will replace the guesses"

    def places(self) -> list[str]:
        found = ["design", "supply", "wiring", "parts"]
        for kind in ("bay", "tank", "heater", "run"):
            found.extend(f"{kind}.{part['id']}" for part in self.document.get(kind, ()))
        return found

    def rows(self, width: int) -> list[Row]:
        begin = line(Span("begin with this rig (Enter here, or Ctrl+S)", STRONG))
        rows = [Row("begin", (begin, ()))]
        for place in self.places():
            rows.append(Row(f"place:{place}", (line(Span(place, HEAD)),), choosable=False))
            for value in values_of(self.document, place):
                tail = line(
                    Span(value.text, FAINT if value.default else PLAIN),
                    Span("  assumed", FAINT) if value.default else Span("  answered", GOOD),
                )
                rows.append(
                    Row(f"value:{value.path}", beside(value.label, tail, width, column=26, indent="  "))
                )
        return rows

    def on_row_list_opened(self, message: RowList.Opened) -> None:
        message.stop()
        if message.key == "begin":
            self.action_begin()
        else:
            self.change(message.key.removeprefix("value:"))

    def change(self, path: str) -> None:
        """Ask for one value; the check judges the whole document with it."""
        from logic.data import profile_edit

        key = key_at(path)
        if key is None or key.kind in ("table", "tables"):
            return
        stated = profile_edit.value_at(self.document, path)

        def check(answers: dict[str, str]) -> list[str]:
            typed = answers["value"]
            try:
                document = profile_edit.changed(
                    self.document, path, value_from_text(key, typed) if typed else None
                )
            except ProfileFaults as found:
                return [fault.line() for fault in found.faults]
            faults = [fault.line() for fault in faults_of(document)]
            if not faults:
                self.document = document
            return faults

        def answered(answers: dict[str, str] | None) -> None:
            self.refresh_rows()

        choices = ("yes", "no") if key.kind == "flag" else key.choices
        fields = [Field("value", path, "" if stated is None else text_of(stated), choices, about=key.says)]
        self.app.push_screen(Form(f"Change {path}", fields, check=check), answered)

    def action_begin(self) -> None:
        self.dismiss(self.document)
