"""`bellypan read`: readings taken without the screen, through the same intents as its keys.

`taken` is said only once a reading is on disk; what is said leaves the program at once, line by line.
"""

import sys
from collections.abc import Iterator

from logic.session.intents import Intent, RecordReading, StrikeReading
from logic.session.session import Session
from tui.command_line.arguments import Given
from tui.command_line.exit_codes import DONE, REFUSED, fault
from tui.command_line.printing import say, say_json
from tui.command_line.recording import recorded
from tui.command_line.sessions_held import held

EXPECTED = "SESSION SLOT VALUE, SESSION SLOT --strike N, or SESSION -"
LONGEST_LINE = 1000  # characters of one line of standard input
MOST_BYTES = 8 * LONGEST_LINE  # of a line that are looked at; what is longer is refused


def run(given: Given) -> int:
    words = given.operands
    if len(words) < 2:
        raise fault("read lacks words", expected=EXPECTED)
    strike = given.option("--strike")
    as_json = given.has("--json")
    if words[1] == "-" and len(words) == 2 and strike is None:
        with held(words[0]) as session:
            answers = [answered(session, line, as_json) for line in lines_of_input()]
        return DONE if all(answers) else REFUSED
    slot, typed = words[1], " ".join(words[2:])
    intent: Intent
    if strike is not None:
        if typed:
            raise fault(f"--strike stands with a value: {typed}", expected="one of them")
        intent = StrikeReading(slot=slot, number=whole_number(strike))
        typed = f"--strike {strike}"
    elif typed:
        intent = RecordReading(slot=slot, typed=typed, confirmed=given.has("--again"))
    else:
        raise fault(f"no value for {slot}", expected=EXPECTED)
    with held(words[0]) as session:
        return DONE if told(slot, typed, reason(session, intent), as_json) else REFUSED


def answered(session: Session, line: str, as_json: bool) -> bool:
    """One line `SLOT VALUE` of standard input taken or refused, and answered. Whether it was taken."""
    slot, _, typed = line.strip().partition(" ")
    typed = typed.strip()
    if len(line) > LONGEST_LINE:
        return told(slot[:60], "", f"the line is over {LONGEST_LINE} characters long", as_json)
    if not typed:
        return told(slot, "", "no value; expected SLOT VALUE", as_json)
    return told(slot, typed, reason(session, RecordReading(slot=slot, typed=typed)), as_json)


def reason(session: Session, intent: Intent) -> str:
    """Why an intent was refused, empty where it was taken and is on disk."""
    answer = recorded(session, intent)
    return "" if answer.taken else answer.words


def told(slot: str, typed: str, refused: str, as_json: bool) -> bool:
    """Say what became of one reading; whether it was taken."""
    if as_json:
        said = {"slot": slot, "refused": refused} if refused else {"slot": slot, "taken": typed}
        say_json(said, one_line=True)
    else:
        say(f"refused {slot} {refused}" if refused else f"taken {slot} {typed}")
    return not refused


def lines_of_input() -> Iterator[str]:
    """Lines of standard input as they come, without empty ones; of one far too long, its beginning."""
    if sys.stdin is None:
        return
    stream = sys.stdin.buffer
    while raw := stream.readline(MOST_BYTES):
        rest = raw
        while len(rest) == MOST_BYTES and not rest.endswith(b"\n"):
            rest = stream.readline(MOST_BYTES)
        line = raw.decode("utf-8", "replace").rstrip("\r\n")
        if line.strip():
            yield line


def whole_number(text: str) -> int:
    """The N of `--strike N`, counted from 1."""
    if not text.isascii() or not text.isdigit() or int(text) < 1:
        raise fault(f"--strike {text}", expected="a reading's number, counted from 1")
    return int(text)
