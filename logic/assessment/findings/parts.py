"""What is wrong with parts that are cut already: a route that turned out longer than its wire."""

from collections.abc import Iterator

from logic.assessment.bundle_case import twist_of
from logic.assessment.case import Case
from logic.assessment.cut_list import cuts, needed_length
from logic.assessment.findings.rule import Find, find, rule
from logic.data.finding import NOTE
from logic.data.profile import Run
from logic.data.wiring_constants import CUT_ROUNDING
from logic.data.wording import quantity, words


@rule("recut", weight="use", per="run", source="practice-cut-rounding", session=True)
def wire_cut_too_short(case: Case, run: Run) -> Iterator[Find]:
    """A wire that is ticked as cut is shorter than its route, as read, now wants: once for a run.

    A note as long as the route itself and both ends still fit and only the slack is eaten. A wire ticked
    without a length counts as cut to what the plan asked for.
    """
    state = case.state
    if state is None or not any(tick.part.startswith("cut:") for tick in state.ticks):
        return
    needed = needed_length(case.profile, run)
    planned = next((each for each in case.planned.runs if each.id == run.id), run)
    lengths = [
        needed_length(case.planned, planned) if cut.cut_to is None else cut.cut_to
        for cut in cuts(case.profile, state.ticks)
        if cut.run == run.id and cut.ticked
    ]
    if not lengths or min(lengths) >= needed - CUT_ROUNDING:
        return
    length = min(lengths)
    bare = run.length * twist_of(case.profile, run) + 2 * case.profile.parts.ends
    text = words(
        "its wire was cut to {length}; the route as it stands, {route}, wants {needed}",
        length=quantity(length, "route"),
        route=quantity(run.length, "route"),
        needed=quantity(needed, "route"),
    )
    if length >= bare:
        yield find(
            text=text,
            remedy=words(
                "it still reaches, with {left} of slack: lay it straight, or cut it anew at {needed}",
                left=quantity(length - bare, "length"),
                needed=quantity(needed, "route"),
            ),
            weight=NOTE,
        )
        return
    yield find(
        text=text,
        remedy=words(
            "{short} short even without slack: cut it anew at {needed}, or a shorter route",
            short=quantity(bare - length, "length"),
            needed=quantity(needed, "route"),
        ),
    )
