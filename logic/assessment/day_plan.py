"""What is left of the day and of the work: what fits, what is offered first, what comes first tomorrow."""

from logic.assessment.case import Case
from logic.assessment.moments import moment_of
from logic.assessment.work_facts import WorkFacts, facts_of
from logic.data.step import DONE, HELD, READY, RUNNING, SKIPPED, WAITING, DayPlan, Step
from logic.data.wording import Words, quantity, words
from logic.data.work_constants import FIRST_TIMER, GLOVES_BELOW_DEGC, IN_GLOVES, MINUTE

NOTHING_FITS = -1.0  # minutes left once the day has ended: not even a step without minutes of its own fits


def day_of(case: Case) -> DayPlan:
    """What is left of today and of the work. Waits are in no sum; `spent` is of today's steps."""
    steps = case.steps
    facts = facts_of(case)
    open_steps = [step for step in steps if step.state in (WAITING, READY, RUNNING, HELD)]
    left = _minutes_left(facts)
    offered = _offered(steps)
    over = bool(facts.state.days) and facts.state.days[-1].ended is not None
    fits, after = _fitting(steps, NOTHING_FITS if over else left)
    today = facts.case.now.day()
    return DayPlan(
        minutes_left=left,
        under_left=sum(_remaining(step) for step in open_steps if step.under),
        beside_left=sum(_remaining(step) for step in open_steps if not step.under),
        spent=sum(
            step.spent
            for step in steps
            if (history := facts.history(step.id)).began is not None
            and history.began.day() == today
            and step.template != "dwell"
        ),
        fits=fits,
        tomorrow=after,
        offered=offered,
        live=tuple(facts.live),
        moment=moment_of(facts, steps),
        pace=_pace(facts),
    )


def in_gloves(facts: WorkFacts) -> bool:
    """Whether the air was read today and is so cold that one works in gloves."""
    air = facts.newest("work.air")
    return air is not None and air.when.day() == facts.case.now.day() and air.value < GLOVES_BELOW_DEGC


def _pace(facts: WorkFacts) -> Words:
    """For whom minutes are planned, by which factors, and that they are nobody's measurement."""
    said = [
        "minutes of a first-timer, a technician's × {first}"
        if facts.state.first_timer
        else "a technician's minutes"
    ]
    if in_gloves(facts):
        said.append("× {gloves} in gloves, below {below}")
    return words(
        ", ".join(said) + " (common practice, no source); a kind of step that was timed goes by what it took",
        first=quantity(FIRST_TIMER, "number"),
        gloves=quantity(IN_GLOVES, "number"),
        below=quantity(GLOVES_BELOW_DEGC, "temperature"),
    )


def _minutes_left(facts: WorkFacts) -> float | None:
    day = facts.state.days[-1] if facts.state.days else None
    if day is None or day.ended is not None or day.stop_at is None or day.began.day() != facts.case.now.day():
        return None
    return max(0.0, (day.stop_at - facts.case.now.at) / MINUTE)


def _remaining(step: Step) -> float:
    """Minutes still planned for a step. A wait has none of its own."""
    return max(0.0, step.minutes - step.spent) if step.state == RUNNING else step.minutes


def _offered(steps: tuple[Step, ...]) -> tuple[str, ...]:
    """What may start now: fuses out, make safe again, what can go on during a cure, the rest in order."""
    ready = [step for step in steps if step.state == READY]
    return tuple(
        step.id
        for step in sorted(
            ready,
            key=lambda step: (
                step.template != "fuse-out",
                not (step.group == "make safe" and step.lapsed),
                not step.meanwhile,
            ),
        )
    )


def _fitting(steps: tuple[Step, ...], left: float | None) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Steps that fit into the time left, one after the other in order, and what comes first tomorrow.

    A step counts only if all before it are done or fit as well, and if nothing but steps, readings of the day
    or make safe are in its way: adhesive and weather are not planned away.
    """
    if left is None:
        return (), ()
    done = {step.id for step in steps if step.state in (DONE, SKIPPED)}
    fits: list[str] = []
    rest: list[str] = []
    order = {each: place for place, each in enumerate(_offered(steps))}
    for step in sorted(
        steps, key=lambda step: order.get(step.id, len(order) if step.state != RUNNING else -1)
    ):
        if step.state in (DONE, SKIPPED) or step.template == "dwell":
            continue
        released = all(
            each.id.startswith(("step:", "reading:")) or each.id in _PLANNABLE for each in step.blocks
        )
        if (
            not released
            or not all(before in done for before in step.after)
            or (step.state == HELD and step.held_note)
        ):
            rest.append(step.id)
            continue
        need = _remaining(step)
        if need <= left + 1e-9:
            left -= need
            fits.append(step.id)
            done.add(step.id)
        else:
            rest.append(step.id)
    make_safe = [step.id for step in steps if step.group == "make safe"]
    first = [each for each in rest if each not in make_safe][:3]
    return tuple(fits), (*make_safe[:1], *first) if first else ()


_PLANNABLE = frozenset({"lapsed", "make-safe", "dead", "live", "dry"})
