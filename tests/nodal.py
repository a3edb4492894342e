"""A second way to solve a wiring, for tests: nodal analysis by numpy, nothing shared with the program.

Terminals are named; elements are resistors between them. The supply holds `+`; the chassis and the supply's
negative are `-`. What is broken is left out or put in, as it would be on the creeper.
"""

from __future__ import annotations

import numpy as np

from logic.data.profile import Profile

WIRE = 1e-9  # Ω: stands for no resistance at all
BLOWS = 40.0  # A: more than any of these fuses stands


def copper(gauge: int, metres: float) -> float:
    """AWG by ASTM B258, annealed copper at 30 °C, stranded, written out again for the test. [Ω]"""
    diameter = 0.005 * 0.0254 * 92 ** ((36 - gauge) / 39)
    return 1.7241e-8 * (1 + 0.00393 * 10) * 1.02 / (np.pi / 4 * diameter**2) * metres


class Bench:
    """The rig on a bench: each circuit energised alone, and what a perfect meter shows."""

    def __init__(self, profile: Profile, *, volts: float = 12.8) -> None:
        self.profile = profile
        self.volts = volts
        self.gauge = {run.id: run.gauge for run in profile.runs}
        self.ohms = {heater.id: heater.volts**2 / heater.watts for heater in profile.heaters}
        self.open: set[str] = set()  # heaters
        self.blown: set[str] = set()  # runs
        self.more: dict[tuple[str, str], float] = {}  # (run or heater, out | back) → Ω in series
        self.short: dict[str, float] = {}  # run → Ω
        self.chassis: dict[str, tuple[float, float]] = {}  # heater → (where, Ω)
        self.leads = 0.0
        self.fuse = 0.007  # Ω with its holder

    # --- the network ---

    def path(self, run: str) -> list[str]:
        runs = {one.id: one for one in self.profile.runs}
        found = [run]
        while runs[found[-1]].from_ != "supply":
            found.append(runs[found[-1]].from_)
        return found

    def negative(self, run: str) -> str:
        back = next(one.back for one in self.profile.runs if one.id == run)
        return f"{run}-" if back in ("own", "chassis") else f"{back}-"

    def fused(self, run: str) -> bool:
        return next(one.fuse for one in self.profile.runs if one.id == run) != "none"

    def circuit_of(self, heater: str) -> str:
        run = next(one.id for one in self.profile.runs if heater in one.feeds)
        fused = {one.id for one in self.profile.runs if one.fuse != "none"}
        return next(one for one in self.path(run) if one in fused)

    def behind(self, circuit: str) -> list[str]:
        return [h for run in self.profile.runs if circuit in self.path(run.id) for h in run.feeds]

    def elements(self, circuit: str, *, cold: bool = False) -> list[tuple[str, str, float]]:
        """Resistors of this circuit alone. Cold: a meter stands in for what lies before its own fuse."""
        found = []
        for run in self.profile.runs:
            wire = copper(self.gauge[run.id], run.length)
            head = "+" if run.from_ == "supply" else f"{run.from_}+"
            if cold and run.id == circuit:
                head = "+"
            used = circuit in self.path(run.id) or run.id in self.path(circuit)
            if used and not (cold and run.id != circuit and run.id in self.path(circuit)):
                blown = run.id in self.blown and not (cold and run.id == circuit)
                if not blown:
                    fuse = self.fuse if run.fuse != "none" else 0.0
                    found.append(
                        (head, f"{run.id}+", wire + fuse + self.more.get((run.id, "out"), 0.0) + WIRE)
                    )
            if run.back == "own":
                to = "-" if run.from_ == "supply" else self.negative(run.from_)
                found.append((f"{run.id}-", to, wire + self.more.get((run.id, "back"), 0.0) + WIRE))
            elif run.back == "chassis":
                found.append((f"{run.id}-", "-", run.chassis + self.more.get((run.id, "back"), 0.0) + WIRE))
            if used and run.id in self.short:
                found.append((f"{run.id}+", self.negative(run.id), self.short[run.id]))
            for heater in run.feeds:
                if heater not in self.behind(circuit):
                    continue
                found.append((f"{run.id}+", f"{heater}+", self.more.get((heater, "out"), 0.0) + WIRE))
                found.append(
                    (f"{heater}-", self.negative(run.id), self.more.get((heater, "back"), 0.0) + WIRE)
                )
                if heater in self.open:
                    continue
                if heater in self.chassis:
                    where, through = self.chassis[heater]
                    found.append((f"{heater}+", f"{heater}*", self.ohms[heater] * where))
                    found.append((f"{heater}*", f"{heater}-", self.ohms[heater] * (1 - where)))
                    found.append((f"{heater}*", "-", through))
                else:
                    found.append((f"{heater}+", f"{heater}-", self.ohms[heater]))
        return found

    @staticmethod
    def solve(elements: list[tuple[str, str, float]], volts: float) -> dict[str, float]:
        """Volts of every terminal; what hangs on nothing is held at 0 through a very great leak."""
        names = sorted({name for a, b, _ in elements for name in (a, b)} - {"+", "-"})
        index = {name: number for number, name in enumerate(names)}
        matrix = np.eye(len(names)) * 1e-12
        right = np.zeros(len(names))
        for a, b, ohms in elements:
            for one, other in ((a, b), (b, a)):
                if one in index:
                    matrix[index[one], index[one]] += 1 / ohms
                    if other in index:
                        matrix[index[one], index[other]] -= 1 / ohms
                    elif other == "+":
                        right[index[one]] += volts / ohms
        solved = np.linalg.solve(matrix, right)
        return {"+": volts, "-": 0.0, **{name: float(solved[number]) for name, number in index.items()}}

    # --- the meter ---

    def loaded(self, circuit: str) -> dict[str, float]:
        elements = self.elements(circuit)
        at = self.solve(elements, self.volts)
        for run in self.short:
            hit = next(each for each in self.path(run) if self.fused(each))
            into = sum((at[a] - at[b]) / ohms for a, b, ohms in elements if b == f"{hit}+")
            if circuit in self.path(run) and into > BLOWS and hit not in self.blown:
                self.blown.add(hit)
                readings = self.loaded(circuit)
                self.blown.discard(hit)
                return readings
        readings = {}
        through = ((at[a] - at[b]) / ohms for a, b, ohms in elements if b == f"{circuit}+")
        entry = next(
            through, 0.0
        )  # a circuit's own positive stands first among what ends there; blown: none does
        readings[f"run.{circuit}.current"] = entry
        for heater in self.behind(circuit):
            if self.circuit_of(heater) == circuit:
                high, low = at.get(f"{heater}+", 0.0), at.get(f"{heater}-", 0.0)
                readings[f"heater.{heater}.volts"] = high - low
                readings[f"heater.{heater}.drop_out"] = self.volts - high
                readings[f"heater.{heater}.drop_back"] = low
        return readings

    def cold(self, circuit: str) -> float | None:
        """At the fuse holder; None: over range."""
        elements = self.elements(circuit, cold=True)
        at = self.solve(elements, 1.0)
        amps = sum((at[a] - at[b]) / ohms for a, b, ohms in elements if a == "+")
        return None if amps < 1e-6 else 1 / amps + self.leads

    def pad(self, heater: str) -> float | None:
        return None if heater in self.open else self.ohms[heater] + self.leads

    def isolation(self, circuit: str) -> float | None:
        for heater in self.behind(circuit):
            if heater in self.chassis:
                where, through = self.chassis[heater]
                return through + where * self.ohms[heater]
        return None
