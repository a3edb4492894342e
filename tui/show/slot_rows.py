"""The Rig pane as rows: places of the rig, the slots of each, their readings, and the profile's other values.

Places that owe readings come first, each group in the profile's order; slots keep their place, so that nothing
jumps under the eye when a reading is taken.
"""

from collections.abc import Collection, Sequence

from logic.data.state import Reading, SlotView
from tui.show import numbers
from tui.show.cells import pad, shorten, width_of
from tui.show.clock import moment
from tui.show.marks import slot_mark
from tui.show.names import ordinal, place_name
from tui.show.profile_values import ProfileValue, values_of
from tui.show.rows import (
    BAD,
    FAINT,
    GOOD,
    HEAD,
    PLAIN,
    STRONG,
    WARN,
    Line,
    Row,
    Span,
    beside,
    line,
    spread,
    wrapped,
)
from tui.show.snapshot import HIDDEN, Snapshot, blind

STATE_ROLES = {
    "planned": WARN,
    "not read": FAINT,
    "single": PLAIN,
    "agreed": GOOD,
    "read": GOOD,
    "in dispute": BAD,
}
STATE_COLUMN = 11
NAME_COLUMN = 14
MARK = 2
ORDER = (
    "tank",
    "drain",
    "heater",
    "run",
    "supply",
    "meter",
    "work",
    "bay",
    "design",
    "wiring",
    "parts",
    "rig",
)


def rig_rows(snapshot: Snapshot, width: int, opened: Collection[str]) -> list[Row]:
    """All rows of the Rig pane; `opened` holds the keys of what is unfolded."""
    rows: list[Row] = []
    slots = by_place(snapshot.assessment.slots)
    for place in places_in_order(snapshot):
        rows.extend(place_rows(snapshot, place, slots.get(place, []), width, opened))
    return rows


def by_place(views: Sequence[SlotView]) -> dict[str, list[SlotView]]:
    places: dict[str, list[SlotView]] = {}
    for view in views:
        places.setdefault(view.place, []).append(view)
    return places


def places_in_order(snapshot: Snapshot) -> list[str]:
    """Every place of the rig, those that owe a reading first."""
    profile = snapshot.profile
    places = []
    for tank in profile.tanks:
        places.append(f"tank.{tank.id}")
        drains = [drain.id for drain in profile.drains if drain.tank == tank.id]
        places.extend(f"drain.{name}" for name in drains)
        places.extend(f"heater.{heater.id}" for heater in profile.heaters if heater.on in (tank.id, *drains))
    places.extend(f"run.{run.id}" for run in profile.runs)
    places.extend(("supply", "meter", "work"))
    places.extend(f"bay.{bay.id}" for bay in profile.bays)
    places.extend(("design", "wiring", "parts", "rig"))
    owed = {view.place for view in snapshot.assessment.slots if view.owed}
    return [place for place in places if place in owed] + [place for place in places if place not in owed]


def place_rows(
    snapshot: Snapshot, place: str, views: Sequence[SlotView], width: int, opened: Collection[str]
) -> list[Row]:
    """A place's head, and below it what is unfolded."""
    marks = snapshot.marks
    values = values_of(snapshot.document, place)
    if not views and not values:
        return []
    is_open = place in opened
    owed = sum(view.owed for view in views)
    disputed = any(view.state == "in dispute" for view in views)
    said = f"owed {owed}" if owed else ("read" if any(view.readings for view in views) else "")
    if disputed:
        said = f"in dispute, {said}" if said else "in dispute"
    head = spread(
        line(
            Span(f"{marks.open if is_open else marks.shut} ", HEAD),
            Span(head_name(snapshot, place, width), HEAD),
        ),
        line(Span(said, BAD if disputed else WARN if owed else FAINT)),
        width,
    )
    rows = [Row(place, (head,))]
    if not is_open:
        return rows
    shown, rest = parted(snapshot, views)
    columns = Columns.of(snapshot, shown, width)
    for view in shown:
        rows.append(slot_row(snapshot, view, width, columns))
        if f"slot:{view.slot}" in opened:
            rows.extend(reading_rows(snapshot, view, width))
    if rest:
        rows.extend(folded_slots(snapshot, place, rest, width, opened))
    if values:
        rows.extend(value_rows(snapshot, place, values, width, opened))
    return rows


def head_name(snapshot: Snapshot, place: str, width: int) -> str:
    """A place's name and what kind of thing it is, shortened to leave room for what it owes."""
    kind, _, name = place.partition(".")
    more = ""
    if kind == "tank":
        tank = next((each for each in snapshot.profile.tanks if each.id == name), None)
        more = f" ({tank.holds})" if tank is not None and tank.holds != name else ""
    return shorten(place_name(place, snapshot.profile) + more, max(8, width - 24))


def parted(snapshot: Snapshot, views: Sequence[SlotView]) -> tuple[list[SlotView], list[SlotView]]:
    """The slots that matter now, and those that may be read and are not: a meter's, mostly."""
    wanted = set(snapshot.assessment.wanted)

    def matters(view: SlotView) -> bool:
        return bool(
            view.readings or view.value is not None or view.slot in wanted or view.slot == snapshot.target
        )

    return [view for view in views if matters(view)], [view for view in views if not matters(view)]


