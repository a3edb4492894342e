"""Each key of a profile by itself: unknown, missing, of another type or unit, out of its limits.

The cases are the sentences of the program's own format, one by one; the limits are its limits.
"""

import pytest

from logic.data.profile_keys import BY_NAME, SECTIONS
from tests.contract.profile_documents import LEFT_OUT, faults_of, paths_of, sound, with_value

# (path to change, path of the fault, value that is wrong)
WRONG_FORMS = [
    ("format", "format", LEFT_OUT),
    ("format", "format", 2),
    ("format", "format", "1"),
    ("format", "format", True),
    ("rig", "rig", "a text"),
    ("rig.name", "rig.name", LEFT_OUT),
    ("rig.name", "rig.name", ""),
    ("rig.name", "rig.name", 5),
    ("rig.units", "rig.units", "imperial"),
    ("design.low", "design.low", LEFT_OUT),
    ("design.low", "design.low", "-12"),
    ("design.low", "design.low", -12),
    ("design.low", "design.low", "-12 kelvin"),
    ("design.low", "design.low", "-12 F"),
    ("design.low", "design.low", "nan degF"),
    ("design.low", "design.low", "inf degF"),
    ("design.low", "design.low", "1e400 degF"),
    ("design.low", "design.low", "12,5 degF"),
    ("design.low", "design.low", "- 12 degF"),
    ("design.low", "design.low", "12 degF 3"),
    ("design.nights", "design.nights", 2.5),
    ("design.nights", "design.nights", "2"),
    ("design.nights", "design.nights", True),
    ("design.nights", "design.nights", float("nan")),
    ("design.wind", "design.wind", "10 knots"),
    ("design.wind", "design.wind", "10 m"),
    ("supply.chemistry", "supply.chemistry", "lead"),
    ("supply.capacity", "supply.capacity", "200 A"),
    ("supply.volts", "supply.volts", "12.8 W"),
    ("supply.usable", "supply.usable", "0.8"),
    ("supply.usable", "supply.usable", "80 %"),
    ("supply.usable", "supply.usable", float("inf")),
    ("wiring.drop_limit", "wiring.drop_limit", 0.03),
    ("wiring.drop_limit", "wiring.drop_limit", "3 V"),
    ("parts.spools", "parts.spools", "25 ft"),
    ("parts.spools", "parts.spools", []),
    ("parts.spools", "parts.spools", ["25 ft", 100]),
    ("bay.1.water", "bay.belly.water", "yes"),
    ("bay.1.water", "bay.belly.water", 1),
    ("bay.1.floor", "bay.belly.floor", "7"),
    ("bay.1.floor", "bay.belly.floor", "R"),
    ("bay.1.floor", "bay.belly.floor", "7 R"),
    ("bay.1.floor", "bay.belly.floor", "R 7 m²K/W"),
    ("bay.1.leak", "bay.belly.leak", "4 W"),
    ("tank.1.length", "tank.galley.length", "41 3/8"),
    ("tank.1.length", "tank.galley.length", 41.375),
    ("tank.1.length", "tank.galley.length", "41 kg"),
    ("tank.1.length", "tank.galley.length", "5 9/8 in"),
    ("tank.1.length", "tank.galley.length", "413/8 in"),
    ("tank.1.length", "tank.galley.length", "3' 14\""),
    ("tank.1.length", "tank.galley.length", "41,375 in"),
    ("tank.1.length", "tank.galley.length", "41 3/8 in ± 1/8"),
    ("tank.1.length", "tank.galley.length", "nan in"),
    ("tank.1.length", "tank.galley.length", ""),
    ("tank.1.length", "tank.galley.length", ["41 in"]),
    ("tank.1.outlet", "tank.galley.outlet", "38 in"),
    ("tank.1.keepout", "tank.galley.keepout", {"x": "1 in"}),
    ("tank.1.keepout", "tank.galley.keepout.1", ["10 in"]),
    ("tank.1.keepout.1.x", "tank.galley.keepout.1.x", "10"),
    ("tank.1.wall_conductivity", "tank.galley.wall_conductivity", "0.4 W/K"),
    ("tank.1.fill", "tank.galley.fill", "half"),
    ("tank.1.origin", "tank.galley.origin", "street front"),
    ("tank.1.holds", "tank.galley.holds", "grey"),
    ("tank.1.shape", "tank.galley.shape", "ball"),
    ("tank.1.material", "tank.galley.material", "pvc"),
    ("tank.1.above", "tank.galley.above", "sky"),
    ("drain.1.material", "drain.galley-valve.material", "copper"),
    ("heater.1.thermostat", "heater.galley-a.thermostat", "45 degF"),
    ("heater.1.thermostat", "heater.galley-a.thermostat.off", {"on": "45 degF"}),
    ("heater.1.thermostat.on", "heater.galley-a.thermostat.on", "45"),
    ("heater.1.at.x", "heater.galley-a.at.x", 22),
    ("heater.1.dwell", "heater.galley-a.dwell", "3 days"),
    ("heater.1.tolerance", "heater.galley-a.tolerance", 0.1),
    ("heater.1.tolerance", "heater.galley-a.tolerance", [0.1]),
    ("heater.1.tolerance", "heater.galley-a.tolerance", ["-5 %", "10 %"]),
    ("heater.1.element", "heater.galley-a.element", "carbon"),
    ("heater.1.face", "heater.galley-a.face", "top"),
    ("run.1.gauge", "run.feed.gauge", "15 AWG"),
    ("run.1.gauge", "run.feed.gauge", "20 AWG"),
    ("run.1.gauge", "run.feed.gauge", "2 AWG"),
    ("run.1.gauge", "run.feed.gauge", "14"),
    ("run.1.gauge", "run.feed.gauge", 14),
    ("run.1.fuse", "run.feed.fuse", "12 A"),
    ("run.1.fuse", "run.feed.fuse", "15"),
    ("run.1.fuse", "run.feed.fuse", 15),
    ("run.1.fuse", "run.feed.fuse", "0 A"),
    ("run.1.chassis", "run.feed.chassis", "5 mV"),
    ("run.1.feeds", "run.feed.feeds", "galley-a"),
    ("run.1.feeds", "run.feed.feeds", [1]),
    ("run.1.bundle", "run.feed.bundle", "Main"),
    ("run.1.bundle", "run.feed.bundle", ""),
]

