"""Regular expressions for the texts of a profile, for its JSON Schema alone: what an editor can tell.

They let through what the check lets through, as far as an expression can tell; the check has the last word.
Written for ECMA 262, as JSON Schema asks.
"""

import re

from logic.data.profile_keys import ID_LIMIT, RATINGS, Key
from logic.data.units import SPELLINGS

_DECIMAL = r"(?:[0-9]{1,15}(?:\.[0-9]{0,25})?|\.[0-9]{1,25})"
_GLYPH = "[½¼¾⅛⅜⅝⅞]"
_STROKE = r"[0-9]{1,4}[/⁄∕](?:2|4|8|16|32|64)"
_AMOUNT = (
    rf"(?:[0-9]{{1,6}}(?:\s+|[-+−]){_STROKE}|[0-9]{{1,6}}\s*[-+−]?\s*{_GLYPH}|{_STROKE}|{_GLYPH}|{_DECIMAL})"
)
_IN = '(?:[iI][nN]|["″])'
_FT = "(?:[fF][tT]|['′])"
_METRIC = rf"{_DECIMAL}\s*(?:[mM][mM]|[cC][mM]|[mM])"
_LENGTH = rf"(?:{_METRIC}|{_AMOUNT}\s*{_IN}|{_DECIMAL}\s*{_FT}(?:\s*-?{_AMOUNT}\s*{_IN}?)?)"
# At least one digit that is not zero, or a fraction, before anything else.
_OVER_NOTHING = "(?=[^1-9½¼¾⅛⅜⅝⅞a-zA-Z²°Ω%]*[1-9½¼¾⅛⅜⅝⅞])"

ID = f"^[a-z][a-z0-9-]{{0,{ID_LIMIT - 1}}}$"
GAUGE = r"^(?:auto|(?:18|16|14|12|10|8|6|4)\s?AWG)$"
FUSE = (
    r"^(?:auto|none|(?:"
    + "|".join(re.escape(f"{rating:g}") for rating in RATINGS)
    + r")(?:\.0{0,14})?\s{0,8}A)$"
)


def quantity_pattern(key: Key) -> str:
    """The expression for a quantity with a unit, of the key's kind and sign."""
    span = key.span
    may_be_negative = span is None or span.low < 0
    sign = "[-−]?" if may_be_negative else ""
    over = _OVER_NOTHING if span is not None and span.over else ""
    if key.kind == "length":
        return rf"^\s*{over}{sign}{_LENGTH}\s*$"
    spellings = [spelling for spelling in SPELLINGS[key.kind] if spelling != "R"]
    if key.kind == "ohms":
        # The ohm sign beside the Greek letter.
        spellings += [spelling.replace("Ω", "\u2126") for spelling in spellings if "Ω" in spelling]
    units = "|".join(re.escape(spelling) for spelling in spellings)
    number = rf"{sign}{_DECIMAL}\s{{0,8}}(?:{units})"
    if key.kind == "insulation":
        number = rf"(?:R\s{{0,8}}{sign}{_DECIMAL}|{number})"
    return rf"^\s*{over}{number}\s*$"