class Columns:
    """Widths of the columns of a place's slots: as wide as what stands in them."""

    def __init__(self, name: int, value: int) -> None:
        self.name = name
        self.value = value

    @classmethod
    def of(cls, snapshot: Snapshot, views: Sequence[SlotView], width: int) -> "Columns":
        names = [width_of(view.title) for view in views]
        texts = [width_of(value_text(snapshot, view)) for view in views]
        name, value = min(max(names, default=0), max(NAME_COLUMN, width // 3)) + 4, max(texts, default=0) + 2
        spare = width - name - value - STATE_COLUMN - MARK
        return cls(name + max(0, min(2, spare // 4)), value + max(0, min(3, spare // 3)))


def value_text(snapshot: Snapshot, view: SlotView) -> str:
    """A slot's value as the pane shows it."""
    if blind(view):
        return HIDDEN
    if view.readings and view.readings[-1].over:
        return numbers.reading_text(view.readings[-1], view.kind, snapshot.units)
    if view.value is None:
        return "–"
    return numbers.value_text(view.value, view.kind, snapshot.units)


def slot_row(snapshot: Snapshot, view: SlotView, width: int, columns: Columns) -> Row:
    """Name, value, how it is known in a word and a mark; below it what is wrong with it."""
    state = "impossible" if view.impossible else view.state
    role = BAD if view.impossible else STATE_ROLES.get(view.state, PLAIN)
    mark = slot_mark(snapshot.marks, state)
    aimed = view.slot == snapshot.target
    tail = line(
        Span(pad(value_text(snapshot, view), columns.value), STRONG if view.readings else PLAIN),
        Span(pad(state, STATE_COLUMN), role),
        Span(mark, role),
    )
    lines = list(beside(
        view.title, tail, width, column=columns.name, role=STRONG if aimed else PLAIN, indent="  ",
    ))  # fmt: skip
    for text, text_role in slot_remarks(view):
        lines.extend(wrapped(text, width, text_role, indent="    "))
    return Row(f"slot:{view.slot}", tuple(lines))


def slot_remarks(view: SlotView) -> list[tuple[str, str]]:
    """What stands below a slot: the dispute, the contradiction, the blind second reading."""
    remarks = []
    if view.impossible:
        remarks.append((view.impossible, BAD))
    if view.state == "in dispute":
        count = len(view.readings)
        remarks.append((f"{'two' if count == 2 else count} differ: read it once more", BAD))
    return remarks


def reading_rows(snapshot: Snapshot, view: SlotView, width: int) -> list[Row]:
    """Every reading ever taken of a slot: those that count, and those struck or moved away."""
    rows = []
    number = 0
    for reading in snapshot.state.readings:
        here, left = reading.slot == view.slot, reading.moved_from == view.slot and reading.slot != view.slot
        if not here and not left:
            continue
        number += 1 if here else 0
        rows.append(
            Row(f"reading:{reading.id}", reading_lines(snapshot, view, reading, number, width, left=left))
        )
    if not rows:
        rows.append(Row(f"none:{view.slot}", (line(Span("      no reading yet", FAINT)),), choosable=False))
    return rows


def reading_lines(
    snapshot: Snapshot, view: SlotView, reading: Reading, number: int, width: int, *, left: bool
) -> tuple[Line, ...]:
    """One reading: its number, value, when; struck or moved in words."""
    when = moment(reading.when.at, snapshot.now)
    if left:
        return wrapped(f"moved to {reading.slot}, {when}", width, FAINT, indent="      ")
    value = (
        HIDDEN
        if blind(view) and not reading.struck
        else numbers.reading_text(reading, view.kind, snapshot.units)
    )
    words = [f"{ordinal(number)}  {value}", when]
    if reading.by:
        words.append(f"by {reading.by}")
    if reading.moved_from:
        words.append(f"from {reading.moved_from}")
    if reading.struck:
        words.append("struck")
    return wrapped("  ".join(words), width, FAINT if reading.struck else PLAIN, indent="      ")


def folded_slots(
    snapshot: Snapshot, place: str, rest: Sequence[SlotView], width: int, opened: Collection[str]
) -> list[Row]:
    """The slots that may be read and owe nothing, behind one line."""
    key = f"more:{place}"
    is_open = key in opened
    mark = snapshot.marks.open if is_open else snapshot.marks.shut
    rows = [Row(key, (line(Span(f"  {mark} {len(rest)} more to read", FAINT)),))]
    if is_open:
        columns = Columns.of(snapshot, rest, width)
        rows.extend(slot_row(snapshot, view, width, columns) for view in rest)
    return rows


def value_rows(
    snapshot: Snapshot, place: str, values: Sequence[ProfileValue], width: int, opened: Collection[str]
) -> list[Row]:
    """What the profile says of a place beside its slots; a default is called one."""
    key = f"values:{place}"
    is_open = key in opened
    mark = snapshot.marks.open if is_open else snapshot.marks.shut
    given = sum(1 for value in values if not value.default)
    head = f"  {mark} {len(values)} values of the profile, {given} given"
    rows = [Row(key, (line(Span(shorten(head, width), FAINT)),))]
    if not is_open:
        return rows
    column = min(max((width_of(value.label) for value in values), default=0), NAME_COLUMN + 4) + 6
    for value in values:
        tail = line(
            Span(value.text, FAINT if value.default else PLAIN),
            Span("  default", FAINT) if value.default else "",
        )
        lines = beside(value.label, tail, width, column=column, indent="    ")
        rows.append(Row(f"value:{value.path}", lines))
    return rows