OUTSIDE_LIMITS = [
    ("rig.name", "rig.name", "n" * 61),
    ("rig.kind", "rig.kind", "k" * 61),
    ("rig.note", "rig.note", "n" * 501),
    ("design.low", "design.low", "-80.1 degC"),
    ("design.low", "design.low", "-112.1 degF"),
    ("design.cabin", "design.cabin", "150.1 degC"),
    ("design.nights", "design.nights", 0),
    ("design.nights", "design.nights", 61),
    ("design.nights", "design.nights", 10**400),
    ("design.wind", "design.wind", "-1 mph"),
    ("design.wind", "design.wind", "100.1 mph"),
    ("design.towing", "design.towing", "45 m/s"),
    ("design.hold", "design.hold", "0 degC"),
    ("design.hold", "design.hold", "32 degF"),
    ("design.hold", "design.hold", "31 degF"),
    ("supply.volts", "supply.volts", "0 V"),
    ("supply.volts", "supply.volts", "60.1 V"),
    ("supply.charging", "supply.charging", "-12 V"),
    ("supply.capacity", "supply.capacity", "0 Ah"),
    ("supply.capacity", "supply.capacity", "10001 Ah"),
    ("supply.usable", "supply.usable", 0),
    ("supply.usable", "supply.usable", 1.01),
    ("supply.peukert", "supply.peukert", 0.99),
    ("supply.peukert", "supply.peukert", 2.01),
    ("supply.converter", "supply.converter", "1001 A"),
    ("supply.other", "supply.other", "-1 A"),
    ("wiring.drop_limit", "wiring.drop_limit", "0.09 %"),
    ("wiring.drop_limit", "wiring.drop_limit", "20.1 %"),
    ("parts.slack", "parts.slack", "-1 %"),
    ("parts.slack", "parts.slack", "101 %"),
    ("parts.lay", "parts.lay", "0 in"),
    ("parts.ends", "parts.ends", "0 in"),
    ("parts.spools", "parts.spools", ["25 ft"] * 11),
    ("parts.spools", "parts.spools", ["301 ft"]),
    ("bay.1.area", "bay.belly.area", "0 ft²"),
    ("bay.1.area", "bay.belly.area", "1001 ft²"),
    ("bay.1.pan", "bay.belly.pan", "R 101"),
    ("bay.1.pan", "bay.belly.pan", "R -1"),
    ("bay.1.pan", "bay.belly.pan", "18 m²K/W"),
    ("bay.1.leak", "bay.belly.leak", "1001 W/K"),
    ("bay.1.leak", "bay.belly.leak", "-1 W/K"),
    ("bay.1.heat", "bay.belly.heat", "5001 W"),
    ("tank.1.length", "tank.galley.length", "-41 in"),
    ("tank.1.length", "tank.galley.length", "0 in"),
    ("tank.1.length", "tank.galley.length", "300 ft 1 in"),
    ("tank.1.wall", "tank.galley.wall", "0 in"),
    ("tank.1.wall_conductivity", "tank.galley.wall_conductivity", "0 W/m/K"),
    ("tank.1.wall_conductivity", "tank.galley.wall_conductivity", "10.1 W/m/K"),
    ("tank.1.fill", "tank.galley.fill", 1.01),
    ("tank.1.fill", "tank.galley.fill", -0.1),
    ("tank.1.outlet.x", "tank.galley.outlet.x", "0 in"),
    ("tank.1.outlet.diameter", "tank.galley.outlet.diameter", "-3 in"),
    ("tank.1.keepout.1.x", "tank.galley.keepout.1.x", "-1 in"),
    ("tank.1.keepout.1.length", "tank.galley.keepout.1.length", "0 in"),
    ("tank.1.keepout.1.why", "tank.galley.keepout.1.why", "w" * 61),
    ("tank.3.fall", "tank.fresh.fall", "-1 in"),
    ("drain.1.insulation", "drain.galley-valve.insulation", "-1 in"),
    ("drain.1.length", "drain.galley-valve.length", "0 in"),
    ("heater.1.watts", "heater.galley-a.watts", "0 W"),
    ("heater.1.watts", "heater.galley-a.watts", "5001 W"),
    ("heater.1.volts", "heater.galley-a.volts", "61 V"),
    ("heater.1.at.x", "heater.galley-a.at.x", "-1 in"),
    ("heater.2.foot", "heater.black-a.foot", "-1 in"),
    ("heater.1.dwell", "heater.galley-a.dwell", "337 h"),
    ("heater.1.before_filling", "heater.galley-a.before_filling", "-1 h"),
    ("heater.1.tolerance", "heater.galley-a.tolerance", [-1.1, 0.1]),
    ("heater.1.tolerance", "heater.galley-a.tolerance", [-0.1, 1.1]),
    ("heater.1.tolerance", "heater.galley-a.tolerance", [0.1, -0.05]),
    ("heater.1.tolerance", "heater.galley-a.tolerance", [0.1, 0.1]),
    ("run.1.length", "run.feed.length", "-1 ft"),
    ("run.1.length", "run.feed.length", "301 ft"),
    ("run.1.fuse", "run.feed.fuse", "110 A"),
    ("run.1.fuse_at", "run.feed.fuse_at", "-1 in"),
    ("run.1.switch", "run.feed.switch", "0 A"),
    ("run.1.switch", "run.feed.switch", "1001 A"),
    ("run.1.chassis", "run.feed.chassis", "0 Ω"),
    ("run.1.chassis", "run.feed.chassis", "1.1 Ω"),
    ("run.1.colour", "run.feed.colour", "c" * 61),
]

