"""What holds where a profile says nothing, and how each unit may be spelled.

The defaults are the format's own; conversions are worked here from exact definitions (NIST SP 811,
appendix B).
"""

import pytest

from tests.contract.profile_documents import LEFT_OUT, profile_of, sound, with_value

INCH = 0.0254
R_US = 0.09290304 * (5 / 9) * 3600 / 1055.05585262


def degc(fahrenheit):
    return (fahrenheit - 32) / 1.8


@pytest.fixture(scope="module")
def profile():
    return profile_of(sound())


def test_the_design_s_defaults(profile):
    design = profile.design
    assert design.low_degc == pytest.approx(degc(-12), abs=1e-12)
    assert design.high_degc == pytest.approx(degc(8), abs=1e-12)
    assert design.nights == 2
    assert design.hold_degc == pytest.approx(degc(38), abs=1e-12)
    assert design.wind == pytest.approx(5 * 0.44704, abs=1e-12)
    assert design.cabin_degc == pytest.approx(degc(65), abs=1e-12)
    assert design.start_degc == pytest.approx(degc(50), abs=1e-12)
    assert design.warm_degc == pytest.approx(degc(77), abs=1e-12)
    assert design.towing is None
    assert design.hourly is None


@pytest.mark.parametrize(
    ("chemistry", "volts", "charging", "usable", "peukert"),
    [("lithium", 12.8, 14.6, 0.8, 1.0), ("agm", 12.1, 14.7, 0.5, 1.2), ("flooded", 12.1, 14.8, 0.5, 1.2)],
)
def test_the_supply_s_defaults_hang_on_its_chemistry(chemistry, volts, charging, usable, peukert):
    supply = profile_of(with_value("supply.chemistry", chemistry)).supply
    # E1 · design, defaults by chemistry · PRACTICE · exact
    assert (supply.volts, supply.charging) == (volts, charging)
    assert (supply.usable, supply.peukert) == (usable, peukert)
    assert (supply.battery_degc, supply.cutoff, supply.converter, supply.other) == (None, None, None, None)


def test_defaults_of_wiring_and_parts(profile):
    assert profile.wiring.table == "sae"
    assert profile.wiring.conductor_degc == 30.0
    assert profile.wiring.drop_limit == pytest.approx(0.03, abs=1e-15)
    assert profile.parts.slack == pytest.approx(0.15, abs=1e-15)
    assert profile.parts.ends == pytest.approx(12 * INCH, abs=1e-12)
    assert profile.parts.lay == pytest.approx(2 * INCH, abs=1e-12)
    assert profile.parts.spools == pytest.approx((25 * 0.3048, 100 * 0.3048), abs=1e-12)


def test_defaults_of_a_bay_a_tank_and_a_drain(profile):
    assert (profile.bays[0].leak, profile.bays[0].heat, profile.bays[0].water) == (0.0, 0.0, False)
    tank = profile.tanks[0]
    assert tank.wall == pytest.approx(0.25 * INCH, abs=1e-15)
    assert (tank.material, tank.wall_conductivity, tank.wall_limit_degc) == ("polyethylene", 0.40, 60.0)
    assert (tank.origin, tank.above, tank.fill) == ("front street", "cabin", 0.5)
    assert tank.floor == pytest.approx(5 * R_US, rel=1e-12)
    assert (tank.insulation, tank.top_insulation) == (0.0, 0.0)
    assert profile.tanks[1].outlet is None
    assert profile.tanks[1].keepout == ()
    drain = profile.drains[0]
    assert (drain.material, drain.wall_conductivity, drain.insulation) == ("abs", 0.19, 0.0)
    assert drain.conductivity == 0.035
    assert drain.place == "open"


def test_a_drain_is_where_its_tank_is_unless_it_says_otherwise():
    assert profile_of(with_value("drain.1.tank", "black")).drains[0].place == "belly"
    document = with_value("drain.1.place", "inside", document=with_value("drain.1.tank", "black"))
    assert profile_of(document).drains[0].place == "inside"


@pytest.mark.parametrize(("material", "conductivity"), [("abs", 0.19), ("pvc", 0.16), ("polyethylene", 0.40)])
def test_the_wall_conducts_as_its_material_does(material, conductivity):
    assert profile_of(with_value("drain.1.material", material)).drains[0].wall_conductivity == conductivity
    if material != "pvc":
        assert profile_of(with_value("tank.1.material", material)).tanks[0].wall_conductivity == conductivity
    stated = with_value("tank.1.wall_conductivity", "0.33 W/m/K")
    assert profile_of(stated).tanks[0].wall_conductivity == pytest.approx(0.33, abs=1e-15)


def test_defaults_of_a_heater(profile):
    pad, side, wrap = profile.heaters
    assert (pad.volts, pad.turned, pad.foot, pad.insulation) == (12.0, False, 0.0, 0.0)
    assert (pad.covered, pad.over_rib, pad.element) == (False, False, "resistive")
    assert pad.least_surface_degc == pytest.approx(10.0, abs=1e-12)
    assert (pad.dwell, pad.before_filling) == (72 * 3600.0, 24 * 3600.0)
    assert pad.tolerance == (-0.05, 0.10)
    assert (side.at, side.thermostat, wrap.at, wrap.thermostat) == (None, None, None, None)


