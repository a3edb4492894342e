"""Steps that open the underside: what carries each tank, then the pan down or the creeper laid."""

from logic.assessment.steps.template import StepTemplate

TEMPLATES = (
    StepTemplate(
        id="supports",
        group="open",
        per="tank",
        title="see what holds {name} up",
        minutes=12,
        scale="tank",
        under=True,
        caution="tank-weight",
        moment="survey",
        source="practice-minutes",
        record=("held by",),
    ),
    StepTemplate(
        id="drop-pan",
        group="open",
        per="bay",
        title="prop and drop the pan of {name}",
        minutes=40,
        scale="each",
        under=True,
        after=("supports",),
        caution="tank-weight",
        moment="survey",
        source="practice-minutes",
    ),
    StepTemplate(
        id="look-round",
        group="open",
        per="rig",
        title="lay the creeper, look round",
        minutes=3,
        under=True,
        after=("supports", "drop-pan"),
        caution="crush",
        moment="survey",
        source="practice-minutes",
    ),
)
