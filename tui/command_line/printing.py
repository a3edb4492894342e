"""What goes to standard output and standard error, and nothing else does.

Every text is cleaned of control characters on its way out, so that a name from a file or from the call can't
drive the terminal. JSON is written as UTF-8 whatever the terminal's own encoding is.
"""

import contextlib
import os
import re
import sys
from collections.abc import Iterable, Iterator
from typing import TextIO

from tui.command_line.exit_codes import AnyFault

# Signs of our own that a terminal without Unicode gets in ASCII.
IN_ASCII = str.maketrans({
    "°": "", "±": "+-", "×": "x", "·": "-", "…": "...", "–": "-", "—": "-", "−": "-", "≥": ">=", "≤": "<=",
    "²": "2", "³": "3", "Ω": "ohm", "η": "eta", "Σ": "sum", "′": "'", "″": '"', "’": "'", "√": "sqrt",
    "π": "pi", "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
    "≠": "/=",
})  # fmt: skip

# In JSON without spaces between its parts: a sign written out by a code or a letter, or a space at a text's end.
_WANTS_A_LOOK = re.compile(rb'\\[^"\\]| "')


class OutputFault(Exception):
    """Standard output takes no more: a full disk behind it, a device at fault; in the system's words."""


def say(text: str = "") -> None:
    """One line, or several, on standard output."""
    with _output_faults():
        _write(sys.stdout, text)


def say_all(lines: Iterable[str]) -> None:
    for line in lines:
        say(line)


def say_text(text: str) -> None:
    """A text that is a file of its own, as it is: it was cleaned when it was made."""
    _write_bytes(text.encode("utf-8", "replace"))


def complain(text: str) -> None:
    """One line on standard error."""
    with contextlib.suppress(OSError, ValueError):
        _write(sys.stderr, text)


def say_json(answer: object, *, one_line: bool = False) -> None:
    """An object as JSON on standard output; `one_line` where several follow each other."""
    import msgspec

    text = _encoded(answer)
    if not one_line:
        text = msgspec.json.format(text, indent=2)
    _write_bytes(text + b"\n")


def faults_object(faults: Iterable[AnyFault]) -> dict[str, object]:
    """Faults in the shape that the format gives them."""
    return {
        "errors": [
            {"file": one.file, "path": one.path, "found": one.found, "expected": one.expected}
            for one in faults
        ]
    }


def give_up_output() -> None:
    """After a reader went away, or on a full disk: what is buffered goes nowhere, without a word at exit."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(OSError, ValueError, AttributeError):
            os.dup2(nowhere, stream.fileno())


def plain(text: str) -> str:
    """A text as one line without control characters; what it is indented by stays."""
    if text.isprintable() and text[-1:] != " ":
        return text
    from logic.data.clean_text import clean_text

    return " " * (len(text) - len(text.lstrip(" "))) + clean_text(text)


def _encoded(answer: object) -> bytes:
    """As JSON, every text cleaned. All of it is looked at at once first, which costs next to nothing."""
    import msgspec

    with contextlib.suppress(UnicodeEncodeError):  # half of a sign from a file's name
        json = msgspec.json.encode(answer)
        if _WANTS_A_LOOK.search(json) is None and json.decode().isprintable():
            return json
    return msgspec.json.encode(cleaned(answer))


def cleaned(answer: object) -> object:
    """The same answer with every text in it cleaned."""
    if isinstance(answer, str):
        return plain(answer)
    if isinstance(answer, dict):
        return {key: cleaned(value) for key, value in answer.items()}
    if isinstance(answer, list | tuple):
        return [cleaned(value) for value in answer]
    return answer


def _write_bytes(text: bytes) -> None:
    if sys.stdout is None:
        return
    with _output_faults():
        sys.stdout.flush()
        sys.stdout.buffer.write(text)
        sys.stdout.buffer.flush()


@contextlib.contextmanager
def _output_faults() -> Iterator[None]:
    """What the system says of standard output, told apart from what it says of a file."""
    try:
        yield
    except BrokenPipeError:
        raise
    except OSError as wrong:
        raise OutputFault(system_words(wrong)) from None


def system_words(wrong: OSError) -> str:
    """What the system said, in lower case and without its number."""
    said = wrong.strerror or str(wrong) or type(wrong).__name__
    return said[:1].lower() + said[1:]


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
