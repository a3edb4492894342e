"""What the last walk says of a place beside its steps: what lies there, which sizes were read, what was proven."""

from collections.abc import Iterator

from logic.assessment.agreement import AGREED
from logic.assessment.case import Case
from logic.assessment.proving import proof_of
from logic.assessment.trial import GOOD, UNJUDGED, Trial
from logic.data.place_names import place_name
from logic.data.profile import Heater, Run
from logic.data.wording import Quantity, Words, quantity, words


def lies_there(case: Case, place: str) -> Words | None:
    """What lies at a place, in a few numbers by which it is known again; None: nothing of its own."""
    kind, _, name = place.partition(".")
    profile = case.profile
    if kind == "tank":
        tank = case.tanks[name]
        return words(
            "{shape}, {length} × {width} × {height}",
            shape=tank.shape,
            length=quantity(tank.length, "length"),
            width=quantity(tank.width, "length"),
            height=quantity(tank.height, "length"),
        )
    if kind == "heater":
        return _heater(case, case.heaters[name])
    if kind == "drain":
        drain = next(each for each in profile.drains if each.id == name)
        return words(
            "{length} long, {outside} across, foam {foam}",
            length=quantity(drain.length, "length"),
            outside=quantity(drain.outside, "length"),
            foam=quantity(drain.insulation, "length"),
        )
    if kind == "run":
        return _run(case, next(each for each in profile.runs if each.id == name))
    if kind == "bundle":
        runs = ", ".join(place_name(f"run.{run.id}") for run in profile.runs if run.bundle == name)
        return words("{runs}", runs=runs)
    return None


def _heater(case: Case, heater: Heater) -> Words:
    face = "round" if heater.face == "wrap" else f"on the {heater.face} of"
    return words(
        "{watts} at {volts}, {length} × {width}, {face} {on}",
        watts=quantity(heater.watts, "power"),
        volts=quantity(heater.volts, "volts"),
        length=quantity(heater.length, "length"),
        width=quantity(heater.width, "length"),
        face=face,
        on=place_name(f"{'tank' if heater.on in case.tanks else 'drain'}.{heater.on}"),
    )


def _run(case: Case, run: Run) -> Words:
    said = ["from {origin}, {length}"]
    parts: dict[str, Quantity | str] = {
        "origin": "supply" if run.from_ == "supply" else place_name(f"run.{run.from_}"),
        "length": quantity(run.length, "route"),
    }
    gauge, fuse = (case.figures.get(f"run.{run.id}.{name}") for name in ("gauge", "fuse"))
    if gauge is not None and gauge.value is not None:
        said.append("{gauge}")
        parts["gauge"] = quantity(gauge.value, "gauge")
    if fuse is not None and fuse.value is not None:
        said.append("fuse {fuse}")
        parts["fuse"] = quantity(fuse.value, "rating")
    if run.feeds:
        said.append("feeds {feeds}")
        parts["feeds"] = ", ".join(place_name(f"heater.{heater}", case.profile) for heater in run.feeds)
    return words(", ".join(said), **parts)


def read_at(case: Case, place: str) -> Words | None:
    """How many of a place's deciding sizes stand agreed; None: it has none, or none is."""
    deciding = case.deciding.get(place, ())
    agreed = sum(1 for view in deciding if view.state == AGREED and not view.impossible)
    if not agreed:
        return None
    return words(
        "read twice and agreed: {agreed} of {all}",
        agreed=quantity(agreed, "count"),
        all=quantity(len(deciding), "count"),
    )


def proven_at(case: Case, place: str) -> Iterator[tuple[str, Words]]:
    """Each test of a place that reads as it should, by its slot. What doesn't is a finding of its own."""
    for trial in proof_of(case).trials:
        if trial.place == place and trial.state in (GOOD, UNJUDGED) and trial.measured is not None:
            yield trial.slot, _proven(trial)


def _proven(trial: Trial) -> Words:
    name = trial.quantity.replace("_", " ")
    over = trial.over or trial.value is None
    value: Quantity | str = "over range" if over else quantity(trial.value or 0.0, trial.kind)
    judged = "" if trial.state == GOOD else ", not judged by itself"
    if trial.expected is None:
        return words(f"{name}: {{value}}{judged}", value=value)
    return words(
        f"{name}: {{value}}, expected {{expected}}{judged}",
        value=value,
        expected=quantity(trial.expected, trial.kind),
    )
