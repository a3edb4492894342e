"""What stands first at each moment of the work, with a value in it: the Figures pane of a job that is really worked.

A job is worked once by the program's own list, and the pane's rows are kept as they stood at each moment. What a
row should say is worked out here from the readings and the figures, or asked of the module that owns it, and put
into text by the project's one formatter.
"""

from typing import NamedTuple

import pytest

from logic.assessment import assess as assessing
from logic.assessment.proving import proof_of
from logic.assessment.trial import JointTrial, Trial
from logic.data.wording import NEAREST, UP
from logic.physics.bonding import dew_point
from logic.session.intents import RecordReading, StartStep
from tests.technician import RIGS, Technician
from tui.show import numbers
from tui.show.figure_rows import figure_rows
from tui.show.marks import SIGNS
from tui.show.rows import line_width, text_of
from tui.show.snapshot import Snapshot
from tui.wiring import Wiring

WIDTH = 46


class Seen(NamedTuple):
    """The pane at one moment."""

    snapshot: Snapshot
    text: list[str]  # each row as one text
    trials: dict[str, Trial]
    joints: tuple[JointTrial, ...]

    def first(self, count: int) -> str:
        return " | ".join(self.text[:count])

    def figure(self, figure_id: str) -> str:
        figure = next(each for each in self.snapshot.assessment.figures if each.id == figure_id)
        return numbers.figure_text(figure, "us").value

    def row(self, beginning: str) -> str:
        return next(text for text in self.text if text.startswith(beginning))


class Watched(Technician):
    """Keeps what the pane shows after each start of a step and each reading, by step or slot: the first of each."""

    def __init__(self, *args) -> None:
        self.seen: dict[str, Seen] = {}
        super().__init__(*args)

    def act(self, intent) -> None:
        super().act(intent)
        name = intent.step if isinstance(intent, StartStep) else getattr(intent, "slot", "")
        if isinstance(intent, (StartStep, RecordReading)) and name not in self.seen:
            self.seen[name] = self.pane()

    def pane(self) -> Seen:
        snapshot = Wiring(self.session, marks=SIGNS, now=lambda: self.now).snapshot()
        rows = figure_rows(snapshot, WIDTH)
        for row in rows:
            assert all(line_width(line) <= WIDTH for line in row.lines)
        case = assessing.case_of(self.session.profile, self.session.state, self.now)
        assessing.compute_figures(case)
        return Seen(
            snapshot,
            [" ".join(" ".join(text_of(line) for line in row.lines).split()) for row in rows],
            {trial.slot: trial for trial in proof_of(case).trials},
            proof_of(case).joints,
        )


@pytest.fixture(scope="module")
def job(tmp_path_factory):
    worker = Watched(RIGS / "two-tanks.toml", tmp_path_factory.mktemp("job"))
    worker.seen["begin"] = worker.pane()
    worker.work()
    worker.seen["night"] = worker.pane()
    return worker.seen


def shown(value: float, kind: str, side: int = NEAREST) -> str:
    return numbers.value_text(value, kind, "us", side)


def band(trial: Trial) -> str:
    return f"{shown(trial.expected, trial.kind)}, {shown(trial.low, trial.kind)} … {shown(trial.high, trial.kind)}"


def test_planning_holds_to_stands_first_then_the_nights(job):
    seen = job["begin"]
    assert seen.snapshot.assessment.moment == "planning"
    figure = next(each for each in seen.snapshot.assessment.figures if each.id == "tank.gray.holds_to")
    text = numbers.figure_text(figure, "us")
    assert text.band
    assert f"holds to {text.value} {text.band}" in seen.first(5)  # the worse edge is its band's
    assert f"nights it lasts {seen.figure('supply.nights')}" in seen.first(2)


def test_survey_asks_in_the_line_and_the_tank_in_hand_stands_first(job):
    seen = job["tank.gray.width"]
    assert seen.snapshot.assessment.moment == "survey"
    assert seen.text[0] == "gray tank"


