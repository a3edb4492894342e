"""What goes to standard output and standard error, and nothing else does.

Every text is cleaned of control characters on its way out, so that a name from a file or from the call can't
drive the terminal. JSON is written as UTF-8 whatever the terminal's own encoding is.
"""

import contextlib
import os
import sys
from collections.abc import Iterable
from typing import TextIO

from tui.command_line.exit_codes import AnyFault

# Signs of our own that a terminal without Unicode gets in ASCII.
IN_ASCII = str.maketrans({
    "°": "", "±": "+-", "×": "x", "·": "-", "…": "...", "–": "-", "—": "-", "−": "-", "≥": ">=", "≤": "<=",
    "²": "2", "³": "3", "Ω": "ohm", "η": "eta", "Σ": "sum", "′": "'", "″": '"', "’": "'", "√": "sqrt", "π": "pi",
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8", "≠": "/=",
})  # fmt: skip


def say(text: str = "") -> None:
    """One line, or several, on standard output."""
    _write(sys.stdout, text)


def say_all(lines: Iterable[str]) -> None:
    for line in lines:
        say(line)


def complain(text: str) -> None:
    """One line on standard error."""
    with contextlib.suppress(OSError, ValueError):
        _write(sys.stderr, text)


def say_json(answer: object, *, one_line: bool = False) -> None:
    """An object as JSON on standard output; `one_line` where several follow each other."""
    import msgspec

    text = msgspec.json.encode(cleaned(answer))
    if not one_line:
        text = msgspec.json.format(text, indent=2)
    if sys.stdout is None:
        return
    sys.stdout.flush()
    sys.stdout.buffer.write(text + b"\n")
    sys.stdout.buffer.flush()


def faults_object(faults: Iterable[AnyFault]) -> dict[str, object]:
    """Faults in the shape that the format gives them."""
    return {
        "errors": [
            {"file": one.file, "path": one.path, "found": one.found, "expected": one.expected} for one in faults
        ]
    }


def flush() -> None:
    if sys.stdout is not None:
        sys.stdout.flush()


def give_up_output() -> None:
    """After a reader went away: what is still buffered goes nowhere, and nothing complains about it at exit."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(OSError, ValueError, AttributeError):
            os.dup2(nowhere, stream.fileno())


def plain(text: str) -> str:
    """A text as one line without control characters; what it is indented by stays."""
    from logic.data.clean_text import clean_text

    return " " * (len(text) - len(text.lstrip(" "))) + clean_text(text)


def cleaned(answer: object) -> object:
    """The same answer with every text in it cleaned."""
    if isinstance(answer, str):
        return plain(answer)
    if isinstance(answer, dict):
        return {key: cleaned(value) for key, value in answer.items()}
    if isinstance(answer, list | tuple):
        return [cleaned(value) for value in answer]
    return answer


def _write(stream: TextIO | None, text: str) -> None:
    if stream is None:
        return
    clean = "\n".join(plain(line) for line in text.split("\n"))
    encoding = stream.encoding or "ascii"
    try:
        clean.encode(encoding)
    except UnicodeEncodeError:
        clean = clean.translate(IN_ASCII).encode(encoding, "replace").decode(encoding)
    stream.write(clean + "\n")
    stream.flush()
