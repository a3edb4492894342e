"""How a gate is declared: one function for each thing that holds a step back beside the steps before it.

A gate is named by the id that templates give; it returns what is wrong and what would release it.
"""

from collections.abc import Callable

from logic.assessment.steps.layout import PlannedStep
from logic.assessment.work_facts import WorkFacts
from logic.data.place_names import place_name
from logic.data.step import Block
from logic.data.wording import Words

Gate = Callable[[WorkFacts, PlannedStep], Block | None]
GATES: dict[str, Gate] = {}

# A person may overrule these with a reason and a name; no other.
OVERRULABLE = frozenset({"surface", "dew", "dry", "dwell"})
MARGIN_ARITHMETIC = 1e-6  # K, m: a limit that is met exactly is met


def gate(id: str) -> Callable[[Gate], Gate]:
    def declare(function: Gate) -> Gate:
        GATES[id] = function
        return function

    return declare


def block(id: str, *, text: Words, release: Words, due: float | None = None) -> Block:
    return Block(id=id, text=text, release=release, overrulable=id in OVERRULABLE, due=due)


def name_of(step: PlannedStep) -> str:
    return step.place.partition(".")[2]


def called(facts: WorkFacts, place: str) -> str:
    """What a place is called in what a gate says."""
    return place_name(place, facts.case.profile)
