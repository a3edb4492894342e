"""Both themes of our own: every text role on every ground has a contrast of at least 7:1."""

import pytest

from tui.themes import DIM, GROUNDS, SUN, TEXT_ROLES

# WCAG 2.2, success criterion 1.4.6 (contrast, enhanced): at least 7:1 for text.
LEAST = 7.0


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2, definition of that name; sRGB."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, definition of contrast ratio."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast_of_black_on_white_is_21():
    # WCAG 2.2: ratios range from 1 to 21; exact by its definition.
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0, abs=1e-9)


@pytest.mark.parametrize("roles", [SUN, DIM], ids=["sun", "dim"])
@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("role", TEXT_ROLES)
def test_text_stands_out(roles, role, ground):
    assert contrast(roles[role], roles[ground]) >= LEAST


@pytest.mark.parametrize("roles", [SUN, DIM], ids=["sun", "dim"])
def test_row_of_the_cursor_stands_out(roles):
    assert contrast(roles["cursor-ink"], roles["cursor-ground"]) >= LEAST


# WCAG 2.2, 1.4.11 (non-text contrast): at least 3:1 for what shows where the focus is.
@pytest.mark.parametrize("roles", [SUN, DIM], ids=["sun", "dim"])
def test_frame_of_the_focus_stands_out(roles):
    assert contrast(roles["frame-focus"], roles["paper"]) >= 3.0
