"""What if: change values of the profile, see the figures and findings that would move beside today's, keep or drop.

Nothing is recorded until it is kept; then each change is an event, with undo.
"""

from typing import Any, ClassVar

from textual.binding import Binding, BindingType

from logic.data.profile_fields import key_at, value_from_text
from logic.session.intents import ChangeProfile, NotSaved, Refused
from tui.screens.form import Field, Form
from tui.screens.full import Full
from tui.show.names import name_of
from tui.show.profile_values import place_of_path, values_of
from tui.show.rows import Row
from tui.show.what_if_rows import Change, what_if_rows
from tui.taking import refusal_lines
from tui.wiring import Wiring


class WhatIf(Full):
    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+s", "keep", "keep", show=False)]
    KEYS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("enter", "change"),
        ("ctrl+s", "keep"),
        ("escape", "drop"),
    )

    def __init__(self, wiring: Wiring, place: str) -> None:
        super().__init__()
        self.wiring = wiring
        self.place = place
        self.changes: dict[str, Change] = {}
        self.opened: set[str] = {place or "design"}
        self.trial: Any = None  # the assessment with the changes
        self.faults: tuple[str, ...] = ()

    def title_text(self) -> str:
        count = len(self.changes)
        return f"what if: {count} change{'s' if count != 1 else ''}, nothing recorded yet"

    def rows(self, width: int) -> list[Row]:
        return what_if_rows(
            self.wiring.snapshot(), self.trial, tuple(self.changes.values()), self.faults, width, self.opened
        )

    def row_opened(self, key: str) -> None:
        kind, _, name = key.partition(":")
        if kind == "place":
            self.opened.symmetric_difference_update({name})
            self.refresh_rows()
        elif kind in ("value", "change"):
            self.ask(name)

    def ask(self, path: str) -> None:
        """Ask for a value; the form stays until the check takes it."""
        key = key_at(path)
        if key is None or key.kind in ("table", "tables"):
            return
        values = values_of(self.wiring.snapshot().document, place_of_path(path))
        stated = next((value for value in values if value.path == path), None)
        before = stated.text if stated is not None else ""
        now = "" if stated is None or stated.default else stated.text
        if path in self.changes:
            now = self.changes[path].typed

        def check(answers: dict[str, str]) -> tuple[str, ...]:
            typed = answers["value"]
            change = Change(path, before, typed, value_from_text(key, typed) if typed else None)
            return self.tried({**self.changes, path: change})

        choices = ("yes", "no") if key.kind == "flag" else key.choices
        name = name_of(path, self.wiring.snapshot().profile)
        fields = [Field("value", name, now, choices, about=key.says)]
        self.app.push_screen(Form(f"What if {name} were", fields, check=check), self.answered)

    def answered(self, answers: dict[str, str] | None) -> None:
        """Show what would move: it stands above the values."""
        self.refresh_rows()
        if answers is not None and self.changes:
            self.list.choose(f"change:{next(reversed(self.changes))}")

    def tried(self, changes: dict[str, Change]) -> tuple[str, ...]:
        """Work the figures out with these changes; the faults where the profile would be none."""
        trial, faults = self.wiring.what_if(tuple((change.path, change.value) for change in changes.values()))
        if not faults:
            self.changes, self.trial = changes, trial
        return faults

    def action_keep(self) -> None:
        """Record the changes, one event each."""
        for path, change in list(self.changes.items()):
            result = self.wiring.send(ChangeProfile(path, change.value))
            if isinstance(result, Refused):
                self.faults = refusal_lines(result, self.wiring.snapshot().units)
                self.refresh_rows()
                return
            if isinstance(result, NotSaved):
                break
            del self.changes[path]
        self.dismiss("show")