def test_defaults_of_a_run(profile):
    feed, a, b = profile.runs
    assert (feed.gauge, feed.back, feed.chassis, feed.feeds) == (None, "own", 0.005, ())
    assert (feed.fuse, a.fuse, b.fuse) == ("auto", "none", "none")
    assert (a.fuse_at, a.switch, a.bundle, a.colour, a.outside) == (None, None, None, None, None)
    assert b.back == "a"
    stated = with_value("run.2.fuse", "7.5 A", document=with_value("run.1.fuse", "none"))
    assert [run.fuse for run in profile_of(stated).runs] == ["none", 7.5, "none"]
    assert profile_of(with_value("run.2.gauge", "12 AWG")).runs[1].gauge == 12


SPELLINGS = [
    ("design.wind", ["10 mph", "16.09344 km/h", "4.4704 m/s", "10mph", " 10  mph "], 4.4704),
    ("design.low", ["-12 degF", "-12 °F", "−12 °F", "-12.0 degF"], degc(-12)),
    ("design.low", ["-20 degC", "-20 °C", "-4 degF"], -20.0),
    ("bay.1.area", ["80 ft²", "80 ft2", "7.4322432 m²", "7.4322432 m2"], 80 * 0.3048**2),
    ("bay.1.pan", ["R 5", "R5", "R 5.0"], 5 * R_US),
    ("bay.1.pan", ["0.88 m²K/W", "0.88 m2K/W"], 0.88),
    ("run.1.chassis", ["5 mΩ", "5 mohm", "0.005 Ω", "0.005 ohm", "0.005 \u2126", "0.000005 kΩ"], 0.005),
    ("heater.1.dwell", ["72 h", "72.0 h"], 259200.0),
    ("wiring.drop_limit", ["3 %", "3%", "3.0 %"], 0.03),
    ("wiring.conductor", ["30 degC", "86 degF"], 30.0),
]
FIELDS = {
    "design.wind": lambda profile: profile.design.wind,
    "design.low": lambda profile: profile.design.low_degc,
    "bay.1.area": lambda profile: profile.bays[0].area,
    "bay.1.pan": lambda profile: profile.bays[0].pan,
    "run.1.chassis": lambda profile: profile.runs[0].chassis,
    "heater.1.dwell": lambda profile: profile.heaters[0].dwell,
    "wiring.drop_limit": lambda profile: profile.wiring.drop_limit,
    "wiring.conductor": lambda profile: profile.wiring.conductor_degc,
}


@pytest.mark.parametrize(
    ("path", "text", "value"), [(path, text, value) for path, texts, value in SPELLINGS for text in texts]
)
def test_each_spelling_of_a_unit_means_the_same(path, text, value):
    assert FIELDS[path](profile_of(with_value(path, text))) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    "text",
    ["41 3/8 in", '41-3/8"', "41+3/8 in", "3' 5 3/8\"", "3ft 5-3/8in", "41⅜″", "41.375 in", "3 ft 5 3/8 in"],
)
def test_lengths_are_read_by_the_grammar_of_the_tape(text):
    # T1 · design grammar · COMPUTED · 1e-12
    assert profile_of(with_value("tank.1.length", text)).tanks[0].length == pytest.approx(1.050925, abs=1e-12)


@pytest.mark.parametrize("text", ["1051mm", "1051 mm", "105.1 cm", "1.051 m"])
def test_metric_lengths_are_read_too(text):
    # T2 · design grammar · COMPUTED · 1e-12
    assert profile_of(with_value("tank.1.length", text)).tanks[0].length == pytest.approx(1.051, abs=1e-12)


def test_a_cylinder_s_height_and_width_may_be_written_in_two_units():
    document = with_value("tank.1.shape", "cylinder", document=with_value("tank.1.width", "16.5 in"))
    assert profile_of(with_value("tank.1.height", "419.1 mm", document=document)).tanks[0].height > 0


def test_freezing_in_fahrenheit_is_freezing_to_the_last_digit():
    assert profile_of(with_value("design.hold", "32.000001 degF")).design.hold_degc > 0
    assert profile_of(with_value("design.cabin", "32 degF")).design.cabin_degc == 0.0


def test_the_high_is_twenty_degrees_of_fahrenheit_over_a_low_in_celsius():
    assert profile_of(with_value("design.low", "-10 degC")).design.high_degc == pytest.approx(-10 + 20 / 1.8)


def test_a_document_without_its_optional_tables_is_whole():
    document = {
        "format": 1,
        "rig": {"name": "bare"},
        "design": {"low": "0 degC"},
        "supply": {"chemistry": "agm", "capacity": "100 Ah"},
    }
    profile = profile_of(document)
    assert (profile.bays, profile.tanks, profile.drains, profile.heaters, profile.runs) == (
        (),
        (),
        (),
        (),
        (),
    )
    assert profile.rig.units == "us"


def test_the_low_may_be_left_out_only_with_hourly_rows():
    assert profile_of(with_value("design.low", "1 degF")).design.hourly is None
    from tests.contract.profile_documents import paths_of

    assert paths_of(with_value("design.low", LEFT_OUT)) == ["design.low"]
