"""What stands first at a moment of the work and is no figure: what a meter should show now, how far a tank has to go.

Asked for only while such a moment lasts. Each fact is worked out from what the tests, the gates and the figures
hold already; which facts belong to which moment stands in `moments.py`.
"""

from collections.abc import Callable

import msgspec

from logic.assessment.case import Case, assessed_case
from logic.assessment.gate import MARGIN_ARITHMETIC
from logic.assessment.proving import Proof, proof_of
from logic.assessment.tank_inputs import shape_of
from logic.assessment.trial import GOOD, OFF, UNTESTED, Trial
from logic.assessment.work_facts import WorkFacts, facts_of
from logic.data.constants import DEW_MARGIN
from logic.data.state import Assessment, Reading, State
from logic.data.wording import Words, at_least, quantity, words
from logic.physics.bonding import dew_point
from logic.physics.tank_heat import mass_of
from logic.physics.tank_shapes import volume_at


class FactNow(msgspec.Struct, frozen=True):
    """One fact: what it is about, what it says, and whether that is well."""

    place: str  # empty: the whole rig
    label: str
    said: Words
    state: str = ""  # good | off | untested; empty: it is neither


class Now(msgspec.Struct, frozen=True):
    """What the facts are asked of: the case, and the parts that are in hand."""

    case: Case
    facts: WorkFacts
    proof: Proof
    tanks: tuple[str, ...]
    heaters: tuple[str, ...]
    circuits: tuple[str, ...]

    def trials(self, *quantities: str) -> list[Trial]:
        """The tests of the parts in hand, of some quantities."""
        places = {f"run.{run}" for run in self.circuits} | {f"heater.{heater}" for heater in self.heaters}
        return [one for one in self.proof.trials if one.quantity in quantities and one.place in places]


def facts_now(
    assessment: Assessment, state: State, names: tuple[str, ...], here: str
) -> dict[str, list[FactNow]]:
    """The facts of some names. `here`: the place at work, empty where there is none."""
    makers = {name: FACTS[name] for name in names if name in FACTS}
    if not makers:
        return {}
    now = in_hand(assessed_case(assessment, state), here)
    return {name: maker(now) for name, maker in makers.items()}


def in_hand(case: Case, here: str) -> Now:
    """The tanks, heaters and circuits that belong to a place: of the rig, those of the live circuits, else all."""
    facts = facts_of(case)
    about = facts.relations
    kind, _, name = here.partition(".")
    found: tuple[str, ...]
    if kind == "heater":
        found = (name,)
    elif kind == "run":
        found = about.heaters_behind(name)
    elif kind == "tank":
        found = about.heaters_of_tank.get(name, ())
    elif kind == "drain":
        found = tuple(heater.id for heater in case.heaters_on(name))
    else:
        found = tuple(heater for run in facts.live for heater in about.heaters_behind(run))
        found = found or tuple(case.heaters)
    tanks = (name,) if kind == "tank" else tuple(dict.fromkeys(about.tank_of_heater[each] for each in found))
    circuits = [about.circuit_of_run(name)] if kind == "run" else []
    circuits.extend(about.circuit_of_heater(each) for each in found)
    return Now(
        case=case,
        facts=facts,
        proof=proof_of(case),
        tanks=tanks,
        heaters=tuple(dict.fromkeys(found)),
        circuits=tuple(dict.fromkeys(each for each in circuits if each is not None)),
    )


# --- tests ---

WARM_AT = ("before", "after 5 min", "after 10 min", "even")
QUANTITIES = {"resistance": "should show", "current": "should draw", "volts": "should have"}


def expected(now: Now, *quantities: str) -> list[FactNow]:
    """What the meter should show, between what, and what it showed."""
    told = []
    for trial in now.trials(*quantities):
        if trial.expected is None or trial.low is None or trial.high is None:
            continue
        said, read = "{expected}, {low} … {high}", ""
        if trial.over:
            read = "; over range"
        elif trial.value is not None:
            read = "; read {value}"
        parts = {
            "expected": quantity(trial.expected, trial.kind),
            "low": quantity(trial.low, trial.kind),
            "high": quantity(trial.high, trial.kind),
        }
        if trial.value is not None:
            parts["value"] = quantity(trial.value, trial.kind)
        state = trial.state if trial.state in (GOOD, OFF) else UNTESTED
        told.append(FactNow(trial.place, QUANTITIES[trial.quantity], words(said + read, **parts), state))
    return told


