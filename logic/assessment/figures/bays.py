"""Figures of bays: how cold a closed underside gets at the design low, with its heat and without."""

from logic.assessment.case import Case
from logic.assessment.nudge import Variant, levers_of
from logic.assessment.si_figure import Results, si_figure
from logic.assessment.surroundings import bay_balance, bay_slots
from logic.data.figure import Figure
from logic.data.profile import Bay
from logic.data.wording import Words, quantity, words
from logic.physics.bay import bay_degc

SOURCES = ("job-bay", "ashrae-still-air", "wac-51-11-0526", "mcadams-1954")


def figures(case: Case) -> list[Figure]:
    """Both figures of every bay."""
    return [row(case, bay) for bay in case.profile.bays for row in ROWS]


def low(case: Case, bay: Bay) -> Figure:
    return _figure(case, bay, "low", title="air, design low", heated=True)


def low_unheated(case: Case, bay: Bay) -> Figure:
    return _figure(case, bay, "low_unheated", title="air, without its heat", heated=False)


ROWS = (low, low_unheated)


def _figure(case: Case, bay: Bay, name: str, *, title: str, heated: bool) -> Figure:
    def degc(variant: Variant) -> float:
        design = variant.profile.design
        node = bay_balance(variant.profile, bay, heated=heated, tops=variant.tops[bay.id])
        return bay_degc(node, cabin_degc=design.cabin_degc, out_degc=design.low_degc)

    results: Results[float] = Results(
        case, bay_slots(case.profile, bay.id), degc, levers=levers_of(bay.id, ())
    )
    return si_figure(
        results,
        f"bay.{bay.id}.{name}",
        lambda value: value,
        title=title,
        unit="degC",
        working=lambda: _working(case, bay, heated=heated),
        why_not=lambda: words("it can't be computed"),
        sources=SOURCES,
        holds=results.now > 0 if bay.water and heated else None,
        limit=words("over {zero}: water in it", zero=quantity(0.0, "temperature"))
        if bay.water and heated
        else None,
    )


def _working(case: Case, bay: Bay, *, heated: bool) -> Words:
    node = bay_balance(case.profile, bay, heated=heated)
    design = case.profile.design
    return words(
        "({floor} × {cabin} + ({pan} + {leak}) × {low} + {heat}) / ({floor} + {pan} + {leak})",
        floor=quantity(node.floor, "conductance"),
        cabin=quantity(design.cabin_degc, "temperature"),
        pan=quantity(node.pan, "conductance"),
        leak=quantity(node.leak, "conductance"),
        low=quantity(design.low_degc, "temperature"),
        heat=quantity(node.heat, "power"),
    )
