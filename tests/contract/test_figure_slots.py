"""What a figure says that it hangs on, and that nothing moves it which can't be."""

import pytest

from logic.assessment.assess import assess
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