WRONG_IDS = [
    ("tank.1.id", "tank[1].id", LEFT_OUT),
    ("tank.1.id", "tank[1].id", ""),
    ("tank.1.id", "tank[1].id", "Galley"),
    ("tank.1.id", "tank[1].id", "1-galley"),
    ("tank.1.id", "tank[1].id", "galley_a"),
    ("tank.1.id", "tank[1].id", "g" * 25),
    ("tank.1.id", "tank[1].id", "galley\u200b"),
    ("tank.1.id", "tank[1].id", "galley\n"),
    ("tank.1.id", "tank[1].id", 7),
    ("tank.2.id", "tank[2].id", "galley"),
    ("bay.1.id", "bay[1].id", "open"),
    ("bay.1.id", "bay[1].id", "inside"),
    ("run.1.id", "run[1].id", "supply"),
    ("run.3.id", "run[3].id", "own"),
    ("run.3.id", "run[3].id", "chassis"),
]


@pytest.mark.parametrize(
    ("at", "path", "value"), WRONG_FORMS + OUTSIDE_LIMITS + WRONG_IDS, ids=lambda part: str(part)[:40]
)
def test_a_wrong_value_is_a_fault_at_its_path(at, path, value):
    faults = faults_of(with_value(at, value))
    assert path in [fault.path for fault in faults]
    for fault in faults:
        assert fault.file == "rig.toml"
        assert fault.found
        assert fault.expected


