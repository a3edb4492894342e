"""What is likely wrong, from all readings so far: each fault simulated, and compared with what was measured.

The faults are changes of the rig's own network (`fault_list.py`), what a meter would show comes from the same
exact solver (`fault_network.py`), and `fault_fit.py` says how well that fits. Here they are ranked; the next
measurement is the one that best parts those that are still likely.
"""

from math import exp, isinf, log, log10

import msgspec

from logic.assessment.bench import bench_of
from logic.assessment.case import Case
from logic.assessment.fault_fit import DIGITS, SEEN, SPREAD_OF_LEAK, Fit, miss
from logic.assessment.fault_list import circuits_of, faults_of
from logic.assessment.proving import proof_of
from logic.assessment.trial import UNTESTED, Trial
from logic.data.place_names import name_of
from logic.data.wording import Quantity, Words, quantity, words
from logic.physics.fault_network import Change
from logic.physics.joint import clamp_uncertainty, meter_uncertainty

LIKELY_ENOUGH = 0.01  # ranked down to this share
MOST_FAULTS = 3  # beyond so many at once, the readings say too little of each


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
    besides: tuple["Diagnosis", ...] = ()  # of readings that the likeliest fault here leaves off


def diagnose(case: Case) -> Diagnosis:
    """The likely faults, likeliest first, with why, and the next measurement. Nothing off: none.

    One fault is looked for at a time. Where the likeliest leaves readings off, it is taken as given, and what is
    likely besides it is looked for, up to `MOST_FAULTS` at once.
    """
    proof, bench = proof_of(case), bench_of(case.profile)
    found: list[Diagnosis] = []
    given = Change()
    while len(found) < MOST_FAULTS:
        one = _Ranking(Fit(case, proof, bench, given)).diagnosis()
        if found and (not one.likely or one.likely[0].kind == "sound"):
            break
        found.append(one)
        if not one.likely:
            break
        given = given.and_also(one.likely[0].change)
    return msgspec.structs.replace(found[0], besides=tuple(found[1:]))


class _Ranking:
    def __init__(self, fit: Fit) -> None:
        self.fit = fit
        self.bench = fit.bench

    def diagnosis(self) -> Diagnosis:
        suspects = self.fit.suspects()
        if not suspects:
            return Diagnosis(suspected=(), likely=(), next=None)
        shared = frozenset(
            circuit
            for circuit in circuits_of(self.bench)
            if any(self.bench.behind(circuit) & self.bench.behind(one) for one in suspects)
        )
        fitted = [
            (fault, *self.fit.fit(fault))
            for fault in faults_of(self.fit.case, self.fit.facts, self.bench, suspects | shared)
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
        predicted = [self.fit.predictions(change, fault.affects) for _, fault, change, _ in ranked]
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
        for trial in self.fit.seen:
            number = self.fit.place[id(trial)]
            shown, sound = predicted[number], self.fit.sound[number]
            spread = self.fit.spread(number, trial)
            gain = miss(trial, sound, spread) - miss(trial, shown, spread)
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
                    slot=name_of(trial.slot, self.fit.case.profile),
                    measured=_said(None if trial.over else trial.value, trial),
                    shown=_said(shown, trial),
                    sound=_said(sound, trial),
                ),
            )
            for _, trial, shown, sound in gains[:3]
        )

    def _next(self, likely: tuple[Likely, ...], predicted: list[list[float]]) -> NextMeasurement | None:
        """Of the readings not taken yet, the one that best parts what is likely; a chilled sensor too."""
        options: list[tuple[float, str, list[float | None], Words]] = []
        for number, trial in enumerate(self.fit.trials):
            if trial.state != UNTESTED:
                continue
            shown = [one[number] for one in predicted]
            digit = DIGITS[trial.quantity]
            spread = [
                self.fit.spread(number, trial, _u_of(trial.quantity, value, digit))
                if not isinf(value)
                else 0.0
                for value in shown
            ]
            parted = _parted(
                [one.share for one in likely], shown, spread, decades=trial.quantity == "isolation"
            )
            text = words("measure {slot}", slot=name_of(trial.slot, self.fit.case.profile))
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


def _said(value: float | None, trial: Trial) -> Quantity | str:
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
