"""Marks with their ASCII forms, and text measured in cells: numbers whole, labels shortened."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tui.show.cells import pad, shorten, width_of, wrap
from tui.show.large import HEIGHT, large, large_fits
from tui.show.marks import LETTERS, SIGNS, marks_for
from tui.show.rows import MOVED, PLAIN, Span, beside, changed_lines, folded, line, line_width, text_of


def test_marks_are_as_wide_in_both_sets():
    assert [width_of(sign) for sign in SIGNS] == [width_of(letter) for letter in LETTERS]


def test_plain_marks_are_ascii_and_tell_states_apart():
    "".join(LETTERS).encode("ascii")
    slots = [LETTERS.planned, LETTERS.single, LETTERS.agreed, LETTERS.dispute, LETTERS.impossible]
    assert len(set(slots)) == len(slots)


@pytest.mark.parametrize(
    ("encoding", "terminal", "marks"),
    [
        ("utf-8", "xterm-256color", SIGNS), ("latin-1", "xterm", LETTERS), ("ascii", "xterm", LETTERS),
        (None, "xterm", LETTERS), ("no-such", "xterm", LETTERS), ("utf-8", "linux", LETTERS),
    ],
)  # fmt: skip
def test_marks_are_those_that_the_terminal_has(encoding, terminal, marks):
    assert marks_for(encoding, terminal=terminal) is marks


@pytest.mark.parametrize(
    "text", ["gray tank length 41 3/8 in agreed", "holds to −17 °F and 35.1 gal", "± 0.6 gal and 12 to 16 h"]
)
def test_number_and_unit_are_never_parted(text):
    for width in range(12, 40):
        for part in wrap(text, width):
            assert not part.endswith(("41", "3/8", "−17", "35.1", "0.6", "16", "±"))


@given(st.text(max_size=80), st.integers(min_value=1, max_value=40))
def test_wrapped_lines_are_never_wider_than_asked(text, width):
    wide = max((width_of(sign) for sign in text), default=1)
    assert all(width_of(part) <= max(width, wide) for part in wrap(text, width))


@given(st.text(max_size=40), st.integers(min_value=0, max_value=30))
def test_shortened_label_fits(label, width):
    assert width_of(shorten(label, width)) <= width


def test_wide_and_combining_letters_are_measured_in_cells():
    assert width_of(pad("水", 6)) == 6
    assert width_of(pad("e\u0301", 4)) == 4
    assert width_of(shorten("水槽水槽水槽", 7)) <= 7


def test_value_beside_a_long_label_is_never_cut():
    lines = beside("a very long label of a slot", line(Span("41 3/8 in")), 20, column=16)
    assert all(line_width(each) <= 20 for each in lines)
    assert any("41 3/8 in" in text_of(each) for each in lines)


def test_spans_fold_whole():
    spans = (Span("12.31 V  "), Span("5.13 A  "), Span("drops 120 mV"))
    assert [text_of(each).strip() for each in folded(spans, 18)] == ["12.31 V  5.13 A", "drops 120 mV"]


def test_only_lines_that_differ_are_named():
    old = [line("a"), line("b"), line("c"), line("d")]
    new = [line("a"), line("x"), line("y"), line("d"), line("e")]
    assert list(changed_lines(old, new)) == [(1, 2), (4, 1)]


@pytest.mark.parametrize("text", ["41 3/8 in", "3' 5 3/8\"", "−12.5 °F", "1.12 MΩ", "105.1 cm", "OL"])
@pytest.mark.parametrize("ascii_only", [False, True])
def test_large_value_is_three_rows_alike_in_width(text, ascii_only):
    rows = large(text, ascii_only=ascii_only)
    assert len(rows) == HEIGHT
    assert len({width_of(row) for row in rows}) == 1
    if ascii_only:
        "".join(rows).replace("Ω", "").replace("°", "").encode("ascii")


def test_fraction_bar_has_a_glyph_of_its_own():
    assert [row.strip() for row in large("/")] == ["╱", "╱", "╱"]


def test_large_value_says_whether_it_fits():
    assert large_fits("41 3/8 in", 30)
    assert not large_fits("41 3/8 in", 10)


def test_blanks_around_what_moved_are_not_underlined():
    from tui.panes.painted import unlined

    assert unlined(Span("    was −96 °F ", MOVED)) == (
        Span("    ", PLAIN),
        Span("was −96 °F", MOVED),
        Span(" ", PLAIN),
    )
    assert unlined(Span("43 gal", MOVED)) == (Span("43 gal", MOVED),)
    assert unlined(Span("   ", MOVED)) == (Span("   ", PLAIN),)
