"""Rules about the work itself: bonds in the cold, steps left open or held, adhesive, make safe, the sheet."""

from collections.abc import Iterator

from logic.assessment.case import Case
from logic.assessment.findings.rule import Find, find, rule
from logic.assessment.gate import MARGIN_ARITHMETIC
from logic.assessment.gates import why_lapsed
from logic.assessment.steps.order import comes_before_closing
from logic.assessment.work_facts import facts_of
from logic.data.constants import DEW_MARGIN
from logic.data.profile import Heater, Profile
from logic.data.step import DONE, HELD, SKIPPED, Step
from logic.data.wording import quantity, words
from logic.physics.bonding import dew_point


def _bond_begun(case: Case, heater: Heater) -> float | None:
    """When a heater's bond was begun; None: not yet. [steady s]"""
    history = facts_of(case).history(f"bond-pad:heater.{heater.id}")
    if history.status not in ("running", "done", "held"):
        return None
    return history.started if history.started is not None else history.ended


@rule("surface", weight="stop", per="heater", source="practice-bonding", session=True, open=True)
def bonded_too_cold(case: Case, heater: Heater) -> Find | None:
    """The bond was begun on a wall colder than the pad's sheet allows."""
    begun = _bond_begun(case, heater)
    if begun is None:
        return None
    surface = facts_of(case).fresh("work.surface", begun)
    if surface is None or surface.value >= heater.least_surface_degc - MARGIN_ARITHMETIC:
        return None
    return find(
        text=words(
            "{heater} was bonded at {surface}, its least is {least}",
            heater=heater.id,
            surface=quantity(surface.value, "temperature"),
            least=quantity(heater.least_surface_degc, "temperature"),
        ),
        remedy=words(
            "take it off and bond a new pad {gap} warmer, or accept it with a reason",
            gap=quantity(heater.least_surface_degc - surface.value, "difference"),
        ),
    )


@rule("dew", weight="stop", per="heater", source="iso-8502-4", session=True, open=True)
def bonded_near_dew_point(case: Case, heater: Heater) -> Find | None:
    """The bond was begun with the wall too near the dew point."""
    begun = _bond_begun(case, heater)
    if begun is None:
        return None
    facts = facts_of(case)
    surface, air, humidity = (facts.fresh(f"work.{slot}", begun) for slot in ("surface", "air", "humidity"))
    if surface is None or air is None or humidity is None or not 0.0 < humidity.value <= 1.0:
        return None
    dew = dew_point(air.value, humidity.value)
    margin = surface.value - dew
    if margin >= DEW_MARGIN - MARGIN_ARITHMETIC:
        return None
    return find(
        text=words(
            "{heater} was bonded {margin} {side} the dew point of {dew}, the least is {least} over it",
            heater=heater.id,
            margin=quantity(abs(margin), "difference"),
            side="over" if margin >= 0 else "under",
            dew=quantity(dew, "temperature"),
            least=quantity(DEW_MARGIN, "difference"),
        ),
        remedy=words(
            "take it off and bond a new pad at {warm} or over, or accept it with a reason",
            warm=quantity(dew + DEW_MARGIN, "temperature"),
        ),
    )


@rule("open-step", weight="stop", per="step", source="practice-order-of-work", session=True, open=True)
def step_left_open(case: Case, step: Step) -> Find | None:
    """A step before closing is not done, or was skipped."""
    if not comes_before_closing(step.template) or step.group == "confirm" or step.state == HELD:
        return None
    if step.state == SKIPPED:
        return find(
            text=words("skipped: {step} ({why})", step=step.title, why=step.held_note or "no reason given"),
            remedy=words("do it, or accept the skip with a reason and a name"),
        )
    if step.state == DONE or (step.group == "make safe" and step.repeats):
        return None
    return find(
        text=words("not done: {step}", step=step.title),
        remedy=words("do it, or skip it and accept the skip with a reason and a name"),
    )


@rule("held-step", weight="stop", per="step", source="practice-order-of-work", session=True, open=True)
def step_held(case: Case, step: Step) -> Find | None:
    """A step before closing is held, by a person or by a gate."""
    if not comes_before_closing(step.template) or step.group == "confirm" or step.state != HELD:
        return None
    if step.group == "make safe" and step.repeats:
        return None
    if step.held_note or not step.blocks:
        return find(
            text=words("held: {step} ({why})", step=step.title, why=step.held_note or "no reason given"),
            remedy=words("mend what it is held for, then finish it"),
        )
    first = step.blocks[0]
    parts = dict(first.text.parts)
    return find(
        text=words("held: {held_step}: " + first.text.template, held_step=step.title, **parts),
        remedy=first.release,
    )


@rule("confirm", weight="stop", per="step", source="practice-confirm", session=True, open=True)
def not_confirmed(case: Case, step: Step) -> Find | None:
    """Something is not confirmed that can't be seen once the belly is closed."""
    if step.group != "confirm" or step.state == DONE:
        return None
    return find(
        text=words("not confirmed: {step}", step=step.title),
        remedy=words("look at it under the vehicle and say so, or skip it and accept the skip"),
    )


@rule("dwell", weight="use", per="heater", source="practice-dwell", session=True)
def adhesive_inside_its_time(case: Case, heater: Heater) -> Find | None:
    """Adhesive has not had its sheet's hours yet."""
    bond = facts_of(case).dwell_of(heater.id)
    if bond is None or bond.reached:
        return None
    left = heater.dwell - bond.counted
    return find(
        text=words(
            "adhesive of {heater}: {counted} counted of {wanted}",
            heater=heater.id,
            counted=quantity(bond.counted, "hours"),
            wanted=quantity(heater.dwell, "hours"),
        ),
        remedy=words(
            "{left} more with the wall at {least} or over, and the surface read at the end",
            left=quantity(left, "hours"),
            least=quantity(heater.least_surface_degc, "temperature"),
        ),
    )


@rule("lapsed", weight="use", per="rig", source="practice-make-safe", session=True)
def make_safe_lapsed(case: Case, rig: Profile) -> Iterator[Find]:
    """Make safe was done and must be done again."""
    facts = facts_of(case)
    if facts.make_safe_lapsed:
        yield find(
            text=why_lapsed(facts),
            remedy=words("do the steps of make safe again before anyone goes under or touches wire"),
        )


@rule("no-sheet", weight="note", per="rig", source="practice-order-of-work", session=True)
def no_sheet(case: Case, rig: Profile) -> Find | None:
    """Closed, and no hand-over sheet made."""
    closed = any(step.template == "close" and step.state == DONE for step in case.steps)
    made = any(step.template == "sheet-made" and step.state == DONE for step in case.steps)
    if not closed or made or (case.state is not None and case.state.sheet_made is not None):
        return None
    return find(text=words("no hand-over sheet was made"), remedy=words("make it and hand it over"))
