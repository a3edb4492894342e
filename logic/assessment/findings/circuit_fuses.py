"""What is wrong with fuses, the wires behind them and the returns that others borrow, by the design.

Each rule words itself with its currents and ratings, and says which fuse, gauge or route would mend it.
"""

from msgspec.structs import replace

from logic.assessment.case import Case
from logic.assessment.circuit_case import LentReturn, Section, Wired, wired
from logic.assessment.circuit_remedies import (
    gauge_for,
    gauge_for_fuse,
    gauge_for_return,
    gauge_for_short,
    route_for_short,
)
from logic.assessment.circuit_words import circuits_for, gauge_of, rating_of
from logic.assessment.findings.rule import Find, find, rule
from logic.data.profile import Run
from logic.data.safe_sides import as_told
from logic.data.wiring_constants import (
    AMPACITY,
    CONTINUOUS_LOAD,
    FUSE_FAR,
    FUSE_FAR_BOATS,
    FUSE_FAR_SHEATHED,
    SHORT_SHARE,
)
from logic.data.wording import Quantity, Words, at_least, at_most, quantity, words
from logic.physics.protection import AUTO, ROUNDING, standard_fuse

OVER = 1 + ROUNDING  # what arithmetic may add without breaking a rule


@rule("no-fuse", weight="stop", per="run", source="nec-2020-552.10-e", acceptable=False)
def run_without_a_fuse(case: Case, run: Run) -> Find | None:
    """The first run of a part that no fuse protects."""
    whole = wired(case.profile)
    if run.id not in whole.exposed:
        return None
    amps = whole.runs[run.id].amps
    fuse = standard_fuse(amps)
    text = words(
        "{run} takes {amps} from the supply with no fuse before it: a short there has nothing to end it",
        run=run.id,
        amps=quantity(amps, "amps"),
    )
    if fuse is None:
        return find(
            text=text,
            remedy=words(
                "no standard rating is at least {least}: part its heaters over {count} fused circuits",
                least=quantity(CONTINUOUS_LOAD * amps, "amps"),
                count=quantity(circuits_for(CONTINUOUS_LOAD * amps), "count"),
            ),
        )
    if gauge_for(fuse) is None:
        return find(text=text, remedy=_parted(fuse, CONTINUOUS_LOAD * amps))
    return find(
        text=text,
        remedy=words(
            "a fuse of {fuse} within {near} of the supply, and at least {gauge} behind it",
            fuse=rating_of(fuse),
            near=quantity(FUSE_FAR, "length"),
            gauge=gauge_of(gauge_for(fuse)),
        ),
    )


@rule("fuse-small", weight="stop", per="run", source="nec-2023-427.4")
def fuse_under_its_load(case: Case, run: Run) -> Find | None:
    """A given fuse is under 1.25 × the current through it."""
    whole = wired(case.profile)
    circuit = whole.runs[run.id]
    least = CONTINUOUS_LOAD * circuit.amps
    if circuit.fuse is None or circuit.fuse * OVER >= least:
        return None
    fuse = standard_fuse(circuit.amps)
    section = next(one for one in whole.sections if one.fuse_run == run.id)
    thin = [each for each in section.runs if fuse is not None and AMPACITY[whole.runs[each].gauge] < fuse]
    text = words(
        "its fuse of {fuse} carries {amps} for hours on end: {share} × that is {least}",
        fuse=rating_of(circuit.fuse),
        amps=quantity(circuit.amps, "amps"),
        share=quantity(CONTINUOUS_LOAD, "number"),
        least=quantity(least, "amps"),
    )
    if fuse is None:
        count = quantity(circuits_for(least), "count")
        return find(text=text, remedy=words("part its heaters over {count} fused circuits", count=count))
    if gauge_for(fuse) is None:
        return find(text=text, remedy=_parted(fuse, least))
    if thin:
        return find(
            text=text,
            remedy=words(
                "a fuse of {fuse}, and at least {gauge} in {runs}",
                fuse=rating_of(fuse),
                gauge=gauge_of(gauge_for(fuse)),
                runs=", ".join(thin),
            ),
            open=True,
        )
    return find(text=text, remedy=words("a fuse of {fuse}: its wires carry it", fuse=rating_of(fuse)))


