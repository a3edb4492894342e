"""A line in plain letters, for a terminal that lacks signs of ours: no sign is lost, and what stands below one another
stays so.

A sign whose plain form is longer takes its room from the blanks behind it, as long as one of them stays.
"""

import re
import sys
from functools import lru_cache

from tui.show.cells import width_of
from tui.show.rows import Line, Span

PLAIN_FORMS = {
    "−": "-", "–": "-", "—": "-", "…": "~", "Ω": "ohm", "≥": ">=", "≤": "<=", "≠": "/=", "≈": "~", "√": "sqrt ",
    "π": "pi", "η": "eta", "Σ": "sum ", "′": "'", "″": '"', "’": "'", "→": ">", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8",
    "⅞": "7/8",
}  # fmt: skip
# Where a terminal has ASCII alone.
IN_ASCII = {
    "°": " ", "±": "+-", "×": "x", "·": "-", "²": "2", "³": "3", "½": "1/2", "¼": "1/4", "¾": "3/4",
}  # fmt: skip
BLANKS = re.compile(r"  +")
BEYOND_ASCII = re.compile(r"[^\x00-\x7f]")


def in_letters(spans: Line) -> Line:
    """The line as such a terminal can show it."""
    if all(span.text.isascii() for span in spans):
        return spans
    found: list[Span] = []
    owed = 0  # cells by which the line has grown so far
    for span in spans:
        text, owed = lettered(span.text, owed)
        found.append(Span(text, span.role))
    return tuple(found)


def lettered(text: str, owed: int = 0) -> tuple[str, int]:
    """A text in plain letters, and by how many cells the line is longer than it was; `owed`: by how many before it."""
    said: list[str] = []
    at = 0
    for blanks in BLANKS.finditer(text):
        part, grown = replaced(text[at : blanks.start()])
        owed += grown
        eaten = min(owed, len(blanks[0]) - 1)
        owed -= eaten
        said += (part, blanks[0][eaten:])
        at = blanks.end()
    part, grown = replaced(text[at:])
    return "".join((*said, part)), owed + grown


def replaced(text: str) -> tuple[str, int]:
    """The text with every sign in its plain form, and by how many cells it has grown."""
    plain = BEYOND_ASCII.sub(lambda sign: PLAIN_FORMS.get(sign[0]) or shown(sign[0]), text)
    return plain, width_of(plain) - width_of(text)


@lru_cache(maxsize=256)
def shown(sign: str) -> str:
    """Another sign or letter: itself where the terminal's encoding has it, else a form in ASCII."""
    try:
        sign.encode(getattr(sys.__stderr__, "encoding", None) or "ascii")
    except UnicodeEncodeError:
        return IN_ASCII.get(sign) or "?" * width_of(sign)
    return sign
