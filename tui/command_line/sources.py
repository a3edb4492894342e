"""`bellypan sources`: where every constant, table and rule of the program comes from."""

from logic.data.sources import all_sources
from tui.command_line.arguments import Given
from tui.command_line.exit_codes import DONE
from tui.command_line.layout import hung
from tui.command_line.printing import say, say_all, say_json


def run(given: Given) -> int:
    sources = all_sources()
    if given.has("--json"):
        say_json({
            "sources": [
                {"id": one.id, "title": one.title, "section": one.section, "mark": one.mark, "note": one.note}
                for one in sources
            ]
        })  # fmt: skip
        return DONE
    for one in sources:
        say(f"{one.id} ({one.mark})")
        say_all(hung("    ", one.text))
    return DONE
