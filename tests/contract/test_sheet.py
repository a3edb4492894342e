"""The hand-over sheet: limits first, everything there, every word escaped, nothing that runs or loads."""

import re
import xml.etree.ElementTree as ElementTree
from html.parser import HTMLParser

import msgspec
import pytest

from logic.assessment.assess import assess
from logic.data.profile_file import load_profile
from logic.data.quantities import show_figure
from logic.data.state import Instant, State
from logic.handover.html_page import html_page
from logic.handover.markdown_page import markdown_page
from logic.handover.sheet import sheet_of
from logic.session.intents import WriteItem, WriteNote
from tests.technician import RIGS, Technician

HOSTILE = "<script>alert(1)</script> [/x] =HYPERLINK(1) `a` *b* | c & \"d\" 'e'"
VOID = {"meta", "col", "br"}


class Balanced(HTMLParser):
    """Reads a page tag by tag: what is open must be closed in its turn."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: set[str] = set()
        self.attributes: set[str] = set()
        self.text: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.seen.add(tag)
        self.attributes |= {name for name, _ in attrs}
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.seen.add(tag)
        self.attributes |= {name for name, _ in attrs}

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text.append(data)


@pytest.fixture(scope="module")
def worked(tmp_path_factory):
    """A whole job, and its assessment, with words in it that would like to be markup."""
    technician = Technician(RIGS / "two-tanks.toml", tmp_path_factory.mktemp("sheet"))
    try:
        technician.work()
        technician.act(WriteItem(HOSTILE, "note", "tank.gray"))
        technician.act(WriteNote(HOSTILE, ""))
        return technician.look(), technician.session.state
    finally:
        technician.session.close()


@pytest.fixture(scope="module")
def page(worked) -> str:
    return html_page(sheet_of(*worked))


def read(page: str) -> Balanced:
    parser = Balanced()
    parser.feed(page)
    parser.close()
    assert parser.open == []
    return parser


def test_the_page_is_whole_and_runs_and_loads_nothing(page):
    seen = read(page)
    assert not {"script", "iframe", "link", "img", "object", "embed", "form", "a"} & seen.seen
    assert not {name for name in seen.attributes if name.startswith("on") or name in ("src", "href")}
    assert "default-src 'none'" in page.replace("&#x27;", "'")
    assert not re.findall(r"url\(|@import|javascript:", page)
    assert set(re.findall(r"https?://[^\s'\"<]+", page)) <= {"http://www.w3.org/2000/svg"}


def test_words_of_a_person_are_shown_as_they_were_typed(page, worked):
    assert HOSTILE in "".join(read(page).text)
    marks = markdown_page(sheet_of(*worked))
    assert "<script>" not in marks
    assert "\\<script\\>" in marks


def test_every_drawing_is_well_formed(page):
    drawings = re.findall(r"<svg.*?</svg>", page, re.DOTALL)
    assert len(drawings) == 5  # two bottoms, the wiring, two spells
    for drawing in drawings:
        ElementTree.fromstring(drawing)


def test_limits_of_use_come_first_and_every_part_is_there(page, worked):
    assessment, _ = worked
    titles = re.findall(r"<h2>(.*?)</h2>", page)
    assert titles[0] == "Limits of use"
    assert {"As built", "Fuse card", "Test record", "Readings", "Cautions", "Sources"} <= set(titles)
    text = " ".join(read(page).text)
    for part in (*assessment.profile.tanks, *assessment.profile.heaters, *assessment.profile.runs):
        assert part.id in text
    for typed in ("supply.volts", "tank.gray.length"):
        assert typed in text


@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_limits_are_the_assessments_own_figures(worked, units):
    assessment, state = worked
    rig = msgspec.structs.replace(assessment.profile.rig, units=units)
    assessment = msgspec.structs.replace(
        assessment, profile=msgspec.structs.replace(assessment.profile, rig=rig)
    )
    limits = html_page(sheet_of(assessment, state)).partition("What stands")[0]
    for figure in assessment.figures:
        row = figure.id.removeprefix(f"{figure.place}.")
        if figure.place.startswith("tank.") and row in ("least", "least_level", "holds_to", "hours_to_ice"):
            assert show_figure(figure, units).value in limits, figure.id


@pytest.mark.parametrize("rig", ["two-tanks", "full-belly", "with-mistakes"])
def test_a_sheet_of_a_job_not_begun_says_do_not_close(rig):
    assessment = assess(load_profile(RIGS / f"{rig}.toml").profile, State(), Instant(1.0e9, 3600))
    sheet = sheet_of(assessment, State())
    assert sheet.under.startswith("DO NOT CLOSE")
    assert read(html_page(sheet)).seen >= {"table", "svg", "footer"}
    assert html_page(sheet) == html_page(sheet_of(assessment, State()))


def test_a_table_in_markdown_has_as_many_cells_in_each_row(worked):
    rows = re.findall(r"(?:^\|.*\|$\n?)+", markdown_page(sheet_of(*worked)), re.MULTILINE)
    assert len(rows) > 8
    for table in rows:
        counts = {len(re.findall(r"(?<!\\)\|", row)) for row in table.splitlines()}
        assert len(counts) == 1
