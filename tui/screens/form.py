"""A few questions, each with its default: Enter goes on, the last Enter answers all. Nothing is lost on
Esc but the form."""

from collections.abc import Callable, Sequence
from typing import ClassVar, NamedTuple

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, VerticalScroll

from tui.panes.in_order import InOrder
from tui.panes.painted import Lines, PlainBar
from tui.screens.dialog import Dialog
from tui.show.cells import plain, shorten, width_of, wrap
from tui.show.rows import BAD, FAINT, PLAIN, Span, line

MOST_TYPED = 600
MOST_FAULTS = 4


class Field(NamedTuple):
    id: str
    label: str
    text: str = ""
    choices: tuple[str, ...] = ()  # where it is one of these, left and right go through them
    about: str = ""


class FieldInput(InOrder):
    """One answer. Up and down go to another field; left and right go through the choices, where it has some."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up,shift+tab", "app.focus_previous", "field before", show=False),
        Binding("down,tab", "app.focus_next", "field after", show=False),
    ]

    def __init__(self, field: Field) -> None:
        super().__init__(
            field.text, id=f"field-{field.id.replace(' ', '-')}", max_length=MOST_TYPED, compact=True
        )
        self.field = field

    def on_blur(self) -> None:
        """A long answer is read from its beginning once it is left; not where the whole window is."""
        if self.app.app_focus:
            self.cursor_position = 0

    async def action_submit(self) -> None:
        if isinstance(self.screen, Form):
            self.screen.entered(self)

    async def _on_key(self, event: events.Key) -> None:
        choices = self.field.choices
        if choices and event.key in ("left", "right"):
            event.stop()
            event.prevent_default()
            by = 1 if event.key == "right" else -1
            number = choices.index(self.value) + by if self.value in choices else 0
            self.value = choices[number % len(choices)]
            self.cursor_position = len(self.value)
            return
        await super()._on_key(event)


class Form(Dialog[dict[str, str]]):
    """Dismisses with the answers by field, or None."""

    AUTO_FOCUS = "FieldInput"
    DEFAULT_CSS = """
    Form #fields { height: auto; width: 100%; scrollbar-size: 1 1; }
    Form .field { height: 1; width: 100%; layout: horizontal; }
    Form .label { height: 1; }
    FieldInput { height: 1; border: none; padding: 0; width: 1fr; background: $ground; color: $strong-ink; }
    FieldInput:focus { background: $ground; text-style: bold underline; }
    Form #about { height: 2; width: 100%; margin-top: 1; }
    Form #fault { height: 0; width: 100%; }
    """
    HINT = "Enter next, last takes all · arrows other field · F1 help · Esc back"
    LEAVING = "Esc: back without taking anything; what was typed in this box is dropped."

    def __init__(
        self,
        title: str,
        fields: Sequence[Field],
        *,
        check: Callable[[dict[str, str]], Sequence[str]] | None = None,
    ) -> None:
        """`check` gives the faults of the answers; with any, the form stays open and shows them."""
        super().__init__(title)
        self.fields = tuple(fields)
        self.check = check
        self._faults = 0
        if len(self.fields) == 1:
            self.HINT = Dialog.HINT

    def inside(self) -> ComposeResult:
        with VerticalScroll(id="fields", can_focus=False):
            for number, field in enumerate(self.fields):
                with Container(classes="field"):
                    yield Lines(id=f"label-{number}", classes="label")
                    yield FieldInput(field)
        yield Lines(id="about")
        yield Lines(id="fault")

    def on_mount(self) -> None:
        super().on_mount()
        if self.has_class("-ascii"):
            self.query_one("#fields").vertical_scrollbar.renderer = PlainBar  # type: ignore[misc]  # of this one alone

    def lay_out(self) -> None:
        super().lay_out()
        labels = [plain(field.label) for field in self.fields]
        column = min(max(width_of(label) for label in labels) + 2, self.box_width() // 2)
        for number, label in enumerate(labels):
            widget = self.query_one(f"#label-{number}", Lines)
            widget.styles.width = column
            widget.put(line(Span(shorten(label, column - 1), PLAIN)))
        self.fit_height()
        self.show_about()

    def fit_height(self) -> None:
        most = max(3, self.app.size.height * 9 // 10 - 10 - self._faults)
        self.query_one("#fields").styles.height = min(len(self.fields), most)

    def on_descendant_focus(self) -> None:
        self.show_about()

    def show_about(self) -> None:
        """What the field in hand means, what it may be, and its default."""
        focused = self.focused
        if not isinstance(focused, FieldInput):
            return
        field = focused.field
        told = plain(field.about)
        if field.choices:
            told = f"{told}; left and right: {', '.join(field.choices)}".removeprefix("; ")
        parts = wrap(told, self.box_width())
        self.query_one("#about", Lines).put(*(line(Span(part, FAINT)) for part in parts[:2]))

    def help_told(self) -> tuple[str, ...]:
        """What the field in hand wants, whole, and what the keys do."""
        told = []
        if isinstance(self.focused, FieldInput):
            field = self.focused.field
            number = f", {self.fields.index(field) + 1} of {len(self.fields)}" if len(self.fields) > 1 else ""
            about = plain(field.about) or "in your own words"
            told.append(f"The field in hand{number}: {plain(field.label)}: {about}.")
            if field.choices:
                told.append(f"It is one of {', '.join(field.choices)}: left and right go through them.")
        several = len(self.fields) > 1
        return (
            *told,
            "Enter: go to the next field; in the last one take all that is typed."
            if several
            else "Enter: take what is typed.",
            *(["Up and down: another field; what is typed stays."] if several else []),
            self.LEAVING,
            "Every other letter or sign is text here, also ?.",
        )

    def answers(self) -> dict[str, str]:
        return {each.field.id: each.value.strip() for each in self.query(FieldInput)}

    def entered(self, answered: FieldInput) -> None:
        """Enter in a field: the next one, or all is answered."""
        inputs = list(self.query(FieldInput))
        number = inputs.index(answered)
        if number + 1 < len(inputs):
            self.set_focus(inputs[number + 1])
            return
        answers = self.answers()
        faults = self.check(answers) if self.check is not None else ()
        if faults:
            self.say_faults(faults)
        else:
            self.dismiss(answers)

    def say_faults(self, faults: Sequence[str]) -> None:
        """Show why the answers can't stand; they stay as typed."""
        told = [part for fault in faults[:MOST_FAULTS] for part in wrap(plain(fault), self.box_width())]
        widget = self.query_one("#fault", Lines)
        self._faults = len(told)
        widget.styles.height = len(told)
        widget.put(*(line(Span(each, BAD)) for each in told))
        self.fit_height()
