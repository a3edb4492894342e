"""A tank of a case, seen once for all its figures: its slots, its results, what readings move."""

from collections.abc import Callable
from weakref import WeakKeyDictionary

import msgspec

from logic.assessment.case import Case
from logic.assessment.nudge import Variant, levers_of, run_slots
from logic.assessment.pad_clearance import slots_of_fit
from logic.assessment.shared import NoPlace, Place
from logic.assessment.si_figure import Results
from logic.assessment.surroundings import bay_slots
from logic.assessment.tank_case import Banded, TankHeat, fed_pads, tank_results
from logic.assessment.tank_inputs import TankInputs, tank_inputs
from logic.assessment.tank_spell_case import tank_spell
from logic.data.profile import Tank
from logic.physics.spell_parts import Spell

replace = msgspec.structs.replace

UNEVEN = {"slope": "x", "cylinder": "y"}
"""Shapes whose floor isn't level, and the axis along which it rises."""


class TankView:
    """What the figures and findings of one tank read."""

    def __init__(self, case: Case, tank: Tank) -> None:
        self.tank = tank
        self.place = f"tank.{tank.id}"
        heaters = tuple(heater.id for heater in case.heaters_on(tank.id))
        self.sizes = self.slots("length", *_across(tank), "wall")
        self.outside = self.slots("length", *(name for name in _across(tank) if name in ("width", "height")))
        self.pads = tuple(f"heater.{heater}.{side}" for heater in heaters for side in ("length", "width"))
        marked = _marks(tank, case)
        self.marks = _unique(marked, _laid(tank, case))  # where its pads lie, as far as the least liquid asks
        self.bay = bay_slots(case.profile, tank.place)
        self.runs = run_slots(case, heaters)
        self.faces = _unique(self.sizes, self.pads)
        self.losses = _unique(self.faces, self.bay)
        self.whole = _unique(self.losses, self.runs)
        self.heaters = case.heaters_on(tank.id)
        self.design = case.profile.design
        self.results: Results[TankInputs] = Results(
            case,
            _unique(self.whole, self.marks),
            lambda variant: _inputs(variant, tank.id),
            own=_unique(self.faces, marked),
            levers=levers_of(tank.place, heaters),
        )

    @property
    def inputs(self) -> TankInputs:
        """What the tank's heat hangs on, as the case stands."""
        return self.results.now

    @property
    def heat(self) -> TankHeat:
        """Its steady results, as the case stands."""
        return tank_results(self.inputs)

    def key(self) -> tuple[object, ...]:
        """All that the tank's figures hang on."""
        return (bare(self.tank), self.heaters, self.design, *self.results.key())

    def slots(self, *names: str) -> tuple[str, ...]:
        """Slots of the tank itself."""
        return tuple(f"{self.place}.{name}" for name in names)


def of(field: Callable[[TankHeat], float | None]) -> Callable[[TankInputs], float | None]:
    """A number of a tank's results, asked of its inputs."""
    return lambda inputs: field(tank_results(inputs))


def band(field: Callable[[TankHeat], Banded]) -> Callable[[TankInputs], Banded]:
    """A banded number of a tank's results, asked of its inputs."""
    return lambda inputs: field(tank_results(inputs))


def spell_of(inputs: TankInputs, edge: float = 1.0) -> Spell | None:
    """The tank's spell with G × `edge`; None: it holds nothing."""
    return tank_spell(inputs, edge)


def spell_joules(inputs: TankInputs, edge: float = 1.0) -> float | None:
    """Electrical energy of the tank's pads over the spell; None: the tank holds nothing. [J]"""
    spell = tank_spell(inputs, edge)
    if spell is None:
        return None
    return sum(
        (pad.watts or 0.0) * spell.seconds_on(which) for which, (pad, _) in enumerate(fed_pads(inputs))
    )


def spell_duty(inputs: TankInputs, edge: float = 1.0) -> float | None:
    """Energy over that with every pad on all the time; None: no heat, no contents, or no time. [1]"""
    joules = spell_joules(inputs, edge)
    most = sum(pad.watts or 0.0 for pad, _ in fed_pads(inputs)) * inputs.course.length
    return None if joules is None or most <= 0 else joules / most


def bare(tank: Tank) -> Tank:
    """A tank without what no heat hangs on: where its outlet and its keep-outs lie."""
    return replace(tank, outlet=None, keepout=())


_views: WeakKeyDictionary[Case, dict[str, TankView]] = WeakKeyDictionary()


def tank_view(case: Case, tank: Tank) -> TankView:
    """The tank's view, made once for a case."""
    views = _views.setdefault(case, {})
    if tank.id not in views:
        views[tank.id] = TankView(case, tank)
    return views[tank.id]


def _inputs(variant: Variant, tank_id: str) -> TankInputs:
    return next(tank_inputs(variant, tank) for tank in variant.profile.tanks if tank.id == tank_id)


def _across(tank: Tank) -> tuple[str, ...]:
    """Names of the slots that size a tank besides length and wall."""
    if tank.shape == "cylinder":
        return ("height",)
    if tank.shape == "taper":
        return ("width", "height", "bottom_length", "bottom_width")
    if tank.shape == "slope":
        return ("width", "height", "fall")
    return ("width", "height")


def _marks(tank: Tank, case: Case) -> tuple[str, ...]:
    """Where pads are marked out, where the floor under them is not level."""
    axis = UNEVEN.get(tank.shape)
    if axis is None:
        return ()
    return tuple(
        f"heater.{heater.id}.{axis}" for heater in case.heaters_on(tank.id) if heater.face == "bottom"
    )


def _laid(tank: Tank, case: Case) -> tuple[str, ...]:
    """What the places hang on of pads that the program lays: on a floor that isn't level, or where none is found."""
    uneven = tank.shape in UNEVEN
    return _unique(
        *(
            slots_of_fit(case, heater)
            for heater in case.heaters_on(tank.id)
            if heater.face == "bottom" and _is_laid(case.places.get(heater.id), uneven=uneven)
        )
    )


def _is_laid(place: Place | NoPlace | None, *, uneven: bool) -> bool:
    return isinstance(place, NoPlace) or (uneven and place is not None and not place.given)


def _unique(*groups: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(slot for group in groups for slot in group))
