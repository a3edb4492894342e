"""Rules about readings: what is owed, what is in dispute, what can't be, what is far from the plan."""

from logic.assessment.agreement import IN_DISPUTE, SINGLE
from logic.assessment.case import Case
from logic.assessment.findings.rule import Find, find, rule
from logic.assessment.readings import is_far_from_plan
from logic.data.place_names import name_of
from logic.data.state import SlotView
from logic.data.wording import Quantity, quantity, words


def _value(view: SlotView) -> Quantity | str:
    return "nothing" if view.value is None else quantity(view.value, view.kind)


@rule("planned", weight="stop", per="slot", source="practice-two-readings", session=True, open=True)
def deciding_slot_not_read(case: Case, view: SlotView) -> Find | None:
    """A slot that decides has no reading."""
    if not view.deciding or view.readings:
        return None
    return find(
        text=words(
            "{slot}: {value} planned, not read",
            slot=name_of(view.slot, case.profile),
            value=_value(view),
        ),
        remedy=words("read it twice"),
    )


@rule("single", weight="stop", per="slot", source="practice-two-readings", session=True, open=True)
def deciding_slot_read_once(case: Case, view: SlotView) -> Find | None:
    """A slot that decides has one reading."""
    if not view.deciding or view.state != SINGLE:
        return None
    return find(
        text=words("{slot}: read once", slot=name_of(view.slot, case.profile)),
        remedy=words("read it once more, without a look at the first"),
    )


@rule("dispute", weight="stop", per="slot", source="practice-agreement", session=True, open=True)
def readings_differ(case: Case, view: SlotView) -> Find | None:
    """The readings of a slot don't agree, or the newest agrees with none of those that do."""
    if view.state != IN_DISPUTE:
        return None
    values = [reading.value for reading in view.readings]
    return find(
        text=words(
            "{slot}: {count} readings differ, {least} to {most}",
            slot=name_of(view.slot, case.profile),
            count=quantity(len(values), "count"),
            least=quantity(min(values), view.kind),
            most=quantity(max(values), view.kind),
        ),
        remedy=words("read it once more; strike a reading that was wrong"),
    )


@rule("impossible", weight="stop", per="slot", source="", session=True, open=True)
def reading_contradicts(case: Case, view: SlotView) -> Find | None:
    """A reading contradicts another value of the rig."""
    if not view.impossible:
        return None
    return find(
        text=words(
            "{slot} {value}: {why}",
            slot=name_of(view.slot, case.profile),
            value=_value(view),
            why=view.impossible,
        ),
        remedy=words("read it again, move it to the slot where it belongs, or mend the other value"),
    )


@rule("far-from-plan", weight="note", per="slot", source="practice-far-from-plan", session=True)
def reading_far_from_plan(case: Case, view: SlotView) -> Find | None:
    """The value is off its plan by more than 10 % and 1 in, or has the other sign."""
    if not view.readings or view.value is None or view.planned is None:
        return None
    if not is_far_from_plan(view.value, view.planned, kind=view.kind):
        return None
    return find(
        text=words(
            "{slot} {value}: the plan says {planned}",
            slot=name_of(view.slot, case.profile),
            value=_value(view),
            planned=quantity(view.planned, view.kind),
        ),
        remedy=words("if it is right, change the plan; if it belongs to another slot, move it"),
    )
