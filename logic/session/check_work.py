"""Steps and days: what may start, end, be held, skipped or overruled.

What must be true first is worked out by the assessment, which gives each step its blocks; nothing here knows
a gate by name, save that make-safe is never skipped.
"""

from logic.assessment.make_safe_record import MAKE_SAFE, record_faults, what_to_do
from logic.assessment.work_facts import records_in_note
from logic.data import events as happened
from logic.data.clean_text import NAME_LIMIT, NOTE_LIMIT
from logic.data.faults import nearest_word
from logic.data.state import Instant
from logic.data.step import DONE, HELD, RUNNING, SKIPPED, Block, Step
from logic.data.wording import words
from logic.session.check_text import free_text, needed_text
from logic.session.intents import (
    BeginDay,
    Decided,
    EndDay,
    FinishStep,
    HoldStep,
    OverruleStep,
    RecordInStep,
    Refused,
    SetPace,
    SkipStep,
    StartStep,
)
from logic.session.standing import Standing

MOST_RECORDED = 20


def start_step(intent: StartStep, standing: Standing, now: Instant) -> Decided | Refused:
    """A step begins, if nothing holds it."""
    step = _step(intent.step, standing, now)
    if isinstance(step, Refused):
        return step
    if step.state == RUNNING and not step.lapsed:
        return Refused(words("{title} is running already", title=step.title))
    if step.blocks:
        return blocked(step)
    return Decided(happened.StepStarted(step.id), words("started: {title}", title=step.title))


def finish_step(intent: FinishStep, standing: Standing, now: Instant) -> Decided | Refused:
    """A step is done. One that was started may be ended; one that wasn't must be free to start."""
    step = _step(intent.step, standing, now)
    if isinstance(step, Refused):
        return step
    if step.state == DONE and not step.lapsed:
        return Refused(words("{title} is done already", title=step.title))
    if step.blocks and step.state != RUNNING:
        return blocked(step)
    if step.finishing:
        return blocked(step, step.finishing)
    note, recorded = free_text(intent.note, limit=NOTE_LIMIT), _recorded(intent.recorded)
    if isinstance(note, Refused):
        return note
    if isinstance(recorded, Refused):
        return recorded
    answers = {**records_in_note(note, step.record), **recorded}
    faults = record_faults(step, answers)
    if faults and intent.on_word and not answers:
        owed = ", ".join(name for fault in faults for name in fault.names)
        said = words(
            "done: {title}, on your word: nothing is written down of {owed}", title=step.title, owed=owed
        )
        return Decided(happened.StepDone(step.id, note, recorded), said)
    if faults:
        first, *rest = (fault.text for fault in faults)
        names = tuple(name for fault in faults for name in fault.names)
        return Refused(first, more=(*rest, what_to_do(step)), written_down=names)
    return Decided(happened.StepDone(step.id, note, recorded), words("done: {title}", title=step.title))


def hold_step(intent: HoldStep, standing: Standing, now: Instant) -> Decided | Refused:
    """A step waits for something; the note says for what."""
    step = _step(intent.step, standing, now)
    if isinstance(step, Refused):
        return step
    if step.state in (DONE, SKIPPED, HELD) and not step.lapsed:
        return Refused(words("{title} is {state}", title=step.title, state=step.state))
    note = free_text(intent.note, limit=NOTE_LIMIT)
    if isinstance(note, Refused):
        return note
    return Decided(happened.StepHeld(step.id, note), words("held: {title}", title=step.title))


def skip_step(intent: SkipStep, standing: Standing, now: Instant) -> Decided | Refused:
    """A step is left out; it stays a stop until the skip is accepted. Make-safe never is."""
    step = _step(intent.step, standing, now)
    if isinstance(step, Refused):
        return step
    if step.group == MAKE_SAFE or not step.skippable:
        return Refused(words("{title} can't be skipped", title=step.title))
    if step.state in (DONE, SKIPPED):
        return Refused(words("{title} is {state}", title=step.title, state=step.state))
    note, name = free_text(intent.note, limit=NOTE_LIMIT), free_text(intent.name, limit=NAME_LIMIT)
    if isinstance(note, Refused):
        return note
    if isinstance(name, Refused):
        return name
    return Decided(happened.StepSkipped(step.id, note, name), words("skipped: {title}", title=step.title))


