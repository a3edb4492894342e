"""What is wrong in the circuits by the design: a heater in no run, gauges, drop, switches, hot bundles.

Each rule words itself with its currents and ratings, and says which gauge, switch or route would mend it.
Fuses and what they protect stand in `circuit_fuses.py`.
"""

from collections.abc import Iterator

from logic.assessment.bundle_case import conductors_together
from logic.assessment.case import Case
from logic.assessment.circuit_case import wired
from logic.assessment.circuit_remedies import gauge_for, gauge_for_bundle, route_for_drop, thicker_for_drop
from logic.assessment.circuit_words import circuits_for, gauge_of, rating_of
from logic.assessment.findings.rule import Find, find, rule
from logic.data.profile import Heater, Run, Wiring
from logic.data.safe_sides import as_told
from logic.data.wiring_constants import GAUGES
from logic.data.wording import at_least, at_most, quantity, words
from logic.physics.gauge_rules import keeps_drop
from logic.physics.protection import ROUNDING, bundle_limit, least_switch, standard_fuse

OVER = 1 + ROUNDING  # what arithmetic may add without breaking a rule


@rule("unfed", weight="stop", per="heater", source="job-circuits", open=True)
def heater_without_a_run(case: Case, heater: Heater) -> Find | None:
    """No run feeds the heater."""
    if wired(case.profile).heaters[heater.id].fed:
        return None
    most = heater.watts * case.profile.supply.charging / heater.volts**2  # of the heater alone, no drop
    fuse = standard_fuse(most)
    gauge = None if fuse is None else gauge_for(fuse)
    text = words("{heater} is in no run: nothing heats there", heater=heater.id)
    if gauge is None:
        return find(
            text=text,
            remedy=words(
                "alone it draws up to {amps}, more than a wire on offer carries: fewer watts on it, then a run "
                "that feeds it",
                amps=quantity(most, "amps"),
            ),
        )
    return find(
        text=text,
        remedy=words(
            "name it in a run's feeds; alone it draws up to {amps}, for a fuse of {fuse} "
            "and at least {gauge}",
            amps=quantity(most, "amps"),
            fuse=rating_of(fuse),
            gauge=gauge_of(gauge),
        ),
    )


@rule("no-gauge", weight="stop", per="wiring", source="job-circuits", open=True)
def no_gauge_keeps_every_rule(case: Case, wiring: Wiring) -> Find | None:
    """No choice of the automatic gauges is feasible: what binds, and what would help."""
    whole = wired(case.profile)
    if whole.choice.gauges is not None:
        return None
    harness = whole.harness
    heaters = tuple(heater for run in case.profile.runs for heater in run.feeds)
    for fault in whole.choice.faults:
        if fault.kind == "drop":
            route, most = route_for_drop(harness, fault.found, fault.index)
            return find(
                text=words(
                    "even with {gauge} in every automatic run {heater} loses {drop} of the volts, "
                    "at most {limit}",
                    gauge=gauge_of(GAUGES[-1]),
                    heater=heaters[fault.index],
                    drop=as_told(f"heater.{heaters[fault.index]}.drop", fault.found, "share"),
                    limit=quantity(fault.most, "share"),
                ),
                remedy=words(
                    "a route of about {most} instead of {route}, a supply nearer by, a circuit of its own "
                    "for {heater}, or fewer watts on it",
                    most=at_most(most, "route"),
                    route=quantity(route, "route"),
                    heater=heaters[fault.index],
                ),
            )
        return find(
            text=words(
                "{run} must carry {amps}: {gauge}, the thickest, carries {most}",
                run=harness.names[fault.index],
                amps=quantity(fault.found, "rating"),
                gauge=gauge_of(GAUGES[-1]),
                most=rating_of(fault.most),
            ),
            remedy=words(
                "part its heaters over {count} fused circuits, each with a return of its own",
                count=quantity(circuits_for(fault.found), "count"),
            ),
        )
    text = (
        "no choice of gauges keeps every fuse within its wires and every heater within its drop"
        if whole.choice.proven
        else "no choice of gauges that keeps every rule was found before the search was cut off"
    )
    return find(
        text=words(text),
        remedy=words("a circuit more, so that a fuse falls to the next rating; or give the gauges yourself"),
    )


