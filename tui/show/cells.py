"""Text in terminal cells: how wide it is, and how it is wrapped, padded or shortened.

A number and its unit are never parted and never shortened; labels are. Widths are cells, never `len()`.
"""

import re
from functools import lru_cache

from rich.cells import cell_len, chop_cells, set_cell_size

from logic.data.clean_text import clean_text

UNITS = (
    r"in²|in|ft²|ft|mm|cm|m²|m|gal|L|lb|kg|W/m²|W/K|W|Wh|kWh|Ah|A|V|mV|mA|Ω|mΩ|kΩ|MΩ|°F|°C|%|h|min|s|mph|km/h|AWG"
    r"|nights?|days?|US|psi"
)
NO_BREAK = "\u00a0"
# A whole number and its fraction, a number and its unit, and a sign that stands off.
TOGETHER = (
    (re.compile(r"(?<=\d) (?=\d+/\d)"), NO_BREAK),
    (re.compile(rf"(?<=[\d%½¼¾⅛⅜⅝⅞]) (?=(?:{UNITS})(?![\w/]))"), NO_BREAK),
    (re.compile(r"(?<=[±…≥≤<>]) (?=[−\d])"), NO_BREAK),
)

# What varies the sign before it: how it is drawn, a box around it, the tone of a skin; and the letters of flags.
_VARYING = "\ufe00-\ufe0f\u20e3\U0001f3fb-\U0001f3ff"
FIRST_OF_FLAGS = 0x1F1E6
VARIES, FLAGS = re.compile(f"[{_VARYING}]"), re.compile("[\U0001f1e6-\U0001f1ff]")
UNSTEADY = re.compile(f"[\U0001f1e6-\U0001f1ff]+|[^{_VARYING}]?[{_VARYING}]+")


def plain(text: str) -> str:
    """Text as it may be shown: no control character, one line."""
    return clean_text(text)


def width_of(text: str) -> int:
    """How many cells a text takes."""
    return cell_len(text)


def steady(text: str) -> str:
    """A text in as many cells, of letters that take the same on every terminal.

    Some terminals draw a sign and what varies it as one, some count each: all that stands behind it would be shifted.
    So a flag becomes its two letters, and a sign stands without what colours it or boxes it in.
    """
    return text if text.isascii() or not UNSTEADY.search(text) else UNSTEADY.sub(_steadied, text)


def _steadied(found: re.Match[str]) -> str:
    kept = (
        chr(ord(letter) - FIRST_OF_FLAGS + ord("A")) if FLAGS.match(letter) else letter
        for letter in found[0]
        if not VARIES.match(letter)
    )
    return set_cell_size("".join(kept), cell_len(found[0]))


def pad(text: str, width: int) -> str:
    """A text filled up with blanks to `width` cells; a longer one stays whole."""
    return text + " " * max(0, width - cell_len(text))


def pad_left(text: str, width: int) -> str:
    """A text with blanks before it, up to `width` cells; a longer one stays whole."""
    return " " * max(0, width - cell_len(text)) + text


def shorten(label: str, width: int) -> str:
    """A label cut to `width` cells with an ellipsis. Never for a number."""
    if cell_len(label) <= width:
        return label
    if width <= 1:
        return "…"[: max(0, width)]
    return set_cell_size(label, width - 1).rstrip() + "…"


def wrap(text: str, width: int) -> list[str]:
    """A text in lines of at most `width` cells, broken at blanks, numbers kept whole with their units.

    A single word wider than `width` is broken where it has to be. An empty text is one empty line.
    """
    return list(_wrapped(text, max(1, width)))


@lru_cache(maxsize=8192)  # a pane lays out the same texts with every reading
def _wrapped(text: str, width: int) -> tuple[str, ...]:
    for pattern, joined in TOGETHER:
        text = pattern.sub(joined, text)
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        if not word:
            continue
        longer = f"{line} {word}" if line else word
        if cell_len(longer) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        if cell_len(word) <= width:
            line = word
        else:
            *whole, line = chop_cells(word, width)
            lines.extend(whole)
    lines.append(line)
    return tuple(each.replace(NO_BREAK, " ") for each in lines)