def isolation(now: Now) -> list[FactNow]:
    """The least that each circuit in hand must show to the chassis, and what it showed."""
    told = []
    for trial in now.trials("isolation"):
        if trial.low is None:
            continue
        parts = {"low": quantity(trial.low, trial.kind)}
        read = "; not read"
        if trial.over:
            read = "; over range"
        elif trial.measured is not None:
            parts["read"] = quantity(trial.measured, trial.kind)
            read = "; read {read}"
        state = trial.state if trial.state in (GOOD, OFF) else UNTESTED
        told.append(FactNow(trial.place, "isolation", words("at least {low}" + read, **parts), state))
    return told


def expected_ohms(now: Now) -> list[FactNow]:
    return expected(now, "resistance")


def expected_current(now: Now) -> list[FactNow]:
    """Amperes expected now: at the supply's volts as they were read, else as they are planned."""
    return expected(now, "current")


def expected_volts(now: Now) -> list[FactNow]:
    return expected(now, "volts")


def thermostats_closed(now: Now) -> list[FactNow]:
    """Whether each thermostat was seen closed: an open one reads as a broken pad."""
    told = []
    for name in now.heaters:
        heater = now.case.heaters[name]
        if heater.thermostat is None:
            continue
        closed = now.facts.recorded(f"chill:heater.{name}", "closed")
        if closed in ("no", "open"):
            said, state = words("seen open: chill its sensor longer"), OFF
        elif now.facts.is_done(f"chill:heater.{name}"):
            said, state = words("chilled, closed"), GOOD
        else:
            on = quantity(heater.thermostat.on_degc, "temperature")
            said, state = words("not chilled yet: it is open until its sensor is under {on}", on=on), UNTESTED
        told.append(FactNow(f"heater.{name}", "thermostat", said, state))
    return told


def extra_resistance(now: Now) -> list[FactNow]:
    """What the joints on the way to each heater add."""
    told = []
    for name in now.heaters:
        joint = next((one for one in now.proof.joints if one.heater == name), None)
        if joint is None:
            said, state = words("not known: read current, volts and both drops"), UNTESTED
        else:
            ohms, u = at_least(joint.extra.ohms, "ohms"), at_least(joint.extra.u, "ohms")
            said, state = words("{ohms}, u {u}", ohms=ohms, u=u), OFF if joint.extra.bad else GOOD
        told.append(FactNow(f"heater.{name}", "extra in joints", said, state))
    return told


def joint_watts(now: Now) -> list[FactNow]:
    """What the joints on the way to each heater burn."""
    return [
        FactNow(
            f"heater.{joint.heater}",
            "burnt in joints",
            words("{watts}", watts=at_least(joint.extra.watts, "power")),
            OFF if joint.extra.bad else "",
        )
        for joint in now.proof.joints
        if joint.heater in now.heaters
    ]


def warmth(now: Now) -> list[FactNow]:
    """What was felt at the wall beside each pad, before and after."""
    told = []
    for name in now.heaters:
        step = f"warm:heater.{name}"
        seen = [(when, now.facts.recorded(step, when)) for when in WARM_AT]
        done = now.facts.is_done(step)
        said = "; ".join(f"{when}: {what}" for when, what in seen if what)
        said = said or ("looked at" if done else "not looked at yet")
        told.append(
            FactNow(f"heater.{name}", "wall warms", words("{said}", said=said), GOOD if done else UNTESTED)
        )
    return told


# --- a tank's liquid ---


def level_of_tank(now: Now, tank: str) -> Reading | None:
    """The newest level that was read since the tank was last drained."""
    return now.facts.newest(f"tank.{tank}.level", since=now.facts.history(f"drain-flush:tank.{tank}").ended)


