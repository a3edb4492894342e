"""What keys do with the profile: change a value, leave it out, add, copy and take away parts, add a keep-out.

The check is the file's own: what it finds stands in the form, and nothing typed is lost.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from logic.data.profile_fields import key_at, value_from_text
from logic.data.profile_keys import BY_NAME, Key
from logic.session.intents import AddPart, ChangeProfile, Intent, NotSaved, Refused, RemovePart
from tui.deeds.menu import place_of_row
from tui.show.names import name_of
from tui.show.profile_values import table_of, text_of
from tui.show.rows import BAD
from tui.taking import refusal_lines

if TYPE_CHECKING:
    from tui.app import Bellypan

PARTS = ("tank", "drain", "heater", "run", "bay")
NEW = {
    "tank": {
        "holds": "gray",
        "shape": "box",
        "length": "40 in",
        "width": "24 in",
        "height": "9 in",
        "place": "open",
    },
    "drain": {"outside": "3.5 in", "inside": "3.07 in", "length": "18 in"},
    "heater": {"watts": "60 W", "length": "18 in", "width": "12 in", "face": "bottom"},
    "run": {"from": "supply", "length": "10 ft"},
    "bay": {"area": "80 ft²", "floor": "R 7", "pan": "R 4"},
}


def recorded(app: "Bellypan", intent: Intent) -> tuple[str, ...]:
    """Send a change; what the check found, in lines. Nothing: it stands."""
    result = app.send(intent, quiet=True)
    if isinstance(result, Refused):
        return refusal_lines(result, app.wiring.snapshot().units)
    app.say_result(result)
    return ()


# --- one value ---


def chosen_path(app: "Bellypan") -> str:
    """The path of the value or slot under the cursor of the Rig pane."""
    head, _, rest = (app.desk.pane("rig").cursor or "").partition(":")
    return rest if head in ("value", "slot") else ""


def change_value(app: "Bellypan") -> None:
    change_path(app, chosen_path(app))


def change_path(app: "Bellypan", path: str) -> None:
    """Ask for a value of the profile; the form stays until the check takes it."""
    path = stated_path(app, path)
    key = key_at(path) if path else None
    if key is None:
        app.desk.say(("no value of the profile stands here: unfold a place's values and choose one", BAD))
        return
    if key.kind == "table":
        change_table(app, path, key)
        return
    from tui.screens.form import Field, Form

    stated, name = stated_at(app, path), name_of(path, app.wiring.snapshot().profile)
    fields = [
        Field("value", name, "" if stated is None else text_of(stated), choices_of(key), about=about(key))
    ]

    def check(answers: dict[str, str]) -> Sequence[str]:
        typed = answers["value"]
        return recorded(app, ChangeProfile(path, value_from_text(key, typed) if typed else None))

    app.push_screen(Form(f"Change {name}", fields, check=check))


def change_table(app: "Bellypan", path: str, key: Key) -> None:
    """Ask for an inner table, an outlet or a thermostat, that isn't stated yet; all empty: there is none."""
    from tui.screens.form import Field, Form

    def check(answers: dict[str, str]) -> Sequence[str]:
        table = {
            each.name: value_from_text(each, answers[each.name]) for each in key.keys if answers[each.name]
        }
        return recorded(app, ChangeProfile(path, table or None))

    fields = [Field(each.name, each.name, about=about(each)) for each in key.keys]
    name = name_of(path, app.wiring.snapshot().profile)
    app.push_screen(Form(f"{name}: {key.says}", fields, check=check))


def stated_path(app: "Bellypan", path: str) -> str:
    """A slot's own place in the profile: the inner table where that isn't stated yet."""
    place = place_of_row(f"value:{path}") if path else ""
    inner = path.removeprefix(f"{place}.").split(".")
    if place.startswith("heater.") and inner[0] in ("x", "y"):
        return f"{place}.at.{inner[0]}" if stated_at(app, f"{place}.at") else f"{place}.at"
    if len(inner) > 1 and not inner[1].isdigit() and stated_at(app, f"{place}.{inner[0]}") is None:
        return f"{place}.{inner[0]}"
    return path


def stated_at(app: "Bellypan", path: str) -> Any:
    """What the document states at a path; None where it states nothing."""
    from logic.data.faults import ProfileFaults
    from logic.data.profile_edit import value_at

    try:
        return value_at(dict(app.wiring.snapshot().document), path)
    except ProfileFaults:
        return None


def about(key: Key) -> str:
    """What a key means, its limits and its default, in a line."""
    parts = [key.says]
    if key.span is not None:
        parts.append(key.span.says)
    if key.default not in (None, "", []):
        parts.append(f"default {text_of(key.default)}")
    return "; ".join(parts)


def choices_of(key: Key) -> tuple[str, ...]:
    return ("yes", "no") if key.kind == "flag" else key.choices


def leave_out(app: "Bellypan") -> None:
    """Take a value out of the profile, so that its default holds."""
    path = chosen_path(app)
    if path:
        app.send(ChangeProfile(path, None))


# --- parts ---


def chosen_part(app: "Bellypan") -> tuple[str, str]:
    """(kind, id) of the part whose row is under the cursor of the Rig pane; empty where it is none."""
    kind, _, name = place_of_row(app.desk.pane("rig").cursor or "").partition(".")
    return (kind, name) if kind in PARTS and name else ("", "")


