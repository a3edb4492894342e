"""*New rig*: a few questions, each with a default that is said to be one; then all that was assumed, once.

The answers become a document (`rig_questions.py`), judged by the file's own check; a fault stands in the form
that can mend it.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, ClassVar

from textual.app import App
from textual.binding import Binding, BindingType

from logic.data.faults import ProfileFault, ProfileFaults
from logic.data.profile import Profile
from logic.data.profile_fields import key_at, value_from_text
from tui.screens.form import Field, Form
from tui.screens.full import Full
from tui.show.names import name_of
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


class Questions(Form):
    """One form of the questions. Esc steps back to the one before; what was typed here is kept for coming back."""

    HINT = "Enter next, last takes all · arrows other field · F1 help · Esc back"
    LEAVING = "Esc: one form back, and what was typed is kept; from the first, out of the questions."

    def __init__(
        self,
        title: str,
        fields: Sequence[Field],
        *,
        check: Callable[[dict[str, str]], Sequence[str]],
        left: Callable[[dict[str, str]], None],
    ) -> None:
        super().__init__(title, fields, check=check)
        self.left = left

    def action_step_back(self) -> None:
        self.left(self.answers())
        super().action_step_back()


class NewRig:
    """The questions, form after form; `done` gets the document, or None where it was left.

    Form 0 asks for the rig, then there is one for each tank, and the last asks for the wiring.
    """

    def __init__(self, app: App[Any], done: Any) -> None:
        self.app = app
        self.done = done
        self.typed: dict[int, dict[str, str]] = {}  # by number of the form, also of forms that were left
        self.changes: dict[str, Any] = {}  # what was changed in the list of what is assumed

    def begin(self) -> None:
        self.ask_rig()

    def ask(self, number: int, title: str, asks: Sequence[Ask], then: Callable[[], None], check: Any) -> None:
        """Show a form with what was typed in it before, else with its defaults."""
        before = self.typed.get(number, {})
        fields = [
            Field(
                ask.id,
                ask.label,
                before.get(ask.id, ask.default),
                ask.choices,
                f"{ask.about}; default {ask.default}".strip("; ") if ask.default else ask.about,
            )
            for ask in asks
        ]

        def left(answers: dict[str, str]) -> None:
            self.typed[number] = answers

        def answered(answers: dict[str, str] | None) -> None:
            if answers is None:
                self.step_back(number)
            else:
                self.typed[number] = answers
                then()

        self.app.push_screen(Questions(title, fields, check=check, left=left), answered)

    def step_back(self, number: int) -> None:
        """From a form to the one before it; from the first, out of the questions."""
        if number == 0:
            self.done(None)
        elif number == 1:
            self.ask_rig()
        else:
            self.ask_tank(number - 1)

    # --- the rig ---

    def ask_rig(self) -> None:
        title = "A new rig: Enter takes what stands there, a default until you change it"
        self.ask(0, title, RIG, lambda: self.ask_tank(1), self.check_rig)

    def check_rig(self, answers: Mapping[str, str]) -> list[str]:
        if not count_of(answers["tanks"], MOST_TANKS):
            return [
                f"found {answers['tanks'] or 'nothing'}; expected a number of tanks from 1 to {MOST_TANKS}"
            ]
        trial = Answers(answers, [defaults(tank_questions(1))], defaults(WIRING))
        return [fault.line() for fault in faults_of(document_from(trial))]

    # --- the tanks ---

    @property
    def count(self) -> int:
        return int(self.typed[0]["tanks"])

    def tanks(self, count: int) -> list[dict[str, str]]:
        """The answers of the first so many tanks."""
        return [self.typed[number] for number in range(1, count + 1)]

    def ask_tank(self, number: int) -> None:
        def then() -> None:
            if number < self.count:
                self.ask_tank(number + 1)
            else:
                self.ask_wiring()

        def check(answers: Mapping[str, str]) -> list[str]:
            return self.check_tank(number, answers)

        title = f"Tank {number} of {self.count}, and the pads at hand for it"
        self.ask(number, title, tank_questions(number), then, check)

    def check_tank(self, number: int, answers: Mapping[str, str]) -> list[str]:
        if count_of(answers["pads"], MOST_PADS) is None:
            return [f"found {answers['pads'] or 'nothing'}; expected a number of pads from 0 to {MOST_PADS}"]
        trial = Answers(self.typed[0], [*self.tanks(number - 1), answers], defaults(WIRING))
        return [fault.line() for fault in faults_of(document_from(trial))]

    # --- the wiring ---

    def ask_wiring(self) -> None:
        told = "; ".join(f"{name}: {cost}" for name, cost in PATTERN_COSTS.items())
        self.ask(self.count + 1, f"Wiring. {told}", WIRING, self.show_assumed, self.check_wiring)

    def document(self, wiring: Mapping[str, str]) -> dict[str, Any]:
        return document_from(Answers(self.typed[0], self.tanks(self.count), wiring))

    def check_wiring(self, answers: Mapping[str, str]) -> list[str]:
        return [fault.line() for fault in faults_of(self.document(answers))]

    # --- what is assumed ---

    def show_assumed(self) -> None:
        last = self.count + 1
        document = self.document(self.typed[last])
        for path, value in self.changes.items():
            document = still_changed(document, path, value)

        def answered(document: dict[str, Any] | None) -> None:
            if document is None:
                self.ask_wiring()
            else:
                self.done(document)

        self.app.push_screen(Assumed(document, self.changes), answered)


def still_changed(document: dict[str, Any], path: str, value: Any) -> dict[str, Any]:
    """The document with a change made before; without it where the answers given since leave no room for it."""
    from logic.data import profile_edit

    try:
        changed = profile_edit.changed(document, path, value)
    except ProfileFaults:
        return document
    return document if faults_of(changed) else changed


class Assumed(Full):
    """All values of the new rig, given and assumed; Enter changes one, Ctrl+S begins with it."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+s", "begin", "begin", show=False)]
    KEYS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("ctrl+s", "begin with this rig"),
        ("enter", "change"),
        ("escape", "back to the questions"),
    )

    def __init__(self, document: dict[str, Any], changes: dict[str, Any]) -> None:
        """`changes` takes what is changed here, by path: it is still there after a step back."""
        super().__init__()
        self.document = document
        self.changes = changes

    def title_text(self) -> str:
        name = self.document["rig"]["name"]
        return f"{name}: everything that was answered and assumed; the tape will replace the guesses"

    def profile(self) -> Profile:
        """The rig as it stands here, by which its parts are called."""
        from logic.data.profile_check import check_document

        return check_document(dict(self.document), file="")

    def places(self) -> list[str]:
        found = ["rig", "design", "supply", "wiring", "parts"]
        for kind in ("bay", "tank", "heater", "run"):
            found.extend(f"{kind}.{part['id']}" for part in self.document.get(kind, ()))
        return found

    def rows(self, width: int) -> list[Row]:
        begin = line(Span("begin with this rig (Enter here, or Ctrl+S)", STRONG))
        rows, profile = [Row("begin", (begin, ()))], self.profile()
        for place in self.places():
            rows.append(Row(f"place:{place}", (line(Span(name_of(place, profile), HEAD)),), choosable=False))
            for value in values_of(self.document, place):
                tail = line(
                    Span(value.text, FAINT if value.default else PLAIN),
                    Span("  assumed", FAINT) if value.default else Span("  answered", GOOD),
                )
                rows.append(
                    Row(f"value:{value.path}", beside(value.label, tail, width, column=26, indent="  "))
                )
        return rows

    def row_opened(self, key: str) -> None:
        if key == "begin":
            self.action_begin()
        else:
            self.change(key.removeprefix("value:"))

    def change(self, path: str) -> None:
        """Ask for one value; the check judges the whole document with it."""
        from logic.data import profile_edit

        key = key_at(path)
        if key is None or key.kind in ("table", "tables"):
            return
        stated = profile_edit.value_at(self.document, path)

        def check(answers: dict[str, str]) -> list[str]:
            typed = answers["value"]
            value = value_from_text(key, typed) if typed else None
            try:
                document = profile_edit.changed(self.document, path, value)
            except ProfileFaults as found:
                return [fault.line() for fault in found.faults]
            faults = [fault.line() for fault in faults_of(document)]
            if not faults:
                self.document = document
                self.changes[path] = value
            return faults

        def answered(answers: dict[str, str] | None) -> None:
            self.refresh_rows()

        choices = ("yes", "no") if key.kind == "flag" else key.choices
        name = name_of(path, self.profile())
        fields = [Field("value", name, "" if stated is None else text_of(stated), choices, about=key.says)]
        self.app.push_screen(Form(f"Change {name}", fields, check=check), answered)

    def action_begin(self) -> None:
        self.dismiss(self.document)
