"""`bellypan check`: its JSON, its exit codes and its errors are the format's contract."""

import math
import subprocess
from pathlib import Path

import pytest

from tests.contract.figure_rows import NOT_YET_BUILT, ROWS, place_of, row_of
from tests.contract.headless import NOWHERE, RIGS, ROOT, bellypan, clean_environment, command, spawned

DEMO_RIGS = sorted(RIGS.glob("*.toml"))
FULL_RIG = RIGS / "full-belly.toml"
FIGURE_KEYS = {"id", "title", "value", "unit", "working", "sources", "slots", "u"}
FINDING_KEYS = {"id", "weight", "place", "text", "remedy", "accepted", "open"}


@pytest.fixture(scope="module", params=DEMO_RIGS, ids=lambda path: path.stem)
def checked(request):
    return bellypan("check", request.param, "--json")


@pytest.fixture(scope="module")
def full():
    return bellypan("check", FULL_RIG, "--json").json


def test_there_are_at_least_three_demo_rigs():
    assert len(DEMO_RIGS) >= 3


def test_the_answer_has_the_format_s_keys_and_a_clean_error_stream(checked):
    assert list(checked.json) == ["format", "rig", "figures", "findings", "verdict"]
    assert checked.json["format"] == 1
    assert checked.json["rig"]
    assert checked.errors == ""


def test_the_exit_code_is_the_verdict(checked):
    verdict = checked.json["verdict"]
    assert set(verdict) == {"closable", "stop", "use", "note"}
    assert checked.code == (0 if verdict["closable"] else 1)
    assert verdict["closable"] == (verdict["stop"] == 0)


def test_every_figure_is_a_row_of_the_table_with_its_unit(checked):
    for figure in checked.json["figures"]:
        assert ROWS.get(row_of(figure["id"])) == figure["unit"], figure["id"]


def test_every_figure_has_exactly_its_keys(checked):
    for figure in checked.json["figures"]:
        extra = set(figure) - FIGURE_KEYS
        assert set(figure) >= FIGURE_KEYS, figure["id"]
        assert extra <= {"low", "high", "why_not"}, figure["id"]
        assert ("low" in extra) == ("high" in extra), figure["id"]
        assert ("why_not" in extra) == (figure["value"] is None), figure["id"]


def test_every_figure_is_a_finite_number_or_says_why_not(checked):
    for figure in checked.json["figures"]:
        if figure["value"] is None:
            assert figure["why_not"], figure["id"]
        else:
            assert math.isfinite(figure["value"]), figure["id"]
        for edge in (figure.get("low"), figure.get("high"), figure["u"]):
            assert edge is None or math.isfinite(edge), figure["id"]


def test_bands_have_their_lower_edge_first(checked):
    for figure in checked.json["figures"]:
        low, high = figure.get("low"), figure.get("high")
        if low is not None and high is not None:
            assert low <= high, figure["id"]


def test_every_figure_has_a_title_and_a_working_in_plain_text(checked):
    for figure in checked.json["figures"]:
        assert figure["title"], figure["id"]
        assert figure["working"] or figure["value"] is None, figure["id"]
        assert "{" not in figure["working"], figure["id"]


def test_no_figure_and_no_finding_stands_twice(checked):
    for kind in ("figures", "findings"):
        ids = [one["id"] for one in checked.json[kind]]
        assert len(ids) == len(set(ids))


def test_without_a_session_no_figure_has_an_uncertainty(checked):
    assert [figure["id"] for figure in checked.json["figures"] if figure["u"] is not None] == []


def test_every_source_of_a_figure_is_one_that_sources_prints(checked):
    known = {source["id"] for source in bellypan("sources", "--json").json["sources"]}
    used = {source for figure in checked.json["figures"] for source in figure["sources"]}
    assert used - known == set()


def test_every_finding_has_exactly_its_keys_and_both_its_texts(checked):
    for finding in checked.json["findings"]:
        assert set(finding) == FINDING_KEYS
        assert finding["weight"] in ("stop", "use", "note")
        rule, _, place = finding["id"].partition(":")
        assert rule
        assert place == finding["place"]
        assert finding["text"], finding["id"]
        assert finding["remedy"], finding["id"]
        assert finding["accepted"] is None


def test_the_verdict_counts_what_is_listed(checked):
    weights = [finding["weight"] for finding in checked.json["findings"]]
    for weight in ("stop", "use", "note"):
        assert checked.json["verdict"][weight] == weights.count(weight)


