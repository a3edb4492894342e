"""`bellypan day`: what is left of today and comes first tomorrow; a day begun, its stop set, ended, from a script."""

from collections.abc import Sequence

from logic.data.quantities import fill
from logic.data.state import Assessment, Instant, State
from logic.session.intents import BeginDay, EndDay, Intent, SetPace
from logic.session.session import Session
from tui.command_line.arguments import Given
from tui.command_line.clock import clock_text, now, stamp
from tui.command_line.exit_codes import DONE, fault
from tui.command_line.printing import say_all, say_json
from tui.command_line.recording import recorded_in_turn
from tui.command_line.sessions_held import held, watched
from tui.command_line.status import count_of, time_lines
from tui.show.clock import TIMES_TO_COME, time_to_come

EXPECTED = "SESSION, or SESSION begin|end"
VERBS = ("begin", "end")
MOST_NAMED = 5
YES_OR_NO = {"yes": True, "no": False}


def run(given: Given) -> int:
    words = given.operands
    if not words:
        raise fault("day lacks a session", expected=EXPECTED)
    as_json = given.has("--json")
    wanted = intents(given)
    if not wanted:
        with watched(words[0]) as session:
            listed(session, as_json)
        return DONE
    with held(words[0]) as session:
        code = recorded_in_turn(session, wanted, as_json=as_json)
        if code is not None:
            return code
        if as_json:
            listed(session, as_json)
    return DONE


def intents(given: Given) -> list[Intent]:
    """What the call asks for, in order; none: only to be told."""
    verb = given.operands[1] if len(given.operands) > 1 else ""
    if verb and verb not in VERBS:
        raise fault(f"day doesn't know {verb}", expected=EXPECTED)
    stop = given.option("--stop")
    if stop is not None and verb != "begin":
        raise fault("--stop is of a day that begins", expected="SESSION begin --stop 16:30")
    wanted: list[Intent] = []
    if verb == "begin":
        wanted.append(BeginDay(None if stop is None else stop_of(stop)))
    pace = given.option("--first-timer")
    if pace is not None:
        if pace not in YES_OR_NO:
            raise fault(f"--first-timer {pace}", expected="yes or no")
        wanted.append(SetPace(YES_OR_NO[pace]))
    if verb == "end":
        wanted.append(EndDay())
    return wanted


def stop_of(typed: str) -> float:
    stop = time_to_come(typed, now())
    if stop is None:
        raise fault(f"--stop {typed}", expected=TIMES_TO_COME)
    return stop


def listed(session: Session, as_json: bool) -> None:
    """The day as it stands: worked, left, what fits, what comes first tomorrow, for whom minutes are planned."""
    today = now()
    assessment = session.assess(today)
    day = assessment.day
    if as_json:
        say_json({
            "days": [
                {
                    "began": stamp(each.began.at),
                    "stop_at": None if each.stop_at is None else stamp(each.stop_at),
                    "ended": None if each.ended is None else stamp(each.ended.at),
                }
                for each in session.state.days
            ],
            "first_timer": session.state.first_timer,
            "minutes_left": assessment.minutes_left,
            "under_left": assessment.under_left,
            "beside_left": assessment.beside_left,
            "spent": day.spent if day is not None else 0.0,
            "fits": list(day.fits) if day is not None else [],
            "tomorrow": list(day.tomorrow) if day is not None else [],
        })  # fmt: skip
        return
    say_all([*day_lines(session.state, today), *time_lines(assessment), *plan_lines(assessment)])


def day_lines(state: State, today: Instant) -> list[str]:
    """Whether a day is open, and when it stops."""
    if not state.days:
        return ["day: none begun yet"]
    day = state.days[-1]
    if day.ended is not None:
        return [f"day {len(state.days)}: ended {clock_text(day.ended.at, today=today)}"]
    stop = (
        f", stop at {clock_text(day.stop_at, today=today)}"
        if day.stop_at is not None
        else ", no stop time set"
    )
    return [f"day {len(state.days)}: begun {clock_text(day.began.at, today=today)}{stop}"]


def plan_lines(assessment: Assessment) -> list[str]:
    """What fits into today, what comes first tomorrow, and whose minutes these are."""
    day = assessment.day
    if day is None:
        return []
    titles = {step.id: step.title for step in assessment.steps}
    lines = []
    if day.minutes_left is not None:
        lines.append(f"fits into today: {named(day.fits, titles) or 'no step that may start'}")
    if day.tomorrow:
        lines.append(f"first tomorrow: {named(day.tomorrow, titles)}")
    return [*lines, f"planned are {fill(day.pace, assessment.planned.rig.units)}"]


def named(steps: Sequence[str], titles: dict[str, str]) -> str:
    """The first few steps with their ids, and how many more there are."""
    said = [f"{titles.get(each, each)} ({each})" for each in steps[:MOST_NAMED]]
    if len(steps) > MOST_NAMED:
        said.append(f"and {count_of(len(steps) - MOST_NAMED, 'more step')}")
    return "; ".join(said)
