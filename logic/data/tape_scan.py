"""Cuts a typed value into tokens in one pass: numbers, fraction glyphs, marks and words.

Each character is looked at once, and a line has a greatest length, so that no typed text can make it slow.
"""

from fractions import Fraction

import msgspec

from logic.data.tape_fault import GrammarFault

LONGEST_TYPED = 100
"""Characters in one value. No reading needs more."""

LONGEST_NUMBER = 15
"""Characters in one number that is typed. No reading needs more."""

LONGEST_WRITTEN_NUMBER = 30
"""Characters in one number of a file: a script writes a double out with all of its digits."""

GLYPHS = {
    "½": (1, 2), "¼": (1, 4), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
    "⅓": (1, 3), "⅔": (2, 3), "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6),
    "⅐": (1, 7), "⅑": (1, 9), "⅒": (1, 10), "↉": (0, 3),
}  # fmt: skip
MARKS = {
    "/": "/", "⁄": "/", "∕": "/", "-": "-", "−": "-", "+": "+", "±": "±", ">": ">", "'": "'", "′": "'",
    '"': '"', "″": '"',
}  # fmt: skip
DIGITS = "0123456789"
WORD_SIGNS = "°º%"
OHM_SIGN, OMEGA = "\u2126", "\u03a9"


class Token(msgspec.Struct, frozen=True):
    kind: str  # number | glyph | word | one of the marks' signs | end
    text: str
    spaced: bool  # white space stands before it
    value: Fraction = Fraction(0)
    numerator: int = 0
    denominator: int = 1

    @property
    def whole(self) -> bool:
        """A number typed without a decimal point."""
        return self.kind == "number" and "." not in self.text


END = Token("end", "", True)


def tokens_of(typed: str, *, longest_number: int = LONGEST_NUMBER) -> tuple[Token, ...]:
    """The tokens of one typed value. Raises GrammarFault: too long, or a sign that no value has."""
    if len(typed) > LONGEST_TYPED:
        raise GrammarFault(f"a value has at most {LONGEST_TYPED} characters")
    tokens: list[Token] = []
    at, spaced = 0, False
    while at < len(typed):
        sign = typed[at]
        if sign.isspace():
            at, spaced = at + 1, True
            continue
        if sign in DIGITS or (sign == "." and typed[at + 1 : at + 2] in tuple(DIGITS)):
            token, at = _number(typed, at, spaced=spaced, longest=longest_number)
        elif sign in GLYPHS:
            token, at = _glyph(sign, spaced=spaced), at + 1
        elif typed[at : at + 2] == "+-":
            token, at = Token("±", "+-", spaced), at + 2
        elif sign in MARKS:
            token, at = Token(MARKS[sign], sign, spaced), at + 1
        elif _in_word(sign):
            end = at
            while end < len(typed) and _in_word(typed[end]):
                end += 1
            token, at = Token("word", _plain_word(typed[at:end]), spaced), end
        else:
            raise GrammarFault("a sign that no value has")
        tokens.append(token)
        spaced = False
    return tuple(tokens)


def _plain_word(text: str) -> str:
    """One spelling for signs that look alike."""
    return text.replace(OHM_SIGN, OMEGA).replace("º", "°")


def _in_word(sign: str) -> bool:
    return (sign.isalpha() and sign not in GLYPHS) or sign in WORD_SIGNS


def _number(typed: str, start: int, *, spaced: bool, longest: int) -> tuple[Token, int]:
    end = start
    while end < len(typed) and typed[end] in DIGITS:
        end += 1
    if typed[end : end + 1] == "." and typed[end + 1 : end + 2] in tuple(DIGITS):
        end += 1
        while end < len(typed) and typed[end] in DIGITS:
            end += 1
    text = typed[start:end]
    if len(text) > longest:
        raise GrammarFault(f"a number has at most {longest} digits")
    return Token("number", text, spaced, value=Fraction(text)), end


def _glyph(sign: str, *, spaced: bool) -> Token:
    numerator, denominator = GLYPHS[sign]
    return Token(
        "glyph",
        sign,
        spaced,
        value=Fraction(numerator, denominator),
        numerator=numerator,
        denominator=denominator,
    )


class Cursor:
    """Walks along tokens, one step at a time, never back."""

    def __init__(self, tokens: tuple[Token, ...]) -> None:
        self._tokens = tokens
        self._at = 0

    def peek(self, ahead: int = 0) -> Token:
        at = self._at + ahead
        return self._tokens[at] if at < len(self._tokens) else END

    def take(self) -> Token:
        token = self.peek()
        self._at += 1
        return token

    def take_if(self, *kinds: str) -> Token | None:
        return self.take() if self.peek().kind in kinds else None

    @property
    def ended(self) -> bool:
        return self.peek() is END
