"""How pads lie: figures of fit, and the findings on fit and on readings, each firing and just not."""

from math import pi

import msgspec
import pytest

from logic.assessment import fit_remedies
from logic.assessment.assess import case_of, compute_figures
from logic.assessment.case import Case
from logic.assessment.findings.rule import findings_of
from logic.assessment.fit_case import places
from logic.assessment.shared import NoPlace, Place
from logic.data.finding import Finding
from logic.data.place_names import name_of
from logic.data.profile import Keepout, Outlet, Position, Profile
from logic.data.quantities import fill
from logic.data.slots import slots_of
from logic.data.state import Instant, Reading, State
from tests.rig_builder import INCH, drain, heater, profile, run, tank

RULES = (
    "pad-fit", "pad-far", "pad-tight", "planned", "single", "dispute", "impossible", "far-from-plan",
)  # fmt: skip


def read(*taken: tuple[str, float]) -> State:
    """Readings by a tape in 16ths of an inch."""
    return State(
        readings=tuple(
            Reading(f"r{place:03}", slot, "", value, Instant(60.0 * place), resolution=INCH / 16, unit="in")
            for place, (slot, value) in enumerate(taken)
        )
    )


def read_as_planned(rig: Profile, *slots: str, times: int = 1) -> State:
    """Readings of slots that show just what is planned."""
    planned = {slot.id: slot.planned for slot in slots_of(rig)}
    return read(*((slot, planned[slot]) for slot in slots for _ in range(times)))


def assessed(rig: Profile, state: State | None = None) -> Case:
    case = case_of(rig, state, Instant(1e6))
    compute_figures(case)
    return case


def found(case: Case, *rules: str) -> dict[str, Finding]:
    wanted = rules or RULES
    return {each.id: each for each in findings_of(case, {}) if each.rule in wanted}


def text(finding: Finding) -> str:
    return f"{fill(finding.text, 'us')} | {fill(finding.remedy, 'us')}"


def in_inches(case: Case, name: str, heater_id: str = "galley-a") -> float | None:
    value = case.value(f"heater.{heater_id}.{name}")
    return None if value is None else value / INCH


U1 = profile(
    tanks=(tank(),), heaters=(heater(at=Position(23.25 * INCH, 6 * INCH)),), runs=(run(feeds=("galley-a",)),)
)
SIDES = ("tank.galley.length", "tank.galley.width", "heater.galley-a.length", "heater.galley-a.width")


def test_clearance_its_uncertainty_and_the_chance_that_it_fits() -> None:
    case = assessed(U1, read_as_planned(U1, *SIDES))
    # U1 · Φ(clearance/u) · COMPUTED · rel 1e-5: printed digits
    assert in_inches(case, "clearance") == pytest.approx(0.125, rel=1e-9)
    assert in_inches(case, "u_clearance") == pytest.approx(0.0919975, rel=1e-5)
    assert case.figures["heater.galley-a.clearance"].u == pytest.approx(0.0919975 * INCH, rel=1e-5)
    tight = found(case)["pad-tight:heater.galley-a"]
    assert dict(tight.text.parts)["chance"].value == pytest.approx(0.912884, rel=1e-5)
    assert tight.weight == "use"


def test_clearance_with_its_place_read_too() -> None:
    case = assessed(U1, read_as_planned(U1, *SIDES, "heater.galley-a.x"))
    # U1 · Φ(clearance/u) · COMPUTED · rel 1e-5: printed digits
    assert in_inches(case, "u_clearance") == pytest.approx(0.1126735, rel=1e-5)
    tight = found(case)["pad-tight:heater.galley-a"]
    assert dict(tight.text.parts)["chance"].value == pytest.approx(0.866371, rel=1e-5)


