"""`bellypan sessions`: the sessions on this machine, the one last worked on first."""

from logic.session.session import find_sessions
from tui.command_line.arguments import Given
from tui.command_line.clock import stamp
from tui.command_line.exit_codes import DONE
from tui.command_line.layout import table
from tui.command_line.printing import say, say_all, say_json


def run(given: Given) -> int:
    found = find_sessions()
    if given.has("--json"):
        say_json({
            "sessions": [
                {
                    "id": one.id,
                    "rig": one.rig,
                    "started": stamp(one.started),
                    "last": stamp(one.last),
                    "file": str(one.file),
                }
                for one in found
            ]
        })  # fmt: skip
    elif found:
        rows = [("id", "last worked on", "rig"), *((one.id, stamp(one.last), one.rig) for one in found)]
        say_all(table(rows, indent=""))
    else:
        say("no session yet: bellypan open PROFILE.toml begins one")
    return DONE
