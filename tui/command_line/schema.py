"""`bellypan schema`: the JSON Schema of a profile, for editors."""

from logic.data.profile_schema import profile_schema
from tui.command_line.arguments import Given
from tui.command_line.exit_codes import DONE
from tui.command_line.printing import say_json


def run(given: Given) -> int:
    say_json(profile_schema())
    return DONE