def _parted(fuse: float, least: float) -> Words:
    """Where a fuse is on offer, but no wire that it would protect."""
    return words(
        "no gauge on offer carries the {fuse} that it wants: part its heaters over {count} fused circuits",
        fuse=rating_of(fuse),
        count=quantity(circuits_for(least), "count"),
    )


@rule("fuse-above-wire", weight="stop", per="run", source="nec-2023-240.4", open=True, acceptable=False)
def fuse_above_a_wire(case: Case, run: Run) -> Find | None:
    """The fuse is above what a wire of its section may carry: the wire would go first."""
    whole = wired(case.profile)
    section = next((one for one in whole.sections if one.fuse_run == run.id), None)
    if section is None:
        return None
    thin = [each for each in section.runs if AMPACITY[whole.runs[each].gauge] < section.rating]
    if not thin:
        return None
    worst = max(thin, key=lambda each: whole.runs[each].gauge)
    gauge = whole.runs[worst].gauge
    wanted = standard_fuse(section.amps)
    text = words(
        "its fuse of {fuse} is above the {gauge} of {runs}, which carries {ampacity}",
        fuse=rating_of(section.rating),
        gauge=gauge_of(gauge),
        runs=", ".join(thin),
        ampacity=rating_of(AMPACITY[gauge]),
    )
    if wanted is not None and wanted <= AMPACITY[gauge]:
        return find(
            text=text,
            remedy=words(
                "a fuse of {fuse}: enough for its {amps}, and within the wire",
                fuse=rating_of(wanted),
                amps=quantity(section.amps, "amps"),
            ),
            open=False,
        )
    return find(text=text, remedy=_thicker(whole, section, worst))


def _thicker(whole: Wired, section: Section, worst: str) -> Words:
    """Wires that bear the fuse, or a lesser one where the fuse was given greater than it need be."""
    harness, gauges = whole.harness, whole.standing.gauges
    fuse_run = harness.names.index(section.fuse_run)
    runs = tuple(harness.names.index(each) for each in section.runs)
    as_given = gauge_for_fuse(harness, gauges, fuse_run, section=runs)
    chosen = tuple(AUTO if each == fuse_run else asked for each, asked in enumerate(harness.fuses))
    lesser = gauge_for_fuse(replace(harness, fuses=chosen), gauges, fuse_run, section=runs)
    best, template = as_given, "at least {gauge} in {runs}"
    if lesser is not None and (
        as_given is None or lesser[0] > as_given[0]
    ):  # a greater number is a thinner wire
        best, template = lesser, "a fuse of {fuse}, and at least {gauge} in {runs}"
    if best is None:
        return words(
            "no gauge on offer carries it: part its heaters over {count} fused circuits",
            count=quantity(circuits_for(section.rating), "count"),
        )
    thickened = [each for each in section.runs if whole.runs[each].gauge > best[0]]
    parts: dict[str, Quantity | str] = {"runs": ", ".join(thickened), "worst": worst}
    parts |= {"fuse": rating_of(best[1]), "gauge": gauge_of(best[0])}
    own = standard_fuse(whole.runs[worst].amps)
    if own is not None and own <= AMPACITY[whole.runs[worst].gauge] and worst != section.fuse_run:
        template += ", or a fuse of {own} of its own at the head of {worst}"
        parts["own"] = rating_of(own)
    return words(template, **parts)


@rule("return-above-wire", weight="stop", per="run", source="job-circuits", open=True, acceptable=False)
def lent_return_above_its_wire(case: Case, run: Run) -> Find | None:
    """The fuses of all circuits that come back through a lent return sum to more than its wire carries."""
    whole = wired(case.profile)
    lent = next((one for one in whole.lent if one.run == run.id), None)
    gauge = whole.runs[run.id].gauge
    if lent is None or lent.total <= AMPACITY[gauge] * OVER:
        return None
    thick = gauge_for_return(whole.harness, whole.standing.gauges, whole.harness.names.index(run.id))
    own = words(
        "{gauge} in {run}, or a return of its own for {others}",
        gauge=gauge_of(thick),
        run=run.id,
        others=", ".join(name for name, _ in lent.users if name != run.id) or "each circuit",
    )
    alone = words(
        "a return of its own for each circuit: no gauge on offer carries {total}", total=rating_of(lent.total)
    )
    return find(text=_who_comes_back(lent, gauge), remedy=own if thick is not None else alone)


