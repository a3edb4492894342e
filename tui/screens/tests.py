"""The tests, expected beside measured, and what is likely wrong where they differ. Enter asks for a test's reading."""

from logic.assessment.diagnosis import diagnose
from logic.assessment.proving import proof_of
from tui.screens.full import Full
from tui.show.rows import Row
from tui.show.test_rows import test_rows
from tui.wiring import Wiring


class Tests(Full):
    KEYS = (("enter", "read it"), ("escape", "back"))

    def __init__(self, wiring: Wiring) -> None:
        super().__init__()
        self.wiring = wiring

    def title_text(self) -> str:
        return "tests: one circuit energised at a time, thermostats closed"

    def rows(self, width: int) -> list[Row]:
        snapshot = self.wiring.snapshot()
        case = self.wiring.case()
        proof = proof_of(case)
        off = any(trial.state == "off" for trial in proof.trials) or any(
            joint.extra.bad for joint in proof.joints
        )
        return test_rows(
            proof,
            diagnose(case) if off else None,
            width,
            snapshot.units,
            snapshot.marks,
            profile=snapshot.profile,
        )

    def row_opened(self, key: str) -> None:
        """Back to the desk, the line asking for that reading."""
        kind, _, rest = key.partition(":")
        slot = rest.partition(":")[0]
        if kind == "trial" and self.wiring.snapshot().slot(slot) is not None:
            self.wiring.target = slot
            self.dismiss("show")
