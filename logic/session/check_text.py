"""Free text of an intent: cleaned once, and refused where it is too long or missing."""

from logic.data.clean_text import clean_text
from logic.data.wording import words
from logic.session.intents import Refused


def free_text(text: str, *, limit: int) -> str | Refused:
    """`text` cleaned; refused beyond `limit` characters, never cut."""
    clean = clean_text(text) if len(text) <= 16 * limit else text
    if len(clean) > limit:
        return Refused(
            words("{length} characters are too many: up to {limit}", length=str(len(clean)), limit=str(limit))
        )
    return clean


def needed_text(text: str, *, limit: int, what: str) -> str | Refused:
    """The same, and refused where nothing is left of it."""
    clean = free_text(text, limit=limit)
    if clean == "":
        return Refused(words("{what} is needed", what=what))
    return clean
