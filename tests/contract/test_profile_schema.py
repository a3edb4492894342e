"""The JSON Schema of a profile: it takes what the check takes, and refuses what an editor can tell."""

import tomllib

import jsonschema
import pytest

from logic.data.profile_schema import profile_schema
from tests.contract.headless import RIGS
from tests.contract.profile_documents import LEFT_OUT, sound, with_value
from tests.contract.test_profile_keys import RIGHT, WRONG_FORMS

DEMO_RIGS = sorted(RIGS.glob("*.toml"))


@pytest.fixture(scope="module")
def validator():
    schema = profile_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def test_it_says_which_draft_it_is():
    assert profile_schema()["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@pytest.mark.parametrize("rig", DEMO_RIGS, ids=lambda path: path.stem)
def test_it_takes_the_demo_rigs(validator, rig):
    assert list(validator.iter_errors(tomllib.loads(rig.read_text()))) == []


def test_it_takes_every_value_at_its_limit(validator):
    assert list(validator.iter_errors(sound())) == []
    for at, value in RIGHT:
        if at != "tank.1.id":
            assert list(validator.iter_errors(with_value(at, value))) == [], (at, value)


# Forms that an expression lets through and the check doesn't: fractions that a tape hasn't.
BEYOND = {("tank.1.length", "5 9/8 in"), ("tank.1.length", "413/8 in"), ("tank.1.length", "3' 14\"")}


@pytest.mark.parametrize(("at", "value"), [(at, value) for at, _, value in WRONG_FORMS], ids=str)
def test_it_refuses_other_types_units_and_choices(validator, at, value):
    taken = not list(validator.iter_errors(with_value(at, value)))
    assert taken == (isinstance(value, str) and (at, value) in BEYOND)


@pytest.mark.parametrize(
    ("at", "value"),
    [
        ("tnak", []),
        ("tank.1.lenght", "1 in"),
        ("tank.1.outlet.z", "1 in"),
        ("tank.1.bottom_length", "1 in"),
        ("tank.2.bottom_length", LEFT_OUT),
        ("tank.3.fall", LEFT_OUT),
        ("heater.1.foot", "1 in"),
        ("heater.3.insulation", "R 5"),
        ("heater.3.at", {"x": "1 in", "y": "1 in"}),
        ("design.low", LEFT_OUT),
        ("supply", LEFT_OUT),
        ("tank.1.length", "41 3/8"),
        ("tank.1.length", 41),
        ("tank.1.length", "-41 in"),
        ("tank.1.length", "0 in"),
        ("design.low", "-12 kelvin"),
        ("run.1.gauge", "13 AWG"),
        ("run.1.fuse", "12 A"),
    ],
)
def test_it_refuses_what_an_editor_should_mark(validator, at, value):
    assert list(validator.iter_errors(with_value(at, value)))


def test_hourly_may_stand_in_place_of_the_low(validator):
    document = with_value("design.hourly", "week.csv", document=with_value("design.low", LEFT_OUT))
    assert list(validator.iter_errors(document)) == []
