"""Figures of the supply: what flows, what the battery gives in the cold, what a night takes, for how long."""

from collections.abc import Callable, Iterator
from weakref import WeakKeyDictionary

from logic.assessment.case import Case
from logic.assessment.figure_builder import build_figure
from logic.assessment.kept import KeptFigures
from logic.assessment.nudge import Variant, run_slots, tops_lever, volts_lever
from logic.assessment.si_figure import Results, si_figure
from logic.assessment.spell_budget import too_long_for_readings
from logic.assessment.supply_case import (
    SupplyInputs,
    battery_degc,
    heater_amps,
    hours,
    supply_inputs,
    usable_ah,
    worst_night,
)
from logic.assessment.tank_case import EDGES, Banded
from logic.assessment.tank_view import bare, tank_view
from logic.data.constants import CONVERTER_SHARE, DAY, HOUR
from logic.data.figure import Figure
from logic.data.safe_sides import as_told
from logic.data.wording import Words, quantity, words
from logic.physics.battery import temperature_factor

SPELL_SOURCES = ("job-heat", "iapws-95", "mcadams-1954", "practice-g-band")
BATTERY_SOURCES = (
    "practice-battery-cold",
    "tm-10-6140-200-14",
    "trade-lithium-cold",
    "practice-20-hour-rate",
)


class SupplyView:
    """What the supply's figures read."""

    def __init__(self, case: Case) -> None:
        self.case = case
        profile = case.profile
        self.runs = run_slots(case, tuple(heater.id for heater in profile.heaters))
        views = [tank_view(case, tank) for tank in profile.tanks if case.heaters_on(tank.id)]
        slots = dict.fromkeys(slot for view in views for slot in view.whole)
        self.slots = tuple(dict.fromkeys((*slots, *self.runs)))
        self.other = profile.supply.other or 0.0
        volts = tuple(volts_lever(heater.id) for heater in profile.heaters)
        self.results: Results[SupplyInputs] = Results(
            case,
            self.slots,
            self.inputs,
            own=tuple(slot for view in views for slot in view.faces),
            levers=(*(tops_lever(bay.id) for bay in profile.bays), *volts),
        )
        self.flow: Results[float] = Results(case, self.runs, all_on_amps, levers=volts)
        self.made = (profile.supply, profile.design, tuple(map(bare, profile.tanks)), profile.heaters)

    def inputs(self, variant: Variant) -> SupplyInputs:
        """What the account hangs on: first of the case as it stands, then with something moved."""
        if not variant.moved:
            self._base = supply_inputs(variant)
            return self._base
        return supply_inputs(variant, base=self._base)

    def key(self) -> tuple[object, ...]:
        """All that the supply's figures hang on."""
        return (*self.made, *self.results.key(), *self.flow.key())

    def night_ah(self, inputs: SupplyInputs, edge: float = 1.0) -> float:
        """[Ah]"""
        beside = None if inputs is self._base else self._base
        return worst_night(inputs, other=self.other, edge=edge, beside=beside).whole_ah

    def seconds(self, inputs: SupplyInputs, edge: float = 1.0) -> float | None:
        """Until the battery is at its floor. [s]"""
        held = hours(self.case.profile, self.night_ah(inputs, edge))
        return None if held is None else held * HOUR

    def nights(self, inputs: SupplyInputs, edge: float = 1.0) -> float | None:
        """[1]"""
        held = self.seconds(inputs, edge)
        return None if held is None else held / DAY


_kept = KeptFigures(16)
_views: WeakKeyDictionary[Case, SupplyView] = WeakKeyDictionary()


def supply_view(case: Case) -> SupplyView:
    """The supply's view, made once for a case."""
    if case not in _views:
        _views[case] = SupplyView(case)
    return _views[case]


def figures(case: Case) -> Iterator[Figure]:
    """Every figure of the supply."""
    view = supply_view(case)
    rows = (current, usable, night, hours_left, nights, converter)
    return _kept.figures((view.key(), too_long_for_readings(case)), lambda: (row(case, view) for row in rows))


def _banded(
    number: Callable[[SupplyInputs, float], float | None],
) -> Callable[[SupplyInputs], Banded]:
    return lambda inputs: Banded(*(number(inputs, edge) for edge in EDGES))


def current(case: Case, view: SupplyView) -> Figure:
    """Every heater on, at `charging`."""
    return si_figure(
        view.flow,
        "supply.current",
        lambda amps: amps,
        title="all on, charging",
        unit="A",
        working=lambda: words(
            "every heater on at {volts}, the network solved",
            volts=quantity(case.profile.supply.charging, "volts"),
        ),
        why_not=lambda: words("it can't be computed"),
        sources=("iacs-1913",),
    )


