"""Writing a profile, and changing one value or one part of it: what comes out is what the check takes."""

import tomllib

import pytest

from logic.data import profile_edit, profile_fields
from logic.data.faults import ProfileFaults
from logic.data.profile_check import check_document
from logic.data.profile_file import load_profile
from logic.data.profile_write import profile_text
from tests.contract.headless import RIGS
from tests.contract.profile_documents import faults_of, paths_of, profile_of, sound

DEMO_RIGS = sorted(RIGS.glob("*.toml"))


@pytest.mark.parametrize("rig", DEMO_RIGS, ids=lambda path: path.stem)
def test_a_demo_rig_written_again_is_the_same_rig(rig, tmp_path):
    loaded = load_profile(rig)
    path = tmp_path / "again.toml"
    path.write_text(profile_text(loaded.document, comment="as it stands\n\nnow"))
    again = load_profile(path)
    assert again.document == loaded.document
    assert again.profile == loaded.profile


def test_what_is_written_is_laid_out_to_be_read():
    text = profile_text(sound(), comment="a rig\nof ours")
    assert text.startswith("# a rig\n# of ours\n\nformat = 1\n\n[rig]\nname = ")
    assert '\n\n[[tank]]\nid = "galley"\nholds = "gray"\nshape = "box"\nlength = "41 3/8 in"\n' in text
    assert 'outlet = { x = "38 in", y = "12 in", diameter = "3 in" }\n' in text
    assert (
        'keepout = [\n    { x = "10 in", y = "0 in", length = "2 in", width = "24 in", why = "rib" },\n]\n'
        in text
    )
    assert "\n\n\n" not in text


def test_keys_are_written_in_their_order_whatever_order_they_came_in():
    document = sound()
    document["tank"][0] = dict(reversed(document["tank"][0].items()))
    assert profile_text(document) == profile_text(sound())


def test_what_a_newer_version_knows_is_written_too():
    document = {**sound(), "weather": {"snow": "3 in"}, "extra": [1, 2]}
    document["tank"][0]["baffles"] = 2
    assert tomllib.loads(profile_text(document)) == document


@pytest.mark.parametrize(
    "text", ['quote " and \\ back', "tab\tand\nnewline", "\x1b\x00\x7f", "é ✓ ″ \u202e", "'''\"\"\"", "#[x]"]
)
def test_any_text_is_written_so_that_it_reads_back(text):
    document = {"format": 1, "rig": {"name": text, text or "k": text}}
    assert tomllib.loads(profile_text(document)) == document


def test_odd_values_are_written_so_that_they_read_back():
    document = {
        "format": 1,
        "rig": {"a": 1.5, "b": True, "c": [], "d": {}, "e": float("inf"), "f": -0.0, "g": 1e300},
    }
    assert tomllib.loads(profile_text(document)) == document


# --- changing ---


def test_a_value_is_changed_left_out_and_put_in_without_touching_the_document():
    document = sound()
    for path, value in (
        ("design.low", "0 degF"),
        ("design.nights", 4),
        ("wiring.table", "awg"),
        ("tank.galley.length", "40 in"),
        ("tank.galley.outlet.x", "37 in"),
        ("tank.galley.keepout.1.x", "11 in"),
        ("tank.galley.keepout.2", {"x": "1 in", "y": "1 in", "length": "1 in", "width": "1 in"}),
        ("tank.black.outlet", {"x": "20 in", "y": "12 in", "diameter": "3 in"}),
        ("heater.galley-a.thermostat.on", "44 degF"),
        ("run.a.gauge", "12 AWG"),
        ("tank[3].fill", 0.25),
    ):
        new = profile_edit.changed(document, path, value)
        assert profile_edit.value_at(new, path) == value
        assert paths_of(new) == [], path
        assert document == sound()
        assert profile_edit.value_at(profile_edit.changed(new, path, None), path) is None


