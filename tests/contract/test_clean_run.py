"""A whole job without a mistake, through the same intents as the keys: at its end nothing stops closing."""

from logic.assessment import assess as assessing
from logic.assessment.figures import tanks
from logic.data.state import Assessment
from logic.data.step import READY
from tests.technician import HOUR, RIGS, Technician


def closed_without_a_stop(end: Assessment) -> None:
    assert [finding.id for finding in end.findings if finding.weight == "stop"] == []
    assert end.verdict.closable
    assert end.verdict.stop == 0
    assert end.day is not None
    assert end.day.live == ()
    assert {finding.rule for finding in end.findings} >= {"no-sheet", "dwell"}
    assert next(step.state for step in end.steps if step.id == "sheet-made:rig") == READY


def test_a_job_without_a_mistake_ends_closed_with_no_stop(tmp_path):
    technician = Technician(RIGS / "two-tanks.toml", tmp_path)
    try:
        assert not technician.look().verdict.closable
        technician.work()
        closed_without_a_stop(technician.look())
    finally:
        technician.session.close()


def nothing_found(case, accepted):
    yield
    return ()


def test_a_whole_rig_without_a_mistake_ends_closed_with_no_stop(tmp_path, monkeypatch):
    """Hundreds of steps: while they are worked through, only what steps ask for is worked out."""
    technician = Technician(RIGS / "full-belly.toml", tmp_path)
    try:
        with monkeypatch.context() as quick:
            quick.setattr(assessing, "FIGURES", (tanks,))
            quick.setattr(assessing, "findings_in_pieces", nothing_found)
            technician.work()
        technician.at += HOUR
        closed_without_a_stop(technician.look())
    finally:
        technician.session.close()