def all_on_amps(variant: Variant) -> float:
    """What every heater together draws at `charging`: all voltages scale with the supply's. [A]"""
    supply = variant.profile.supply
    heaters = {heater.id: heater for heater in variant.profile.heaters}
    return sum(
        heater_amps(heaters[name], volts * supply.charging / supply.volts)
        for name, volts in variant.volts.items()
        if volts is not None
    )


def usable(case: Case, view: SupplyView) -> Figure:
    supply = case.profile.supply
    degc = battery_degc(case.profile)
    return build_figure(
        case,
        "supply.usable",
        title="usable in the cold",
        unit="Ah",
        value=usable_ah(case.profile),
        working=words(
            "{capacity} × {usable} × {factor} at {temperature}",
            capacity=quantity(supply.capacity_ah, "charge"),
            usable=quantity(supply.usable, "share"),
            factor=quantity(temperature_factor(supply.chemistry, degc), "share"),
            temperature=quantity(degc, "temperature"),
        ),
        sources=BATTERY_SOURCES,
    )


def night(case: Case, view: SupplyView) -> Figure:
    worst = worst_night(view.results.now, other=view.other)
    return si_figure(
        view.results,
        "supply.night",
        view.night_ah,
        title="worst night",
        unit="Ah",
        working=lambda: words(
            "day {day}: heaters {heat} + other load {other} × 24",
            day=quantity(worst.which + 1, "count"),
            heat=as_told("supply.night", worst.heat_ah, "charge"),
            other=quantity(view.other, "amps"),
        ),
        why_not=lambda: words("it can't be computed"),
        sources=SPELL_SOURCES,
        band=_banded(view.night_ah),
        without_u=too_long_for_readings(case),
    )


def _nothing_drawn() -> Words:
    return words("nothing is drawn")


def _hours_working(case: Case, view: SupplyView) -> Words:
    supply = case.profile.supply
    taken = view.night_ah(view.results.now)
    rule = "" if supply.peukert <= 1 else ", by Peukert with k = {peukert}, no longer than that"
    return words(
        "{usable} / ({night} / 24)" + rule,
        usable=as_told("supply.usable", usable_ah(case.profile), "charge"),
        night=as_told("supply.night", taken, "charge"),
        **({} if supply.peukert <= 1 else {"peukert": quantity(supply.peukert, "number")}),
    )


def hours_left(case: Case, view: SupplyView) -> Figure:
    return si_figure(
        view.results,
        "supply.hours",
        view.seconds,
        title="battery lasts",
        unit="h",
        working=lambda: _hours_working(case, view),
        why_not=_nothing_drawn,
        sources=("peukert-1897", *BATTERY_SOURCES, *SPELL_SOURCES),
        band=_banded(view.seconds),
        without_u=too_long_for_readings(case),
    )


def nights(case: Case, view: SupplyView) -> Figure:
    held = view.nights(view.results.now)
    wanted = case.profile.design.nights
    return si_figure(
        view.results,
        "supply.nights",
        view.nights,
        title="nights it lasts",
        unit="1",
        working=lambda: words(
            "{hours} / {day}",
            hours=as_told("supply.hours", view.seconds(view.results.now) or 0.0, "hours"),
            day=quantity(DAY, "hours"),
        ),
        why_not=_nothing_drawn,
        sources=("peukert-1897", *BATTERY_SOURCES, *SPELL_SOURCES),
        band=_banded(view.nights),
        without_u=too_long_for_readings(case),
        holds=held is None or held >= wanted,
        limit=words("{nights} nights asked", nights=quantity(wanted, "count")),
    )


def converter(case: Case, view: SupplyView) -> Figure:
    rating = case.profile.supply.converter

    def share(amps: float) -> float | None:
        return None if rating is None else (amps + view.other) / rating

    held = share(view.flow.now)
    return si_figure(
        view.flow,
        "supply.converter",
        share,
        title="share of converter",
        unit="1",
        working=lambda: words(
            "({current} + {other}) / {rating}",
            current=quantity(view.flow.now, "amps"),
            other=quantity(view.other, "amps"),
            rating=quantity(rating or 0.0, "amps"),
        ),
        why_not=lambda: words("no converter is given"),
        sources=("practice-converter-80",),
        holds=held is None or held <= CONVERTER_SHARE,
        limit=words("at most {most} of it", most=quantity(CONVERTER_SHARE, "share")),
    )
