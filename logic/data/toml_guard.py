"""Whether a text in TOML has a key of very many dotted names, told before it is parsed.

The standard library's parser takes time that grows with the square of their number and more: a megabyte of
`a.a.a.a` would take hours. No key of a profile has more than three names.
"""

import re

MOST_NAMES = 6

_NAME = r"(?:[A-Za-z0-9_-]++|\"[^\"\n]*+\"|'[^'\n]*+')"
# Quick, and wrong only where such a chain stands inside a text.
_CHAIN = re.compile(rf"(?<![A-Za-z0-9_-]){_NAME}(?:[ \t]*+\.[ \t]*+{_NAME}){{{MOST_NAMES}}}")
_TOKEN = re.compile(
    r"(?P<skip>[ \t]++|\#[^\n]*+)"
    r"|(?P<text>\"\"\"(?:[^\"\\]|\\.|\"(?!\"\"))*+\"\"\"|'''(?:[^']|'(?!''))*+''')"
    rf"|(?P<name>\"(?:[^\"\\\n]|\\.)*+\"|{_NAME})"
    r"|(?P<dot>\.)"
    r"|.",
    re.DOTALL,
)


def has_endless_key(text: str) -> bool:
    """Whether a key of more than six dotted names stands in the text, its strings and comments apart."""
    if _CHAIN.search(text) is None:
        return False
    names = 0
    after_dot = False
    for token in _TOKEN.finditer(text):
        kind = token.lastgroup
        if kind == "skip":
            continue
        if kind == "name":
            names = names + 1 if after_dot else 1
            if names > MOST_NAMES:
                return True
        elif kind != "dot":
            names = 0
        after_dot = kind == "dot"
    return False
