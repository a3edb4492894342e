"""What a figure says that it hangs on, and that nothing moves it which can't be."""

import pytest

from logic.assessment.assess import assess
from logic.assessment.readings import uncertainty_of
from logic.data.profile import Position
from logic.data.profile_file import load_profile
from logic.data.slots import slots_by_id
from logic.data.state import Instant, Reading, State
from tests.contract.headless import RIGS
from tests.rig_builder import INCH, heater, profile, run, tank


@pytest.mark.parametrize("path", sorted(RIGS.glob("*.toml")), ids=lambda path: path.stem)
def test_each_slot_and_source_of_a_figure_is_listed_once(path):
    rig = load_profile(path).profile
    for figure in assess(rig).figures:
        for listed in (figure.slots, figure.sources):
            assert len(set(listed)) == len(listed), (figure.id, listed)
        assert set(figure.slots) <= slots_by_id(rig).keys(), figure.id


def test_a_floor_read_as_level_moves_nothing_of_an_empty_tank():
    # design rule · exact: without contents the mean level is 0 whatever the floor falls; nothing falls by less than 0
    rig = profile(tanks=(tank(shape="slope", fall=0.5 * INCH, fill=0.0),), heaters=(heater(),), runs=(run(),))
    level = Reading("r", "tank.galley.fall", "0", 0.0, Instant(0.0), resolution=INCH / 16, unit="in")
    figures = {figure.id: figure for figure in assess(rig, State(readings=(level,)), Instant(60.0)).figures}
    assert figures["tank.galley.conductance"].u == 0.0
    assert figures["tank.galley.volume"].u > 0.0


def test_the_least_level_over_a_floor_read_as_level_hangs_on_the_pad_at_its_high_end():
    # least_level = fall · (1 − x/length) + 1 in at the pad with the smaller x, if the floor falls at all
    pads = (
        heater("a", length=6 * INCH, at=Position(4 * INCH, 4 * INCH)),
        heater("b", length=6 * INCH, at=Position(20 * INCH, 4 * INCH)),
    )
    rig = profile(
        tanks=(tank(shape="slope", length=40 * INCH, fall=0.5 * INCH),),
        heaters=pads,
        runs=(run(feeds=("a", "b")),),
    )
    level = Reading("r", "tank.galley.fall", "0", 0.0, Instant(0.0), resolution=INCH / 16, unit="in")
    figures = {figure.id: figure for figure in assess(rig, State(readings=(level,)), Instant(60.0)).figures}
    u = uncertainty_of(level)
    # design rule · rel 1e-6: a difference of 10⁻⁶ m
    assert figures["tank.galley.least_level"].u == pytest.approx((1 - 4 / 40) * u, rel=1e-6)
