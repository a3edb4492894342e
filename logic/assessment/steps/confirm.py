"""What is confirmed under the vehicle before it is closed. Its minutes stand in those of the punch list."""

from logic.assessment.steps.template import StepTemplate


def _confirm(
    id: str, title: str, *, per: str = "rig", when: str = "", after: tuple[str, ...] = (), caution: str = ""
) -> StepTemplate:
    return StepTemplate(
        id=id,
        group="confirm",
        per=per,
        when=when,
        title=title,
        under=True,
        caution=caution,
        after=after,
        moment="closing",
        source="practice-confirm",
    )


TEMPLATES = (
    _confirm("confirm-clamps", "clamps within 18 in, and 6 in of each end", after=("clamp",)),
    _confirm("confirm-entries", "entries tight, edges lined", after=("drill", "pull")),
    _confirm("confirm-clear", "clear of exhaust, springs, tyres, axle, spray", after=("clamp",)),
    _confirm("confirm-splices", "splices sealed", after=("splice",)),
    _confirm("confirm-drip-loops", "drip loops below entries and switches", after=("clamp",)),
    _confirm(
        "confirm-supports", "supports of {name} back, torqued as found", per="tank", after=("supports",)
    ),
    _confirm("confirm-valve", "valve of {name} works full stroke", per="tank", when="drained"),
    _confirm(
        "confirm-loose", "nothing loose can sag or press on a pad's back", after=("clamp",), caution="foam"
    ),
    _confirm(
        "confirm-shunt",
        "own return on the load side of the battery monitor's shunt, if any",
        after=("returns",),
    ),
    _confirm("confirm-spare-mains", "spare 120 V leads capped, if any", after=("splice",)),
)
