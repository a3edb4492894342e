"""A length as most profiles have it, `38 in` or `12.5 mm`, read without the grammar of the tape. Exact.

A profile may hold twenty thousand lengths. What this form says the grammar says too, to the bit; whatever looks
different is left to it.
"""

import re

_PLAIN = re.compile(r"([0-9]{1,6})(?:\.([0-9]{1,6}))? (in|ft|mm|cm|m)")
# Ten-thousandths of a metre: whole numbers, so that one division alone rounds.
_TEN_THOUSANDTHS = {"in": 254, "ft": 3048, "mm": 10, "cm": 100, "m": 10_000}


def plain_length(text: str) -> float | None:
    """The length of a plain number and its unit. [m] None: it isn't that plain."""
    match = _PLAIN.fullmatch(text)
    if match is None:
        return None
    whole, part, unit = match.groups()
    if part is None:
        return int(whole) * _TEN_THOUSANDTHS[unit] / 10_000
    return int(whole + part) * _TEN_THOUSANDTHS[unit] / (10_000 * 10 ** len(part))
