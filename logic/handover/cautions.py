"""What the sheet warns of, what is looked at every year, and what the model does not know."""

from logic.assessment.model_limits import MODEL_LIMITS
from logic.assessment.steps.cautions import CAUTIONS
from logic.handover.blocks import Bullets, Paragraph, Section

YEARLY = (
    "Pads and wires looked over wherever they show: anything cracked, charred or bare is replaced at once.",
    "Each circuit alone: current at its fuse beside the figure in the test record, volts at the pad.",
    "Each thermostat seen to switch: ice in a bag on its sensor, then a warm hand.",
    "Isolation of each circuit to the chassis, electronics unplugged.",
    "Clamps, grommets, drip loops and the sealant of entries; drains of the sleeves open.",
    "Fuse holders and switches: no discolouring, no warmth under load after ten minutes.",
    "The label at the switch can be read, and this sheet lies beside it.",
)


def cautions() -> Section:
    """Every caution that the program shows beside a step, once more."""
    return Section("Cautions", (Bullets(tuple(CAUTIONS.values()), small=True),))


def yearly_checks() -> Section:
    return Section("Every year, before the frost", (Bullets(YEARLY, boxes=True),))


def not_known() -> Section:
    return Section(
        "What the figures do not know",
        (
            Paragraph(
                "The program estimates. It certifies nothing; local code and the makers' sheets come first."
            ),
            Bullets(MODEL_LIMITS),
        ),
    )
