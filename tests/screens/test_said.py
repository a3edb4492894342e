"""What is said beside the reading line: whole entries, never a number cut off."""

import pytest

from tui.show.cells import width_of
from tui.show.rows import text_of
from tui.show.said import ENTRY, said_lines

MOVED = ENTRY.join(f"figure {number} 41 3/8 in (was 40 1/2 in)" for number in range(9))


@pytest.mark.parametrize("width", range(40, 120, 7))
@pytest.mark.parametrize("most", [1, 2, 3])
def test_list_that_is_too_long_says_how_many_it_leaves_out(width, most):
    lines = [text_of(line) for line in said_lines([(MOVED, "moved")], width, most, between=" · ")]
    said = " ".join(lines)
    assert len(lines) <= most
    assert all(width_of(line) <= width for line in lines)
    assert said.count("(was 40 1/2 in)") == said.count("figure")
    left_out = 9 - said.count("figure")
    assert left_out == 0 or f"{left_out} more" in said


def test_texts_take_their_lines_in_order_and_the_last_is_shortened():
    long = "a reason of many words that goes on and on, 41 3/8 in and more of it than there is room for"
    lines = [text_of(line) for line in said_lines([("first", "bad"), (long, "plain")], 30, 3, between=" · ")]
    assert lines[0] == "first"
    assert len(lines) == 3
    assert lines[-1].endswith("…")


def test_nothing_said_is_no_line():
    assert said_lines([("", "plain")], 40, 3, between=" · ") == []