def test_dry_fit_clearance_and_way_to_the_outlet_then_least_liquid_in_inches(job):
    seen = job["dry-fit:heater.gray-pad"]
    assert seen.snapshot.assessment.moment == "dry fit"
    assert f"least level {seen.figure('tank.gray.least_level')}" in seen.first(2)
    at = seen.text.index("pad gray-pad")
    assert seen.text[at + 1].startswith(f"pad clears by {seen.figure('heater.gray-pad.clearance')}")
    assert seen.text[at + 2].startswith(f"pad to outlet {seen.figure('heater.gray-pad.to_outlet')}")


def test_bonding_surface_and_its_margin_over_the_dew_point(job):
    seen = job["bond-pad:heater.gray-pad"]
    assert seen.snapshot.assessment.moment == "bonding"
    assert seen.row("surface").startswith(f"surface {shown(16.0, 'temperature')}")
    dew = dew_point(18.0, 0.40)  # checked against published pairs in tests/published
    margin = shown(16.0 - dew, "difference")
    assert f"over the dew point {margin}, wants" in seen.first(3)
    assert f"dew point {shown(dew, 'temperature')} ✓" in seen.first(3)
    assert "not known: read surface, air, humidity" in job["abrade:heater.gray-pad"].first(3)
    assert shown(10.0, "temperature") in seen.row("least surface")


def test_bonding_minutes_to_the_alarm_and_the_end_of_the_dwell(job):
    seen = job["seal-edges:heater.gray-pad"]
    assert ", in 71 h" in seen.row("next alarm")
    assert "gray-pad, gray-pad" not in seen.row("next alarm")
    assert "until" in seen.row("dwell pad")


def test_wiring_gauge_fuse_and_cut_then_drop_and_return(job):
    seen = job["pull:run.gray-feed"]
    assert seen.snapshot.assessment.moment == "wiring"
    names = ("gauge", "fuse", "cut", "drop", "return_current")
    assert seen.text[0] == "run gray-feed"
    for row, name in zip(seen.text[1:], names, strict=False):
        assert seen.figure(f"run.gray-feed.{name}") in row


def test_cold_tests_expected_ohms_and_whether_the_thermostat_is_closed(job):
    before, after = job["chill:heater.gray-pad"], job["heater.gray-pad.resistance"]
    assert after.snapshot.assessment.moment == "cold tests"
    trial = after.trials["heater.gray-pad.resistance"]
    assert before.text[1] == f"pad gray-pad should show {band(trial)}"
    assert after.text[1] == f"pad gray-pad should show {band(trial)}; read {shown(trial.corrected, 'ohms')} ✓"
    assert "not chilled yet" in before.row("pad gray-pad thermostat")
    assert after.row("pad gray-pad thermostat") == "pad gray-pad thermostat chilled, closed ✓"
    assert after.row("meter's leads").startswith(f"meter's leads {shown(0.2, 'ohms')}")
    assert (
        after.row("run gray-feed isolation")
        == f"run gray-feed isolation at least {shown(1e6, 'ohms')}; not read"
    )


def test_loaded_tests_amperes_expected_now_then_volts_then_what_the_joints_add(job):
    before, after = job["energise:run.gray-feed"], job["heater.gray-pad.drop_back"]
    assert after.snapshot.assessment.moment == "loaded tests"
    current, volts = after.trials["run.gray-feed.current"], after.trials["heater.gray-pad.volts"]
    assert before.text[1] == f"run gray-feed should draw {band(before.trials['run.gray-feed.current'])}"
    assert (
        after.text[1]
        == f"run gray-feed should draw {band(current)}; read {shown(current.measured, 'amps')} ✓"
    )
    assert after.text[2] == f"pad gray-pad should have {band(volts)}; read {shown(volts.measured, 'volts')} ✓"
    assert "not known: read current, volts and both drops" in before.row("pad gray-pad extra in joints")
    (joint,) = after.joints
    extra, u = shown(joint.extra.ohms, "ohms", UP), shown(joint.extra.u, "ohms", UP)
    assert after.row("pad gray-pad extra in joints") == f"pad gray-pad extra in joints {extra}, u {u} ✓"
    assert shown(joint.extra.watts, "power", UP) in after.row("pad gray-pad burnt in joints")
    assert after.row("pad gray-pad wall warms").endswith("not looked at yet")
    assert "Ctrl+T" not in " ".join(after.text)


