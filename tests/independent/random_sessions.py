"""A random rig with random readings recorded: a seed gives both, and what differs."""

from typing import Any, NamedTuple

from tests.independent import proving_compare
from tests.independent.dice import Dice
from tests.independent.random_readings import random_deeds
from tests.independent.random_rigs import random_rig, written
from tests.independent.readings_compare import differences
from tests.independent.recorded import Account
from tests.independent.rig import Rig


class Recorded(NamedTuple):
    """Readings as they were done, and what the program made of them."""

    rig: Rig
    account: Account
    views: dict[str, Any]  # its slots
    answer: dict[str, Any]  # of `check --session --json`
    tests: Any  # (proof, findings), fuses put in and taken out

    @property
    def differences(self):
        return [
            *differences(self.rig, self.account, self.views, self.answer),
            *proving_compare.differences(self.rig, self.account, *self.tests),
        ]


def recorded(seed, folder):
    """A seed's rig and readings; the files go to the folder."""
    path = written(seed, folder)
    rig, dice = Rig.of_file(path), Dice(seed)
    dice.metric = random_rig(seed)[0]["rig"]["units"] == "metric"
    account = Account(path, folder / "sessions", rig, dice)
    for deed in random_deeds(dice, rig):
        account.do(deed)
    return Recorded(rig, account, *account.answered())