@rule("drop", weight="use", per="heater", source="nec-2023-210.19", open=True)
def heater_over_the_drop_limit(case: Case, heater: Heater) -> Find | None:
    """The heater loses more of the volts on its way than the limit: its heat falls with the square."""
    whole = wired(case.profile)
    circuit, supply = whole.heaters[heater.id], case.profile.supply.volts
    limit = case.profile.wiring.drop_limit
    if circuit.volts is None or keeps_drop(circuit.volts / supply, limit):
        return None
    drop, figure = 1 - circuit.volts / supply, f"heater.{heater.id}.drop"
    load = [each for run in case.profile.runs for each in run.feeds].index(heater.id)
    better = thicker_for_drop(whole.harness, whole.standing.gauges, load)
    if better is None:
        route, most = route_for_drop(whole.harness, drop, load)
        remedy = words(
            "{gauge} all the way would not do: a route of about {most} instead of {route}, "
            "or a circuit of its own",
            gauge=gauge_of(GAUGES[-1]),
            most=at_most(most, "route"),
            route=quantity(route, "route"),
        )
    else:
        remedy = words(
            "{gauge} in {runs}: {drop}, for {copper} more copper",
            gauge=gauge_of(max(better.gauges)),
            runs=", ".join(better.runs),
            drop=as_told(figure, better.drop, "share"),
            copper=quantity(better.added, "mass_of_copper"),
        )
    return find(
        text=words(
            "{drop} of {supply} is lost on the way, at most {limit}: {share} less heat",
            drop=as_told(figure, drop, "share"),
            supply=quantity(supply, "volts"),
            limit=quantity(limit, "share"),
            share=at_least(1 - (1 - drop) ** 2, "share"),
        ),
        remedy=remedy,
    )


@rule("switch", weight="stop", per="run", source="practice-switch-125")
def switch_under_load(case: Case, run: Run) -> Find | None:
    """The switch's d.c. rating is under 1.25 × the current that it breaks."""
    amps = wired(case.profile).runs[run.id].amps
    least = least_switch(amps)
    if run.switch is None or run.switch * OVER >= least:
        return None
    return find(
        text=words(
            "its switch of {rating} breaks {amps}",
            rating=rating_of(run.switch),
            amps=quantity(amps, "amps"),
        ),
        remedy=words(
            "a switch or relay with a d.c. rating of at least {least}; "
            "an a.c. rating says nothing about d.c.",
            least=at_least(least, "amps"),
        ),
    )


@rule("bundle-hot", weight="use", per="run", source="33-cfr-183.425", open=True)
def wire_hot_in_its_bundle(case: Case, run: Run) -> Find | None:
    """Its current is over Table 5 of 33 CFR 183.425, 60 °C column, less for company. Cautious at 12 V."""
    whole = wired(case.profile)
    circuit = whole.runs[run.id]
    together = conductors_together(case.profile, run) if run.bundle else 1
    amps = max(circuit.amps, circuit.return_amps or 0.0)
    most = bundle_limit(circuit.gauge, together)
    if amps <= most * OVER:
        return None
    at = whole.harness.names.index(run.id)
    thick = gauge_for_bundle(whole.harness, whole.standing.gauges, at, together=together)
    fewer = list(_fewer_together(circuit.gauge, amps, together))
    ways_out = ([] if thick is None else ["at least {gauge} in it"]) + (
        ["at most {fewer} conductors in its sleeve"] if fewer else []
    )
    return find(
        text=words(
            "{amps} in {gauge}"
            + (" among {count} conductors" if together > 1 else " on its own")
            + ": 33 CFR 183.425 leaves it {most} "
            "(table 5, 60 °C column; its factor for company binds from 50 V up and is used here as caution)",
            amps=quantity(amps, "amps"),
            gauge=gauge_of(circuit.gauge),
            count=quantity(together, "count"),
            most=quantity(most, "amps"),
        ),
        remedy=words(
            ", or ".join(ways_out)
            or "part its heaters over more circuits: even alone in {gauge} it is too much",
            gauge=gauge_of(thick or GAUGES[-1]),
            fewer=quantity(fewer[0] if fewer else 0, "count"),
        ),
    )


def _fewer_together(gauge: int, amps: float, together: int) -> Iterator[int]:
    """Numbers of conductors with which the gauge would do, the greatest first."""
    return (count for count in range(together - 1, 0, -1) if bundle_limit(gauge, count) * OVER >= amps)
