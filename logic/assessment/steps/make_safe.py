"""Steps that make the rig safe to lie under and to wire: in this order, none skipped, all lapse."""

from logic.assessment.steps.template import StepTemplate


def _make_safe(
    id: str, title: str, *, minutes: float, after: tuple[str, ...], caution: str, record: tuple[str, ...] = ()
) -> StepTemplate:
    return StepTemplate(
        id=id,
        group="make safe",
        per="rig",
        title=title,
        minutes=minutes,
        make_safe=True,
        skippable=False,
        after=after,
        caution=caution,
        record=record,
        source="practice-make-safe",
    )


TEMPLATES = (
    _make_safe("chocks", "level ground, wheels chocked", minutes=2, after=(), caution="crush"),
    _make_safe("stands", "rated stands under frame or axle", minutes=3, after=("chocks",), caution="crush"),
    _make_safe("tow-plug", "towing vehicle unplugged", minutes=1, after=(), caution="sources-off"),
    _make_safe("solar", "solar panels off", minutes=1, after=("tow-plug",), caution="sources-off"),
    _make_safe("shore-cord", "shore cord out", minutes=1, after=("solar",), caution="mains"),
    _make_safe(
        "generator",
        "generator and inverter off and locked",
        minutes=1,
        after=("shore-cord",),
        caution="sources-off",
    ),
    _make_safe(
        "alternator", "alternator charging isolated", minutes=1, after=("generator",), caution="sources-off"
    ),
    _make_safe(
        "battery-negative",
        "battery negative off",
        minutes=1,
        after=("alternator", "drain-flush"),
        caution="sources-off",
    ),
    _make_safe(
        "proven-dead",
        "power off, proven dead",
        minutes=2,
        after=("battery-negative",),
        caution="prove-dead",
        record=("known source before", "circuit", "known source after"),
    ),
    _make_safe(
        "gas-located",
        "LP gas valve shut, gas pipe found and marked",
        minutes=1,
        after=("stands",),
        caution="gas",
        record=("gas pipe",),
    ),
    _make_safe(
        "mains-located",
        "120 V cables found and marked",
        minutes=1,
        after=("stands", "shore-cord"),
        caution="mains",
        record=("120 V cable",),
    ),
)