def test_the_full_rig_has_every_row_of_the_table_for_every_part(full):
    rows_of_place: dict[str, set[str]] = {}
    for figure in full["figures"]:
        rows_of_place.setdefault(place_of(figure["id"]), set()).add(row_of(figure["id"]))
    kinds_there = {place.partition(".")[0] for place in rows_of_place}
    assert kinds_there == {"tank", "bay", "drain", "heater", "run", "bundle", "supply", "wiring"}
    for place, rows in rows_of_place.items():
        kind = place.partition(".")[0]
        wanted = {row for row in ROWS if row.partition(".")[0] == kind} - NOT_YET_BUILT
        assert wanted - rows == set(), place


def test_rows_not_yet_built_are_rows_of_the_table_and_really_missing(full):
    built = {row_of(figure["id"]) for figure in full["figures"]}
    assert set(ROWS) >= NOT_YET_BUILT
    assert built & NOT_YET_BUILT == set()


def test_the_table_for_people_says_the_same_as_the_json(full):
    said = bellypan("check", FULL_RIG)
    assert said.output.splitlines()[0] == full["rig"]
    for figure in full["figures"]:
        assert figure["title"] in said.output
    for finding in full["findings"]:
        assert finding["text"] in said.output
        assert finding["remedy"] in said.output


def test_all_faults_of_a_profile_come_at_once_one_a_line(tmp_path):
    wrong = tmp_path / "wrong.toml"
    wrong.write_text(
        'format = 1\n[rig]\nname = "a"\n[design]\nlow = "10 kg"\n'
        '[supply]\nchemistry = "lithium"\ncapacity = "-3 Ah"\nvolt = "1 V"\n'
    )
    said = bellypan("check", wrong)
    assert said.code == 2
    assert said.output == ""
    lines = said.errors.splitlines()
    assert len(lines) == 3
    for path in ("design.low", "supply.capacity", "supply.volt"):
        assert sum(path in line and "wrong.toml" in line for line in lines) >= 1


def test_faults_as_json_go_to_standard_output(tmp_path):
    wrong = tmp_path / "wrong.toml"
    wrong.write_text('[rig]\nname = "a"\n')
    said = bellypan("check", wrong, "--json")
    assert said.code == 2
    assert said.errors == ""
    assert list(said.json) == ["errors"]
    for error in said.json["errors"]:
        assert list(error) == ["file", "path", "found", "expected"]
        assert error["found"]
        assert error["expected"]


@pytest.mark.parametrize(
    "content", [b"", b"\x00\x01\x02", b"[rig\n", b"\xff\xfe[rig]", b"a = 1\x1b[31m\n"], ids=repr
)
def test_what_is_no_profile_is_said_to_be_none(tmp_path, content):
    path = tmp_path / "odd.toml"
    path.write_bytes(content)
    said = bellypan("check", path)
    assert said.code == 2
    assert "odd.toml" in said.errors
    assert "\x1b" not in said.errors


def test_a_file_that_is_not_there_and_a_folder_are_said_to_be_so(tmp_path):
    for path in (tmp_path / "none.toml", tmp_path):
        said = bellypan("check", path)
        assert said.code == 2
        assert path.name in said.errors
        assert said.errors.count("\n") == 1


def test_control_characters_of_a_name_never_reach_the_terminal(tmp_path):
    text = (RIGS / "two-tanks.toml").read_text()
    start = text.index('name = "')
    end = text.index("\n", start)
    path = tmp_path / "rig.toml"
    path.write_text(text[:start] + 'name = "red \\u001b[31m and \\u202e back"' + text[end:])
    for words in (("check", path), ("check", path, "--json")):
        said = bellypan(*words)
        assert "\x1b" not in said.output
        assert "\u202e" not in said.output
        assert "red [31m and" in said.output


def test_a_reader_that_goes_away_is_no_fault():
    with subprocess.Popen(
        command("check", FULL_RIG),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=ROOT,
        env=clean_environment(NOWHERE),
    ) as child:
        assert child.stdout is not None
        assert child.stderr is not None
        child.stdout.close()
        assert child.stderr.read() == b""


def test_a_full_disk_behind_standard_output_is_said():
    if not Path("/dev/full").exists():
        return
    with open("/dev/full", "wb") as full:
        done = subprocess.run(
            command("check", FULL_RIG, "--json"),
            stdout=full,
            stderr=subprocess.PIPE,
            cwd=ROOT,
            env=clean_environment(NOWHERE),
            check=False,
        )
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr
    assert b"no space left" in done.stderr
    assert done.stderr.count(b"\n") == 1


def test_a_process_of_its_own_says_the_same(full):
    done = spawned("check", FULL_RIG, "--json")
    assert done.json == full
    assert done.errors == ""
    assert done.code == (0 if full["verdict"]["closable"] else 1)
