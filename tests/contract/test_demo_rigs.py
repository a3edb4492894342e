"""What the demo rigs are there to show: two sound designs, and one full of mistakes."""

import pytest

from logic.assessment.assess import assess
from logic.data.profile_file import load_profile
from tests.contract.headless import RIGS


def assessed(name):
    return assess(load_profile(RIGS / f"{name}.toml").profile)


def profile(name):
    return load_profile(RIGS / f"{name}.toml").profile


@pytest.mark.parametrize("name", ["two-tanks", "full-belly"])
def test_a_good_design_has_nothing_that_stops_closing_or_wants_mending(name):
    assessment = assessed(name)
    assert [one.id for one in assessment.findings if one.weight in ("stop", "use")] == []
    assert assessment.verdict.closable


@pytest.mark.parametrize("name", ["two-tanks", "full-belly"])
def test_a_good_design_holds_its_low_also_at_the_worse_edge(name):
    assessment = assessed(name)
    figures = {figure.id: figure for figure in assessment.figures}
    for tank in profile(name).tanks:
        held = figures[f"tank.{tank.id}.holds_to"]
        assert held.high < profile(name).design.low_degc
        assert figures[f"tank.{tank.id}.spell.ice_hours"].value == 0
        assert 0 < figures[f"tank.{tank.id}.spell.duty"].value < 1
    nights = figures["supply.nights"]
    assert nights.value >= profile(name).design.nights


def test_the_small_one_is_two_tanks_in_the_open_with_a_pad_each_and_a_shared_return():
    rig = profile("two-tanks")
    assert [tank.place for tank in rig.tanks] == ["open", "open"]
    assert [heater.on for heater in rig.heaters] == [tank.id for tank in rig.tanks]
    assert [run.back for run in rig.runs] == ["own", rig.runs[0].id]


def test_the_full_one_has_every_kind_of_part():
    rig = profile("full-belly")
    assert len(rig.tanks) == 3
    assert {tank.place for tank in rig.tanks} == {rig.bays[0].id}
    assert len(rig.heaters) >= 5
    assert len(rig.runs) >= 7
    assert {drain.id for drain in rig.drains} <= {heater.on for heater in rig.heaters}
    assert len({run.bundle for run in rig.runs if run.bundle}) >= 2
    assert all(heater.thermostat for heater in rig.heaters)
    assert any(tank.keepout for tank in rig.tanks)
    assert all(tank.outlet for tank in rig.tanks)
    assert rig.supply.converter is not None
    assert rig.design.nights == 3


MISTAKES = {
    "unfed:heater.spare-pad", "switch:run.gray-feed", "no-fuse:run.wrap-feed",
    "fuse-above-wire:run.black-feed",
    "return-above-wire:run.gray-feed", "fuse-far:run.gray-feed", "pad-fit:heater.gray-pad",
    "foam-over:heater.gray-pad", "foam-over:heater.black-wrap", "drop:heater.gray-pad",
    "drop:heater.black-pad",
    "battery:supply", "converter:supply", "cutoff:supply", "cold:tank.gray", "drain-first:drain.gray-leg",
    "low-liquid:tank.gray", "spell-ice:tank.gray", "bay-freezes:bay.belly", "dry-hot:heater.black-pad",
    "thermostat-low:heater.gray-pad", "wrap-short:heater.black-wrap", "slow-fuse:run.black-feed",
    "other-none:supply", "pad-far:heater.gray-pad", "thermostat-wall:heater.gray-pad",
}  # fmt: skip


def test_every_mistake_made_on_purpose_is_found():
    assessment = assessed("with-mistakes")
    assert {one.id for one in assessment.findings} >= MISTAKES
    assert not assessment.verdict.closable


def test_every_demo_rig_says_that_it_is_invented():
    for path in RIGS.glob("*.toml"):
        assert "invented" in load_profile(path).profile.rig.note.lower()
