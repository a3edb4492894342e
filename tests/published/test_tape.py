"""The tape grammar and readings of meters, row by row."""

import msgspec
import pytest

from logic.data.slots import Slot, slots_by_id
from logic.data.tape import TapeFault, TypedReading, read_resolution, read_value, split_values, written_length
from tests.rig_builder import INCH, heater, profile, run, tank

RIG = profile(tanks=(tank(),), heaters=(heater(),), runs=(run(feeds=("galley-a",)),))


def slot(name: str) -> Slot:
    return slots_by_id(RIG)[name]


LENGTH, ROUTE = "tank.galley.length", "run.feed.length"


def read(typed: str, name: str = LENGTH, *, metric: bool = False, tape: float | None = None) -> TypedReading:
    return read_value(typed, slot(name), metric=metric, tape_resolution=tape)


def refused(typed: str, name: str = LENGTH, *, metric: bool = False) -> TapeFault:
    with pytest.raises(TapeFault) as caught:
        read(typed, name, metric=metric)
    return caught.value


@pytest.mark.parametrize(
    "typed",
    [
        "41 3/8", '41-3/8"', "41+3/8", '41+3/8"', "3' 5 3/8\"", "3' 5 3/8", "3'-5 3/8\"", "3ft 5-3/8in",
        "41⅜″", "41.375", "41 ⅜", "41 3⁄8", "3′ 5 3/8″", "  41 3/8  ",
    ],
)  # fmt: skip
def test_all_ways_of_writing_one_length_are_that_length(typed: str) -> None:
    # T1 · COMPUTED, the design's grammar · abs 1e-12: exact fractions, one rounding
    assert read(typed).value == pytest.approx(1.050925, abs=1e-12)


@pytest.mark.parametrize(
    ("typed", "name", "metric"),
    [
        ("1051mm", LENGTH, False), ("105.1 cm", LENGTH, False), ("1.051 m", LENGTH, False),
        ("1051", LENGTH, True), ("1.051", ROUTE, True),
    ],
)  # fmt: skip
def test_metric_lengths(typed: str, name: str, metric: bool) -> None:
    taken = read(typed, name, metric=metric)
    # T2 · COMPUTED · abs 1e-12: exact fractions, one rounding
    assert taken.value == pytest.approx(1.051, abs=1e-12)
    # T2 · design rule · exact: 1 mm for what is typed in metric
    assert taken.resolution == 0.001


@pytest.mark.parametrize(
    ("typed", "forms"),
    [
        ("3' 14\"", ("4' 2\"",)),
        ("5 9/8", ("6 1/8",)),
        ("413/8", ("41 3/8", "51 5/8")),
        ('13/8"', ('1 3/8"', '1 5/8"')),
        ("3' 13/8\"", ("3' 1 3/8\"", "3' 1 5/8\"")),
        ("5 1/3", ()),
        ("5⅓", ()),
        ("5 1/128", ()),
        ("3/0", ()),
        ("1 1/2 1/4", ()),
        ("--5", ()),
        ("5 6", ()),
        ("", ()),
        ("nan", ()),
        ("1e400", ()),
    ],
)
def test_what_is_no_length_is_refused_with_its_normal_form(typed: str, forms: tuple[str, ...]) -> None:
    fault = refused(typed)
    # T3 · design grammar · exact
    assert fault.found == typed
    assert len(fault.examples) == 2
    assert fault.normal_forms == forms
    for example in (*fault.examples, *fault.normal_forms):
        assert read(example).value > 0
    assert typed in str(fault)
    assert all(example in str(fault) for example in fault.examples)


def test_comma_is_asked_about_with_both_meanings() -> None:
    # T3 · design grammar · exact
    assert refused("41,375").question == ("41.375", "41375")
    assert refused("41,5").question == ("41.5", "41; 5")
    assert "41.375 or 41375" in str(refused("41,375"))
    assert refused("1,234,567").question == ()


@pytest.mark.parametrize(
    ("typed", "metres"),
    [
        ("14", 4.2672), ("14.5", 4.4196), ("14' 6", 4.4196), ("14 ft 6 in", 4.4196), ('174"', 4.4196),
        ("4.4196 m", 4.4196),
    ],
)  # fmt: skip
def test_bare_number_of_a_run_is_feet(typed: str, metres: float) -> None:
    # T4 · COMPUTED · abs 1e-12: exact fractions, one rounding
    assert read(typed, ROUTE).value == pytest.approx(metres, abs=1e-12)


@pytest.mark.parametrize(
    ("typed", "name", "metric", "forms"),
    [
        ("14 1/2", ROUTE, False, ("14' 6\"", '14 1/2"')),
        ("14+1/2", ROUTE, False, ("14' 6\"", '14 1/2"')),
        ("1/2", ROUTE, False, ('6"', '1/2"')),
        ("41 3/8", LENGTH, True, ('41 3/8"', "41.375 mm")),
        ("14 1/2", ROUTE, True, ("14' 6\"", '14 1/2"', "14.5 m")),
    ],
)
def test_bare_fraction_is_refused_in_feet_and_metric(
    typed: str, name: str, metric: bool, forms: tuple[str, ...]
) -> None:
    fault = refused(typed, name, metric=metric)
    # T4 · design grammar · exact: no feet or metric slot guesses
    assert fault.normal_forms == forms
    for form in forms:
        assert read(form, name, metric=metric).value > 0