def _who_comes_back(lent: LentReturn, gauge: int) -> Words:
    """Each circuit's current, and each fuse, with their sums."""
    parts: dict[str, Quantity | str] = {
        "gauge": gauge_of(gauge),
        "ampacity": rating_of(AMPACITY[gauge]),
        "amps": quantity(lent.amps, "amps"),
        "total": rating_of(lent.total),
    }
    flows, ratings = [], []
    for number, (name, amps) in enumerate(lent.users):
        parts |= {f"run{number}": name, f"amps{number}": quantity(amps, "amps")}
        flows.append(f"{{amps{number}}} ({{run{number}}})")
    for number, (name, fuse) in enumerate(lent.fuses):
        parts |= {f"at{number}": name, f"fuse{number}": rating_of(fuse)}
        ratings.append(f"{{fuse{number}}} ({{at{number}}})")
    return words(
        f"its return carries {' + '.join(flows)} = {{amps}}; the fuses before them sum to "
        f"{' + '.join(ratings)} = {{total}}, its {{gauge}} carries {{ampacity}}",
        **parts,
    )


@rule("fuse-far", weight="stop", per="run", source="nec-2020-552.10-e")
def fuse_far_from_the_supply(case: Case, run: Run) -> Find | None:
    """The wire before the fuse is protected by nothing."""
    if run.from_ != "supply" or run.fuse_at is None or run.fuse_at <= FUSE_FAR * OVER:
        return None
    return find(
        text=words(
            "its fuse stands {far} from the supply, at most {near}: "
            "the wire before it has nothing to protect it",
            far=quantity(run.fuse_at, "length"),
            near=quantity(FUSE_FAR, "length"),
        ),
        remedy=words(
            "move the holder {by} nearer; boats want {bare}, or {sheathed} sheathed all the way",
            by=at_least(run.fuse_at - FUSE_FAR, "length"),
            bare=quantity(FUSE_FAR_BOATS, "length"),
            sheathed=quantity(FUSE_FAR_SHEATHED, "length"),
        ),
    )


@rule("slow-fuse", weight="note", per="run", source="practice-short-5", open=True)
def fuse_slow_on_a_short(case: Case, run: Run) -> Find | None:
    """A short at the far end draws under 5 × the nearest fuse before it: it may glow for a while."""
    whole = wired(case.profile)
    circuit = whole.runs[run.id]
    fuse = whole.runs[circuit.nearest_fuse].fuse if circuit.nearest_fuse is not None else None
    if fuse is None or circuit.short is None or circuit.short * OVER >= SHORT_SHARE * fuse:
        return None
    at, volts = whole.harness.names.index(run.id), case.profile.supply.volts
    gauges = whole.standing.gauges
    fuse_run = whole.harness.names.index(circuit.nearest_fuse or "")
    thick = gauge_for_short(whole.harness, gauges, at, volts=volts, fuse_run=fuse_run)
    route = route_for_short(whole.harness, gauges, at, volts=volts, fuse_run=fuse_run)
    own, most = standard_fuse(circuit.amps), circuit.short / SHORT_SHARE
    ways_out = []
    parts: dict[str, Quantity | str] = {}
    if thick is not None:
        ways_out.append("at least {gauge} in it")
        parts["gauge"] = gauge_of(thick)
    if route is not None:
        ways_out.append("a route of at most {route}")
        parts["route"] = at_most(route, "route")
    if own is not None and own <= most * OVER:
        ways_out.append("a smaller fuse at its own head (up to {most})")
        parts["most"] = at_most(most, "amps")
    return find(
        text=words(
            "a short at its far end draws {short}, {times} × the {fuse} of {at}: slow to open",
            short=as_told(f"run.{run.id}.short", circuit.short, "amps"),
            times=at_most(circuit.short / fuse, "number"),
            fuse=rating_of(fuse),
            at=circuit.nearest_fuse or "",
        ),
        remedy=words(
            ", or ".join(ways_out)
            or "its heaters parted over more circuits: no wire, route or fuse of its own would do",
            **parts,
        ),
    )
