"""Every command as it is called: its words, its options, and what `--help` says about it.

A command is one declaration here and one module beside it; the parser and the help both read this table.
"""

from typing import NamedTuple

from tui.command_line.arguments import Option

JSON = Option("--json", help="answer as JSON")
ENDS = "Exit code 0: done; 2: the call or a file is in error."
ENDS_REFUSED = "Exit code 0: done; 1: refused, and why; 2: the call or a file is in error."


class Command(NamedTuple):
    name: str
    calls: tuple[str, ...]  # how it is called, without the program's name
    about: str
    ends: str = ENDS  # what its exit codes say
    options: tuple[Option, ...] = ()
    most: int = 0  # operands that it takes at most
    values_after: int | None = None  # operands from here on are values, a leading minus too
    module: str = ""


def declared(*commands: Command) -> dict[str, Command]:
    return {one.name: one._replace(module=one.module or one.name) for one in commands}


COMMANDS = declared(
    Command(
        "open",
        ("open [SESSION | PROFILE.toml] [--new]",),
        "Open the screen on a session, or on a profile; without a word, on the session last worked on.\n"
        "A profile goes on with its newest session; --new begins another one and, without a terminal,\n"
        "prints its id and ends.",
        options=(Option("--new", help="begin a new session of that profile"),),
        most=1,
    ),
    Command(
        "status",
        ("status SESSION",),
        "Say how a session stands, in plain lines: what is next, owed, live, the timers, the verdict.",
        most=1,
    ),
    Command(
        "check",
        ("check PROFILE.toml", "check --session SESSION [PROFILE.toml]"),
        "Work out the figures and findings of a profile, or of a session with its readings.",
        "Exit code 0: nothing stops closing; 1: something does; 2: the call or a file is in error.",
        (
            Option("--session", "SESSION", "its own profile and readings count; PROFILE.toml is compared"),
            JSON,
        ),
        most=1,
    ),
    Command(
        "season",
        ("season PROFILE.toml --hourly FILE.csv",),
        "Work out the cold spell's figures over a series of hourly temperatures.",
        options=(
            Option("--hourly", "FILE.csv", "columns time and temperature_degC or temperature_degF"),
            JSON,
        ),
        most=1,
    ),
    Command(
        "read",
        ("read SESSION SLOT VALUE", "read SESSION SLOT --strike N", "read SESSION -"),
        "Take a reading exactly as the reading line does; all words after SLOT are the value.\n"
        "It is on disk once `taken` is said. With `-` it reads lines `SLOT VALUE` and answers each.",
        "Exit code 0: taken; 1: one was refused, and why; 2: the call or a file is in error.",
        (
            Option("--strike", "N", "strike the slot's Nth reading"),
            Option("--again", help="take the same value again, though it may be a bounced key"),
            JSON,
        ),
        most=2,
        values_after=2,
    ),
    Command(
        "step",
        ("step SESSION", "step SESSION ID start|done|hold|skip"),
        "List the steps with their ids and states, or start, end, hold or skip one.",
        ENDS_REFUSED,
        (
            Option("--note", "TEXT", "why, or what is worth knowing later"),
            Option(
                "--record",
                "WHAT=TEXT",
                "what the step wants written down, as circuit=0 V; as often as needed",
                repeats=True,
            ),
            Option("--overrule", "REASON", "start it though something stands in its way; wants --name"),
            Option("--name", "NAME", "who overrules or skips"),
            JSON,
        ),
        most=3,
    ),
    Command(
        "day",
        ("day SESSION", "day SESSION begin [--stop TIME]", "day SESSION end"),
        "Say what fits into today and what comes first tomorrow; begin a day, set its stop anew, or end it.",
        ENDS_REFUSED,
        (
            Option("--stop", "TIME", "when today's work stops: 16:30, 1630 or 4:30 pm"),
            Option(
                "--first-timer", "yes|no", "plan minutes for one who does this for the first time, or don't"
            ),
            JSON,
        ),
        most=2,
    ),
    Command(
        "punch",
        ("punch SESSION", "punch SESSION add TEXT", "punch SESSION done ID", "punch SESSION accept ID"),
        "List the punch list, write an item, set one to done, or accept an item or a finding.",
        ENDS_REFUSED,
        (
            Option(
                "--weight",
                "stop|use|note",
                "of a new item: stops closing (the default), before use, or a note",
            ),
            Option("--place", "PLACE", "of a new item: tank.gray, run.feed, …"),
            Option("--reason", "TEXT", "why it is accepted"),
            Option("--name", "NAME", "who accepts it"),
            JSON,
        ),
        most=2,
        values_after=2,
    ),
    Command(
        "sessions",
        ("sessions",),
        "List the sessions on this machine, the one last worked on first.",
        options=(JSON,),
    ),
    Command(
        "sources",
        ("sources",),
        "List where every constant, table and rule of the program comes from.",
        options=(JSON,),
    ),
    Command("schema", ("schema",), "Print the JSON Schema of a rig profile, for editors."),
    Command(
        "profile",
        ("profile SESSION -o FILE.toml",),
        "Write a session's profile as it stands now, with the agreed readings; it overwrites nothing.",
        options=(Option("--out", "FILE.toml", "the new file; without it, standard output", short="-o"),),
        most=1,
    ),
    Command(
        "sheet",
        ("sheet SESSION -o FILE.html", "sheet SESSION -o FILE.md"),
        "Write the hand-over sheet: limits of use, what was built, what proved it, what is left.",
        options=(
            Option("--out", "FILE", "a name that ends in .html or .md; an older one is replaced", short="-o"),
        ),
        most=1,
    ),
    Command(
        "copy",
        ("copy SESSION FILE",),
        "Write a session, whole, to one new file to carry away; it overwrites nothing.",
        most=2,
    ),
    Command(
        "merge",
        ("merge FILE [SESSION]",),
        "Take a copy in: what is new in it joins the session of the same id; an unknown one is added.\n"
        "Nothing is lost on either side, and the order of merging doesn't matter.",
        ENDS_REFUSED,
        most=2,
    ),
)


def program_help() -> str:
    """What `bellypan --help` prints."""
    from tui.command_line.layout import table

    rows = [(name, command.about.split("\n")[0]) for name, command in COMMANDS.items()]
    return "\n".join([
        "bellypan: plan, survey, wire, prove and close electric heat for an RV's holding tanks.",
        "",
        "bellypan                    the session last worked on, or a choice of rigs",
        "bellypan COMMAND --help     what a command takes",
        "bellypan --version",
        "",
        *table(rows),
        "",
        "SESSION is a session's id, its unique beginning, or its file.",
        "Exit code 0: done; 1: refused, or something stops closing; 2: the call or a file is in error.",
        "The program estimates; it certifies nothing.",
    ])  # fmt: skip


def command_help(command: Command) -> str:
    """What `bellypan COMMAND --help` prints."""
    from tui.command_line.layout import table

    rows = []
    for option in command.options:
        names = f"{option.short}, {option.name}" if option.short else option.name
        rows.append((f"{names} {option.takes}".rstrip(), option.help))
    calls = [f"bellypan {call}" for call in command.calls]
    return "\n".join([*calls, "", command.about, command.ends, *([""] if rows else []), *table(rows)])
