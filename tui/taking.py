"""From what stands in the reading line to intents: which slot is meant, lists, questions and their answers.

No widget in here: the reading line shows what comes out. Nothing typed is ever lost; what isn't taken stays.
"""

from typing import NamedTuple, Protocol

from logic.data.wording import Words
from logic.session.intents import CONFIRM, MEANING, Intent, NotSaved, RecordReading, Refused, Taken
from tui.questions import Question
from tui.show import numbers
from tui.show.cells import plain
from tui.show.names import place_name
from tui.show.slot_names import matching, parted
from tui.show.snapshot import Snapshot


class Outcome(NamedTuple):
    """What became of the line: what stays typed, what was taken, why not."""

    left: str = ""
    taken: tuple[str, ...] = ()  # ids of readings
    refused: tuple[str, ...] = ()  # lines: the reason, then examples
    question: Question | None = None
    not_saved: str = ""
    beside: tuple[str, ...] = ()  # what the session says to what was taken: of the clock


class Recorder(Protocol):
    """What `wiring.py` offers here."""

    target: str | None

    def send(self, intent: Intent) -> Taken | Refused | NotSaved: ...

    def snapshot(self) -> Snapshot: ...


def take(recorder: Recorder, typed: str, question: Question | None = None) -> Outcome:
    """Record what was typed: one reading, or several parted by `;`, in the slots that the line named."""
    if not typed.strip():
        return Outcome(left="")
    confirmed = is_confirmed(typed, question)
    pieces = [piece.strip() for piece in typed.split(";")]
    if len(pieces) > 1 and not all(pieces):
        return Outcome(left=typed, refused=("nothing stands beside a ;", "for example 41 3/8; 24; 9 1/2"))
    slots = [slot or "" for slot in slots_for(recorder.snapshot(), pieces)]
    taken: list[str] = []
    beside: list[str] = []
    for number, piece in enumerate(pieces):
        left = "; ".join(pieces[number:])
        value = parted(piece).value
        why_not = fault_of_name(recorder.snapshot(), piece, slots[number])
        if why_not:
            return Outcome(left=left, taken=tuple(taken), refused=why_not)
        asked_for = recorder.target
        recorder.target = None
        result = recorder.send(RecordReading(slots[number], value, confirmed=confirmed and number == 0))
        if isinstance(result, Taken):
            taken.append(result.event.id)
            beside.extend(filled(each, recorder.snapshot().units) for each in result.beside)
            continue
        units = recorder.snapshot().units
        if isinstance(result, NotSaved):
            rest = "; ".join(pieces[number + 1 :])
            return Outcome(left=rest, taken=tuple(taken), not_saved=not_saved_line(result, units))
        recorder.target = slots[number] if taken or asked_for == slots[number] else asked_for
        return Outcome(
            left=left,
            taken=tuple(taken),
            refused=refusal_lines(result, units),
            question=question_of(result, left, piece, value),
        )
    return Outcome(taken=tuple(taken), beside=tuple(beside))


def reading_meant(snapshot: Snapshot, typed: str, question: Question | None = None) -> RecordReading | None:
    """The reading that Enter would have recorded; None: none, or several."""
    piece = typed.strip()
    if not piece or ";" in piece:
        return None
    slot = slots_for(snapshot, [piece])[0] or ""
    if fault_of_name(snapshot, piece, slot):
        return None
    return RecordReading(slot, parted(piece).value, confirmed=is_confirmed(typed, question))


def is_confirmed(typed: str, question: Question | None) -> bool:
    """Whether the same text again is the answer to the question."""
    return question is not None and question.kind == CONFIRM and question.typed == typed


def slots_for(snapshot: Snapshot, pieces: list[str]) -> list[str | None]:
    """The slot of each piece: named in it, or the one after the last, in walking order."""
    order = list(dict.fromkeys(snapshot.assessment.wanted))
    slots: list[str | None] = []
    current = snapshot.target
    for number, piece in enumerate(pieces):
        name = parted(piece).name
        if name:
            found = matching(name, snapshot.assessment.slots, snapshot.profile)
            current = found[0].slot if len(found) == 1 else None
        elif number:
            current = next_after(current, order, slots)
        slots.append(current)
    return slots


def next_after(slot: str | None, order: list[str], used: list[str | None]) -> str | None:
    """The slot after one in walking order, each once; from the beginning where it isn't in the order."""
    begin = order.index(slot) + 1 if slot in order else 0
    return next((name for name in [*order[begin:], *order[:begin]] if name not in used), None)


def fault_of_name(snapshot: Snapshot, piece: str, slot: str) -> tuple[str, ...]:
    """Why a piece has no slot or no value; nothing where it has both."""
    name, value = parted(piece)
    if name and not slot:
        found = matching(name, snapshot.assessment.slots, snapshot.profile)
        if not found:
            return (
                f"no slot is called {plain(name)}",
                "for example gray len 41 3/8: parts of place and slot, then the value",
            )
        told = [f"{place_name(view.place, snapshot.profile)} {view.title}" for view in found[:6]]
        more = f" and {len(found) - 6} more" if len(found) > 6 else ""
        return (f"{plain(name)} may be {', '.join(told)}{more}", "type one more part of its name")
    if not slot:
        return ("nothing is owed here", "name the slot before the value: gray len 41 3/8")
    if not value:
        view = snapshot.slot(slot)
        unit = f", in {view.own_unit}" if view is not None else ""
        return (f"{plain(name)} has no value behind it{unit}", f"for example {plain(name)} 41 3/8")
    return ()


def filled(words: Words, units: str) -> str:
    return numbers.fill(words, units)


def not_saved_line(result: NotSaved, units: str) -> str:
    """What waits to be saved, and why."""
    reason = filled(result.reason, units).removeprefix("not saved: ")
    return f"NOT SAVED: {filled(result.said, units)}: {reason}"


def refusal_lines(refused: Refused, units: str) -> tuple[str, ...]:
    """Why, and what would do: the reason first, then examples or choices."""
    lines = [filled(refused.reason, units)]
    lines.extend(filled(more, units) for more in refused.more)
    if refused.ask == CONFIRM:
        lines.append("Enter again takes it as one more reading; Esc drops it")
    elif refused.ask == MEANING:
        choices = ", ".join(
            f"{number}: {plain(choice)}" for number, choice in enumerate(refused.examples, start=1)
        )
        lines.append(f"press the number of what is meant: {choices}")
    elif refused.examples:
        lines.append(f"for example {' or '.join(plain(example) for example in refused.examples)}")
    return tuple(lines)


def question_of(refused: Refused, left: str, piece: str, value: str) -> Question | None:
    """The question that a refusal asks, bound to the text that stays in the line."""
    if refused.ask == CONFIRM:
        return Question(CONFIRM, left)
    if refused.ask == MEANING:
        head, tail = piece[: len(piece) - len(value)], left[len(piece) :]
        return Question(MEANING, left, tuple(f"{head}{choice}{tail}" for choice in refused.examples))
    return None
