"""The hand-over sheet: limits first, everything there, each number the assessment's own, the same twice."""

import re

import msgspec
import pytest

from logic.assessment.assess import assess
from logic.assessment.last_walk import last_walk_of
from logic.data.profile_file import load_profile
from logic.data.quantities import fill, show, show_figure
from logic.data.sources import source
from logic.data.state import Instant, State
from logic.handover import schedule
from logic.handover.html_page import html_page
from logic.handover.markdown_page import markdown_page
from logic.handover.sheet import sheet_of
from logic.session.intents import AcceptItem
from logic.session.session import open_session
from tests.contract.sheet_page import Page, sections_of
from tests.technician import RIGS, Technician
from tui.command_line.main import main

DEMO_RIGS = ("two-tanks", "full-belly", "with-mistakes")


@pytest.fixture(scope="module")
def worked(tmp_path_factory):
    """A whole job, its assessment and its state."""
    technician = Technician(RIGS / "two-tanks.toml", tmp_path_factory.mktemp("sheet"))
    try:
        technician.work()
        return technician.look(), technician.session.state
    finally:
        technician.session.close()


def in_units(assessment, units):
    rig = msgspec.structs.replace(assessment.profile.rig, units=units)
    return msgspec.structs.replace(assessment, profile=msgspec.structs.replace(assessment.profile, rig=rig))


def of_rig(rig):
    """The assessment of a demo rig whose job has not begun."""
    return assess(load_profile(RIGS / f"{rig}.toml").profile, State(), Instant(1.0e9, 3600))


def test_limits_of_use_come_first_and_every_part_is_there(worked):
    assessment, state = worked
    page = html_page(sheet_of(assessment, state))
    titles = list(sections_of(page))
    assert titles[0] == "Limits of use"
    assert {"Cards to cut out", "As built", "Test record", "Readings", "Cautions", "Sources"} <= set(titles)
    text = Page(page).text
    for part in (*assessment.profile.tanks, *assessment.profile.heaters, *assessment.profile.runs):
        assert part.id in text
    for step in assessment.steps:
        assert step.group == "hand over" or step.title in text
    for reading in state.readings:
        assert reading.typed in text


def test_sources_are_called_by_their_names_and_not_by_ids(worked):
    assessment, state = worked
    text = Page(html_page(sheet_of(assessment, state))).text
    used = {source(each) for figure in assessment.figures for each in figure.sources}
    assert len(used) > 20
    for each in used:
        assert each.title in text
        assert each.id not in text


def test_what_is_out_of_sight_stands_place_by_place_with_what_proved_it(worked):
    assessment, state = worked
    section = next(each for each in sheet_of(assessment, state).sections if each.title == "Out of sight")
    rows = {row[0]: " ".join(row[1:]) for row in section.blocks[1].rows}
    for halt in last_walk_of(assessment, state):
        for look in halt.looks:
            assert fill(look.text, assessment.profile.rig.units) in rows[halt.title]
    for heater in assessment.profile.heaters:
        newest = next(one for one in reversed(state.readings) if one.slot == f"heater.{heater.id}.volts")
        assert f"volts: {show(newest.value, 'volts', 'us')}" in rows[f"pad {heater.id}"]


def test_what_still_stands_out_of_sight_is_counted_there_on_an_unfinished_job():
    assessment = of_rig("with-mistakes")
    section = next(each for each in sheet_of(assessment, State()).sections if each.title == "Out of sight")
    stops = sum(int(row[-1].split(" stop")[0]) for row in section.blocks[1].rows if " stop: " in row[-1])
    assert stops == assessment.verdict.stop > 0


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("rig", DEMO_RIGS)
def test_every_figure_stands_with_the_assessments_own_number(rig, units):
    assessment = in_units(of_rig(rig), units)
    tables = Page(sections_of(html_page(sheet_of(assessment, State())))["Figures"]).tables
    rows = {tuple(row[:2]) for table in tables.values() for row in table}
    for figure in assessment.figures:
        assert (figure.title, show_figure(figure, units).value) in rows, figure.id
    assert sum(len(table) - 1 for table in tables.values()) == len(assessment.figures)


@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_limits_are_the_assessments_own_figures(worked, units):
    assessment, state = worked
    limits = Page(sections_of(html_page(sheet_of(in_units(assessment, units), state)))["Limits of use"]).text
    for figure in assessment.figures:
        row = figure.id.removeprefix(f"{figure.place}.")
        if figure.place.startswith("tank.") and row in ("least", "least_level", "holds_to", "hours_to_ice"):
            assert show_figure(figure, units).value in limits, figure.id


def test_a_limit_without_a_number_says_why():
    limits = Page(sections_of(html_page(sheet_of(of_rig("full-belly"), State())))["Limits of use"]).text
    assert "no speed on the road is given" in limits
    assert "never: at the design low it drifts to" in limits


