"""Steps of the plan: what is settled, bought and drained before power goes off."""

from logic.assessment.steps.template import StepTemplate

TEMPLATES = (
    StepTemplate(
        id="profile-complete",
        group="plan",
        per="rig",
        title="profile complete, assumptions read through",
        meanwhile=True,
        caution="code",
        moment="planning",
    ),
    StepTemplate(
        id="parts-bought",
        group="plan",
        per="rig",
        title="parts bought and counted",
        after=("profile-complete",),
        meanwhile=True,
        moment="planning",
    ),
    StepTemplate(
        id="drain-flush",
        group="plan",
        per="tank",
        title="drain and flush {name}",
        minutes=25,
        scale="tank",
        caution="waste",
        moment="planning",
        source="practice-minutes",
    ),
)
