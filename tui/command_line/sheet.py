"""`bellypan sheet`: the hand-over sheet of a session, as a page or as plain text with marks."""

from pathlib import Path

from logic.handover.html_page import html_page
from logic.handover.markdown_page import markdown_page
from logic.handover.sheet import sheet_of
from logic.session.files import Files, replace_file
from logic.session.intents import MarkSheetMade
from tui.command_line.arguments import Given
from tui.command_line.clock import now
from tui.command_line.exit_codes import DONE, fault
from tui.command_line.printing import complain, say
from tui.command_line.recording import recorded
from tui.command_line.sessions_held import held

PAGES = {".html": html_page, ".htm": html_page, ".md": markdown_page}


def run(given: Given) -> int:
    out = given.option("--out")
    if not given.operands or out is None:
        raise fault("sheet lacks words", expected="SESSION -o FILE.html or FILE.md")
    path = Path(out)
    page = PAGES.get(path.suffix.lower())
    if page is None:
        raise fault("a sheet of another kind", file=out, expected="a name that ends in .html or .md")
    with held(given.operands[0]) as session:
        text = page(sheet_of(session.assess(now()), session.state))
        replace_file(Files(), path, text.encode())
        say(f"sheet of {session.id} in {out}")
        answer = recorded(session, MarkSheetMade())
        if not answer.taken:
            complain(f"that it was made is not recorded: {answer.words}")
    return DONE
