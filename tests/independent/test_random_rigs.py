"""The program's answer for random rigs against the second reckoning; more of them by `long_run`."""

import pytest

from tests.contract.headless import RIGS, bellypan
from tests.independent.compare import differences
from tests.independent.parts_compare import differences as parts_differences
from tests.independent.parts_compare import parts_of
from tests.independent.random_rigs import written
from tests.independent.rig import Rig

SEEDS = range(40)


def compared(path, name):
    rig = Rig.of_file(path)
    lines = [
        *differences(rig, bellypan("check", path, "--json").json),
        *parts_differences(rig, parts_of(path)),
    ]
    assert not lines, f"{name}, second reckoning / program:\n" + "\n".join(lines)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_random_rig_is_reckoned_alike(seed, tmp_path):
    # job, rig-format · COMPUTED by a second reckoning · tolerances: in compare.py, with their reasons
    compared(written(seed, tmp_path), f"seed {seed}")


@pytest.mark.parametrize("path", sorted(RIGS.glob("*.toml")), ids=lambda path: path.stem)
def test_a_demo_rig_is_reckoned_alike(path):
    # the same, on rigs as people write them
    compared(path, path.stem)