def test_clearance_of_more_than_twice_its_uncertainty_is_not_tight() -> None:
    pad = msgspec.structs.replace(U1.heaters[0], at=Position(23 * INCH, 6 * INCH))
    rig = msgspec.structs.replace(U1, heaters=(pad,))
    case = assessed(rig, read_as_planned(rig, *SIDES))
    # U1 · 2u = 0.183995 in under 0.375 in · COMPUTED · rel 1e-5
    assert in_inches(case, "clearance") == pytest.approx(0.375, rel=1e-9)
    assert not found(case, "pad-tight")


def test_uncertainty_of_a_clearance_needs_both_sides_of_the_pad() -> None:
    case = assessed(U1, read_as_planned(U1, "tank.galley.length", "heater.galley-a.length"))
    figure = case.figures["heater.galley-a.u_clearance"]
    assert figure.value is None
    assert figure.why_not is not None
    assert case.figures["heater.galley-a.clearance"].u == pytest.approx(0.0919975 * INCH, rel=1e-5)
    assert assessed(U1).figures["heater.galley-a.u_clearance"].value is None


def test_turned_pad_hangs_on_its_width_along_the_tank() -> None:
    pad = heater(at=Position(29.25 * INCH, 3 * INCH), turned=True)
    rig = profile(tanks=(tank(),), heaters=(pad,), runs=(run(feeds=("galley-a",)),))
    finer = read_as_planned(rig, *SIDES)
    widths = tuple(
        msgspec.structs.replace(reading, resolution=INCH / 4) if reading.slot.endswith("a.width") else reading
        for reading in finer.readings
    )
    case = assessed(rig, State(readings=widths))
    # G1, G2 · JCGM 100, 5.1.2 · COMPUTED · rel 1e-5: tank to 1/16, the pad's width to 1/4
    assert in_inches(case, "clearance") == pytest.approx(0.125, rel=1e-9)
    assert in_inches(case, "u_clearance") == pytest.approx((0.0650521**2 + 0.0954703**2) ** 0.5, rel=1e-5)


def rig_with(*heaters, **tank_values) -> Profile:
    runs = tuple(run(f"r{place}", feeds=(each.id,)) for place, each in enumerate(heaters))
    return profile(tanks=(tank(**tank_values),), heaters=heaters, runs=runs)


OUTLET = Outlet(38 * INCH, 12 * INCH, 3 * INCH)


def test_place_chosen_by_the_program() -> None:
    case = assessed(rig_with(heater(), outlet=OUTLET))
    # rig-format, Places · by hand: x = 38 − 1 1/2 − 1/2 − 18, smallest y in the margin · abs 1e-6 in
    assert in_inches(case, "x") == pytest.approx(18, abs=1e-6)
    assert in_inches(case, "y") == pytest.approx(1, abs=1e-6)
    assert case.value("heater.galley-a.turned") == 0
    assert in_inches(case, "clearance") == pytest.approx(0.5, abs=1e-6)
    assert in_inches(case, "to_outlet") == pytest.approx(0.5, abs=1e-6)
    assert not found(case)


def test_pads_with_a_place_stand_first_then_the_others_in_the_profiles_order() -> None:
    fixed = heater("late", at=Position(18 * INCH, 6 * INCH))
    case = assessed(
        rig_with(heater("first"), heater("second", length=4 * INCH, width=4 * INCH), fixed, outlet=OUTLET)
    )
    assert isinstance(case.places["late"], Place)
    assert case.places["late"].given
    first = case.places["first"]
    assert isinstance(first, NoPlace) or first.x + first.along <= (18 - 0.5) * INCH + 1e-6
    assert list(case.places) == ["first", "second", "late"]
    # 12 in deep: the second lies below or above the one marked out
    assert in_inches(case, "clearance", "late") == pytest.approx(0.5, abs=1e-6)


def test_places_hang_on_tanks_and_heaters_only() -> None:
    rig = rig_with(heater(), outlet=OUTLET)
    other = msgspec.structs.replace(rig, runs=(), supply=msgspec.structs.replace(rig.supply, volts=12.0))
    assert places(rig) == places(other)
    hotter = msgspec.structs.replace(rig, heaters=(heater(watts=100.0),))
    assert places(rig)["galley-a"] is places(hotter)["galley-a"]


