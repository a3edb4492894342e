"""What is likely wrong, from all readings so far: each fault simulated, its readings compared with those measured.

The faults are changes of the rig's own network (`fault_list.py`); what a meter would show comes from the same exact
solver (`fault_network.py`); how well that fits is a matter of the meter's uncertainty and of what nobody knows
exactly (`likelihood.py`). The next measurement is the one that best parts those that are still likely.
"""

from math import exp, hypot, inf, isinf, log, log10

import msgspec

from logic.assessment.case import Case
from logic.assessment.fault_list import Fault, circuits_of, faults_of
from logic.assessment.proving import UNTESTED, Bench, Proof, Trial, bench_of, proof_of
from logic.assessment.work import facts_of
from logic.data.wording import Words, quantity, words
from logic.physics.fault_network import Change, Faulty, Wires
from logic.physics.joint import clamp_uncertainty, meter_uncertainty
from logic.physics.likelihood import SharedErrors

# What isn't known exactly, one standard uncertainty each; PRACTICE.
HEATER_SHARE = 0.04  # of a heater's resistance: +10/−5 % as a spread
WIRE_SHARE = 0.04  # of a run's length and copper
FUSE_OHMS, FUSE_SPREAD = 0.0075, 0.006  # a fuse with its holder: 0 to 15 mΩ
SWITCH_OHMS, SWITCH_SPREAD = 0.005, 0.004  # a switch: 0 to 10 mΩ

NOTICED = 2.5  # standard uncertainties off: a circuit is suspected
CERTAIN_MISS = (
    60.0  # −2 ln of what a fault gets that says open where there is a value, or the other way round
)
OPEN_OHMS = 1e5  # a resistance over this is as good as open
SPREAD_OF_LEAK = 0.5  # of a leak's resistance, in decades
UNKNOWN_SIZE = 8.0  # −2 ln of what a fault pays for a size that is fitted: a few percent out of four decades
LIKELY_ENOUGH = 0.01  # ranked down to this share
DIGITS = {
    "resistance": 0.1,
    "isolation": 1e4,
    "current": 0.01,
    "volts": 0.01,
    "drop_out": 0.001,
    "drop_back": 0.001,
}
SEEN = 1e-9


class Why(msgspec.Struct, frozen=True):
    """One reading that speaks for a fault."""

    slot: str
    measured: float | None  # None: over range
    predicted: float | None  # None: open
    sound: float | None
    text: Words


class Likely(msgspec.Struct, frozen=True):
    kind: str
    place: str
    title: Words
    share: float  # of all that was considered
    ohms: float | None  # its fitted size
    why: tuple[Why, ...]
    change: Change


class NextMeasurement(msgspec.Struct, frozen=True):
    """The one reading that would best tell the likely faults apart."""

    slot: str
    text: Words
    separation: float  # 0: tells nothing, 1: tells all
    predictions: tuple[tuple[str, float | None], ...]  # by fault title's place and kind; None: open


class Diagnosis(msgspec.Struct, frozen=True):
    suspected: tuple[str, ...]  # circuits with a reading that is off
    likely: tuple[Likely, ...]
    next: NextMeasurement | None


def diagnose(case: Case) -> Diagnosis:
    """The likely faults, likeliest first, with why, and the next measurement. Nothing off: nothing suspected."""
    return _Search(case, proof_of(case), bench_of(case.profile)).diagnosis()


