"""A heater of a case, seen once for all its figures of heat: its slots, its results, what readings move."""

from weakref import WeakKeyDictionary

from logic.assessment.case import Case
from logic.assessment.heater_case import HeaterHeat, heater_heat
from logic.assessment.nudge import levers_of, run_slots
from logic.assessment.si_figure import Results
from logic.assessment.surroundings import bay_slots
from logic.data.constants import WALL_LIMIT_DEGC
from logic.data.profile import Heater, Tank


class HeaterView:
    """What the figures and findings of one heater read."""

    def __init__(self, case: Case, heater: Heater) -> None:
        self.heater = heater
        self.place = f"heater.{heater.id}"
        self.tank: Tank | None = case.tanks.get(heater.on)
        home = self.tank or case.drains[heater.on]
        self.area = (f"{self.place}.length", f"{self.place}.width")
        self.wall = (f"tank.{heater.on}.wall",) if self.tank else (f"drain.{heater.on}.outside",)
        bay = bay_slots(case.profile, home.place)
        self.whole = tuple(dict.fromkeys((*self.area, *self.wall, *bay, *run_slots(case, (heater.id,)))))
        self.made = (heater, home, case.profile.design, case.profile.supply.charging)
        self.results: Results[HeaterHeat] = Results(
            case,
            self.whole,
            lambda variant: heater_heat(variant, heater.id),
            own=(*self.area, *self.wall),
            levers=levers_of(home.place, (heater.id,)),
        )

    def key(self) -> tuple[object, ...]:
        """All that the heater's figures hang on."""
        return (*self.made, *self.results.key())

    @property
    def heat(self) -> HeaterHeat:
        """Its heat, as the case stands."""
        return self.results.now

    @property
    def limit(self) -> float:
        """What its wall may reach. [°C]"""
        return self.tank.wall_limit_degc if self.tank else WALL_LIMIT_DEGC


_views: WeakKeyDictionary[Case, dict[str, HeaterView]] = WeakKeyDictionary()


def heater_view(case: Case, heater: Heater) -> HeaterView:
    """The heater's view, made once for a case."""
    views = _views.setdefault(case, {})
    if heater.id not in views:
        views[heater.id] = HeaterView(case, heater)
    return views[heater.id]