RIGHT = [
    ("design.low", "−12 degF"),
    # as a script writes a double that it has worked out: the format knows no greatest number of digits
    ("design.low", "-24.444444444444443 degC"),
    ("design.wind", "2.2352000000000003 m/s"),
    ("tank.1.length", "1.0509250000000001 m"),
    ("tank.1.length", "3.4479166666666665 ft"),
    ("tank.1.wall", "0.006349999999999999 m"),
    ("tank.1.insulation", "0.8805500000000001 m²K/W"),
    ("tank.1.insulation", "R 5.000000000000001"),
    ("heater.1.watts", "60.00000000000001 W"),
    ("design.low", "-12degF"),
    ("design.low", "-80 degC"),
    ("design.low", "-112 °F"),
    ("design.wind", "100 mph"),
    ("design.wind", "0 m/s"),
    ("design.nights", 60),
    ("supply.volts", "60 V"),
    ("supply.usable", 1),
    ("supply.peukert", 2),
    ("supply.other", "0 A"),
    ("wiring.drop_limit", "0.1 %"),
    ("wiring.drop_limit", "20 %"),
    ("parts.slack", "0 %"),
    ("parts.slack", "100%"),
    ("parts.spools", ["300 ft"] * 10),
    ("bay.1.area", "1000 ft²"),
    ("bay.1.area", "92.90304 m2"),
    ("bay.1.pan", "R 100"),
    ("bay.1.pan", "R0"),
    ("bay.1.leak", "1000 W/K"),
    ("bay.1.heat", "5000 W"),
    ("tank.1.length", "300 ft"),
    ("tank.1.length", "41⅜″"),
    ("tank.1.fill", 0),
    ("tank.1.fill", 1),
    ("tank.1.keepout", []),
    ("tank.3.fall", "0 in"),
    ("heater.1.watts", "5000 W"),
    ("heater.1.dwell", "336 h"),
    ("heater.1.dwell", "0 h"),
    ("heater.1.at.x", "0 in"),
    ("heater.1.tolerance", [-1, 1]),
    ("run.1.length", "0 ft"),
    ("run.1.fuse", "7.5 A"),
    ("run.1.fuse", "100 A"),
    ("run.1.chassis", "1 ohm"),
    ("run.1.gauge", "4 AWG"),
    ("rig.name", "n" * 60),
    ("rig.name", "e\u0301" * 30),
    ("rig.note", "n" * 500),
    ("tank.1.id", "g" * 24),
]