class _Search:
    def __init__(self, case: Case, proof: Proof, bench: Bench) -> None:
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
        sound = Faulty(self.wires, Change())
        self.sound = [self.predict(sound, trial) for trial in self.trials]
        self.slopes = self._slopes()
        self.place = {id(trial): number for number, trial in enumerate(self.trials)}
        self.numbers = [trial for trial in self.seen if trial.quantity != "isolation" and not trial.over]
        self.errors = SharedErrors(
            [max(trial.u or 0.0, SEEN) for trial in self.numbers],
            [[slope[self.place[id(trial)]] for trial in self.numbers] for slope in self.slopes],
        )

    # --- what a meter would show ---

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
        changes: list[tuple[Wires, Change]] = []
        for load, ohms in enumerate(self.wires.ohms):
            changes.append((self.wires, Change(ohms=((load, ohms * (1.0 + HEATER_SHARE)),))))
        for run in range(len(self.bench.runs)):
            changes.append((self.wires, Change(wire=((run, 1.0 + WIRE_SHARE),))))
            spread = hypot(
                FUSE_SPREAD if self.bench.fused[run] else 0.0,
                SWITCH_SPREAD if self.bench.switched[run] else 0.0,
            )
            if spread:
                changes.append((self.wires, Change(run_out=((run, spread),))))
        slopes = []
        for wires, change in changes:
            faulty = Faulty(wires, change)
            slopes.append(
                [
                    _difference(self.predict(faulty, trial), sound)
                    for trial, sound in zip(self.trials, self.sound, strict=True)
                ]
            )
        for circuit in dict.fromkeys(trial.circuit for trial in self.trials):
            slopes.append(
                [self._by_supply(trial, number, circuit) for number, trial in enumerate(self.trials)]
            )
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
                total += self._leak(trial, predicted)
            elif trial.over:
                total += 0.0 if predicted > OPEN_OHMS else CERTAIN_MISS
            elif isinf(predicted):
                total += CERTAIN_MISS
                differences.append(0.0)
            else:
                assert trial.value is not None
                differences.append(trial.value - predicted)
        return total + self.errors.distance(differences)

    @staticmethod
    def _leak(trial: Trial, predicted: float) -> float:
        measured = inf if trial.over or trial.value is None else trial.value
        if isinf(predicted):
            return 0.0 if measured >= (trial.low or 0.0) else CERTAIN_MISS
        if isinf(measured):
            return 0.0 if predicted >= (trial.low or 0.0) else CERTAIN_MISS
        return (log10(max(measured, 1e-3) / predicted) / SPREAD_OF_LEAK) ** 2

    def predictions(self, change: Change, affects: frozenset[int]) -> list[float]:
        """What all trials would show: those of circuits that a fault doesn't touch as if all were sound."""
        faulty = Faulty(self.wires, change)
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

            def off(size: float, sized=sized) -> float:
                return self.distance(self.predictions(sized.change(exp(size)), fault.affects))

            size, found = _least(off, log(fault.span[0]), log(fault.span[1]))
            candidate = (found + UNKNOWN_SIZE, sized.change(exp(size)), exp(size))
            best = min(best, candidate, key=lambda one: one[0])
        return best

    # --- the answer ---

    def suspects(self) -> frozenset[int]:
        """Circuits with a reading that a sound wiring would hardly give."""
        found = set()
        for trial in self.seen:
            number = self.place[id(trial)]
            sound = self.sound[number]
            if trial.quantity == "isolation":
                off = self._leak(trial, sound) > NOTICED**2
            elif trial.over:
                off = sound <= OPEN_OHMS
            else:
                assert trial.value is not None
                off = abs(trial.value - sound) > NOTICED * self._spread(number, trial)
            if off:
                found.add(self.run[trial.circuit])
        return frozenset(found)

    def _spread(self, number: int, trial: Trial, u: float | None = None) -> float:
        own = u if u is not None else (trial.u or 0.0)
        return max(SEEN, hypot(own, *(slope[number] for slope in self.slopes)))

    def diagnosis(self) -> Diagnosis:
        suspects = self.suspects()
        if not suspects:
            return Diagnosis(suspected=(), likely=(), next=None)
        shared = frozenset(
            circuit
            for circuit in circuits_of(self.bench)
            if any(self.bench.behind(circuit) & self.bench.behind(one) for one in suspects)
        )
        fitted = [
            (fault, *self.fit(fault))
            for fault in faults_of(self.case, self.facts, self.bench, suspects | shared)
        ]
        scores = [log(fault.chance) - distance / 2.0 for fault, distance, _, _ in fitted]
        top = max(scores)
        weights = [exp(score - top) for score in scores]
        total = sum(weights)
        ranked = sorted(
            (
                (weight / total, fault, change, size)
                for (fault, _, change, size), weight in zip(fitted, weights, strict=True)
                if weight / total >= LIKELY_ENOUGH
            ),
            key=lambda one: -one[0],
        )
        predicted = [self.predictions(change, fault.affects) for _, fault, change, _ in ranked]
        likely = tuple(
            Likely(
                kind=fault.kind,
                place=fault.place,
                title=fault.title,
                share=share,
                ohms=size,
                why=self._why(shown),
                change=change,
            )
            for (share, fault, change, size), shown in zip(ranked, predicted, strict=True)
        )
        return Diagnosis(
            suspected=tuple(self.bench.runs[run] for run in sorted(suspects)),
            likely=likely,
            next=self._next(likely, predicted),
        )

    def _why(self, predicted: list[float]) -> tuple[Why, ...]:
        """The readings that a fault explains better than a sound wiring does, the most telling first."""
        gains = []
        for trial in self.seen:
            number = self.place[id(trial)]
            shown, sound = predicted[number], self.sound[number]
            spread = self._spread(number, trial)
            gain = _miss(trial, sound, spread) - _miss(trial, shown, spread)
            if gain > 1.0:
                gains.append((gain, trial, shown, sound))
        gains.sort(key=lambda one: -one[0])
        return tuple(
            Why(
                slot=trial.slot,
                measured=None if trial.over else trial.value,
                predicted=None if isinf(shown) else shown,
                sound=None if isinf(sound) else sound,
                text=words(
                    "{slot} reads {measured}: with this fault {shown}, sound {sound}",
                    slot=trial.slot,
                    measured=_said(None if trial.over else trial.value, trial),
                    shown=_said(shown, trial),
                    sound=_said(sound, trial),
                ),
            )
            for _, trial, shown, sound in gains[:3]
        )

    def _next(self, likely: tuple[Likely, ...], predicted: list[list[float]]) -> NextMeasurement | None:
        """Of the readings not taken yet, and of a chilled thermostat, the one that best parts what is likely."""
        options: list[tuple[float, str, list[float | None], Words]] = []
        for number, trial in enumerate(self.trials):
            if trial.state != UNTESTED:
                continue
            shown = [one[number] for one in predicted]
            digit = DIGITS[trial.quantity]
            spread = [
                self._spread(number, trial, _u_of(trial.quantity, value, digit)) if not isinf(value) else 0.0
                for value in shown
            ]
            parted = _parted(
                [one.share for one in likely], shown, spread, decades=trial.quantity == "isolation"
            )
            text = words("measure {slot}", slot=trial.slot)
            options.append((parted, trial.slot, [None if isinf(value) else value for value in shown], text))
        for heater in dict.fromkeys(one.place for one in likely if one.kind == "thermostat-open"):
            shown = [0.0 if one.kind == "thermostat-open" and one.place == heater else 1.0 for one in likely]
            parted = _parted([one.share for one in likely], shown, [0.1] * len(shown), decades=False)
            text = words("chill the sensor of {heater} and measure it again", heater=heater.partition(".")[2])
            options.append((parted, f"{heater}.resistance", [None] * len(shown), text))
        best = max(options, key=lambda one: one[0], default=None)
        if best is None or best[0] <= SEEN or len(likely) < 2:
            return None
        parted, slot, shown_at, text = best
        return NextMeasurement(
            slot=slot,
            text=text,
            separation=parted,
            predictions=tuple(
                (f"{one.kind}:{one.place}", value) for one, value in zip(likely, shown_at, strict=True)
            ),
        )


