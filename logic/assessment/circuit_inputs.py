"""What a rig's wiring hangs on, taken out of its profile: all of the circuits is memoised by it."""

from functools import lru_cache

import msgspec

from logic.data.profile import Profile
from logic.physics.harness import Harness
from logic.physics.network import CHASSIS, OWN, SUPPLY, Tree


class Load(msgspec.Struct, frozen=True):
    """A heater as the wiring sees it."""

    id: str
    watts: float
    volts: float


class Inputs(msgspec.Struct, frozen=True, cache_hash=True):
    """What the wiring hangs on, and nothing besides."""

    volts: float
    charging: float
    table: str
    temperature: float
    drop_limit: float
    runs: tuple[tuple[str, str, float, int | None, str, float, float | str, tuple[str, ...]], ...]
    heaters: tuple[Load, ...]


class Same:
    """A profile as a key by which object it is: hashing all of it would cost more than is asked."""

    __slots__ = ("profile",)

    def __init__(self, profile: Profile) -> None:
        self.profile = profile

    def __hash__(self) -> int:
        return id(self.profile)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and other.profile is self.profile


def inputs_of(profile: Profile) -> Inputs:
    return _of(Same(profile))


@lru_cache(maxsize=4)  # the key holds the profile, so that its id stays its own
def _of(same: Same) -> Inputs:
    profile = same.profile
    return Inputs(
        volts=profile.supply.volts,
        charging=profile.supply.charging,
        table=profile.wiring.table,
        temperature=profile.wiring.conductor_degc,
        drop_limit=profile.wiring.drop_limit,
        runs=tuple(
            (run.id, run.from_, run.length, run.gauge, run.back, run.chassis, run.fuse, run.feeds)
            for run in profile.runs
        ),
        heaters=tuple(Load(heater.id, heater.watts, heater.volts) for heater in profile.heaters),
    )


@lru_cache(maxsize=32)
def harness_from(inputs: Inputs) -> Harness:
    """The wiring by index, without names of its parts."""
    index = {run[0]: number for number, run in enumerate(inputs.runs)}
    ohms = {load.id: load.volts**2 / load.watts for load in inputs.heaters}
    backs = {"own": OWN, "chassis": CHASSIS}
    fed = [(index[run[0]], heater) for run in inputs.runs for heater in run[7]]
    return Harness(
        tree=Tree(
            parents=tuple(index.get(run[1], SUPPLY) for run in inputs.runs),
            backs=tuple(backs[run[4]] if run[4] in backs else index[run[4]] for run in inputs.runs),
            loads=tuple(run for run, _ in fed),
        ),
        lengths=tuple(run[2] for run in inputs.runs),
        gauges=tuple(run[3] for run in inputs.runs),
        chassis=tuple(run[5] for run in inputs.runs),
        fuses=tuple(run[6] for run in inputs.runs),
        heaters=tuple(ohms[heater] for _, heater in fed),
        table=inputs.table,
        temperature=inputs.temperature,
        drop_limit=inputs.drop_limit,
        charging=inputs.charging,
        names=tuple(index),
    )