def test_fill_gallons_and_inches_to_go_whether_it_may_be_filled_and_what_it_weighs(job):
    before, after = job["fill:tank.gray"], job["tank.gray.level"]
    assert after.snapshot.assessment.moment == "fill"
    least, level = before.figure("tank.gray.least"), before.figure("tank.gray.least_level")
    assert before.text[1] == f"gray tank lacks {least} and {level} from empty; no level read"
    assert "nothing: stands at" in after.text[1]
    assert before.row("gray tank may be filled") == "gray tank may be filled yes ✓"
    volume = next(each for each in before.snapshot.assessment.figures if each.id == "tank.gray.volume").value
    # NIST Handbook 44 appendix C: 1 lb = 0.45359237 kg; water taken as 1 kg/L.
    assert before.row("gray tank weighs full").startswith(
        f"gray tank weighs full {volume / 0.45359237:.0f} lb"
    )


def test_closing_stops_and_what_needs_the_belly_open_then_untested_then_notes(job):
    seen = job["last-walk:rig"]
    assert seen.snapshot.assessment.moment == "closing"
    verdict = seen.snapshot.assessment.verdict
    assert seen.text[1] == f"stops {numbers.count_text(verdict.stop, 'entry')}"
    assert seen.text[2].startswith("want the belly open")
    assert seen.text[3] == "untested none"
    assert seen.text[4] == f"notes {numbers.count_text(verdict.note, 'entry')}"


def test_a_night_later_each_tanks_inches_against_its_least_then_volts_hours_and_ice(job):
    seen = job["night"]
    assert seen.snapshot.assessment.moment == "a night, later"
    for number, tank in enumerate(("gray", "black"), start=1):
        level = next(
            each for each in seen.snapshot.assessment.slots if each.slot == f"tank.{tank}.level"
        ).value
        said = f"{tank} tank stands at {shown(level, 'length')}, least {seen.figure(f'tank.{tank}.least_level')} ✓"
        assert seen.text[number] == said
    assert seen.text[3].startswith(f"volts of the supply {shown(12.8, 'volts')}")
    assert f"battery lasts {seen.figure('supply.hours')}" in seen.first(6)
    assert seen.figure("tank.gray.hours_to_ice_least") in seen.row("gray tank, ice, at least liquid")


def test_a_tank_under_its_least_says_how_much_more(tmp_path):
    worker = Watched(RIGS / "two-tanks.toml", tmp_path)
    for step in ("drain-flush:tank.gray", "fill:tank.gray"):
        worker.session.act(StartStep(step), worker.now)
    from logic.assessment.facts_now import facts_now

    worker.read("tank.gray.level", "10 mm")
    seen = worker.look()
    values = {figure.id: figure.value for figure in seen.figures}
    (fact,) = facts_now(seen, worker.session.state, ("@to-go",), "tank.gray")["@to-go"]
    tank = seen.profile.tanks[0]
    floor = (tank.length - 2 * tank.wall) * (tank.width - 2 * tank.wall)  # a box: by plain multiplication
    more = values["tank.gray.least"] / 1000.0 - floor * 0.010
    said = f"{shown(more, 'volume')} and {shown(values['tank.gray.least_level'] - 0.010, 'length')} more; stands at"
    assert numbers.fill(fact.said, "us").startswith(said)
    assert fact.state == "off"