@pytest.mark.parametrize(
    ("x", "y", "clearance"),
    [
        (1.0, 6.0, 1.0),  # edge
        (-0.5, 6.0, -0.5),  # over an edge
        (18.0, 6.0, 0.5),  # outlet, beside
        (19.0, 6.0, -0.5),  # over the outlet's edge
        (22.0, 6.0, -1.5),  # the outlet's centre under it: its radius
        (24.375, 6.0, -1.5),
    ],
)
def test_clearance_of_given_places(x: float, y: float, clearance: float) -> None:
    case = assessed(rig_with(heater(at=Position(x * INCH, y * INCH)), outlet=OUTLET))
    # rig-format, Places · by hand · abs 1e-9 in: arithmetic
    assert in_inches(case, "clearance") == pytest.approx(clearance, abs=1e-9)
    assert bool(found(case, "pad-fit")) == (clearance < 0)


def test_pad_over_a_rib_names_it_and_says_where_it_would_lie() -> None:
    rib = Keepout(30 * INCH, 0.0, 1 * INCH, 24 * INCH, "rib")
    case = assessed(rig_with(heater(at=Position(14 * INCH, 6 * INCH)), keepout=(rib,)))
    finding = found(case)["pad-fit:heater.galley-a"]
    # by hand: 14 + 18 − 30
    assert in_inches(case, "clearance") == pytest.approx(-2, abs=1e-9)
    assert finding.weight == "stop"
    assert finding.open
    assert "rib by 2 in" in text(finding)
    assert "is clear" in text(finding)


def test_pads_over_each_other_both_do_not_fit() -> None:
    case = assessed(
        rig_with(heater("one", at=Position(INCH, INCH)), heater("two", at=Position(18 * INCH, 2 * INCH)))
    )
    assert set(found(case, "pad-fit")) == {"pad-fit:heater.one", "pad-fit:heater.two"}
    assert in_inches(case, "clearance", "one") == pytest.approx(-1, abs=1e-9)


def test_pad_without_a_place_says_by_how_much_and_what_would_fit() -> None:
    case = assessed(rig_with(heater(length=60 * INCH), outlet=OUTLET))
    for name in ("x", "y", "turned", "clearance", "to_outlet", "u_clearance"):
        figure = case.figures[f"heater.galley-a.{name}"]
        assert figure.value is None
        assert figure.why_not is not None
        # by hand: 35 in long it would fit
        assert "over by 25 in; 35 in by 12 in would fit" in fill(figure.why_not, "us")
    finding = found(case)["pad-fit:heater.galley-a"]
    assert "over by 25 in" in text(finding)
    # 35/60 of 60 W; two of 30 × 12 in lie nowhere whole
    assert "35 W" in text(finding)
    assert f"{case.value('tank.galley.needed'):.0f} W are needed" in text(finding)


def test_two_pads_in_parallel_add_their_watts() -> None:
    rib = Keepout(20 * INCH, 0.0, 1 * INCH, 24 * INCH, "rib")
    case = assessed(rig_with(heater(length=36 * INCH, watts=80.0), length=41 * INCH, keepout=(rib,)))
    finding = found(case)["pad-fit:heater.galley-a"]
    # by hand: two of 18 × 12 in lie on either side of the rib, 80 W together
    assert "two in parallel of 18 in by 12 in would fit, 80" in text(finding)


def test_bottom_covered_by_keepouts() -> None:
    all_of_it = Keepout(0.0, 0.0, 41.375 * INCH, 24 * INCH, "strap")
    case = assessed(rig_with(heater(), keepout=(all_of_it,)))
    assert case.value("heater.galley-a.x") is None
    assert "no pad fits" in text(found(case)["pad-fit:heater.galley-a"])


