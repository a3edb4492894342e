"""A few questions, each with its default: Enter goes on, the last Enter answers all. Nothing is lost on
Esc but the form."""

from collections.abc import Callable, Sequence
from typing import ClassVar, NamedTuple

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widgets import Input

from tui.panes.painted import Lines
from tui.screens.dialog import Dialog
from tui.show.cells import pad, plain, width_of, wrap
from tui.show.rows import BAD, FAINT, PLAIN, Span, line

MOST_TYPED = 600


class Field(NamedTuple):
    id: str
    label: str
    text: str = ""
    choices: tuple[str, ...] = ()  # where it is one of these, left and right go through them
    about: str = ""


class FieldInput(Input):
    """One answer. Up and down go to another field; left and right go through the choices, where it has some."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "app.focus_previous", "field before", show=False),
        Binding("down", "app.focus_next", "field after", show=False),
    ]

    def __init__(self, field: Field) -> None:
        super().__init__(
            field.text, id=f"field-{field.id.replace(' ', '-')}", max_length=MOST_TYPED, compact=True
        )
        self.field = field

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

    CSS = """
    #fields { height: auto; max-height: 100%; width: 100%; scrollbar-size: 1 1; }
    FieldInput { height: 1; border: none; padding: 0; width: 100%; background: $ground; color: $strong-ink; }
    FieldInput:focus { background: $ground; text-style: bold underline; }
    .label { height: 1; width: 100%; }
    #fault { height: 0; width: 100%; }
    """
    HINT = "Enter next, the last one takes all · arrows another field · Esc back"

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

    def inside(self) -> ComposeResult:
        with VerticalScroll(id="fields", can_focus=False):
            for number, field in enumerate(self.fields):
                yield Lines(id=f"label-{number}", classes="label")
                yield FieldInput(field)
        yield Lines(id="fault")

    def on_mount(self) -> None:
        super().on_mount()
        for number, field in enumerate(self.fields):
            label = pad(plain(field.label), 1)
            about = plain(field.about)
            if field.choices:
                about = f"{about} ({' | '.join(field.choices)}, left and right)".strip()
            room = self.box_width() - width_of(label) - 3
            told = about if width_of(about) <= room else wrap(about, max(room, 8))[0]
            self.query_one(f"#label-{number}", Lines).put(
                line(Span(label, PLAIN), Span(f"   {told}", FAINT) if told else "")
            )
        self.fit_height()
        first = self.query(FieldInput).first()
        first.focus()

    def lay_out(self) -> None:
        super().lay_out()
        self.fit_height()

    def fit_height(self) -> None:
        most = max(4, self.app.size.height * 9 // 10 - 9)
        self.query_one("#fields").styles.height = min(2 * len(self.fields), most)

    def answers(self) -> dict[str, str]:
        return {each.field.id: each.value.strip() for each in self.query(FieldInput)}

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        inputs = list(self.query(FieldInput))
        number = next((number for number, each in enumerate(inputs) if each is event.input), 0)
        if number + 1 < len(inputs):
            inputs[number + 1].focus()
            return
        answers = self.answers()
        faults = self.check(answers) if self.check is not None else ()
        if faults:
            self.say_faults(faults)
        else:
            self.dismiss(answers)

    def say_faults(self, faults: Sequence[str]) -> None:
        """Show why the answers can't stand; they stay as typed."""
        told = [part for fault in faults[:4] for part in wrap(plain(fault), self.box_width())]
        widget = self.query_one("#fault", Lines)
        widget.styles.height = len(told)
        widget.put(*(line(Span(each, BAD)) for each in told))
