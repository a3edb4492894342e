"""How fast the choice of gauges is, and how often it is proven. By hand:

python -m tests.benchmarks.gauge_choice

Random trees of automatic runs, with returns of their own only, and with lent returns and chassis paths mixed
in; and chains. The ratio is to one solution of the same network, so that it says little about the machine.
"""

import random
import time

from logic.physics.gauge_choice import choose_gauges
from logic.physics.harness import Harness, stand
from logic.physics.network import OWN, Tree
from tests.properties.test_gauge_choice import random_harness

RIGS = 40


def seconds(work):
    began = time.process_time()
    result = work()
    return time.process_time() - began, result


def chain(count, *, equal):
    lengths = [1.0 if equal else 0.5 + 0.05 * number for number in range(count)]
    whole = sum(lengths)
    return Harness(
        tree=Tree(tuple(range(-1, count - 1)), (OWN,) * count, (count - 1,)),
        lengths=tuple(3.6 * length / whole for length in lengths),
        gauges=(None,) * count,
        chassis=(0.005,) * count,
        fuses=("auto", *["none"] * (count - 1)),
        heaters=(4.8,),
        table="awg",
        temperature=30.0,
        drop_limit=0.02,
        charging=13.6,
    )


def report(name, harnesses):
    spent, proven, gaps, solves = [], 0, [], []
    for harness in harnesses:
        took, choice = seconds(lambda harness=harness: choose_gauges(harness))
        stand(harness, [4] * len(harness.gauges))
        bare, _ = seconds(
            lambda harness=harness: [stand(harness, [4] * len(harness.gauges)) for _ in range(20)]
        )
        spent.append(took * 1e3)
        solves.append(took / (bare / 20))
        proven += choice.proven
        if not choice.proven and choice.gauges is not None:
            gaps.append(choice.copper / choice.least - 1)
    spent.sort()
    solves.sort()
    print(
        f"{name:24} median {spent[len(spent) // 2]:7.1f} ms  most {spent[-1]:7.1f} ms"
        f"  {solves[len(solves) // 2]:6.0f} × one network"
        f"  proven {proven}/{len(spent)}" + (f"  bound at most {max(gaps):.1%} away" if gaps else "")
    )


if __name__ == "__main__":
    for runs in (8, 16, 24, 40):
        for plain in (True, False):
            report(
                f"{runs} runs, {'own returns' if plain else 'mixed returns'}",
                [random_harness(random.Random(n), runs, given=0, plain=plain) for n in range(RIGS)],
            )
    for runs in (16, 40, 60):
        report(f"chain of {runs}, equal", [chain(runs, equal=True)])
        report(f"chain of {runs}, unequal", [chain(runs, equal=False)])