def overrule_step(intent: OverruleStep, standing: Standing, now: Instant) -> Decided | Refused:
    """One thing that holds a step is set aside by a person, with a reason and a name."""
    step = _step(intent.step, standing, now)
    if isinstance(step, Refused):
        return step
    block = next((block for block in step.blocks if block.id == intent.gate), None)
    if block is None:
        return Refused(
            words("{gate} doesn't hold {title}", gate=intent.gate[:NAME_LIMIT], title=step.title),
            examples=tuple(block.id for block in step.blocks if block.overrulable),
        )
    if not block.overrulable:
        return Refused(words("this can't be overruled"), more=(block.text, block.release))
    reason = needed_text(intent.reason, limit=NOTE_LIMIT, what="a reason")
    if isinstance(reason, Refused):
        return reason
    name = needed_text(intent.name, limit=NAME_LIMIT, what="a name")
    if isinstance(name, Refused):
        return name
    said = words("overruled: {gate} of {title}", gate=block.id, title=step.title)
    return Decided(happened.StepOverruled(step.id, block.id, reason, name), said)


def record_in_step(intent: RecordInStep, standing: Standing, now: Instant) -> Decided | Refused:
    """Something seen or noted within a step, whatever its state."""
    step = _step(intent.step, standing, now)
    if isinstance(step, Refused):
        return step
    recorded = _recorded(intent.recorded)
    if isinstance(recorded, Refused):
        return recorded
    if not recorded:
        return Refused(words("nothing to record in {title}", title=step.title), examples=step.record)
    listed = ", ".join(f"{name}: {text}" for name, text in recorded.items())
    return Decided(
        happened.StepRecorded(step.id, recorded), words("{title}: {listed}", title=step.title, listed=listed)
    )


def begin_day(intent: BeginDay, standing: Standing, now: Instant) -> Decided | Refused:
    """A day's work begins, or today's stop is set anew."""
    if intent.stop_at is not None and not now.at < intent.stop_at <= now.at + 24 * 3600:
        return Refused(words("a day's stop lies ahead, within 24 hours"))
    return Decided(happened.DayBegun(intent.stop_at), words("day begun"))


def end_day(intent: EndDay, standing: Standing, now: Instant) -> Decided | Refused:
    """The open day ends."""
    days = standing.state.days
    if not days or days[-1].ended is not None:
        return Refused(words("no day is open"))
    return Decided(happened.DayEnded(), words("day ended"))


def set_pace(intent: SetPace, standing: Standing, now: Instant) -> Decided | Refused:
    """For whom minutes are planned from here on."""
    whom = "a first-timer" if intent.first_timer else "a technician"
    if standing.state.first_timer == intent.first_timer:
        return Refused(words("minutes are planned for {whom} already", whom=whom))
    return Decided(happened.PaceSet(intent.first_timer), words("minutes planned for {whom}", whom=whom))


def blocked(step: Step, blocks: tuple[Block, ...] | None = None) -> Refused:
    """The refusal of a step that something holds: what it is first, and what would release it."""
    first, *rest = blocks or step.blocks
    further = [sentence for block in rest for sentence in (block.text, block.release)]
    return Refused(
        first.text,
        more=(first.release, *further),
        overrulable=tuple(block.id for block in step.blocks if block.overrulable),
    )


def _step(step_id: str, standing: Standing, now: Instant) -> Step | Refused:
    steps = standing.assess(now).steps
    for step in steps:
        if step.id == step_id:
            return step
    nearest = nearest_word(step_id, (step.id for step in steps))
    return Refused(
        words("no step {step} in this rig", step=step_id[:80]), examples=(nearest,) if nearest else ()
    )


def _recorded(recorded: dict[str, str]) -> dict[str, str] | Refused:
    if len(recorded) > MOST_RECORDED:
        return Refused(words("at most {most} things are recorded at once", most=str(MOST_RECORDED)))
    clean: dict[str, str] = {}
    for name, text in recorded.items():
        said, value = free_text(name, limit=NAME_LIMIT), free_text(text, limit=NOTE_LIMIT)
        if isinstance(said, Refused):
            return said
        if isinstance(value, Refused):
            return value
        clean[said] = value
    return clean
