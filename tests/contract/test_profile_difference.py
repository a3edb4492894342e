"""In what two profiles differ: values, parts, and not the way in which a value is spelt."""

import pytest

from logic.data.profile_difference import differences
from logic.data.profile_file import load_profile

RIG = """
format = 1

[rig]
name = "one tank"

[design]
low = "18 degF"
nights = 2

[supply]
chemistry = "lithium"
capacity = "200 Ah"
converter = "45 A"

[[tank]]
id = "gray"
holds = "gray"
shape = "box"
length = "38 1/2 in"
width = "21 in"
height = "8 3/4 in"
place = "open"
keepout = [{ x = "14 in", y = "0 in", length = "2 in", width = "21 in", why = "rib" }]

[[heater]]
id = "gray-pad"
on = "gray"
watts = "50 W"
length = "18 in"
width = "12 in"
face = "bottom"
thermostat = { on = "42 degF", off = "60 degF" }

[[run]]
id = "feed"
from = "supply"
length = "11 ft"
feeds = ["gray-pad"]
"""


@pytest.fixture
def compared(tmp_path):
    """The rig beside itself with one text put in place of another: each difference."""
    original = tmp_path / "original.toml"
    original.write_text(RIG)
    mine = load_profile(original)

    def compare(old: str, new: str):
        assert old in RIG
        changed = tmp_path / "changed.toml"
        changed.write_text(RIG.replace(old, new, 1))
        theirs = load_profile(changed)
        found = differences(
            mine.profile, theirs.profile, my_document=mine.document, their_document=theirs.document
        )
        return [(one.path, one.mine, one.theirs) for one in found]

    return compare


def test_a_profile_does_not_differ_from_itself(compared):
    assert compared("[rig]", "[rig]") == []


@pytest.mark.parametrize(
    ("old", "new", "difference"),
    [
        ('chemistry = "lithium"', 'chemistry = "agm"', ("supply.chemistry", "lithium", "agm")),
        ('low = "18 degF"', 'low = "17 degF"', ("design.low", "18 degF", "17 degF")),
        ("nights = 2", "nights = 3", ("design.nights", "2", "3")),
        ('x = "14 in"', 'x = "15 in"', ("tank.gray.keepout.1.x", "14 in", "15 in")),
        ('on = "42 degF"', 'on = "43 degF"', ("heater.gray-pad.thermostat.on", "42 degF", "43 degF")),
        ('converter = "45 A"\n', "", ("supply.converter", "45 A", "left out")),
        ("[[tank]]", '[wiring]\ndrop_limit = "5 %"\n[[tank]]', ("wiring.drop_limit", "left out", "5 %")),
    ],
)
def test_another_value_is_a_difference_as_each_side_writes_it(compared, old, new, difference):
    assert compared(old, new) == [difference]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('length = "38 1/2 in"', 'length = "38.5 in"'),
        ("nights = 2", "nights = 2 # two"),
        ("[[tank]]", '[wiring]\ndrop_limit = "3 %"\n[[tank]]'),
        ('converter = "45 A"', 'converter = "45.0 A"'),
    ],
)
def test_the_same_value_spelt_otherwise_is_no_difference(compared, old, new):
    assert compared(old, new) == []


def test_a_part_that_one_side_lacks_is_one_difference(compared):
    bay = '[[bay]]\nid = "pan"\narea = "4 ft2"\nfloor = "R 7"\npan = "R 4"\n\n[[tank]]'
    assert compared("[[tank]]", bay) == [("bay.pan", "left out", "there")]