@pytest.mark.parametrize(("x", "far"), [(6.5, False), (6.49, True)])
def test_pad_far_from_its_outlet(x: float, far: bool) -> None:
    case = assessed(rig_with(heater(at=Position(x * INCH, 6 * INCH)), outlet=OUTLET))
    # design rule · exact: 38 − 1 1/2 − 18 − 6 1/2 = 12 in
    assert bool(found(case, "pad-far")) == far
    if far:
        assert found(case)["pad-far:heater.galley-a"].weight == "note"
    assert not found(assessed(rig_with(heater(at=Position(1 * INCH, 6 * INCH)))), "pad-far")


def test_remedy_for_a_far_pad_is_a_nearer_place_or_says_that_there_is_none() -> None:
    moved = assessed(rig_with(heater(at=Position(1 * INCH, 6 * INCH)), outlet=OUTLET))
    assert "its corner at x" in text(found(moved)["pad-far:heater.galley-a"])
    ribs = Keepout(19 * INCH, 0.0, 22.375 * INCH, 24 * INCH, "ribs")  # all about the outlet
    placed = assessed(rig_with(heater(), outlet=OUTLET, keepout=(ribs,)))
    assert placed.value("heater.galley-a.x") is not None
    # design, placing: a free pad lies as near as it can, so nothing nearer is left
    assert "no nearer place keeps its margins" in text(found(placed)["pad-far:heater.galley-a"])


def test_among_very_many_pads_no_nearer_place_is_looked_for_and_that_is_said(monkeypatch) -> None:
    far, other = heater(at=Position(1 * INCH, 6 * INCH)), heater("b", at=Position(1 * INCH, 14 * INCH))
    for most, said in ((2, "its corner at x"), (1, "isn't looked for among more than 1 pads")):
        monkeypatch.setattr(fit_remedies, "MOST_PADS_BESIDE", most)
        moved = assessed(rig_with(far, other, outlet=OUTLET))
        assert said in text(found(moved)["pad-far:heater.galley-a"])


@pytest.mark.parametrize(
    ("values", "fits"),
    [
        ({"length": 41 * INCH, "width": 8 * INCH, "foot": 1 * INCH}, True),
        ({"length": 41 * INCH, "width": 8 * INCH, "foot": 1.1 * INCH}, False),
        ({"length": 41.5 * INCH, "width": 4 * INCH}, False),
        ({"length": 10 * INCH, "width": 12 * INCH, "turned": True}, False),
        ({"length": 9 * INCH, "width": 12 * INCH, "turned": True}, True),
    ],
)
def test_side_pad_on_its_wall(values: dict, fits: bool) -> None:
    case = assessed(rig_with(heater(face="side", **values)))
    finding = found(case, "pad-fit").get("pad-fit:heater.galley-a")
    # rig-format, Places · exact: the tank is 9 in high, its longer wall 41 3/8 in
    assert (finding is None) == fits
    assert all(case.value(f"heater.galley-a.{name}") is None for name in ("x", "y", "turned", "clearance"))
    if finding is not None:
        assert text(finding)


@pytest.mark.parametrize(
    ("length", "width", "fits"),
    [(18.0, 3.5 * pi, True), (18.1, 3.0, False), (18.0, 3.5 * pi + 0.1, False)],
)
def test_wrap_on_its_pipe(length: float, width: float, fits: bool) -> None:
    wrap = heater("warm", on="galley-valve", face="wrap", length=length * INCH, width=width * INCH)
    rig = profile(tanks=(tank(),), drains=(drain(),), heaters=(wrap,), runs=(run(feeds=("warm",)),))
    case = assessed(rig)
    # rig-format, Places · exact: 18 in long, 3 1/2 in outside
    assert (not found(case, "pad-fit")) == fits
    assert case.value("heater.warm.clearance") is None