def test_inches_with_their_mark_are_taken_in_a_metric_session() -> None:
    # T4 · COMPUTED · abs 1e-12: exact fractions, one rounding
    assert read('41 3/8"', metric=True).value == pytest.approx(1.050925, abs=1e-12)


@pytest.mark.parametrize("typed", ["41 3/8", "41", "41.375", "41 1/2"])
def test_resolution_is_the_tapes_own_whatever_was_written(typed: str) -> None:
    # T5 · design rule · exact
    assert read(typed).resolution == pytest.approx(INCH / 16, rel=1e-15)
    assert read(typed, tape=INCH / 32).resolution == INCH / 32


@pytest.mark.parametrize(
    ("typed", "millimetres"),
    [("41 3/8 ± 1/4", 6.35), ("3' 5 3/8 +- 1/8", 3.175), ("41+3/8+-1/8", 3.175), ("1051mm ± 2", 2.0)],
)
def test_resolution_typed_with_a_reading_is_its_own(typed: str, millimetres: float) -> None:
    # T5 · design rule · exact, one rounding
    assert read(typed).resolution == pytest.approx(millimetres / 1000.0, rel=1e-15)


def test_several_values_fill_the_next_slots_in_order() -> None:
    names = [f"tank.galley.{side}" for side in ("length", "width", "height")]
    values = [
        read(part, name).value for part, name in zip(split_values("41 3/8; 24; 9 1/2"), names, strict=True)
    ]
    # T5 · design rule · abs 1e-12: exact fractions, one rounding
    assert values == pytest.approx([1.050925, 0.6096, 0.2413], abs=1e-12)


@pytest.mark.parametrize("typed", ["41;;24", "41;", ";41", "; ".join(["1"] * 21), "1;" * 5000])
def test_broken_lists_are_refused(typed: str) -> None:
    with pytest.raises(TapeFault):
        split_values(typed)


def test_limits_of_lengths() -> None:
    for typed in ("0", "-41", "3600 1/16", "301'", "92 m"):
        refused(typed)
    # design rule · exact: up to 300 ft
    assert read("300'").value == pytest.approx(91.44, abs=1e-12)
    outlet = profile(tanks=(tank(shape="slope", fall=INCH),))
    fall = slots_by_id(outlet)["tank.galley.fall"]
    assert read_value("0", fall, metric=False).value == 0.0
    with pytest.raises(TapeFault):
        read_value("-1/4", fall, metric=False)
    assert read("0", "run.feed.fuse_at").value == 0.0


@pytest.mark.parametrize("typed", ["3' ± 1/2", "1051mm ± 1/16", "41 ± 0", "41 ±", "41 ± 1 ± 1", "± 1/4"])
def test_resolutions_that_say_nothing_are_refused(typed: str) -> None:
    refused(typed)


@pytest.mark.parametrize(
    "typed",
    [
        "41 3 / 8", "41 3/ 8", "41 - 3/8", "3' - 5", "3.5' 2", "1/2 ft", "41 1/2 mm", "41.5 3/8", "41.", "+5",
        "- 5",
        "41 3/8 kg", "3' 5 cm", "41 3/8 in in", "0x10", "४१", "1_000", "inf", "41\x00",
    ],
)  # fmt: skip
def test_near_misses_are_refused(typed: str) -> None:
    refused(typed)


def test_what_was_typed_is_shown_without_control_characters() -> None:
    fault = refused("\x1b[31m41\u202e")
    assert fault.found == "[31m41"
    assert len(refused("9" * 100_000).found) <= 60


# --- meters and weather ---

METERS = {
    "supply.volts": [
        ("12.8", 12.8, 0.1), ("12.80 V", 12.8, 0.01), ("12800 mV", 12.8, 0.001), ("-12.8", -12.8, 0.1),
    ],
    "heater.galley-a.drop_out": [("310", 0.310, 0.001), ("0.31 V", 0.31, 0.01), ("-0.1", -0.0001, 0.0001)],
    "heater.galley-a.resistance": [
        ("2.4", 2.4, 0.1), ("2.40 ohm", 2.4, 0.01), ("2400 mΩ", 2.4, 0.001), ("2400 mohm", 2.4, 0.001),
        ("2.4 kΩ", 2400.0, 100.0), ("0.0000024 MΩ", 2.4, 0.1), ("2.4 Ω ± 0.05", 2.4, 0.05),
    ],
    "run.feed.isolation": [("20", 20e6, 1e6), ("500 kohm", 5e5, 1e3), ("1 Mohm", 1e6, 1e6)],
    "run.feed.current": [("5.13", 5.13, 0.01), ("5130 mA", 5.13, 0.001)],
    "work.surface": [
        ("46", 70 / 9, 5 / 9), ("8 °C", 8.0, 1.0), ("-4 degF", -20.0, 5 / 9), ("-20C", -20.0, 1.0),
    ],
    "work.humidity": [("70", 0.70, 0.01), ("70.5 %", 0.705, 0.001)],
}  # fmt: skip


