"""What the comparison must see: each kind of difference, put into a true answer by hand."""

import copy

import msgspec
import pytest

from tests.contract.headless import RIGS, bellypan
from tests.independent.compare import differences
from tests.independent.parts_compare import differences as parts_differences
from tests.independent.parts_compare import parts_of
from tests.independent.rig import Rig

PATH = RIGS / "two-tanks.toml"


@pytest.fixture(scope="module")
def answer():
    return bellypan("check", PATH, "--json").json


def changed(answer, name, **values):
    other = copy.deepcopy(answer)
    rows = [row for row in (*other["figures"], *other["findings"]) if row["id"] == name]
    assert len(rows) == 1, name
    rows[0].update(values)
    return other


@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("tank.gray.conductance", {"value": 9.999}),
        ("tank.gray.volume", {"value": None, "why_not": "a test"}),
        ("tank.gray.volume", {"unit": "m"}),
        ("tank.gray.volume", {"low": 1.0}),
        ("tank.gray.needed", {"high": 1e3}),
        ("tank.gray.spell.energy", {"value": 1.0}),
        ("run.gray-feed.gauge", {"value": 4}),
        ("dry-hot:heater.gray-pad", {"weight": "stop"}),
        ("dry-hot:heater.gray-pad", {"place": "tank.gray"}),
        ("dry-hot:heater.gray-pad", {"id": "foam-over:heater.gray-pad"}),
    ],
)
def test_a_wrong_entry_of_an_answer_is_seen_and_named(answer, name, values):
    rig = Rig.of_file(PATH)
    assert not differences(rig, answer)
    assert any(line.startswith(name) for line in differences(rig, changed(answer, name, **values)))


def test_a_place_that_another_beats_is_seen(answer):
    # x itself is taken from the answer, and so is what follows: only the search can tell that it isn't the nearest
    other = changed(answer, "heater.gray-pad.x", value=0.0254)
    assert any(line.startswith("heater.gray-pad place") for line in differences(Rig.of_file(PATH), other))


def test_a_figure_or_finding_too_few_or_too_many_is_seen(answer):
    rig = Rig.of_file(PATH)
    for kind in ("figures", "findings"):
        fewer, more = copy.deepcopy(answer), copy.deepcopy(answer)
        gone = fewer[kind].pop(0)
        more[kind].append({**more[kind][0], "id": f"tank.gray.{kind}"})
        assert any(line.startswith(gone["id"]) for line in differences(rig, fewer))
        assert any(line.startswith(f"tank.gray.{kind}") for line in differences(rig, more))


def test_a_wrong_cut_and_a_spool_too_many_are_seen():
    rig, parts = Rig.of_file(PATH), parts_of(PATH)
    assert not list(parts_differences(rig, parts))
    longer = msgspec.structs.replace(parts.cuts[0], length=parts.cuts[0].length + 1e-3)
    fewer, wrong = (
        msgspec.structs.replace(parts, cuts=cuts) for cuts in (parts.cuts[1:], (longer, *parts.cuts[1:]))
    )
    assert starting_with(parts_differences(rig, fewer), "cuts:")
    assert starting_with(parts_differences(rig, wrong), "cut (")
    first, *others = parts.spools
    for changes in (
        {"spools": ((99.0, ()), *first.plan.spools)},
        {"bought": 1.0},
        {"too_long": (0,)},
        {"spools": ((1.0, first.plan.spools[0][1]), *first.plan.spools[1:])},
        {"proven": False},
    ):
        bad = msgspec.structs.replace(first, plan=msgspec.structs.replace(first.plan, **changes))
        other = msgspec.structs.replace(parts, spools=(bad, *others))
        assert starting_with(parts_differences(rig, other), f"{first.id}:")


def starting_with(lines, name):
    return [line for line in lines if line.startswith(name)]
