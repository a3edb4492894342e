"""The words of a call, split into operands and options as a command declares them.

A small parser of our own: a value such as `-12` or `- 5` is an operand wherever the command takes values, and
every fault is one line in the words of the call. What each command takes stands in `commands.py`.
"""

import difflib
from collections.abc import Collection, Sequence
from typing import NamedTuple

from tui.command_line.exit_codes import fault


class Option(NamedTuple):
    """One option: `takes` names its value in the help, empty for a plain switch."""

    name: str  # --json
    takes: str = ""
    help: str = ""
    short: str = ""  # -o
    repeats: bool = False


class Given(NamedTuple):
    """What a call gave: operands in order, options by name."""

    operands: tuple[str, ...]
    options: dict[str, list[str]]

    def has(self, name: str) -> bool:
        return name in self.options

    def option(self, name: str) -> str | None:
        """The value of an option, None where it was not given."""
        values = self.options.get(name)
        return values[-1] if values else None

    def all(self, name: str) -> tuple[str, ...]:
        """Every value of an option that may stand several times."""
        return tuple(self.options.get(name, ()))


def parse(
    words: Sequence[str], options: Sequence[Option], *, most: int, values_after: int | None = None
) -> Given:
    """The operands and options in `words`.

    most : how many operands the command takes.
    values_after : from this operand on every word is a value, a leading minus too, unless it is one of the
        command's own options spelt out; None: the command takes no values.
    Raises CommandFault: an option that isn't known, given twice or without its value, or an operand too many.
    """
    known = {option.name: option for option in options}
    known |= {option.short: option for option in options if option.short}
    operands: list[str] = []
    given: dict[str, list[str]] = {}
    waiting = list(reversed(words))
    only_operands = False
    while waiting:
        word = waiting.pop()
        takes_values = values_after is not None and len(operands) >= values_after
        name, equals, value = word.partition("=") if word.startswith("--") else (word, "", "")
        option = None if only_operands else known.get(name)
        if option is not None:
            if option.takes and not equals:
                if not waiting:
                    raise fault(f"{name} stands without its value", expected=f"{name} {option.takes}")
                value = waiting.pop()
            elif equals and not option.takes:
                raise fault(f"{name} takes no value", expected=name)
            if option.name in given and not option.repeats:
                raise fault(f"{name} stands twice", expected="it once")
            given.setdefault(option.name, []).append(value)
        elif word == "--" and not only_operands:
            only_operands = True
        elif looks_like_option(word) and not only_operands and not takes_values:
            raise fault(f"unknown option {word}", expected=nearest_of(name, known))
        elif not takes_values and len(operands) >= most:
            raise fault(f"one word too many: {word}", expected=at_most(most))
        else:
            operands.append(word)
    return Given(tuple(operands), given)


def looks_like_option(word: str) -> bool:
    """A lone `-` is an operand: it stands for standard input."""
    return len(word) > 1 and word.startswith("-")


def nearest_of(word: str, known: Collection[str]) -> str:
    """The known word nearest to `word`, else all of them, for the end of an error line."""
    near = difflib.get_close_matches(word, known, n=1)
    if near:
        return near[0]
    return "one of " + ", ".join(known) if known else "no option here"


def at_most(count: int) -> str:
    return "no operand" if count == 0 else f"at most {count}" if count > 1 else "one"