def add_part(app: "Bellypan") -> None:
    """Ask which kind of part, then its required values."""
    from tui.screens.choose import Choice, Choose

    def chosen(kind: str | None) -> None:
        if kind is not None:
            ask_part(app, kind, NEW[kind], title=f"Add a {kind}")

    choices = [Choice(kind, kind, about=BY_NAME[kind].says) for kind in PARTS]
    app.push_screen(Choose("Add a part", choices), chosen)


def ask_part(
    app: "Bellypan",
    kind: str,
    begin: Mapping[str, Any],
    *,
    title: str,
    then: Callable[[], None] | None = None,
) -> None:
    """Ask for a part's id and required values, what `begin` states filled in; the rest of `begin` is kept."""
    from tui.screens.form import Field, Form

    section = BY_NAME[kind]
    guesses = guessed(app, kind)
    asked = [key for key in section.keys if key.required or key.name == "feeds"]

    def check(answers: dict[str, str]) -> Sequence[str]:
        part = {name: value for name, value in begin.items() if name not in answers}
        for key in asked:
            if answers[key.name]:
                part[key.name] = value_from_text(key, answers[key.name])
        return recorded(app, AddPart(kind, part))

    fields = []
    for key in asked:
        stated = begin.get(key.name, guesses.get(key.name))
        choices = choices_of(key) or references(app, kind, key)
        fields.append(
            Field(key.name, key.name, "" if stated is None else text_of(stated), choices, about=about(key))
        )

    def answered(answers: dict[str, str] | None) -> None:
        if answers is not None and then is not None:
            then()

    app.push_screen(Form(title, fields, check=check), answered)


def guessed(app: "Bellypan", kind: str) -> dict[str, Any]:
    """What a new part most likely says: a free id, and the part in hand as what it belongs to."""
    document = app.wiring.snapshot().document
    chosen, name = chosen_part(app)
    tank = name if chosen == "tank" else next(iter(ids(document, "tank")), "")
    fed = {each for run in document.get("run", ()) for each in run.get("feeds", ())}
    unfed = [each for each in ids(document, "heater") if each not in fed]
    stem = {"drain": f"{tank}-drain", "heater": f"{tank}-pad"}.get(kind, kind)
    guess: dict[str, Any] = {"id": free_id(document, kind, stem)}
    if kind == "drain":
        guess["tank"] = tank
    elif kind == "heater":
        guess["on"] = name if chosen in ("tank", "drain") else tank
    elif kind == "run":
        guess["feeds"] = unfed[:1]
    return guess


def ids(document: Mapping[str, Any], kind: str) -> list[str]:
    return [str(part.get("id", "")) for part in document.get(kind, ())]


def free_id(document: Mapping[str, Any], kind: str, stem: str) -> str:
    """An id that no part of the kind has: the stem, else the stem with a number."""
    taken = set(ids(document, kind))
    stem = stem[:21] or kind
    return (
        stem
        if stem not in taken
        else next(f"{stem}-{n}" for n in range(2, 200) if f"{stem}-{n}" not in taken)
    )


def references(app: "Bellypan", kind: str, key: Key) -> tuple[str, ...]:
    """The ids that a reference may name, where it names one of few."""
    document = app.wiring.snapshot().document
    known = {
        ("drain", "tank"): lambda: ids(document, "tank"),
        ("heater", "on"): lambda: [*ids(document, "tank"), *ids(document, "drain")],
        ("run", "from"): lambda: ["supply", *ids(document, "run")],
        ("tank", "place"): lambda: ["open", "inside", *ids(document, "bay")],
    }
    maker = known.get((kind, key.name))
    return tuple(maker()) if maker is not None else ()


def copy_part(app: "Bellypan") -> None:
    """Copy the part in hand under another id; what it feeds isn't copied."""
    kind, name = chosen_part(app)
    table = table_of(app.wiring.snapshot().document, f"{kind}.{name}") if kind else None
    if table is None:
        app.desk.say(("choose a tank, drain, heater, run or bay in the Rig pane first", BAD))
        return
    begin = {key: value for key, value in table.items() if key not in ("id", "feeds")}
    begin["id"] = free_id(app.wiring.snapshot().document, kind, name)
    ask_part(app, kind, begin, title=f"Copy {name_of(f'{kind}.{name}', app.wiring.snapshot().profile)}")


def remove_part(app: "Bellypan") -> None:
    """Take the part in hand away; what still refers to it is said."""
    kind, name = chosen_part(app)
    if not kind:
        app.desk.say(("choose a tank, drain, heater, run or bay in the Rig pane first", BAD))
        return
    called = name_of(f"{kind}.{name}", app.wiring.snapshot().profile)
    result = app.send(RemovePart(kind, name))
    if not isinstance(result, Refused | NotSaved):
        app.desk.say((f"{called} taken away; Ctrl+Z brings it back", BAD))


def add_keepout(app: "Bellypan", place: str) -> None:
    """Ask for a rectangle of a tank's bottom where no pad may lie."""
    from tui.screens.form import Field, Form

    key = key_at(f"{place}.keepout")
    if key is None:
        return

    def check(answers: dict[str, str]) -> Sequence[str]:
        stated = list(stated_at(app, f"{place}.keepout") or ())
        part = {
            each.name: value_from_text(each, answers[each.name]) for each in key.keys if answers[each.name]
        }
        return recorded(app, ChangeProfile(f"{place}.keepout", [*stated, part]))

    fields = [Field(each.name, each.name, about=about(each)) for each in key.keys]
    app.push_screen(
        Form(f"A keep-out on {name_of(place, app.wiring.snapshot().profile)}", fields, check=check)
    )
