"""What is taken out of a text before it is stored, shown or put into an error: sign by sign."""

import pytest

from logic.data.clean_text import clean_text, short_text

REMOVED = [
    *range(0x09), 0x0B, 0x0C, *range(0x0E, 0x20), 0x7F, *range(0x80, 0xA0),
    0x00AD, 0x061C, *range(0x200B, 0x2010), *range(0x2028, 0x202F), *range(0x2060, 0x206A), 0xFEFF,
]  # fmt: skip
KEPT = [
    0x20,
    0x21,
    0x7E,
    0xA0,
    0xAC,
    0xAE,
    0x0301,
    0x0308,
    0x0483,
    0x093F,
    0x200A,
    0x2010,
    0x2027,
    0x2032,
    0x1F9F0,
]


def test_control_and_invisible_signs_are_removed():
    for code in REMOVED:
        assert clean_text(f"a{chr(code)}b") == "ab", hex(code)


def test_their_neighbours_and_combining_marks_stay():
    for code in KEPT:
        assert clean_text(f"a{chr(code)}b") == f"a{chr(code)}b", hex(code)


@pytest.mark.parametrize("text", ["a\nb", "a\r\nb", "a\tb", "a\n\n\tb"])
def test_a_new_line_and_a_tab_become_a_space_so_that_words_stay_apart(text):
    assert clean_text(text) == "a b"


def test_markup_is_text():
    assert clean_text("[bold]x[/bold] [/x] {y} %s") == "[bold]x[/bold] [/x] {y} %s"


def test_a_long_text_is_cut_with_an_ellipsis():
    assert short_text("x" * 60) == "x" * 60
    assert short_text("x" * 61) == "x" * 59 + "…"
    assert short_text("\x1b" * 5000 + "x") == "…"
    assert len(short_text("x" * 10**7)) == 60
