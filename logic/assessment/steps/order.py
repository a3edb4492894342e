"""All templates, in the order of the work, and the groups they fall into."""

from logic.assessment.steps import (
    bond,
    close,
    confirm,
    hand_over,
    make_safe,
    open_up,
    planning,
    prove,
    survey,
    wire,
)
from logic.assessment.steps.close import CLOSING
from logic.assessment.steps.template import StepTemplate

GROUPS = ("plan", "make safe", "open", "survey", "bond", "wire", "prove", "confirm", "close", "hand over")

TEMPLATES: tuple[StepTemplate, ...] = (
    *planning.TEMPLATES,
    *make_safe.TEMPLATES,
    *open_up.TEMPLATES,
    *survey.TEMPLATES,
    *bond.TEMPLATES,
    *wire.TEMPLATES,
    *prove.TEMPLATES,
    *confirm.TEMPLATES,
    *close.TEMPLATES,
    *hand_over.TEMPLATES,
)

BY_ID: dict[str, StepTemplate] = {template.id: template for template in TEMPLATES}

MAKE_SAFE: tuple[str, ...] = tuple(f"{template.id}:rig" for template in TEMPLATES if template.make_safe)


def comes_before_closing(template_id: str) -> bool:
    """Whether a step of this template must be done before the belly is closed.

    A dwell is left out: closing only notes what is left of it, in a finding of its own.
    """
    template = BY_ID[template_id]
    return template.group != "hand over" and template_id not in CLOSING and template.timer != "dwell"