def test_plan_of_a_taper_is_its_bottom_and_of_a_cylinder_its_diameter() -> None:
    taper = assessed(rig_with(heater(), shape="taper", bottom_length=20 * INCH, bottom_width=14 * INCH))
    assert in_inches(taper, "x") == pytest.approx(1, abs=1e-6)
    assert "tank.galley.bottom_length" in taper.figures["heater.galley-a.clearance"].slots
    lying = assessed(
        rig_with(heater(), shape="cylinder", length=30 * INCH, width=16 * INCH, height=16 * INCH)
    )
    assert in_inches(lying, "y") == pytest.approx(2, abs=1e-6)
    assert "tank.galley.height" in lying.figures["heater.galley-a.clearance"].slots
    assert "tank.galley.width" not in lying.figures["heater.galley-a.clearance"].slots


def test_impossible_reading_leaves_the_fit_without_a_value() -> None:
    rig = rig_with(heater(), outlet=OUTLET)
    case = assessed(rig, read(("tank.galley.length", 0.5 * INCH)))
    assert case.value("heater.galley-a.clearance") is None
    assert set(found(case, "pad-fit", "pad-far", "pad-tight")) == set()
    finding = found(case)["impossible:tank.galley.length"]
    assert finding.weight == "stop"
    assert "two walls" in text(finding)


# --- readings ---


def test_what_readings_raise_and_what_settles_it() -> None:
    rig = profile(tanks=(tank(),))
    slot = "tank.galley.length"

    def raised(*values: float) -> set[str]:
        case = assessed(rig, read(*((slot, value * INCH) for value in values)))
        return {each.rule for each in found(case).values() if each.place == slot}

    # rig-format, findings with a session · exact
    assert raised() == {"planned"}
    assert raised(41.375) == {"single"}
    assert raised(41.375, 41.375) == set()
    assert raised(41.375, 42.0) == {"dispute"}
    assert raised(41.375, 42.0, 42.0625) == set()
    assert raised(36.0, 36.0) == {"far-from-plan"}
    assert raised(38.0, 38.0) == set()
    assert not found(assessed(rig))


def test_findings_of_readings_are_worded_with_their_numbers() -> None:
    rig = profile(tanks=(tank(),))
    slot = "tank.galley.length"
    case = assessed(rig, read((slot, 41.375 * INCH), (slot, 43 * INCH)))
    assert "galley tank, length: 2 readings differ, 41 3/8 in to 43 in" in text(
        found(case)[f"dispute:{slot}"]
    )
    assert "galley tank, width: 24 in planned, not read" in text(found(case)["planned:tank.galley.width"])


def test_findings_of_a_slot_begin_with_what_it_is_called_everywhere() -> None:
    rig = profile(tanks=(tank(keepout=(Keepout(0.1, 0.1, 0.1, 0.1, "rib"),)),), heaters=(heater(),))
    case = assessed(
        rig,
        read(
            ("tank.galley.length", 0.5 * INCH), ("tank.galley.keepout.1.x", 30 * INCH), ("tank.galley.width", 9.0),
            ("heater.galley-a.length", 18 * INCH),
        ),
    )  # fmt: skip
    rules = {"planned", "single", "impossible", "far-from-plan", "untested"}
    of_slots = found(case, *rules).values()
    assert {each.rule for each in of_slots} == rules
    for each in of_slots:
        assert text(each).startswith(name_of(each.place, rig)), text(each)
    assert name_of("tank.galley.keepout.1.x", rig) == "galley tank, keep-out 1 x"


def test_thirty_pads_on_one_tank() -> None:
    pads = tuple(heater(f"p{number:02}", length=4 * INCH, width=3 * INCH) for number in range(30))
    large = rig_with(*pads, length=60 * INCH, width=30 * INCH, outlet=Outlet(50 * INCH, 15 * INCH, 3 * INCH))
    case = assessed(large)
    assert all(in_inches(case, "clearance", pad.id) >= 0.5 - 1e-6 for pad in pads)
