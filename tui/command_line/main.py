"""The entry of the program: which command is meant, and what every fault looks like from outside.

A command is imported only when it is called, so that a check of a profile starts without the session store,
and nothing but `open` ever loads the screen.
"""

import gc
import os
import sys
from collections.abc import Sequence
from importlib import import_module

from tui.command_line import printing
from tui.command_line.arguments import nearest_of, parse
from tui.command_line.commands import COMMANDS, Command, command_help, program_help
from tui.command_line.exit_codes import IN_ERROR, STOPPED, AnyFault, CommandFault, Fault, fault

TRACE = "BELLYPAN_TRACE"  # set: a fault of the program's own shows where it happened


LOOK_FOR_GARBAGE = 1_000_000
"""Objects made and not given back after which the interpreter looks for garbage among them. A command makes many
that all stay until it ends, and hardly any garbage; to look through them again and again takes a quarter of its time.
"""


def run() -> None:
    """The `bellypan` command."""
    words = sys.argv[1:]
    if words[:1] not in ([], ["open"]):  # the screen sees to it by itself
        gc.set_threshold(LOOK_FOR_GARBAGE)
    code = main(words)
    gc.freeze()  # what is left goes with the process: it isn't looked through once more before
    sys.exit(code)


def main(words: Sequence[str]) -> int:
    """Carry out one call; its exit code. Every fault is words on standard error, never a traceback."""
    try:
        return answered(words)
    except BrokenPipeError:
        printing.give_up_output()
        return IN_ERROR
    except printing.OutputFault as wrong:
        printing.complain(f"bellypan: standard output: {wrong}")
        printing.give_up_output()
        return IN_ERROR
    except KeyboardInterrupt:
        printing.complain("stopped")
        return STOPPED
    except Exception as wrong:
        if os.environ.get(TRACE):
            raise
        printing.complain(f"bellypan: a fault of this program, not of yours: {type(wrong).__name__}: {wrong}")
        printing.complain(f"bellypan: with {TRACE}=1 set it says where")
        return IN_ERROR


def answered(words: Sequence[str]) -> int:
    """The exit code of a call, its faults reported."""
    try:
        return carried_out(words)
    except CommandFault as wrong:
        faults: Sequence[AnyFault] = wrong.faults
    except BrokenPipeError:
        raise
    except OSError as wrong:
        faults = [Fault(printing.system_words(wrong), file=str(wrong.filename or ""))]
    except UnicodeEncodeError:
        faults = [Fault("a name that no file can have on this system")]
    report(faults, words)
    return IN_ERROR


def carried_out(words: Sequence[str]) -> int:
    """The command that `words` name, run with the rest of them."""
    if any(word in ("-h", "--help") for word in words[:1]) or list(words) == ["help"]:
        printing.say(program_help())
        return 0
    if list(words[:1]) == ["--version"]:
        printing.say(f"bellypan {installed_version()}")
        return 0
    name, rest = (words[0], list(words[1:])) if words else ("open", [])
    if name == "help":
        name, rest = rest[0], ["--help"]
    command = COMMANDS.get(name)
    if command is None:
        raise fault(f"unknown command {name}", expected=nearest_of(name, COMMANDS))
    if wants_help(command, rest):
        printing.say(command_help(command))
        return 0
    given = parse(rest, command.options, most=command.most, values_after=command.values_after)
    return import_module(f"tui.command_line.{command.module}").run(given)


def installed_version() -> str:
    """The version that is installed; a source tree that isn't says so."""
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version("bellypan")
    except PackageNotFoundError:
        return "(not installed)"


def wants_help(command: Command, words: Sequence[str]) -> bool:
    """Whether help is asked for, and `--help` isn't the text of a note or a value."""
    head = words if command.values_after is None else words[: command.values_after + 1]
    return any(word in ("-h", "--help") for word in head[:1]) or list(words[-1:]) == ["--help"]


def report(faults: Sequence[AnyFault], words: Sequence[str]) -> None:
    """Say what is wrong: a line for each fault on standard error, or one object where JSON was asked for."""
    if "--json" in words:
        printing.say_json(printing.faults_object(faults))
        return
    for one in faults:
        printing.complain(f"bellypan: {one.line()}")


if __name__ == "__main__":
    run()
