"""How well a fault fits the readings: what a meter would show with it, beside what one did show.

What nobody knows exactly, a pad's own resistance, a wire's length, a fuse's contacts, the supply's reading,
moves several readings at once, and is taken into account as such (`likelihood.py`).
"""

from math import exp, hypot, inf, isinf, log, log10

from logic.assessment.bench import Bench
from logic.assessment.case import Case
from logic.assessment.fault_list import Fault, Sized
from logic.assessment.proving import Proof
from logic.assessment.trial import UNTESTED, Trial
from logic.assessment.work_facts import facts_of
from logic.physics.fault_network import Change, Faulty, Wires
from logic.physics.joint import meter_uncertainty
from logic.physics.likelihood import SharedErrors, least

# What isn't known exactly, one standard uncertainty each; PRACTICE.
HEATER_SHARE = 0.04  # of a heater's resistance: +10/−5 % as a spread
WIRE_SHARE = 0.04  # of a run's length and copper
FUSE_OHMS, FUSE_SPREAD = 0.0075, 0.006  # a fuse with its holder: 0 to 15 mΩ
SWITCH_OHMS, SWITCH_SPREAD = 0.005, 0.004  # a switch: 0 to 10 mΩ

NOTICED = 2.5  # standard uncertainties off: a circuit is suspected
CERTAIN_MISS = 60.0  # −2 ln of what a fault gets for a leak that it doesn't know of, or the other way round
NEVER = 1e4  # the same where it says open and there is a value, or the other way round: no misfit is as bad
OPEN_OHMS = 1e5  # a resistance over this is as good as open
SPREAD_OF_LEAK = 0.5  # of a leak's resistance, in decades
UNKNOWN_SIZE = 8.0  # −2 ln of what a fault pays for a size that is fitted: a few percent out of four decades
DIGITS = {
    "resistance": 0.1,
    "isolation": 1e4,
    "current": 0.01,
    "volts": 0.01,
    "drop_out": 0.001,
    "drop_back": 0.001,
}
SEEN = 1e-9


