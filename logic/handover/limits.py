"""The limits of use: what the next person must know before anything else on the sheet."""

from logic.data.quantities import NOTHING
from logic.handover.blocks import Block, Bullets, Paragraph, Section, Table
from logic.handover.shown import Shown

WHEN_HEAT_STOPS = (
    "Empty the tanks while they still flow.",
    "Heaters off before a tank is emptied, and before its valve is opened.",
    "RV antifreeze into the empty tank, its traps and its drain leg.",
    "Never force a frozen valve, and no flame on it.",
    "Below freezing, drain and stow the dump hose and the hose to city water.",
)


def limits_of_use(shown: Shown) -> Section:
    """What each tank may bear, and what to do when heat stops."""
    profile = shown.assessment.profile
    blocks: list[Block] = [Paragraph("Heaters off before any valve is opened.", strong=True)]
    for tank in profile.tanks:
        least = shown.value(f"tank.{tank.id}.least")
        level = shown.value(f"tank.{tank.id}.least_level")
        if least != NOTHING:
            blocks.append(
                Paragraph(f"{tank.id}: on again only with {least}, {level} deep, back in.", strong=True)
            )
    rows = tuple(
        (
            tank.id,
            shown.value(f"tank.{tank.id}.least"),
            shown.value(f"tank.{tank.id}.least_level"),
            shown.with_band(f"tank.{tank.id}.holds_to"),
            shown.with_band(f"tank.{tank.id}.holds_to_towing"),
            shown.with_band(f"tank.{tank.id}.hours_to_ice"),
            shown.with_band(f"tank.{tank.id}.hours_to_ice_least"),
        )
        for tank in profile.tanks
    )
    heads = (
        "tank",
        "least liquid",
        "its depth",
        "holds to, parked",
        "holds to, on the road",
        "ice without power after",
        "the same at least liquid",
    )
    blocks.append(Table(heads, rows, numbers=(1, 2, 3, 4, 5, 6)))
    if profile.drains:
        legs = tuple(
            (
                drain.id,
                drain.tank,
                shown.with_band(f"drain.{drain.id}.holds_to"),
                shown.with_band(f"drain.{drain.id}.hours_to_ice"),
            )
            for drain in profile.drains
        )
        blocks.append(
            Table(("drain", "of tank", "holds to", "ice without power after"), legs, numbers=(2, 3))
        )
    hold, low = (
        shown.quantity(d, "temperature") for d in (profile.design.hold_degc, profile.design.low_degc)
    )
    blocks.append(
        Paragraph(
            "Temperatures are those outside. A number before a band is the model's; plan on the worse edge. "
            f"Hours without power are counted from {hold} with {low} outside all the time."
        )
    )
    night, nights = shown.with_band("supply.night"), shown.with_band("supply.nights")
    blocks.append(
        Paragraph(f"The worst night takes {night} from the battery, which lasts {nights} such nights.")
    )
    blocks.append(Paragraph("When heat stops:", strong=True))
    blocks.append(Bullets(WHEN_HEAT_STOPS, ordered=True))
    return Section("Limits of use", tuple(blocks))
