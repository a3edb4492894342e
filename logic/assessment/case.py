"""One case under assessment: the profile as measured, with lookups, and results shared between its figures.

Built anew for each assessment; what is costly is memoised by its own inputs where it is computed, so that
a reading recomputes only what hangs on it.
"""

from functools import cached_property

from logic.assessment import circuit_case, fit_case
from logic.assessment.shared import Circuits, NoPlace, Place
from logic.data.constants import MOST_SIZES_READ
from logic.data.figure import Figure
from logic.data.profile import Bay, Drain, Heater, Profile, Run, Tank
from logic.data.state import Assessment, Instant, SlotView, State
from logic.data.step import Step
from logic.data.wording import Words, quantity, words


class Case:
    def __init__(
        self,
        profile: Profile,
        *,
        planned: Profile | None = None,
        slots: dict[str, SlotView] | None = None,
        state: State | None = None,
        now: Instant | None = None,
    ) -> None:
        """`profile` has the values of the readings in place; `planned` has none of them."""
        self.profile = profile
        self.planned = planned or profile
        self.slots = slots or {}
        self.state = state
        self.now = now or Instant(0.0)
        self.figures: dict[str, Figure] = {}  # filled by `assess`, before steps and findings are asked
        self.steps: tuple[Step, ...] = ()  # filled by `assess`, before findings are asked

    # --- lookups by id ---

    @cached_property
    def tanks(self) -> dict[str, Tank]:
        return {tank.id: tank for tank in self.profile.tanks}

    @cached_property
    def drains(self) -> dict[str, Drain]:
        return {drain.id: drain for drain in self.profile.drains}

    @cached_property
    def heaters(self) -> dict[str, Heater]:
        return {heater.id: heater for heater in self.profile.heaters}

    @cached_property
    def runs(self) -> dict[str, Run]:
        return {run.id: run for run in self.profile.runs}

    @cached_property
    def bays(self) -> dict[str, Bay]:
        return {bay.id: bay for bay in self.profile.bays}

    def heaters_on(self, tank_or_drain: str) -> tuple[Heater, ...]:
        """The heaters on a tank or a drain, in the profile's order."""
        return tuple(heater for heater in self.profile.heaters if heater.on == tank_or_drain)

    # --- what readings say ---

    @property
    def in_session(self) -> bool:
        return self.state is not None

    @cached_property
    def _us(self) -> dict[str, float | None]:
        return {view.slot: view.u for view in self.slots.values() if view.readings}

    def u_read(self, slot: str) -> float | None:
        """One standard uncertainty of a slot's value, in its SI unit; None where it was not read."""
        return self._us.get(slot)

    def u(self, slot: str) -> float | None:
        """The same for the uncertainty of figures: None, too, where so much was read that they give none."""
        return self._us.get(slot) if self.without_u is None else None

    @cached_property
    def without_u(self) -> Words | None:
        """Why no figure says what the readings leave uncertain; None: they do."""
        read = sum(u is not None for u in self._us.values())
        if read <= MOST_SIZES_READ:
            return None
        return words(
            "what the readings leave uncertain isn't worked out: {sizes_read} sizes were read, more than {most_sizes}",
            sizes_read=quantity(read, "count"),
            most_sizes=quantity(MOST_SIZES_READ, "count"),
        )

    @cached_property
    def deciding(self) -> dict[str, tuple[SlotView, ...]]:
        """The slots that decide something, of each place."""
        found: dict[str, list[SlotView]] = {}
        for view in self.slots.values():
            if view.deciding:
                found.setdefault(view.place, []).append(view)
        return {place: tuple(views) for place, views in found.items()}

    @cached_property
    def contradicted(self) -> dict[str, str]:
        """Why each slot contradicts another value that does."""
        return {view.slot: view.impossible for view in self.slots.values() if view.impossible}

    def impossible(self, slot: str) -> str:
        """Why a slot's value contradicts another one; empty where it doesn't."""
        return self.contradicted.get(slot, "")

    # --- what has been computed ---

    def figure(self, figure_id: str) -> Figure | None:
        """A figure by its id; None where this case has none of that id."""
        return self.figures.get(figure_id)

    def value(self, figure_id: str) -> float | None:
        """A figure's value, in the format's unit; None where it is absent or has no value."""
        figure = self.figures.get(figure_id)
        return figure.value if figure is not None else None

    # --- results that several places need ---

    @cached_property
    def circuits(self) -> Circuits:
        """The network solved at both voltages, every heater on."""
        return circuit_case.circuits(self.profile)

    @cached_property
    def places(self) -> dict[str, Place | NoPlace]:
        """Where each bottom pad lies, by heater id."""
        return fit_case.places(self.profile)


def assessed_case(assessment: Assessment, state: State) -> Case:
    """The case that an assessment was made of, its figures and steps in it: for what is asked of it afterwards."""
    case = Case(
        assessment.profile,
        planned=assessment.planned,
        slots={view.slot: view for view in assessment.slots},
        state=state,
        now=assessment.now,
    )
    case.figures = {figure.id: figure for figure in assessment.figures}
    case.steps = assessment.steps
    return case