@pytest.mark.parametrize(
    ("name", "typed", "value", "resolution"),
    [(name, *row) for name, rows in METERS.items() for row in rows],
)
def test_readings_of_meters_and_weather(name: str, typed: str, value: float, resolution: float) -> None:
    taken = read(typed, name)
    # units: SI prefixes; °F by NIST SP 811, (F − 32)/1.8, a width without 32 · FOUND · rel 1e-12: arithmetic
    assert taken.value == pytest.approx(value, rel=1e-12)
    assert taken.resolution == pytest.approx(resolution, rel=1e-12)
    assert not taken.over


@pytest.mark.parametrize("typed", ["OL", "ol", "open", "> 20 MΩ", ">20 Mohm"])
def test_over_range_is_a_reading_of_resistance(typed: str) -> None:
    for name in ("heater.galley-a.resistance", "run.feed.isolation", "run.feed.resistance"):
        taken = read(typed, name)
        assert taken.over
        assert taken.value == 20e6
    for name in ("supply.volts", "run.feed.current", "work.air", LENGTH):
        refused(typed, name)
    assert read("> 200", "heater.galley-a.resistance").value == 200.0


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("supply.volts", "12 MV"), ("supply.volts", "5 A"), ("supply.volts", "5 1/2"), ("supply.volts", "5½"),
        ("supply.volts", "61"), ("run.feed.current", "1001"), ("heater.galley-a.resistance", "-1"),
        ("heater.galley-a.resistance", "2 µΩ"), ("work.humidity", "101"), ("work.humidity", "-1"),
        ("work.air", "400"), ("work.air", "-120 °C"), ("work.air", "12 3"), ("supply.volts", "12.8 ± 0"),
        ("supply.volts", "12,8"), ("run.feed.isolation", ">"), ("run.feed.isolation", "OL 5"),
    ],
)  # fmt: skip
def test_what_no_meter_shows_is_refused(name: str, typed: str) -> None:
    refused(typed, name)


def test_small_m_is_thousandths_and_large_m_is_millions() -> None:
    assert read("5 mΩ", "heater.galley-a.resistance").value == pytest.approx(0.005, rel=1e-15)
    assert read("5 MΩ", "heater.galley-a.resistance").value == 5e6


# --- the tape itself, and lengths of a file ---


def test_resolution_of_a_tape() -> None:
    assert read_resolution("1/16", metric=False) == pytest.approx(INCH / 16, rel=1e-15)
    assert read_resolution("1", metric=True) == 0.001
    assert read_resolution('1/32"', metric=True) == pytest.approx(INCH / 32, rel=1e-15)
    for typed in ("0", "-1/16", "2", "1/16 ± 1/32", "x", "1,5"):
        with pytest.raises(TapeFault):
            read_resolution(typed, metric=False)


def test_lengths_of_a_file_need_their_unit() -> None:
    assert written_length("3 ft 5 3/8 in") == pytest.approx(1.050925, abs=1e-12)
    assert written_length("-1 in") == pytest.approx(-INCH, rel=1e-15)
    for typed in ("41 3/8", "41", "3 ft ± 1 in", ""):
        with pytest.raises(TapeFault):
            written_length(typed)


def test_own_units_of_slots() -> None:
    # design rule · exact: inches, but feet for a run's length; mV for drops, MΩ for isolation
    units = {name: (one.us_unit, one.metric_unit) for name, one in slots_by_id(RIG).items()}
    assert units[LENGTH] == ("in", "mm")
    assert units[ROUTE] == ("ft", "m")
    assert units["run.feed.fuse_at"] == ("in", "mm")
    assert units["heater.galley-a.drop_back"] == ("mV", "mV")
    assert units["run.feed.isolation"] == ("MΩ", "MΩ")
    assert units["heater.galley-a.volts"] == ("V", "V")
    assert units["work.surface"] == ("°F", "°C")
    assert units["work.humidity"] == ("%", "%")


def test_slots_of_each_shape() -> None:
    def named(**values: object) -> set[str]:
        slots = slots_by_id(profile(tanks=(tank(**values),)))
        return {name.removeprefix("tank.galley.") for name in slots if name.startswith("tank.")}

    box = {"length", "width", "height", "wall", "level"}
    assert named() == box
    assert named(shape="slope", fall=INCH) == box | {"fall"}
    assert named(shape="taper", bottom_length=1.0, bottom_width=0.5) == box | {
        "bottom_length",
        "bottom_width",
    }
    # a cylinder has one slot for its diameter
    assert named(shape="cylinder", width=9 * INCH) == box - {"width"}


def test_every_struct_of_a_slot_is_frozen() -> None:
    with pytest.raises(AttributeError):
        slot(LENGTH).title = "x"  # type: ignore[misc]
    assert msgspec.structs.asdict(slot(LENGTH))["deciding"] is True
