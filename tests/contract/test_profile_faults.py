"""Faults that hang on several keys or parts of a profile: sizes against each other, references, circuits."""

import pytest

from tests.contract.profile_documents import LEFT_OUT, faults_of, paths_of, sound, with_value


def changed(*changes):
    document = sound()
    for path, value in changes:
        document = with_value(path, value, document=document)
    return document


# (changes, paths of all faults)
CASES = {
    "high below low": ([("design.high", "-13 degF")], ["design.high"]),
    "thermostat off at on": ([("heater.1.thermostat.off", "45 degF")], ["heater.galley-a.thermostat.off"]),
    "thermostat off below on": ([("heater.1.thermostat.off", "7 degC")], ["heater.galley-a.thermostat.off"]),
    "thermostat on at freezing": ([("heater.1.thermostat.on", "32 degF")], ["heater.galley-a.thermostat.on"]),
    "inside at outside of a drain": ([("drain.1.inside", "3.5 in")], ["drain.galley-valve.inside"]),
    "inside over outside of a drain": ([("drain.1.inside", "90 mm")], ["drain.galley-valve.inside"]),
    "wall of half an edge": ([("tank.1.wall", "4 1/2 in")], ["tank.galley.wall"]),
    "wall of half a taper's bottom": (
        [("tank.2.bottom_width", "2 in"), ("tank.2.wall", "1 in")],
        ["tank.black.wall"],
    ),
    "fall of the inside height": ([("tank.3.fall", "11 1/2 in")], ["tank.fresh.fall"]),
    "taper without its bottom": (
        [("tank.2.bottom_length", LEFT_OUT), ("tank.2.bottom_width", LEFT_OUT)],
        ["tank.black.bottom_length", "tank.black.bottom_width"],
    ),
    "slope without its fall": ([("tank.3.fall", LEFT_OUT)], ["tank.fresh.fall"]),
    "cylinder that is no circle": ([("tank.1.shape", "cylinder")], ["tank.galley.height"]),
    "bottom sizes of a box": ([("tank.1.bottom_length", "30 in")], ["tank.galley.bottom_length"]),
    "fall of a box": ([("tank.1.fall", "1 in")], ["tank.galley.fall"]),
    "fall of a taper": ([("tank.2.fall", "1 in")], ["tank.black.fall"]),
    "foot of a bottom pad": ([("heater.1.foot", "1 in")], ["heater.galley-a.foot"]),
    "foot of a wrap": ([("heater.3.foot", "1 in")], ["heater.valve.foot"]),
    "insulation of a wrap": ([("heater.3.insulation", "R 5")], ["heater.valve.insulation"]),
    "corner of a side pad": ([("heater.2.at", {"x": "1 in", "y": "1 in"})], ["heater.black-a.at"]),
    "corner of a wrap": ([("heater.3.at", {"x": "1 in", "y": "1 in"})], ["heater.valve.at"]),
    "a turned wrap": ([("heater.3.turned", True)], ["heater.valve.turned"]),
    "wrap on a tank": ([("heater.3.on", "galley")], ["heater.valve.face"]),
    "bottom pad on a drain": ([("heater.1.on", "galley-valve")], ["heater.galley-a.face"]),
    "side pad on a drain": ([("heater.2.on", "galley-valve")], ["heater.black-a.face"]),
    "heater on a name that a tank and a drain have": (
        [("drain.1.id", "galley"), ("heater.3.on", "galley")],
        ["heater.galley-a.on", "heater.valve.on"],
    ),
    "tank in no bay": ([("tank.1.place", "bely")], ["tank.galley.place"]),
    "drain in no bay": ([("drain.1.place", "loft")], ["drain.galley-valve.place"]),
    "drain of no tank": ([("drain.1.tank", "gallery")], ["drain.galley-valve.tank"]),
    "heater on nothing": ([("heater.1.on", "gallery")], ["heater.galley-a.on"]),
    "run from nothing": ([("run.2.from", "fed")], ["run.a.from"]),
    "run back by nothing": ([("run.3.back", "aa")], ["run.b.back"]),
    "run that feeds what isn't there": ([("run.2.feeds", ["galley-a", "galley-b"])], ["run.a.feeds"]),
    "heater fed by two runs": ([("run.3.feeds", ["galley-a", "black-a", "valve"])], ["run.b.feeds"]),
    "heater fed twice by one run": ([("run.2.feeds", ["galley-a", "galley-a"])], ["run.a.feeds"]),
    "run that feeds nothing": ([("run.2.feeds", []), ("run.3.back", "own")], ["run.a.feeds"]),
    "run that feeds nothing and lends its return": ([("run.2.feeds", LEFT_OUT)], ["run.a.feeds"]),
    "run from itself": ([("run.2.from", "a")], ["run.a.from"]),
    "two runs from each other": (
        [("run.1.from", "a")],
        ["run.feed.from", "run.a.from"],
    ),
    "run back by itself": ([("run.3.back", "b")], ["run.b.back"]),
    "run back by a borrower": ([("run.1.back", "b")], ["run.feed.back"]),
    "two runs back by each other": ([("run.2.back", "b")], ["run.a.back", "run.b.back"]),
    "run back by its own child": ([("run.1.back", "a"), ("run.3.back", "own")], ["run.feed.back"]),
    "tops over their bay's area": ([("bay.1.area", "13 ft²")], ["bay.belly.area"]),
}