def test_the_label_to_cut_out_says_when_heat_may_be_on(worked):
    assessment, state = worked
    cards = Page(sections_of(html_page(sheet_of(assessment, state)))["Cards to cut out"]).text
    assert "Off before you open the valve." in cards
    for tank in assessment.profile.tanks:
        least, level = (
            show_figure(figure, "us").value
            for figure in assessment.figures
            if figure.id in (f"tank.{tank.id}.least", f"tank.{tank.id}.least_level")
        )
        assert f"{tank.id}: on again only with {least}, {level} deep, back in." in cards


def test_a_run_from_the_supply_without_a_fuse_stands_on_the_fuse_card_as_such():
    table = Page(
        sections_of(html_page(sheet_of(of_rig("with-mistakes"), State())))["Cards to cut out"]
    ).tables[""]
    assert [row[1] for row in table if row[0] == "wrap-feed"] == ["NONE"]
    assert [row[1] for row in table if row[0] == "gray-feed"] == ["10 A"]


def test_expected_stands_beside_measured_and_over_range_is_no_number(worked):
    sections = sections_of(html_page(sheet_of(*worked)))
    tests = Page(sections["Test record"]).tables[""]
    row = next(row for row in tests if row[:3] == ["gray-feed", "pad gray-pad", "resistance"])
    assert row[3:] == ["3.6 Ω", "3.42 Ω … 3.96 Ω", "3.8 Ω", "3.6 Ω", "good"]
    isolation = next(row for row in tests if row[2] == "isolation")
    assert isolation[5] == "over range"
    assert "OFF" not in Page(sections["Test record"]).text
    readings = Page(sections["Readings"]).tables["run gray-feed"]
    assert next(row for row in readings if row[0] == "isolation")[1] == "over range"


def test_what_a_person_accepted_stands_with_reason_and_name(tmp_path):
    technician = Technician(RIGS / "full-belly.toml", tmp_path)
    try:
        finding = next(each for each in technician.look().findings if each.rule == "dry-hot")
        technician.act(AcceptItem(finding.id, "switched by hand only", "A. Keeper"))
        stands = sections_of(html_page(sheet_of(technician.look(), technician.session.state)))["What stands"]
    finally:
        technician.session.close()
    accepted = stands.partition("Accepted, and by whom")[2]
    assert "switched by hand only" in accepted
    assert "A. Keeper" in accepted


def test_a_sheet_does_not_say_that_there_is_none(worked):
    assessment, state = worked
    assert "no-sheet" in {finding.rule for finding in assessment.findings}
    assert "hand-over sheet was made" not in html_page(sheet_of(assessment, state))


def test_once_a_sheet_was_made_nothing_says_that_it_was_not(tmp_path, monkeypatch):
    technician = Technician(RIGS / "two-tanks.toml", tmp_path)
    technician.work()
    technician.session.close()
    monkeypatch.setenv("BELLYPAN_HOME", str(tmp_path))
    assert main(["sheet", technician.session.id, "-o", str(tmp_path / "sheet.html")]) == 0
    session = open_session(technician.session.id, technician.now, home=tmp_path, read_only=True)
    try:
        assert session.state.sheet_made is not None
        assert "no-sheet" not in {finding.rule for finding in session.assess(technician.now).findings}
    finally:
        session.close()


@pytest.mark.parametrize("rig", DEMO_RIGS)
def test_a_sheet_of_a_job_not_begun_says_do_not_close(rig):
    assessment = of_rig(rig)
    sheet = sheet_of(assessment, State())
    assert sheet.under.startswith("DO NOT CLOSE")
    assert Page(html_page(sheet)).tags >= {"table", "svg", "footer"}


@pytest.mark.parametrize("page", [html_page, markdown_page])
def test_the_same_session_gives_the_same_sheet(worked, page):
    assert page(sheet_of(*worked)) == page(sheet_of(*worked))


def test_no_table_has_a_column_in_which_nothing_is_said(worked):
    for sheet in (sheet_of(*worked), sheet_of(of_rig("full-belly"), State())):
        for rows in re.findall(r"<table.*?</table>", html_page(sheet)):
            head, *body = Page(rows).tables.popitem()[1]
            for column in range(1, len(head)):
                assert any(row[column] not in ("", "–") for row in body), (head, column)


def drawings_of(rig):
    state = State()
    sheet = sheet_of(assess(load_profile(RIGS / rig).profile, state, Instant(0.0)), state)
    page = html_page(sheet)
    return page.count("<figure>"), sections_of(page)["Drawings"]


def test_of_very_many_tanks_the_first_are_drawn_and_the_sheet_says_so(monkeypatch):
    drawn, said = drawings_of("full-belly.toml")
    assert "tanks are drawn" not in said
    monkeypatch.setattr(schedule, "MOST_TANKS_DRAWN", 1)
    fewer, said = drawings_of("full-belly.toml")
    assert "The first 1 of 3 tanks are drawn" in said
    assert fewer < drawn


def test_the_nights_of_very_long_weather_are_not_drawn_and_the_sheet_says_so(monkeypatch):
    drawn, _ = drawings_of("full-belly.toml")
    monkeypatch.setattr(schedule, "MOST_ROWS_DRAWN", 10)
    fewer, said = drawings_of("full-belly.toml")
    assert "too long for its nights to be drawn" in said
    assert fewer == drawn - 3