def test_a_change_is_judged_with_the_texts_of_a_file():
    new = profile_edit.changed(sound(), "tank.galley.length", "41 3/8")
    (fault,) = faults_of(new)
    assert fault.path == "tank.galley.length"
    assert "a length with its unit" in fault.expected


def test_leaving_out_what_is_required_is_a_fault_and_what_has_a_default_is_not():
    assert paths_of(profile_edit.changed(sound(), "tank.galley.length", None)) == ["tank.galley.length"]
    assert paths_of(profile_edit.changed(sound(), "heater.black-a.foot", None)) == []
    assert paths_of(profile_edit.changed(sound(), "heater.galley-a.thermostat", None)) == []
    assert paths_of(profile_edit.changed(sound(), "tank.galley.keepout.1", None)) == []


@pytest.mark.parametrize(
    "path",
    ["", "tnak", "tank", "tank.gallery", "tank.gallery.length", "tank[9].length", "design",
     "tank.galley.length.x", "tank.galley.keepout.5.x", "tank.galley.keepout.0", "tank.galley.keepout.x",
     "format.x", "tank.galley"],
)  # fmt: skip
def test_a_path_that_leads_nowhere_is_a_fault(path):
    with pytest.raises(ProfileFaults) as theirs:
        profile_edit.changed(sound(), path, "1 in")
    assert len(theirs.value.faults) == 1


def test_a_part_is_added_where_it_is_wanted():
    bay = {"id": "front", "area": "9 ft²", "floor": "R 7", "pan": "R 4"}
    document = profile_edit.added(sound(), "bay", bay)
    assert [part["id"] for part in document["bay"]] == ["belly", "front"]
    document = profile_edit.added(sound(), "bay", bay, place=0)
    assert [part["id"] for part in document["bay"]] == ["front", "belly"]
    assert paths_of(document) == []
    assert paths_of(profile_edit.added(sound(), "tank", {"id": "galley"}))[0] == "tank[4].id"
    with pytest.raises(ProfileFaults):
        profile_edit.added(sound(), "valve", {})


def test_a_copied_part_stands_behind_the_first_and_feeds_nothing():
    document = profile_edit.copied(sound(), "tank", "galley", new_id="galley-two")
    assert [part["id"] for part in document["tank"]] == ["galley", "galley-two", "black", "fresh"]
    assert paths_of(document) == []
    document = profile_edit.copied(sound(), "run", "a", new_id="a-two")
    assert paths_of(document) == ["run.a-two.feeds"]


def test_a_removed_part_leaves_its_references_to_be_found():
    assert paths_of(profile_edit.removed(sound(), "tank", "galley")) == [
        "drain.galley-valve.tank",
        "heater.galley-a.on",
    ]
    assert paths_of(profile_edit.removed(sound(), "heater", "valve")) == ["run.b.feeds"]
    without = profile_edit.removed(sound(), "heater", "valve")
    without = profile_edit.removed(without, "heater", "galley-a")
    without = profile_edit.removed(without, "heater", "black-a")
    for run in ("b", "a", "feed"):
        without = profile_edit.removed(without, "run", run)
    assert paths_of(without) == []
    assert "run" not in without
    with pytest.raises(ProfileFaults):
        profile_edit.removed(sound(), "tank", "nowhere")
    with pytest.raises(ProfileFaults):
        profile_edit.removed(sound(), "design", "low")


# --- readings in place ---

INCH = 0.0254