@pytest.mark.parametrize(("at", "value"), RIGHT, ids=lambda part: str(part)[:40])
def test_a_value_at_its_limit_is_taken(at, value):
    if at == "tank.1.id":
        document = with_value("drain.1.tank", value, document=with_value("heater.1.on", value))
        assert paths_of(with_value(at, value, document=document)) == []
        return
    assert paths_of(with_value(at, value)) == []


def test_the_document_of_these_tests_is_sound():
    assert faults_of(sound()) == ()


@pytest.mark.parametrize("section", [section.name for section in SECTIONS])
def test_an_unknown_key_is_a_fault_in_every_table_and_a_near_one_is_named(section):
    known = BY_NAME[section].keys[-1].name
    near = known[:-1] + known[-1] * 2
    number = "1." if BY_NAME[section].many else ""
    (fault,) = faults_of(with_value(f"{section}.{number}{near}", "1"))
    part = {
        "bay": "belly.",
        "tank": "galley.",
        "drain": "galley-valve.",
        "heater": "galley-a.",
        "run": "feed.",
    }
    assert fault.path == f"{section}.{part.get(section, '')}{near}"
    assert f"nearest is {known}" in fault.expected


def test_an_unknown_key_far_from_all_lists_those_that_are_known():
    (fault,) = faults_of(with_value("wiring.zzz", 1))
    assert fault.path == "wiring.zzz"
    assert "table, conductor, drop_limit" in fault.expected


def test_unknown_tables_and_inner_keys_have_their_paths():
    document = with_value("tnak", [], document=with_value("tank.1.outlet.z", "1 in"))
    document = with_value("tank.1.keepout.1.depth", "1 in", document=document)
    document = with_value("heater.1.thermostat.of", "1 degF", document=document)
    assert sorted(paths_of(document)) == [
        "heater.galley-a.thermostat.of",
        "tank.galley.keepout.1.depth",
        "tank.galley.outlet.z",
        "tnak",
    ]


def test_a_part_whose_id_is_at_fault_has_its_other_faults_by_number():
    document = with_value("tank.1.length", "41", document=with_value("tank.1.id", "Bad Id"))
    paths = paths_of(document)
    assert "tank[1].id" in paths
    assert "tank[1].length" in paths
    twice = with_value("heater.3.watts", "20", document=with_value("heater.3.id", "galley-a"))
    assert "heater[3].watts" in paths_of(twice)


def test_the_same_name_in_two_kinds_is_no_fault():
    document = with_value("bay.1.id", "feed", document=with_value("tank.2.place", "feed"))
    assert paths_of(with_value("tank.3.place", "feed", document=document)) == []


def test_every_required_key_is_missed_by_its_path():
    for section in SECTIONS:
        for key in section.keys:
            if not key.required or key.name == "id":
                continue
            number = "1." if section.many else ""
            document = sound()
            part = document[section.name][0] if section.many else document[section.name]
            part.pop(key.name)
            where = f"{section.name}.{part.get('id') + '.' if number else ''}{key.name}"
            assert where in paths_of(document)


def test_missing_tables_are_told_by_the_keys_that_are_missed():
    assert sorted(paths_of({"format": 1})) == [
        "design.low",
        "rig.name",
        "supply.capacity",
        "supply.chemistry",
    ]


def test_a_list_where_a_table_belongs_and_the_reverse():
    assert "tank" in paths_of(with_value("tank", {"id": "galley"}))
    assert "run[2]" in paths_of(with_value("run.2", "a"))
    assert "design" in paths_of(with_value("design", [{"low": "1 degF"}]))


@pytest.mark.parametrize("kind", ["bay", "tank", "drain", "heater", "run"])
def test_more_than_a_hundred_parts_of_a_kind_is_one_fault(kind):
    document = sound()
    document[kind] = [{**document[kind][0], "id": f"p{number}"} for number in range(101)]
    assert kind in paths_of(document)


def test_more_than_fifty_keepouts_is_a_fault():
    document = sound()
    document["tank"][0]["keepout"] *= 50
    assert paths_of(document) == []
    document["tank"][0]["keepout"] *= 2
    assert paths_of(document) == ["tank.galley.keepout"]
