"""A profile written and read again is the same profile; what is no profile is refused in words."""

import contextlib
import math
import tomllib

from hypothesis import given, settings
from hypothesis import strategies as st

from logic.data.clean_text import clean_text
from logic.data.profile_check import check_document
from logic.data.profile_file import clean_document, parse_document
from logic.data.profile_keys import BY_NAME, RATINGS, SECTIONS, Key
from logic.data.profile_write import profile_text
from logic.data.units import SI_UNITS, UnitFault, length_text, quantity_text, read_quantity, route_text
from tests.contract.profile_documents import faults_of

INCH = 0.0254
SETTINGS = settings(derandomize=True, database=None, deadline=None, max_examples=60)

texts = st.text(max_size=80)
plain_values = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**62), 2**62) | st.floats(allow_nan=False) | texts,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(texts, inner, max_size=4),
    max_leaves=12,
)


def without_none(value):
    """TOML has no word for nothing."""
    if isinstance(value, dict):
        return {key: without_none(item) for key, item in value.items() if item is not None}
    if isinstance(value, list):
        return [without_none(item) for item in value if item is not None]
    return value


@SETTINGS
@given(st.dictionaries(texts, plain_values, max_size=6))
def test_any_document_is_written_so_that_it_reads_back(document):
    # A lone surrogate is no text that a file can hold.
    document = without_none(document)
    if any(0xD800 <= ord(character) <= 0xDFFF for character in repr(document)):
        return
    assert tomllib.loads(profile_text(document)) == document


def value_of(draw, key: Key):
    """A sound value of a key that hangs on no other part."""
    if key.kind in SI_UNITS:
        span = key.span
        share = draw(st.floats(0.02, 0.98))
        return quantity_text(span.low + share * (span.high - span.low), key.kind, metric=draw(st.booleans()))
    return {
        "text": lambda: draw(st.text(st.characters(codec="utf-8"), max_size=key.limit)),
        "choice": lambda: draw(st.sampled_from(key.choices)),
        "flag": lambda: draw(st.booleans()),
        "number": lambda: draw(st.floats(key.span.low + 1e-3, key.span.high)),
        "count": lambda: draw(st.integers(int(key.span.low), int(key.span.high))),
        "gauge": lambda: draw(st.sampled_from(["auto", "14 AWG", "4AWG"])),
        "fuse": lambda: draw(st.sampled_from(["auto", "none", *(f"{rating:g} A" for rating in RATINGS)])),
        "pair": lambda: [draw(st.floats(-1, -0.01)), draw(st.floats(0, 1))],
        "lengths": lambda: [
            draw(st.sampled_from(["25 ft", "7.5 m"])) for _ in range(draw(st.integers(1, 9)))
        ],
    }[key.kind]()


LEFT_TO_OTHERS = {"low", "high", "hold", "hourly", "id"}
SIMPLE = {*SI_UNITS, "text", "choice", "flag", "number", "count", "gauge", "fuse", "pair", "lengths"}


@st.composite
def documents(draw):
    """Sound documents: single tables and runs with any values, a tank or two with sizes that go together."""
    document = {"format": 1, "design": {"low": "-20 degC"}}
    for section in SECTIONS:
        if section.many:
            continue
        table = document.setdefault(section.name, {})
        for key in section.keys:
            wanted = key.required or draw(st.booleans())
            if key.kind in SIMPLE and key.name not in LEFT_TO_OTHERS and wanted:
                table[key.name] = value_of(draw, key)
    document["rig"]["name"] = "rig" + document["rig"].get("name", "")[:50]
    document["bay"] = [
        {
            "id": "belly",
            **{key.name: value_of(draw, key) for key in BY_NAME["bay"].keys if key.kind in SI_UNITS},
        }
    ]
    box = {
        "holds": "gray",
        "shape": "box",
        "length": "1 m",
        "width": "60 cm",
        "height": "9 in",
        "place": "inside",
    }
    document["tank"] = [{"id": "one", **box}, {"id": "two", **box, "fill": draw(st.floats(0, 1))}]
    pads = draw(st.integers(1, 4))
    simple_run = [key for key in BY_NAME["run"].keys if key.kind in SIMPLE and key.name != "id"]
    document["heater"] = [
        {"id": f"p{n}", "on": draw(st.sampled_from(["one", "two"])),
         "face": draw(st.sampled_from(["bottom", "side"])),
         "watts": value_of(draw, BY_NAME["heater"].key("watts")), "length": "9 in", "width": "6 in"}
        for n in range(pads)
    ]  # fmt: skip
    document["run"] = [
        {"id": f"r{n}", "from": "supply" if n == 0 else draw(st.sampled_from(["supply", "r0"])),
         "feeds": [f"p{n}"], **{key.name: value_of(draw, key) for key in simple_run}}
        for n in range(pads)
    ]  # fmt: skip
    return document


@SETTINGS
@given(documents())
def test_a_sound_document_is_the_same_profile_after_writing_and_reading(document):
    profile = check_document(document)
    again = parse_document(profile_text(clean_document(document)), file="again.toml")
    assert check_document(again) == profile
    assert clean_document(again) == again


@SETTINGS
@given(
    st.dictionaries(
        st.sampled_from(["format", *BY_NAME, "tnak"]), plain_values | st.lists(plain_values), max_size=9
    )
)
def test_any_document_at_all_is_a_profile_or_has_faults_in_words(document):
    for fault in faults_of(document):
        assert clean_text(fault.line()) == fault.line()


@SETTINGS
@given(texts, st.sampled_from(sorted(SI_UNITS)))
def test_no_text_makes_a_quantity_fail_in_another_way(text, kind):
    value = 0.0
    with contextlib.suppress(UnitFault):
        value = read_quantity(text, kind)
    assert math.isfinite(value)


@settings(SETTINGS, max_examples=200)
@given(st.floats(-91, 91), st.booleans())
def test_a_length_is_written_so_that_it_reads_back(length, metric):
    for text in (length_text(length, metric=metric), route_text(length, metric=metric)):
        assert abs(read_quantity(text, "length") - length) < 1e-9


@settings(SETTINGS, max_examples=200)
@given(st.integers(0, 64 * 3600))
def test_a_mark_of_the_tape_is_written_as_a_fraction(parts):
    text = length_text(parts / 64 * INCH)
    assert "." not in text
    assert abs(read_quantity(text, "length") - parts / 64 * INCH) < 1e-12


@settings(SETTINGS, max_examples=200)
@given(st.text(max_size=200))
def test_a_clean_text_is_printable_and_stays_as_it_is(text):
    clean = clean_text(text)
    assert clean_text(clean) == clean
    assert all(ord(character) >= 32 and not 0x7F <= ord(character) <= 0x9F for character in clean)
    assert not set(clean) & set(
        "\u00ad\u061c\u200b\u200e\u200f\u2028\u2029\u202a\u202e\u2060\u2066\u2069\ufeff"
    )


def test_combining_marks_stay():
    assert clean_text("e\u0301 क्ष \u0483") == "e\u0301 क्ष \u0483"