class Fit:
    """All readings of a wiring against what any fault would show."""

    def __init__(self, case: Case, proof: Proof, bench: Bench, given: Change | None = None) -> None:
        """`given`: what is known, or held, to be wrong already; what else is wrong comes on top of it."""
        self.given = given or Change()
        self.case = case
        self.facts = facts_of(case)
        self.bench = bench
        self.trials = [trial for trial in proof.trials if trial.circuit]
        self.seen = [trial for trial in self.trials if trial.state != UNTESTED]
        self.load = {name: load for load, name in enumerate(bench.loads)}
        self.run = {name: run for run, name in enumerate(bench.runs)}
        self.wires = Wires(
            tree=bench.tree,
            positives=bench.positives,
            contacts=tuple(
                (FUSE_OHMS if fused else 0.0) + (SWITCH_OHMS if switched else 0.0)
                for fused, switched in zip(bench.fused, bench.switched, strict=True)
            ),
            returns=bench.returns,
            ohms=bench.ohms,
            fuses=bench.fuses,
        )
        sound = self.with_change(Change())
        self.sound = [self.predict(sound, trial) for trial in self.trials]
        self.slopes = self._slopes()
        self.place = {id(trial): number for number, trial in enumerate(self.trials)}
        self.numbers = [trial for trial in self.seen if trial.quantity != "isolation" and not trial.over]
        self.errors = SharedErrors(
            [max(trial.u or 0.0, SEEN) for trial in self.numbers],
            [[slope[self.place[id(trial)]] for trial in self.numbers] for slope in self.slopes],
        )

    # --- what a meter would show ---

    def with_change(self, change: Change) -> Faulty:
        """The wiring with a change on top of what is given."""
        return Faulty(self.wires, self.given.and_also(change))

    def predict(self, faulty: Faulty, trial: Trial) -> float:
        circuit = self.run[trial.circuit]
        volts = trial.supply or self.case.profile.supply.volts
        if trial.quantity == "isolation":
            return faulty.isolation(circuit)
        if trial.quantity == "current":
            return faulty.current(circuit, volts=volts)
        if trial.quantity == "resistance":
            if trial.place.startswith("run."):
                return self._leads(trial, faulty, faulty.circuit_ohms(circuit))
            return self._leads(trial, faulty, faulty.pad_ohms(self.load[trial.place.partition(".")[2]]))
        at_pad = faulty.at_pad(self.load[trial.place.partition(".")[2]], circuit=circuit, volts=volts)
        return at_pad[("volts", "drop_out", "drop_back").index(trial.quantity)]

    @staticmethod
    def _leads(trial: Trial, faulty: Faulty, ohms: float) -> float:
        """Leads that were taken off are in no reading."""
        return ohms - faulty.change.leads if trial.corrected is not None else ohms

    def _slopes(self) -> list[list[float]]:
        """For each thing that isn't known exactly: how far its own uncertainty moves every reading."""
        changes: list[Change] = []
        instead = dict(self.given.ohms)
        for load, own in enumerate(self.wires.ohms):
            ohms = instead.get(load, own)
            changes.append(Change(ohms=((load, ohms * (1.0 + HEATER_SHARE)),)))
        for run in range(len(self.bench.runs)):
            changes.append(Change(wire=((run, 1.0 + WIRE_SHARE),)))
            spread = hypot(
                FUSE_SPREAD if self.bench.fused[run] else 0.0,
                SWITCH_SPREAD if self.bench.switched[run] else 0.0,
            )
            if spread:
                changes.append(Change(run_out=((run, spread),)))
        slopes = []
        for change in changes:
            faulty = self.with_change(change)
            slopes.append(
                [
                    _difference(self.predict(faulty, trial), sound)
                    for trial, sound in zip(self.trials, self.sound, strict=True)
                ]
            )
        slopes += [
            [self._by_supply(trial, number, circuit) for number, trial in enumerate(self.trials)]
            for circuit in dict.fromkeys(trial.circuit for trial in self.trials)
        ]
        return slopes

    def _by_supply(self, trial: Trial, number: int, circuit: str) -> float:
        """How far the uncertainty of the supply's own reading moves a loaded reading."""
        if trial.circuit != circuit or trial.supply is None or trial.quantity not in ("current", "volts"):
            return 0.0
        u = meter_uncertainty(trial.supply, DIGITS["volts"])
        return self.sound[number] / trial.supply * u

    # --- how well a fault fits ---

    def distance(self, predictions: list[float]) -> float:
        """−2 ln of how likely the readings are under these predictions, up to what all have in common."""
        total = 0.0
        differences = []
        for trial in self.seen:
            predicted = predictions[self.place[id(trial)]]
            if trial.quantity == "isolation":
                total += self.leak(trial, predicted)
            elif trial.over:
                total += 0.0 if predicted > OPEN_OHMS else NEVER
            elif isinf(predicted):
                total += NEVER
                differences.append(0.0)
            else:
                assert trial.value is not None
                differences.append(trial.value - predicted)
        return total + self.errors.distance(differences)

    @staticmethod
    def leak(trial: Trial, predicted: float) -> float:
        measured = inf if trial.over or trial.value is None else trial.value
        if isinf(predicted):
            return 0.0 if measured >= (trial.low or 0.0) else CERTAIN_MISS
        if isinf(measured):
            return 0.0 if predicted >= (trial.low or 0.0) else CERTAIN_MISS
        return (log10(max(measured, 1e-3) / predicted) / SPREAD_OF_LEAK) ** 2

    def predictions(self, change: Change, affects: frozenset[int]) -> list[float]:
        """What all trials would show: those of circuits that a fault doesn't touch as if all were sound."""
        faulty = self.with_change(change)
        return [
            self.predict(faulty, trial)
            if self.run[trial.circuit] in affects or trial.place in self._places(affects)
            else sound
            for trial, sound in zip(self.trials, self.sound, strict=True)
        ]

    def _places(self, affects: frozenset[int]) -> frozenset[str]:
        return frozenset(
            f"heater.{self.bench.loads[load]}" for circuit in affects for load in self.bench.behind(circuit)
        )

    def fit(self, fault: Fault) -> tuple[float, Change, float | None]:
        """A fault's best distance, its change, and its fitted size."""
        best: tuple[float, Change, float | None] = (inf, Change(), None)
        for change in fault.tries:
            found = self.distance(self.predictions(change, fault.affects))
            best = min(best, (found, change, None), key=lambda one: one[0])
        for sized in fault.sizes:
            assert fault.span is not None

            def off(size: float, sized: Sized = sized) -> float:
                return self.distance(self.predictions(sized.change(exp(size)), fault.affects))

            size, found = least(off, log(fault.span[0]), log(fault.span[1]))
            candidate = (found + UNKNOWN_SIZE, sized.change(exp(size)), exp(size))
            best = min(best, candidate, key=lambda one: one[0])
        return best

    def suspects(self) -> frozenset[int]:
        """Circuits with a reading that a sound wiring would hardly give."""
        found = set()
        for trial in self.seen:
            number = self.place[id(trial)]
            sound = self.sound[number]
            if trial.quantity == "isolation":
                off = self.leak(trial, sound) > NOTICED**2
            elif trial.over:
                off = sound <= OPEN_OHMS
            else:
                assert trial.value is not None
                off = abs(trial.value - sound) > NOTICED * self.spread(number, trial)
            if off:
                found.add(self.run[trial.circuit])
        return frozenset(found)

    def spread(self, number: int, trial: Trial, u: float | None = None) -> float:
        own = u if u is not None else (trial.u or 0.0)
        return max(SEEN, hypot(own, *(slope[number] for slope in self.slopes)))


def _difference(value: float, sound: float) -> float:
    return 0.0 if isinf(value) or isinf(sound) else value - sound


def miss(trial: Trial, predicted: float, spread: float) -> float:
    """How far one reading is off a prediction, squared, in uncertainties."""
    if trial.quantity == "isolation":
        return Fit.leak(trial, predicted)
    if trial.over or isinf(predicted):
        return 0.0 if trial.over and predicted > OPEN_OHMS else NEVER
    assert trial.value is not None
    return min(NEVER, ((trial.value - predicted) / spread) ** 2)