def to_go(now: Now) -> list[FactNow]:
    """Gallons and inches to go until the heaters of each tank are covered."""
    told = []
    for tank in now.tanks:
        least, least_level = (now.case.value(f"tank.{tank}.{name}") for name in ("least", "least_level"))
        if least is None or least_level is None:
            told.append(FactNow(f"tank.{tank}", "lacks", words("no least liquid: see its figure"), OFF))
            continue
        reading = level_of_tank(now, tank)
        level = reading.value if reading is not None else 0.0
        more = max(0.0, least / 1000.0 - volume_at(shape_of(now.case.tanks[tank]), level))
        parts = {
            "more": quantity(more, "volume"),
            "up": quantity(max(0.0, least_level - level), "length"),
            "level": quantity(level, "length"),
        }
        if reading is None:
            said, state = words("{more} and {up} from empty; no level read", **parts), UNTESTED
        elif level < least_level - MARGIN_ARITHMETIC:
            said, state = words("{more} and {up} more; stands at {level}", **parts), OFF
        else:
            said, state = words("nothing: stands at {level}", **parts), GOOD
        told.append(FactNow(f"tank.{tank}", "lacks", said, state))
    return told


def levels(now: Now) -> list[FactNow]:
    """How high each tank stands against its least."""
    told = []
    for tank in now.case.tanks:
        least = now.case.value(f"tank.{tank}.least_level")
        reading = level_of_tank(now, tank)
        if least is None:
            continue
        parts = {"least": quantity(least, "length")}
        if reading is None:
            told.append(
                FactNow(f"tank.{tank}", "stands at", words("not read; least {least}", **parts), UNTESTED)
            )
            continue
        parts["level"] = quantity(reading.value, "length")
        state = GOOD if reading.value >= least - MARGIN_ARITHMETIC else OFF
        told.append(FactNow(f"tank.{tank}", "stands at", words("{level}, least {least}", **parts), state))
    return told


def may_fill(now: Now) -> list[FactNow]:
    """Whether each tank may be filled: what its step says."""
    told = []
    for tank in now.tanks:
        step = next((one for one in now.case.steps if one.id == f"fill:tank.{tank}"), None)
        if step is None:
            continue
        found = [block for block in step.blocks if not block.id.startswith("step:")]
        said = found[0].text if found else words("yes")
        told.append(FactNow(f"tank.{tank}", "may be filled", said, OFF if found else GOOD))
    return told


def full_weight(now: Now) -> list[FactNow]:
    """What each tank holds weighs full, as water: the tank itself and what hangs on it come on top."""
    told = []
    for tank in now.tanks:
        volume = now.case.value(f"tank.{tank}.volume")
        if volume is not None:
            mass = quantity(mass_of(volume / 1000.0), "mass")
            told.append(FactNow(f"tank.{tank}", "weighs full", words("{mass} of water alone", mass=mass)))
    return told


# --- a bond ---


def over_dew_point(now: Now) -> list[FactNow]:
    """By how much the wall is warmer than the dew point; readings of the last hour count."""
    found = [now.facts.fresh(f"work.{name}", now.facts.now) for name in ("surface", "air", "humidity")]
    surface, air, humidity = found
    if surface is None or air is None or humidity is None or not 0.0 < humidity.value <= 1.0:
        missing = [
            name for name, one in zip(("surface", "air", "humidity"), found, strict=True) if one is None
        ]
        said = words("not known: read {missing}", missing=", ".join(missing) or "humidity again")
        return [FactNow("", "over the dew point", said, UNTESTED)]
    dew = dew_point(air.value, humidity.value)
    margin = surface.value - dew
    said = words(
        "{margin}, wants {least}; dew point {dew}",
        margin=quantity(margin, "difference"),
        least=quantity(DEW_MARGIN, "difference"),
        dew=quantity(dew, "temperature"),
    )
    return [
        FactNow("", "over the dew point", said, GOOD if margin >= DEW_MARGIN - MARGIN_ARITHMETIC else OFF)
    ]


FACTS: dict[str, Callable[[Now], list[FactNow]]] = {
    "@expected-ohms": expected_ohms,
    "@thermostat-closed": thermostats_closed,
    "@isolation": isolation,
    "@expected-current": expected_current,
    "@expected-volts": expected_volts,
    "@extra-resistance": extra_resistance,
    "@warmth": warmth,
    "@joint-watts": joint_watts,
    "@to-go": to_go,
    "@levels": levels,
    "@may-fill": may_fill,
    "@full-weight": full_weight,
    "@over-dew-point": over_dew_point,
}