def test_readings_take_the_place_of_what_was_planned():
    values = {
        "tank.galley.length": 41.40625 * INCH,
        "tank.galley.outlet.x": 37.9 * INCH,
        "tank.galley.keepout.1.x": 10.125 * INCH,
        "tank.galley.level": 3 * INCH,
        "run.feed.length": 6 * 12.25 * INCH,
        "heater.galley-a.x": 15.5 * INCH,
        "heater.galley-a.y": 6 * INCH,
        "heater.galley-a.resistance": 2.4,
        "supply.volts": 12.7,
        "work.air": 10.0,
    }
    document = profile_edit.as_built(sound(), values)
    assert profile_edit.value_at(document, "tank.galley.length") == "41 13/32 in"
    assert profile_edit.value_at(document, "tank.galley.outlet.x") == "37.9 in"
    assert profile_edit.value_at(document, "run.feed.length") == "6 ft 1 1/2 in"
    assert profile_edit.value_at(document, "heater.galley-a.at") == {"x": "15 1/2 in", "y": "6 in"}
    assert "volts" not in document["supply"]
    profile = profile_of(document)
    assert profile.tanks[0].length == pytest.approx(41.40625 * INCH, abs=1e-9)
    assert profile.tanks[0].keepout[0].x == pytest.approx(10.125 * INCH, abs=1e-9)
    assert profile.runs[0].length == pytest.approx(6 * 12.25 * INCH, abs=1e-9)


def test_a_cylinder_s_one_slot_is_written_as_height_and_width():
    document = sound()
    document["tank"][0].update(shape="cylinder", width="16 in", height="16 in")
    built = profile_edit.as_built(document, {"tank.galley.height": 0.4191}, metric=True)
    assert profile_edit.value_at(built, "tank.galley.width") == "419.1 mm"
    assert profile_of(built).tanks[0].width == pytest.approx(0.4191, abs=1e-9)


def test_one_side_of_a_pad_s_place_alone_is_not_written():
    document = sound()
    del document["heater"][0]["at"]
    assert "at" not in profile_edit.as_built(document, {"heater.galley-a.x": 0.4})["heater"][0]


# --- what can be changed ---


def test_the_fields_of_a_place_are_its_keys_with_what_holds():
    document = sound()
    table, names = profile_edit.table_at(document, "tank.galley")
    assert names == []
    fields = {field.path: field for field in profile_fields.fields_of(table, "tank.galley")}
    assert fields["tank.galley.length"].stated == "41 3/8 in"
    assert fields["tank.galley.wall"].stated is None
    assert fields["tank.galley.wall"].default == "0.25 in"
    assert fields["tank.galley.outlet.x"].stated == "38 in"
    assert fields["tank.galley.keepout.1.why"].stated == "rib"
    assert "tank.galley.fall" not in fields
    for path, field in fields.items():
        assert profile_fields.key_at(path) == field.key
    assert {"design.low", "design.hourly"} <= {
        field.path for field in profile_fields.fields_of(document["design"], "design")
    }


@pytest.mark.parametrize(
    ("path", "typed", "value"),
    [
        ("tank.galley.length", " 41 3/8 in ", "41 3/8 in"),
        ("tank.galley.fill", "0.3", 0.3),
        ("tank.galley.fill", ".5", 0.5),
        ("tank.galley.fill", "half", "half"),
        ("design.nights", "3", 3),
        ("design.nights", "2.5", "2.5"),
        ("bay.belly.water", "Yes", True),
        ("bay.belly.water", "false", False),
        ("bay.belly.water", "maybe", "maybe"),
        ("heater.galley-a.tolerance", "-0.05, 0.1", [-0.05, 0.1]),
        ("run.a.feeds", "galley-a; black-a", ["galley-a", "black-a"]),
        ("run.a.feeds", "", []),
        ("parts.spools", "25 ft, 100 ft", ["25 ft", "100 ft"]),
        ("run.a.fuse", "7.5 A", "7.5 A"),
    ],
)
def test_what_is_typed_for_a_key_becomes_what_a_file_would_state(path, typed, value):
    key = profile_fields.key_at(path)
    assert key is not None
    assert profile_fields.value_from_text(key, typed) == value


def test_every_default_that_is_offered_is_one_that_the_check_takes():
    for place in ("design", "wiring", "parts", "tank.galley", "tank.fresh", "heater.galley-a", "run.feed"):
        table, _ = profile_edit.table_at(sound(), place)
        for field in profile_fields.fields_of(table, place):
            if field.key.default in (None, "", []):
                continue
            document = profile_edit.changed(sound(), field.path, field.key.default)
            assert check_document(document) is not None
