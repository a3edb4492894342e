"""Steps of the hand-over: what the next person needs, made and given, and the alarms back on."""

from logic.assessment.steps.template import StepTemplate

TEMPLATES = (
    StepTemplate(
        id="power-back",
        group="hand over",
        per="rig",
        title="battery negative back, breakaway brake and gas alarm tried",
        after=("close",),
        caution="hydrogen",
        moment="a night, later",
        source="practice-make-safe",
    ),
    StepTemplate(
        id="sheet-made",
        group="hand over",
        per="rig",
        title="hand-over sheet made",
        after=("close",),
        moment="a night, later",
    ),
    StepTemplate(
        id="sheet-given",
        group="hand over",
        per="rig",
        title="hand-over sheet given",
        after=("sheet-made",),
        caution="lithium",
        moment="a night, later",
    ),
)
