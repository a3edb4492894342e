"""One who works a whole job by the program's own list, through the same intents as the keys.

Does what the steps offer, in their order, and reads what a sound rig would show. Nothing is overruled, nothing
skipped; what weighs *use* and needs the belly open is accepted before the last walk.
"""

from pathlib import Path

import pytest

from logic.assessment import assess as assessing
from logic.assessment.proving import proof_of
from logic.data.profile_file import load_profile
from logic.data.state import Assessment, Instant
from logic.data.step import DONE
from logic.session.intents import (
    AcceptItem,
    BeginDay,
    FinishStep,
    Intent,
    RecordInStep,
    RecordReading,
    Refused,
    StartStep,
)
from logic.session.session import Session, new_session

RIGS = Path(__file__).parents[1] / "rigs"
MORNING = 20_000 * 86_400.0 + 8 * 3600.0
MINUTE, HOUR = 60.0, 3600.0
# What a meter shows where everything is off, and what is found before anything is drilled.
MADE_SAFE = {
    "proven-dead": {"known source before": "12.6 V", "circuit": "0.0 V", "known source after": "12.6 V"},
    "gas-located": {"gas pipe": "seen, along the street side"},
    "mains-located": {"120 V cable": "seen, over the axle"},
}
MEASURED = ("cold-pad", "cold-circuit", "isolation", "isolation-wet", "fill", "energise", "current", "volts")


def finished(step_id: str, note: str = "") -> FinishStep:
    """A step called done, with what it must have written down."""
    return FinishStep(step_id, note, MADE_SAFE.get(step_id.partition(":")[0], {}))


class Technician:
    """Works by the program's own list, a minute for each thing."""

    def __init__(self, profile: Path, home: Path) -> None:
        self.at = MORNING
        self.session: Session = new_session(load_profile(profile), self.now, home=home, by="R. Tester")
        self.act(BeginDay())

    @property
    def now(self) -> Instant:
        return Instant(self.at)

    def act(self, intent: Intent) -> None:
        self.at += 1.0
        taken = self.session.act(intent, self.now)
        assert not isinstance(taken, Refused), (intent, taken)

    def look(self) -> Assessment:
        return self.session.assess(self.now)

    def read(self, slot: str, typed: str) -> None:
        self.act(RecordReading(slot, typed, confirmed=True))

    # --- what a sound rig shows ---

    def survey(self) -> None:
        """Every size twice, as the profile has it."""
        views = {view.slot: view for view in self.look().slots}
        for slot, view in views.items():
            for _ in range(view.owed if view.deciding else 0):
                self.at += 30.0
                assert view.value is not None
                self.read(slot, f"{view.value * 1000:.4f} mm")

    def weather(self) -> None:
        for slot, typed in (("work.surface", "16 °C"), ("work.air", "18 °C"), ("work.humidity", "40 %")):
            self.read(slot, typed)

    def measure(self, template: str, place: str) -> None:
        if template not in MEASURED:
            return
        case = assessing.case_of(self.session.profile, self.session.state, self.now)
        assessing.compute_figures(case)
        trials = {trial.slot: trial for trial in proof_of(case).trials}
        name = place.partition(".")[2]
        if template in ("cold-pad", "cold-circuit"):
            self.read(f"{place}.resistance", f"{trials[f'{place}.resistance'].expected + 0.2:.3f} Ω")
        elif template in ("isolation", "isolation-wet"):
            self.read(f"{place}.isolation", "OL")
        elif template == "fill":
            self.read(f"{place}.level", f"{case.value(f'tank.{name}.least_level') * 1000 + 5:.1f} mm")
        elif template == "energise":
            self.read("supply.volts", f"{self.session.profile.supply.volts:.2f} V")
        elif template == "current":
            self.read(f"{place}.current", f"{trials[f'{place}.current'].expected:.2f} A")
        elif template == "volts":
            for what, digits in (("volts", 2), ("drop_out", 3), ("drop_back", 3)):
                slot = f"{place}.{what}"
                self.read(slot, f"{trials[slot].expected:.{digits}f} V")

    # --- the work ---

    def do(self, step_id: str) -> None:
        template, _, place = step_id.partition(":")
        if template in ("alcohol", "bond-pad"):
            self.weather()
        if template == "cold-pad":
            self.read("meter.leads", "0.200 Ω")
        self.act(StartStep(step_id))
        self.at += MINUTE
        if template == "read-tank":
            self.survey()
        self.measure(template, place)
        if template == "leak-check":
            self.at += 30 * MINUTE
        if template == "seen-or-not":
            step = next(step for step in self.look().steps if step.id == step_id)
            self.act(RecordInStep(step_id, dict.fromkeys(step.record, "seen")))
        self.act(finished(step_id))

    def sleep_until_warm(self) -> None:
        """The next day: hours go by, the wall stays warm, the lowest since is read."""
        self.at += 25 * HOUR
        self.act(BeginDay())
        self.read("work.surface", "14 °C")

    def next_step(self) -> str | None:
        """What is offered; a circuit that is live is tested and switched off before anything else."""
        steps = {step.id: step for step in self.look().steps}
        offered = [step for step in self.look().day.offered if steps[step].group != "hand over"]
        live = [
            step
            for step in offered
            if steps[step].live and steps[step].template not in ("energise", "fuse-out")
        ]
        bonds = [step for step in offered if steps[step].template in ("bond-pad", "alcohol", "seal-edges")]
        for choice in (live, bonds[-1:], offered):
            if choice:
                return choice[0]
        return None

    def work(self, limit: int = 2000) -> None:
        """Until closed. What is found beside the work and mends only by another design is accepted."""
        for _ in range(limit):
            step = self.next_step()
            if step is not None:
                self.do(step)
                continue
            seen = self.look()
            if any(one.template == "close" and one.state == DONE for one in seen.steps):
                return
            waiting = {block.id for one in seen.steps for block in one.blocks}
            if "dwell" in waiting:
                self.sleep_until_warm()
            elif "needs-open" in waiting:
                for finding in seen.findings:
                    if finding.weight == "use" and finding.open and finding.accepted is None:
                        self.act(AcceptItem(finding.id, "known, and wanted so", "R. Tester"))
            else:
                held = [
                    (one.id, [block.id for block in one.blocks]) for one in seen.steps if one.state != DONE
                ]
                pytest.fail(
                    f"nothing may start: {held[:5]} {[f.id for f in seen.findings if f.weight == 'stop'][:9]}"
                )
        pytest.fail("the work never ended")
