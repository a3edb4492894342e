"""`bellypan season`, `sources`, `schema` and `sheet`: what is written for others to read."""

import json

import jsonschema
import pytest

from tests.contract.figure_rows import ROWS, row_of
from tests.contract.headless import RIGS, bellypan

SPELL = {row for row in ROWS if row.startswith("tank.spell.")}


@pytest.fixture
def week(tmp_path):
    """A week of hours, a night of −20 °C in its middle."""
    lines = ["time,temperature_degC"]
    for hour in range(168):
        degc = -20 if 72 <= hour < 84 else 2
        lines.append(f"2026-01-{5 + hour // 24:02d}T{hour % 24:02d}:00,{degc}")
    path = tmp_path / "week.csv"
    path.write_text("\n".join(lines) + "\n")
    return path


def test_a_season_gives_the_spell_s_figures_over_the_series(week):
    done = bellypan("season", RIGS / "two-tanks.toml", "--hourly", week, "--json")
    assert (done.code, done.errors) == (0, "")
    assert list(done.json) == ["format", "rig", "figures"]
    rows = [row_of(figure["id"]) for figure in done.json["figures"]]
    assert set(rows) >= SPELL
    assert set(rows) <= set(ROWS)
    for figure in done.json["figures"]:
        assert figure["unit"] == ROWS[row_of(figure["id"])]


def test_a_colder_series_leaves_the_contents_no_warmer(week, tmp_path):
    colder = tmp_path / "colder.csv"
    colder.write_text(week.read_text().replace(",2\n", ",-8\n"))

    def lowest(path):
        done = bellypan("season", RIGS / "two-tanks.toml", "--hourly", path, "--json")
        return {one["id"]: one["value"] for one in done.json["figures"] if one["id"].endswith("spell.lowest")}

    mild, cold = lowest(week), lowest(colder)
    assert mild
    assert all(cold[id] <= mild[id] for id in mild)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "season lacks words"),
        ((RIGS / "two-tanks.toml",), "season lacks words"),
        ((RIGS / "two-tanks.toml", "--hourly", "no-such.csv"), "no-such.csv"),
        (("no-such.toml", "--hourly", "week.csv"), "no-such.toml"),
    ],
)
def test_a_wrong_season_is_one_line_and_exit_2(words, said):
    done = bellypan("season", *words)
    assert done.code == 2
    assert said in done.errors
    assert done.errors.count("\n") == 1


def test_every_source_has_its_mark_and_none_stands_twice():
    sources = bellypan("sources", "--json").json["sources"]
    assert sources
    for source in sources:
        assert source["title"]
        assert source["mark"] in ("FOUND", "COMPUTED", "MEMORY", "PRACTICE")
    ids = [source["id"] for source in sources]
    assert len(ids) == len(set(ids))
    assert all(id in bellypan("sources").output for id in ids)


def test_the_schema_is_a_schema_and_takes_the_demo_rigs():
    import tomllib

    schema = bellypan("schema").json
    jsonschema.Draft202012Validator.check_schema(schema)
    for rig in RIGS.glob("*.toml"):
        jsonschema.validate(tomllib.loads(rig.read_text()), schema)


@pytest.mark.parametrize("name", ["sheet.html", "sheet.md"])
def test_a_sheet_is_written_and_that_it_was_made_is_recorded(session, tmp_path, name):
    out = tmp_path / name
    done = session.call("sheet", session.id, "-o", out)
    assert (done.code, done.errors) == (0, "")
    text = out.read_text(encoding="utf-8")
    assert "Two tanks in the open" in text
    assert "DO NOT CLOSE" in text
    assert "certifies nothing" in text
    assert session.call("sheet", session.id, "-o", out).code == 0


def test_text_of_a_person_is_only_text_on_the_sheet(session, tmp_path):
    session.call("punch", session.id, "add", "<script>alert(1)</script> [x](y) \x1b[31m")
    out = tmp_path / "sheet.html"
    assert session.call("sheet", session.id, "-o", out).code == 0
    text = out.read_text(encoding="utf-8")
    assert "<script" not in text
    assert "&lt;script&gt;" in text
    assert "\x1b" not in text


@pytest.mark.parametrize("words", [(), ("-o", "x.pdf"), ("-o", "no-such-folder/sheet.html")])
def test_a_sheet_that_can_t_be_written_is_exit_2(session, words):
    done = session.call("sheet", session.id, *words)
    assert done.code == 2
    assert done.output == ""
    assert done.errors.count("\n") == 1


def test_json_is_utf_8_and_nothing_else(session):
    assert json.loads(session.call("sessions", "--json").output)