@pytest.mark.parametrize("case", CASES)
def test_what_does_not_go_together_is_a_fault(case):
    changes, paths = CASES[case]
    assert paths_of(changed(*changes)) == paths


def test_tops_that_fill_their_bay_exactly_and_tops_under_the_open_air_are_no_fault():
    # 34 × 24 in and 40 × 30 in
    assert paths_of(changed(("bay.1.area", "14 ft²"))) == []
    assert paths_of(changed(("bay.1.area", "10 ft²"), ("tank.2.above", "air"))) == []


def test_a_borrower_may_use_a_chassis_return_and_a_run_of_another_branch():
    assert paths_of(changed(("run.2.back", "chassis"))) == []
    other = {"id": "c", "from": "supply", "length": "9 ft", "back": "a", "feeds": ["valve"]}
    assert paths_of(changed(("run.3.feeds", ["black-a"]), ("run", [*sound()["run"][:2], other]))) == []


def test_a_high_below_the_low_is_no_fault_where_hourly_rows_replace_both():
    from logic.data.profile import Hourly
    from logic.data.profile_check import check_document

    rows = Hourly((0.0, 3600.0), (-3.0, -8.0), (64800.0, 68400.0))
    document = changed(("design.hourly", "week.csv"), ("design.high", "-20 degF"))
    design = check_document(document, hourly=rows).design
    assert (design.low_degc, design.high_degc) == (-8.0, -3.0)
    del document["design"]["low"]
    assert check_document(document, hourly=rows).design.hourly == rows


@pytest.mark.parametrize("name", ["", "/tmp/week.csv", "../week.csv", "a/../../week.csv", "C:\\week.csv"])
def test_the_name_of_an_hourly_file_is_checked_also_where_its_rows_are_at_hand(name):
    from logic.data.faults import ProfileFaults
    from logic.data.profile import Hourly
    from logic.data.profile_check import check_document

    rows = Hourly((0.0, 3600.0), (-3.0, -8.0), (64800.0, 68400.0))
    with pytest.raises(ProfileFaults) as theirs:
        check_document(changed(("design.hourly", name)), hourly=rows)
    assert [fault.path for fault in theirs.value.faults] == ["design.hourly"]


def test_a_near_reference_is_named_with_those_that_exist():
    (fault,) = faults_of(changed(("tank.1.place", "bely")))
    assert fault.found == '"bely", which is nowhere'
    assert "open, inside, belly" in fault.expected
    assert fault.expected.endswith("the nearest is belly")


def test_an_id_at_fault_is_told_once_and_not_again_where_it_is_used():
    document = changed(("tank.2.id", "Black One"), ("heater.2.on", "Black One"))
    assert paths_of(document) == ["tank[2].id"]


def test_all_faults_of_a_document_come_at_once():
    document = changed(
        ("design.high", "-13 degF"),
        ("rig.nmae", "x"),
        ("tank.1.length", "41"),
        ("tank.2.id", "galley"),
        ("heater.1.on", "nothing"),
        ("run.2.from", "a"),
        ("supply.chemistry", "wet"),
    )
    assert set(paths_of(document)) >= {
        "design.high",
        "rig.nmae",
        "tank.galley.length",
        "tank[2].id",
        "heater.galley-a.on",
        "run.a.from",
        "supply.chemistry",
    }


def test_a_fault_reads_as_one_line_with_file_path_found_and_expected():
    (fault,) = faults_of(changed(("tank.1.length", "41 3/8")))
    line = fault.line()
    assert line.startswith("rig.toml: tank.galley.length: ")
    assert '"41 3/8"' in line
    assert "a length with its unit" in line
    assert "\n" not in line


def test_every_combination_of_two_runs_either_closes_or_is_a_fault():
    """No way of joining two runs is taken that leads a current nowhere: followed by hand, both ways."""
    words = ("own", "chassis", "a", "b")
    for from_a in ("supply", "a", "b"):
        for from_b in ("supply", "a", "b"):
            for back_a in words:
                for back_b in words:
                    runs = {"a": (from_a, back_a), "b": (from_b, back_b)}
                    document = sound()
                    document["run"] = [
                        {"id": "a", "from": from_a, "back": back_a, "length": "1 ft", "feeds": ["galley-a"]},
                        {"id": "b", "from": from_b, "back": back_b, "length": "1 ft", "feeds": ["valve"]},
                    ]
                    assert (paths_of(document) == []) == closes(runs), runs


def closes(runs):
    """Whether each run's way out and way back end at the supply within as many steps as there are runs."""
    for run in runs:
        lender = runs[run][1]
        if lender in runs and (lender == run or runs[lender][1] in runs):
            return False
        out, back = run, run
        for _ in range(4):
            out = runs[out][0] if out in runs else out
            if back in runs:
                way = runs[back][1]
                back = "supply" if way == "chassis" else runs[back][0] if way == "own" else way
        if out in runs or back in runs:
            return False
    return True


def test_ids_that_are_no_ids_are_clean_in_the_faults_of_those_that_name_them():
    document = sound()
    document["heater"][0]["id"] = "\x1b[31mred\u202e"
    lines = [fault.line() for fault in faults_of(document)]
    assert len(lines) >= 2
    assert not {"\x1b", "\u202e"} & set("".join(lines))
