"""Texts and numbers that nobody types by accident, and what every answer has to be rid of.

What must not come out is listed here by its code points, apart from the program's own list in `clean_text.py`.
"""

import random
import unicodedata

MARKUP = (
    "<script>alert(1)</script>",
    "</style></title></svg><img src=x onerror=alert(1)>",
    '"><svg onload=alert(1)>',
    "' onmouseover='alert(1)",
    "&lt;b&gt; &#x3c;i&#x3e; &amp;",
    "]]><!-- --> <![CDATA[",
    "javascript:alert(1)",
    "[bold red]loud[/bold red] [/x] [link=x]y[/link] \\[z]",
    "[a](http://example.com) ![i](x) `c` *b* _d_ | f |",
    "# head",
    "{braces} {0} {0.__class__} %s %(x)s ${HOME} $(id)",
)
FORMULAS = ("=cmd()", '=HYPERLINK("http://example.com")', "+1-1", "-2+3", "@SUM(A1)", "|pipe", "%0a%0dcsv")
TERMINAL = (
    "\x1b[31mred\x1b[0m",
    "\x1b[2J\x1b[H\x1b[?1049h",
    "\x1b]0;title\x07",
    "\x1b]8;;http://example.com\x1b\\link\x1b]8;;\x1b\\",
    "\x1b]52;c;cm0gLXJmIC8=\x07",
    "\x1bP+q544e\x1b\\",
    "\x1b_payload\x1b\\",
    "\x9b31mred \x9d0;title\x9c \x90q\x9c",
    "bell\x07 back\x08\x08\x08 del\x7f nul\x00 so\x0e",
    "one\rtwo\r\nthree\vfour\ffive",
)
INVISIBLE = (
    "‮evil‬ \u202dforced\u202c",
    "\u2066isolate\u2069 \u2067right\u2069",
    "zero\u200bwidth\u200cjoin\u200d\ufeff \u2060word",
    "soft\u00adhyphen \u061cmark \u200elrm\u200frlm",
    "line\u2028paragraph\u2029",
    "lone \ud800 surrogate \udfff",
)
WIDE = (
    "水槽タンク",
    "e\u0301\u0301\u0301\u0301 zalgo",
    "שלום עולם",
    "👩\u200d👩\u200d👧 family",
    "\uffff\ufffe \U0010ffff",
)
LONG = ("x" * 60, "x" * 61, "y" * 500, "y" * 501, "z" * 5000, "w " * 3000)
TEXTS = ("", " ", *MARKUP, *FORMULAS, *TERMINAL, *INVISIBLE, *WIDE, *LONG)

NUMBERS = (
    0, -1, 1, 0.0, -0.0, 1e-320, 1e308, -1e308, 2**31, 2**53 + 1, 2**63, 2**64, -(2**63) - 1, 10**30, 0.1, 1.5,
)  # fmt: skip


def text_of(chance: random.Random) -> str:
    """A hostile text: one of the list, two of them joined, or signs by chance."""
    draw = chance.random()
    if draw < 0.6:
        return chance.choice(TEXTS)
    if draw < 0.8:
        return chance.choice(TEXTS) + chance.choice(TEXTS)
    return "".join(chr(chance.randrange(0x110000)) for _ in range(chance.randint(1, 12)))


def value_of(chance: random.Random, depth: int = 0) -> object:
    """Any value that JSON can say, hostile ones first."""
    draw = chance.random()
    if draw < 0.35:
        return text_of(chance)
    if draw < 0.7:
        return chance.choice(NUMBERS)
    if draw < 0.8 or depth > 3:
        return chance.choice((None, True, False, [], {}))
    if draw < 0.9:
        return [value_of(chance, depth + 1) for _ in range(chance.randint(1, 3))]
    return {text_of(chance): value_of(chance, depth + 1) for _ in range(chance.randint(1, 3))}


def obeyed(text: str) -> list[str]:
    """What a terminal would obey, or an eye could not see, in an answer; new lines and nothing else are fine."""
    return [f"U+{ord(sign):04X}" for sign in text if sign != "\n" and _may_not_come_out(sign)]


def _may_not_come_out(sign: str) -> bool:
    category = unicodedata.category(sign)
    code = ord(sign)
    return (
        category in ("Cc", "Cs", "Zl", "Zp")
        or code in (0x00AD, 0x061C, 0xFEFF)
        or 0x200B <= code <= 0x200F
        or 0x202A <= code <= 0x202E
        or 0x2060 <= code <= 0x2069
    )
