"""What the circuits' findings say adds up, and asks for nothing that isn't on offer."""

import re

import pytest

from logic.assessment.case import Case
from logic.assessment.findings import circuit, circuit_fuses  # noqa: F401 (they declare)
from logic.assessment.findings.rule import findings_of
from logic.data.quantities import fill
from tests.circuit_case_builder import feet, rig


def said(of, finding):
    made = Case(of)
    made.steps = ()
    found = {one.id: one for one in findings_of(made, {})}[finding]
    return fill(found.text, "us"), fill(found.remedy, "us")


@pytest.mark.parametrize("own", ["own", "chassis"])
def test_what_comes_back_through_a_lent_return_is_the_sum_of_what_is_named(own):
    # the second of three goes back by a way of its own, or by the frame: the lender carries only what is left
    wires = (
        feet("feed", 2, 18, fuse=50.0),
        feet("aside", 2, 12, from_="feed", feeds=("a",), back=own),
        feet("guest", 2, 12, from_="feed", feeds=("b",), back="feed"),
    )
    text, _ = said(rig({"a": 60.0, "b": 36.0}, *wires), "return-above-wire:run.feed")
    flows, total = text.removeprefix("its return carries ").split(";")[0].split(" = ")
    parts = [float(amps) for amps in re.findall(r"([\d.]+) A", flows)]
    assert sum(parts) == pytest.approx(float(total.removesuffix(" A")), abs=0.02)


def test_a_fuse_that_no_wire_on_offer_bears_is_not_advised():
    # 60 A × 1.25 = 75 A: a fuse of 80 A is on offer, a wire for it isn't (4 AWG carries 70 A)
    wires = feet("r", 0.5, 4, fuse="none", feeds=("a", "b"))
    _, remedy = said(rig({"a": 330.0, "b": 330.0}, wires), "no-fuse:run.r")
    assert remedy.startswith("no gauge on offer carries the 80 A that it wants: part its heaters over 2 ")
    small = feet("r", 0.5, 4, fuse=30.0, feeds=("a", "b"))
    _, remedy = said(rig({"a": 330.0, "b": 330.0}, small), "fuse-small:run.r")
    assert remedy.startswith("no gauge on offer carries the 80 A that it wants: part its heaters over 2 ")


def test_a_heater_too_great_for_any_wire_is_told_so():
    _, remedy = said(rig({"a": 60.0, "b": 900.0}, feet("r", 2, 12, feeds=("a",))), "unfed:heater.b")
    assert "more than a wire on offer carries: fewer watts on it" in remedy
