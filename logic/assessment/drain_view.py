"""A drain of a case, seen once for all its figures: its slots, its results, what readings move."""

from weakref import WeakKeyDictionary

from logic.assessment.case import Case
from logic.assessment.drain_case import DrainHeat, DrainInputs, drain_inputs, drain_results
from logic.assessment.nudge import Variant, levers_of, run_slots
from logic.assessment.si_figure import Results
from logic.assessment.surroundings import bay_slots
from logic.data.profile import Drain


class DrainView:
    """What the figures and findings of one drain read."""

    def __init__(self, case: Case, drain: Drain) -> None:
        self.drain = drain
        self.place = f"drain.{drain.id}"
        self.heaters = tuple(heater.id for heater in case.heaters_on(drain.id))
        self.sizes = (f"{self.place}.outside",)
        self.losses = (*self.sizes, *bay_slots(case.profile, drain.place))
        self.whole = (*self.losses, f"{self.place}.length", *run_slots(case, self.heaters))
        self.results: Results[DrainInputs] = Results(
            case,
            self.whole,
            lambda variant: _inputs(variant, drain.id),
            own=(*self.sizes, f"{self.place}.length"),
            levers=levers_of(drain.place, self.heaters),
        )
        self.made = (drain, case.heaters_on(drain.id), case.profile.design)

    def key(self) -> tuple[object, ...]:
        """All that the drain's figures hang on."""
        return (*self.made, *self.results.key())

    @property
    def inputs(self) -> DrainInputs:
        """What the drain's heat hangs on, as the case stands."""
        return self.results.now

    @property
    def heat(self) -> DrainHeat:
        """Its results, as the case stands."""
        return drain_results(self.inputs)


_views: WeakKeyDictionary[Case, dict[str, DrainView]] = WeakKeyDictionary()


def drain_view(case: Case, drain: Drain) -> DrainView:
    """The drain's view, made once for a case."""
    views = _views.setdefault(case, {})
    if drain.id not in views:
        views[drain.id] = DrainView(case, drain)
    return views[drain.id]


def _inputs(variant: Variant, drain_id: str) -> DrainInputs:
    return next(drain_inputs(variant, drain) for drain in variant.profile.drains if drain.id == drain_id)
