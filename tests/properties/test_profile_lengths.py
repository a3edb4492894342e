"""A plain length of a profile is what the tape grammar makes of the same text, to the bit."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logic.data.profile_lengths import plain_length
from logic.data.units import UnitFault, read_quantity

digits = st.text("0123456789", min_size=1, max_size=6)
units = st.sampled_from(["in", "ft", "mm", "cm", "m"])
plain = st.one_of(
    st.builds("{} {}".format, digits, units), st.builds("{}.{} {}".format, digits, digits, units)
)
nearly = st.text("0123456789. infmc'/-\u0663\u2212", max_size=12)


@settings(max_examples=1500, deadline=None, derandomize=True, database=None)
@given(plain)
def test_a_plain_length_is_read_as_the_grammar_reads_it(text: str) -> None:
    assert plain_length(text) == read_quantity(text, "length")


@settings(max_examples=1500, deadline=None, derandomize=True, database=None)
@given(nearly)
def test_what_the_grammar_refuses_is_no_plain_length(text: str) -> None:
    found = plain_length(text)
    if found is None:
        return
    try:
        assert found == read_quantity(text, "length")
    except UnitFault:
        pytest.fail(f"{text!r} is no length, and was read as {found}")
