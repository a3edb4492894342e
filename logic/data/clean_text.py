"""Text from people and files, rid of what a terminal would obey or a reader could not see.

Done once, at the edge: before anything is stored, shown or put into an error message. Not here: markup, which
is nothing but text and is never interpreted anywhere.
"""

import re

NAME_LIMIT = 60
NOTE_LIMIT = 500

# Soft hyphen, Arabic letter mark, zero-width and direction marks, line separators, byte-order mark.
_INVISIBLE = "\u00ad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff"
_BREAKS = re.compile("[\t\n\r]+")
# Cc as Unicode has it, and lone surrogates, which no file of text can hold.
_REMOVED = re.compile(f"[\x00-\x1f\x7f-\x9f{_INVISIBLE}\ud800-\udfff]")


def clean_text(text: str) -> str:
    """`text` without control and invisible characters; a new line becomes a space, combining marks stay."""
    return clean_piece(text).strip()


def clean_piece(text: str) -> str:
    """The same of a piece of a text: the blanks at its ends part it from what stands beside it."""
    if text.isprintable():  # nearly all texts: nothing that is removed is printable to Unicode
        return text
    return _REMOVED.sub("", _BREAKS.sub(" ", text))


def short_text(text: str, *, limit: int = NAME_LIMIT) -> str:
    """`text` cleaned and cut to `limit` characters, the cut shown by an ellipsis."""
    clean = clean_text(text[: 16 * limit])
    return clean if len(clean) <= limit and len(text) <= 16 * limit else clean[: limit - 1] + "…"
