"""The punch list of the work, and the verdict: each rule with a case that fires and one that doesn't."""

import pytest

from logic.assessment.findings import work as _rules  # noqa: F401 (declares)
from logic.assessment.findings.rule import findings_of
from logic.assessment.steps.layout import layout_of, planned_steps
from logic.assessment.verdict import verdict_of
from logic.assessment.work import with_verdict
from logic.data.finding import Acceptance, Finding
from logic.data.state import Instant, Item
from logic.data.step import HELD, READY
from tests.work_log import HOUR, MINUTE, TWO, Log, found

WORK = ("surface", "dew", "open-step", "held-step", "confirm", "dwell", "lapsed", "no-sheet")


def of_the_work(log: Log) -> list[Finding]:
    """Findings of this module's subject alone, whatever else is declared."""
    case = log.case()
    return [one for one in findings_of(case, dict(case.state.accepted)) if one.rule in WORK]


def test_an_open_step_stops_closing_and_goes_when_it_is_done():
    log = Log(TWO)
    assert "open-step:read-routes:rig" in found(log, "open-step")
    assert "open-step:read-routes:rig" not in found(log.done("read-routes:rig"), "open-step")
    assert not [
        one for one in found(log, "open-step") if one.startswith(("open-step:close", "open-step:dwell"))
    ]
    assert not [one for one in found(log, "open-step") if "confirm" in one]


def test_a_held_step_stops_closing_with_its_note():
    log = Log(TWO).event("cut:run.front", "held", note="no blue wire")
    assert found(log, "held-step") == ["held-step:cut:run.front"]
    assert "open-step:cut:run.front" not in found(log, "open-step")
    assert found(log.done("cut:run.front"), "held-step") == []


def test_a_step_held_by_its_gate_says_why():
    log = Log(TWO).all_of("profile-complete", "parts-bought", "drain-flush").make_safe()
    log.all_of("supports", "look-round", "seen-or-not", "read-routes")
    log.event("seen-or-not:rig", "recorded", recorded={"gas pipe": "not seen"})
    assert log.step("drill:run.front").state == HELD
    assert "held-step:drill:run.front" in found(log, "held-step")


def test_an_unconfirmed_thing_stops_closing_until_it_is_seen():
    log = Log(TWO)
    assert "confirm:confirm-clamps:rig" in found(log, "confirm")
    assert "confirm:confirm-clamps:rig" not in found(log.done("confirm-clamps:rig"), "confirm")


def test_closed_without_a_sheet_is_noted():
    log = Log(TWO).done("close:rig")
    assert found(log, "no-sheet") == ["no-sheet:rig"]
    assert found(log.done("sheet-made:rig"), "no-sheet") == []
    assert found(Log(TWO), "no-sheet") == []


def everything_done() -> Log:
    """A clean run over several days, every step in its order, with all that its gates ask for."""
    log = Log(TWO).begin_day()
    for planned in planned_steps(layout_of(TWO)):
        step, template = planned.id, planned.template
        if template.timer == "dwell" or template.group == "hand over":
            continue
        if template.id == "fuse-out":
            log.event(step, "done")
            continue
        if template.id == "alcohol":
            log.weather(surface=15.0)
        if template.id == "fill" and step == "fill:tank.galley":
            log.wait(24 * HOUR).read("work.surface", 14.0).make_safe()
        if template.timer == "leak":
            log.start(step).wait(31 * MINUTE).event(step, "done")
            continue
        if template.id in ("last-walk", "close", "refit-pan"):
            continue
        log.done(step)
    log.wait(72 * HOUR).read("work.surface", 14.0).make_safe()
    return log


def test_a_clean_run_leaves_nothing_of_the_work_open_but_the_last_walk():
    log = everything_done()
    left = [
        one for rule in ("open-step", "held-step", "confirm", "dwell", "lapsed") for one in found(log, rule)
    ]
    assert left == ["open-step:last-walk:rig"]
    assert log.step("last-walk:rig").state == READY
    log.done("last-walk:rig")
    assert [one for rule in ("open-step", "held-step") for one in found(log, rule)] == []
    assert log.step("close:rig").state == READY


@pytest.mark.parametrize(
    "missing", ["isolation-wet:run.front", "leak-check:tank.black", "confirm-loose:rig", "label:rig"]
)
def test_the_last_walk_waits_for_everything_before_it(missing):
    log = everything_done()
    log.steps = [event for event in log.steps if event.step != missing]
    assert f"step:{missing}" in log.blocks("last-walk:rig")


# --- the verdict ---


def test_the_verdict_counts_what_stands_and_an_accepted_skip_counts_as_done():
    log = everything_done().done("last-walk:rig")
    assert verdict_of(of_the_work(log)).closable
    log.event("photographs:rig", "skipped", note="camera drowned", name="R. Tester")
    assert not verdict_of(of_the_work(log)).closable
    log.accept("open-step:photographs:rig")
    assert verdict_of(of_the_work(log)).closable


def test_written_items_count_until_they_are_done_or_accepted():
    def item(state: str, weight: str = "stop") -> Item:
        accepted = Acceptance("late", "R. Tester") if state == "accepted" else None
        return Item("i", weight, "", "loose rail", Instant(0.0), state=state, accepted=accepted)

    assert not verdict_of((), (item("open"),)).closable
    assert verdict_of((), (item("done"),)).closable
    assert verdict_of((), (item("accepted"),)).closable
    assert verdict_of((), (item("open", "use"),)).closable
    assert verdict_of((), (item("open", "use"),)).use == 1


def test_closing_is_held_while_the_verdict_says_so():
    case = everything_done().done("last-walk:rig").case()
    stops = verdict_of((), (Item("i", "stop", "", "loose rail", Instant(0.0)),))
    held = {step.id: step for step in with_verdict(case.steps, stops)}
    assert held["close:rig"].state == HELD
    assert [block.id for block in held["close:rig"].blocks] == ["verdict"]
    free = {step.id: step for step in with_verdict(case.steps, verdict_of(()))}
    assert free["close:rig"].state == READY
