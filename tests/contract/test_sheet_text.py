"""Whatever a person or a file says is only text on the sheet, in HTML, in its drawings and in Markdown."""

import re
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import msgspec
import pytest
from markdown_it import MarkdownIt

from logic.assessment.assess import assess
from logic.data.clean_text import clean_text
from logic.data.finding import Acceptance
from logic.data.profile_file import load_profile
from logic.data.state import Instant, Item, Note, Reading, State, StepEvent
from logic.handover.html_page import html_page
from logic.handover.markdown_page import markdown_page
from logic.handover.sheet import sheet_of
from tests.contract.sheet_page import RUNS_OR_LOADS, Page

RIGS = Path(__file__).parents[2] / "rigs"
NOW = Instant(1.0e9, 3600)
MARKUP = (
    "<script>alert(1)</script>",
    "</style></svg><img src=x onerror=alert(1)>",
    "]]><!-- & &amp; \"q\" 'q'",
    "[bold]x[/x] [a](http://example.com) ![i](x)",
    "`a` *b* **c** _d_ ~~e~~ | f | $g$",
    "# head",
    "1. one",
    "- [x] done",
    '=HYPERLINK("x")',
    "+1-1 @SUM(A1) www.example.com a@example.com",
    "שלום עולם",
    "\u202eright\u202c to left",
    "\x1b[31mred\x1b]0;title\x07",
    "x" * 60,
    "line\nbreak\ttab \ud800 \uffff",
)


def state_of(text: str) -> State:
    """A state with one text everywhere where a person's words can stand."""
    kept = Acceptance(reason=text, name=text, at=1.0e9)
    return State(
        readings=(
            Reading("1", "tank.gray.length", text, 0.9, NOW, by=text),
            Reading("2", "tank.gray.width", text, 0.5, NOW, by=f"{text}2", struck=True),
            Reading("3", "tank.gray.height", text, 0.5, NOW, moved_from="tank.gray.width"),
        ),
        steps=(
            StepEvent("4", "chocks:rig", "started", NOW, note=text),
            StepEvent("5", "chocks:rig", "done", NOW, note=text, recorded=((text, text),)),
            StepEvent("6", "stands:rig", "skipped", NOW, note=text, name=text),
            StepEvent("7", text, "overruled", NOW, note=text, name=text, gate=text),
        ),
        items=(
            Item("8", "note", "tank.gray", text, NOW),
            Item("9", "use", text, text, NOW, state="accepted", accepted=kept),
            Item("a", "use", "", text, NOW, state="done"),
        ),
        notes=(Note("b", text, text, NOW), Note("c", "", text, NOW)),
        accepted=(("dry-hot:heater.gray-pad", kept),),
    )


def sheet_with(text: str):
    """A sheet of a profile and a state that say the text wherever they can, as if no edge had cleaned it."""
    profile = load_profile(RIGS / "two-tanks.toml").profile
    put = msgspec.structs.replace
    tanks = tuple(
        put(tank, keepout=tuple(put(each, why=text) for each in tank.keepout)) for tank in profile.tanks
    )
    profile = put(
        profile,
        rig=put(profile.rig, name=text, kind=text, note=text),
        tanks=tanks,
        runs=tuple(put(run, colour=text) for run in profile.runs),
    )
    state = state_of(text)
    return sheet_of(assess(profile, state, NOW), state)


@pytest.mark.parametrize("text", MARKUP)
def test_on_the_page_it_is_text_and_nothing_else(text):
    plain = Page(html_page(sheet_with("plain")))
    made = html_page(sheet_with(text))
    page = Page(made)
    assert page.tags == plain.tags
    assert page.attributes == plain.attributes
    assert not RUNS_OR_LOADS & page.tags
    assert page.text.count(clean_text(text).replace("\u00a0", " ")) >= 12
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f\u202a-\u202e\u2066-\u2069]", made)
    made.encode("utf-8")


@pytest.mark.parametrize("text", MARKUP)
def test_in_the_drawings_it_is_text(text):
    drawings = re.findall(r"<svg.*?</svg>", html_page(sheet_with(text)), re.DOTALL)
    assert len(drawings) == 5  # two bottoms, the wiring, two spells
    told = ""
    for drawing in drawings:
        told += "".join(ElementTree.fromstring(drawing).itertext())
    assert clean_text(text).replace("\uffff", "") in told


@pytest.mark.parametrize("text", MARKUP)
def test_in_markdown_it_is_text_to_a_reader_of_markdown(text):
    reader = MarkdownIt("gfm-like", {"html": True, "linkify": True})
    plain, made = (Page(reader.render(markdown_page(sheet_with(each)))) for each in ("plain", text))
    assert made.tags == plain.tags
    assert "href" not in made.attributes
    shown = " ".join(clean_text(text).split())
    assert made.text.count(shown) >= 12


@pytest.mark.parametrize("text", MARKUP)
def test_tables_in_markdown_have_as_many_cells_in_each_row(text):
    tables = re.findall(r"(?:^\|.*\|$\n?)+", markdown_page(sheet_with(text)), re.MULTILINE)
    assert len(tables) > 8
    for table in tables:
        assert len({len(re.findall(r"(?<!\\)\|", row)) for row in table.splitlines()}) == 1


def test_the_page_may_load_and_run_nothing():
    page = html_page(sheet_with("plain"))
    head = page.partition("<body>")[0].replace("&#x27;", "'")
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', head)
    assert policy is not None
    rules = dict(rule.strip().partition(" ")[::2] for rule in policy[1].split(";"))
    assert rules == {
        "default-src": "'none'",
        "style-src": "'unsafe-inline'",
        "base-uri": "'none'",
        "form-action": "'none'",
    }
    seen = Page(page)
    assert not {name for name in seen.attributes if name.startswith("on") or name in ("src", "href")}
    assert not re.findall(r"url\(|@import|javascript:", page)
    assert set(re.findall(r"https?://[^\s'\"<]+", page)) == {"http://www.w3.org/2000/svg"}
