"""The steps of the work as they stand at one moment.

The templates say what the steps are, `work_facts.py` what happened to them, `gates.py` what else must be
true; here that becomes a state for each step, what blocks it, and what would release it.
"""

from collections.abc import Generator
from functools import lru_cache

import msgspec

from logic.assessment.case import Case
from logic.assessment.day_plan import day_of, in_gloves
from logic.assessment.gates import GATES, OVERRULABLE, block, made_safe
from logic.assessment.pieces import at_once
from logic.assessment.steps.cautions import CAUTIONS
from logic.assessment.steps.layout import PlannedStep
from logic.assessment.steps.minutes import learned, slowed
from logic.assessment.timers import TIMER_LENGTHS
from logic.assessment.work_facts import History, WorkFacts, facts_of
from logic.data.finding import Verdict
from logic.data.place_names import name_of
from logic.data.step import DONE, HELD, READY, RUNNING, SKIPPED, WAITING, Block, Step
from logic.data.wording import quantity, words
from logic.data.work_constants import ALCOHOL_TO_BOND, LEAK_CHECK, MINUTE

__all__ = ["blocks_of", "day_of", "facts_of", "steps_in_pieces", "steps_of", "with_verdict"]

# Blocks that the work itself releases in its order: a step waits for them. Any other holds it.
_WAITS = ("step:", "reading:", "live", "make-safe", "lapsed", "dead", "fuse-last")


def steps_of(case: Case) -> tuple[Step, ...]:
    """Every step of the work for this rig, in order, with its state and what blocks it. No session: none."""
    return at_once(steps_in_pieces(case))


def steps_in_pieces(case: Case) -> Generator[None, None, tuple[Step, ...]]:
    """The same, a piece for each step."""
    if case.state is None:
        return ()
    facts = facts_of(case)
    taught = _taught(facts)
    gloves = in_gloves(facts)
    titles = {planned.id: planned.title for planned in facts.planned}
    steps = []
    for planned in facts.planned:
        steps.append(
            _step(facts, planned, taught=taught.get(planned.template.id), gloves=gloves, titles=titles)
        )
        yield
    return tuple(steps)


def _taught(facts: WorkFacts) -> dict[str, float]:
    """Minutes by template, from the steps of that kind that were timed in this session."""
    spent: dict[str, list[float]] = {}
    for planned in facts.planned:
        if planned.id not in facts.events or planned.template.timer:
            continue
        history = facts.history(planned.id)
        if history.timed:
            spent.setdefault(planned.template.id, []).append(history.spent / MINUTE)
    return {template: minutes for template, each in spent.items() if (minutes := learned(each)) is not None}


def _step(
    facts: WorkFacts, planned: PlannedStep, *, taught: float | None, gloves: bool, titles: dict[str, str]
) -> Step:
    template = planned.template
    history = facts.history(planned.id)
    lapsed = _has_lapsed(facts, planned, history)
    done = facts.is_done(planned.id)
    settled = history.status in ("running", "skipped") or done
    blocks = () if settled else blocks_of(facts, planned, history=history, titles=titles)
    state = _state(planned, history=history, done=done, lapsed=lapsed, blocks=blocks, facts=facts)
    due, counted = _timer(facts, planned, history)
    began = history.began.at if history.began is not None else None
    planned_minutes = slowed(planned.minutes, first_timer=facts.state.first_timer, gloves=gloves)
    return Step(
        id=planned.id,
        template=template.id,
        place=planned.place,
        group=template.group,
        title=planned.title,
        state=state,
        minutes=planned_minutes if taught is None else taught,
        under=template.under,
        caution=CAUTIONS.get(template.caution, ""),
        blocks=blocks,
        held_note=history.note if history.status in ("held", "skipped") else "",
        lapsed=lapsed,
        started=began,
        ended=history.finished.at if history.finished is not None else None,
        due=due,
        counted=counted,
        spent=history.spent / MINUTE,
        record=template.record,
        live=template.live,
        meanwhile=template.meanwhile and facts.curing,
        source=template.source,
        after=planned.after,
        finishing=() if done or state == SKIPPED else _finishing(facts, planned, history),
        skippable=template.skippable,
        repeats=history.times_done,
        wants=tuple(dict.fromkeys((*planned.readings, *planned.takes))),
        recorded=history.recorded,
        overruled=history.overruled,
        clock=facts.steady.word_since(began if began is not None else 0.0) if due is not None else None,
    )


def _state(
    planned: PlannedStep,
    *,
    history: History,
    done: bool,
    lapsed: bool,
    blocks: tuple[Block, ...],
    facts: WorkFacts,
) -> str:
    if planned.template.timer == "dwell":
        if facts.dwell_of(planned.place.partition(".")[2]) is None:
            return WAITING
        return DONE if done else RUNNING
    if history.status == "skipped":
        return SKIPPED
    if history.status == "running":
        return RUNNING
    if done:
        return DONE
    if planned.template.timer == "leak" and history.status == "done":
        return RUNNING  # said to be done inside its half hour
    if history.status == "held":
        return HELD
    if not blocks:
        return READY
    return WAITING if any(each.id.startswith(_WAITS) for each in blocks) else HELD