def _difference(value: float, sound: float) -> float:
    return 0.0 if isinf(value) or isinf(sound) else value - sound


def _miss(trial: Trial, predicted: float, spread: float) -> float:
    """How far one reading is off a prediction, squared, in uncertainties."""
    if trial.quantity == "isolation":
        return _Search._leak(trial, predicted)
    if trial.over or isinf(predicted):
        return 0.0 if trial.over and predicted > OPEN_OHMS else CERTAIN_MISS
    assert trial.value is not None
    return min(CERTAIN_MISS, ((trial.value - predicted) / spread) ** 2)


def _said(value: float | None, trial: Trial):
    return "open" if value is None or isinf(value) else quantity(value, trial.kind)


def _u_of(name: str, value: float, digit: float) -> float:
    return clamp_uncertainty(value, digit) if name == "current" else meter_uncertainty(value, digit)


def _parted(shares: list[float], shown: list[float], spread: list[float], *, decades: bool) -> float:
    """How well a reading would part what is likely: each pair's shares × how little their spreads overlap."""
    total = 0.0
    for i in range(len(shown)):
        for j in range(i + 1, len(shown)):
            one, other = shown[i], shown[j]
            if isinf(one) or isinf(other):
                apart = 1.0 if one != other else 0.0
            else:
                if decades:
                    off, wide = log10(max(one, 1.0) / max(other, 1.0)), 2.0 * SPREAD_OF_LEAK**2
                else:
                    off, wide = one - other, spread[i] ** 2 + spread[j] ** 2
                apart = 1.0 - exp(-(off**2) / (4.0 * wide)) if wide > 0.0 else float(off != 0.0)
            total += 2.0 * shares[i] * shares[j] * apart
    return total


GOLDEN = (5.0**0.5 - 1.0) / 2.0


def _least(off, low: float, high: float) -> tuple[float, float]:
    """Where a function of one number is least, and its value there: a coarse look, then golden section."""
    count = 14
    points = [low + (high - low) * step / count for step in range(count + 1)]
    values = [off(point) for point in points]
    best = min(range(len(points)), key=lambda number: values[number])
    left, right = points[max(0, best - 1)], points[min(count, best + 1)]
    one, other = right - GOLDEN * (right - left), left + GOLDEN * (right - left)
    at_one, at_other = off(one), off(other)
    for _ in range(18):
        if at_one < at_other:
            right, other, at_other = other, one, at_one
            one = right - GOLDEN * (right - left)
            at_one = off(one)
        else:
            left, one, at_one = one, other, at_other
            other = left + GOLDEN * (right - left)
            at_other = off(other)
    return min(((points[best], values[best]), (one, at_one), (other, at_other)), key=lambda found: found[1])