def _has_lapsed(facts: WorkFacts, planned: PlannedStep, history: History) -> bool:
    if planned.template.make_safe:
        return facts.lapsed(planned.id)
    return (
        planned.template.timer == "alcohol"
        and history.status == "done"
        and facts.alcohol_dried_too_long(planned.id)
    )


def blocks_of(
    facts: WorkFacts, planned: PlannedStep, *, history: History, titles: dict[str, str]
) -> tuple[Block, ...]:
    """What must be true before this step starts, and is not: make safe, steps, readings, gates."""
    found: list[Block] = list(made_safe(facts, planned))
    for before in planned.after:
        if facts.is_done(before):
            continue
        found.append(_comes_first(before, titles[before], facts.history(before).status))
    found += [
        _to_be_read(slot, old=facts.newest(slot) is not None)
        for slot in planned.readings
        if facts.fresh(slot, facts.now) is None
    ]
    for name in planned.template.held_while:
        if name in history.overruled and name in OVERRULABLE:
            continue
        held = GATES[name](facts, planned)
        if held is not None:
            found.append(held)
    return tuple(found)


@lru_cache(maxsize=1024)
def _comes_first(step: str, title: str, status: str) -> Block:
    skipped, again = status == "skipped", status == "done"
    said = "skipped, and not accepted" if skipped else "to be done again" if again else "comes first"
    accept = "do it, or accept the skip in the punch list with a reason and a name"
    return block(
        f"step:{step}",
        text=words(f"{said}: {{title}}", title=title),
        release=words(accept if skipped else "do it first"),
    )


@lru_cache(maxsize=64)
def _to_be_read(slot: str, *, old: bool) -> Block:
    return block(
        f"reading:{slot}",
        text=words("{slot}: read over an hour ago" if old else "{slot}: not read", slot=name_of(slot)),
        release=words("read {slot} again" if old else "read {slot}", slot=slot),
    )


def _timer(facts: WorkFacts, planned: PlannedStep, history: History) -> tuple[float | None, float]:
    """When a step's timer is due by today's clock, and the seconds that count so far."""
    timer = planned.template.timer
    if timer == "dwell":
        bond = facts.dwell_of(planned.place.partition(".")[2])
        if bond is None:
            return None, 0.0
        return (facts.steady.shown(bond.due) if bond.due is not None else None), bond.counted
    if timer == "alcohol":
        if history.ended is None or history.status != "done":
            return None, 0.0
        bond_history = facts.history("bond-pad:" + planned.place)
        if bond_history.status in ("running", "done"):
            return None, 0.0
        from_wipe = facts.now - history.ended
        return facts.steady.shown(history.ended + ALCOHOL_TO_BOND), from_wipe
    if timer in TIMER_LENGTHS and history.started is not None and history.status in ("running", "done"):
        length = TIMER_LENGTHS[timer]
        return facts.steady.shown(history.started + length), min(length, facts.now - history.started)
    return None, 0.0


def _finishing(facts: WorkFacts, planned: PlannedStep, history: History) -> tuple[Block, ...]:
    """What must be true before a step may be called done."""
    timer = planned.template.timer
    if timer == "leak" and not facts.leak_waited(history):
        due = facts.steady.shown(history.started + LEAK_CHECK) if history.started is not None else None
        return (
            block(
                "leak",
                text=words("the paper lies for {wait}", wait=quantity(LEAK_CHECK, "hours")),
                release=words(
                    "start it, wait, then look at the paper"
                    if due is None
                    else "wait, then look at the paper"
                ),
                due=due,
            ),
        )
    if timer == "dwell":
        bond = facts.dwell_of(planned.place.partition(".")[2])
        if bond is None or not bond.reached:
            return (
                block(
                    "dwell",
                    text=words("adhesive is still inside its time"),
                    release=words("wait; then read the surface, after a night the lowest since"),
                    due=facts.steady.shown(bond.due) if bond is not None and bond.due is not None else None,
                ),
            )
    return ()


def with_verdict(steps: tuple[Step, ...], verdict: Verdict) -> tuple[Step, ...]:
    """The steps with what the verdict holds: the last walk and closing, which nothing may start past a stop.

    `verdict` counts what the steps themselves left open, so it can only be known after them.
    """

    found = []
    for step in steps:
        extra: tuple[Block, ...] = ()
        if step.template == "last-walk" and verdict.needs_open:
            extra = (
                block(
                    "needs-open",
                    text=words(
                        "{count} to be mended or accepted while the belly is open",
                        count=quantity(verdict.needs_open, "count"),
                    ),
                    release=words("mend each, or accept it with a reason and a name"),
                ),
            )
        elif step.template in ("close", "refit-pan") and not verdict.closable:
            extra = (
                block(
                    "verdict",
                    text=words("do not close: {count} stop", count=quantity(verdict.stop, "count")),
                    release=words("clear the punch list of all that stops closing"),
                ),
            )
        if extra and step.state in (READY, WAITING, HELD):
            state = HELD if step.state == READY else step.state
            step = msgspec.structs.replace(step, blocks=step.blocks + extra, state=state)
        found.append(step)
    return tuple(found)
