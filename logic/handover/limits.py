"""The limits of use: what the next person must know before anything else on the sheet."""

from logic.data.profile import Bay
from logic.data.quantities import NOTHING
from logic.handover.blocks import Block, Bullets, Paragraph, Section, Table, without_empty_columns
from logic.handover.shown import Shown

WHEN_HEAT_STOPS = (
    "Empty the tanks while they still flow.",
    "Heaters off before a tank is emptied, and before its valve is opened.",
    "RV antifreeze into the empty tank, its traps and its drain leg.",
    "Never force a frozen valve, and no flame on it.",
    "Below freezing, drain and stow the dump hose and the hose to city water.",
)
ON_THE_ROAD = "On the road heaters seldom hold: leave tanks empty, or with RV antifreeze in them."

_TANK_ROWS = (
    ("least", "least liquid"),
    ("least_level", "its depth"),
    ("holds_to", "holds to, parked"),
    ("holds_to_towing", "holds to, on the road"),
    ("hours_to_ice", "ice, power off"),
    ("hours_to_ice_least", "ice, at least liquid"),
)
_DRAIN_ROWS = (("holds_to", "holds to"), ("hours_to_ice", "ice, power off"))


def limits_of_use(shown: Shown) -> Section:
    """What each tank may bear, and what to do when heat stops."""
    profile = shown.assessment.profile
    blocks: list[Block] = [Paragraph("Heaters off before any valve is opened.", strong=True)]
    back_in = [f"{tank} {least}" for tank, least in least_back_in(shown)]
    if back_in:
        said = f"On again only with the least liquid back in: {'; '.join(back_in)}."
        blocks.append(Paragraph(said, strong=True))
    if profile.tanks:
        blocks.append(_table(shown, "tank", [tank.id for tank in profile.tanks], _TANK_ROWS))
    if profile.drains:
        blocks.append(_table(shown, "drain", [drain.id for drain in profile.drains], _DRAIN_ROWS))
    missing = _missing(shown)
    if missing:
        blocks.append(Bullets(missing))
    hold, low = (
        shown.quantity(d, "temperature") for d in (profile.design.hold_degc, profile.design.low_degc)
    )
    blocks.append(
        Paragraph(
            "Temperatures are those outside. In brackets, what it may be with losses a quarter less or more: "
            f"plan on the worse. Hours without power are counted from {hold} with {low} outside all the time. "
            + ON_THE_ROAD
        )
    )
    blocks += [Paragraph(_bay(shown, bay)) for bay in profile.bays if bay.water or bay.heat]
    if shown.value("supply.night") != NOTHING:
        night, nights = shown.with_band("supply.night"), shown.with_band("supply.nights")
        lasts = f", which lasts {nights} such nights" if nights != NOTHING else ""
        blocks.append(Paragraph(f"The worst night takes {night} from the battery{lasts}."))
    blocks.append(Paragraph("When heat stops:", strong=True))
    blocks.append(Bullets(WHEN_HEAT_STOPS, ordered=True))
    return Section("Limits of use", tuple(blocks))


def least_back_in(shown: Shown) -> list[tuple[str, str]]:
    """A tank and `3.4 gal, 1 in deep`, for each tank whose heaters want liquid over them."""
    told = []
    for tank in shown.assessment.profile.tanks:
        least, level = (shown.value(f"tank.{tank.id}.{row}") for row in ("least", "least_level"))
        if least != NOTHING:
            told.append((tank.id, f"{least}, {level} deep"))
    return told


def _table(shown: Shown, kind: str, ids: list[str], wanted: tuple[tuple[str, str], ...]) -> Table:
    rows = tuple((id, *(shown.with_band(f"{kind}.{id}.{row}") for row, _ in wanted)) for id in ids)
    heads = (kind, *(head for _, head in wanted))
    return without_empty_columns(Table(heads, rows, numbers=tuple(range(1, len(heads)))))


def _missing(shown: Shown) -> tuple[str, ...]:
    """Why a limit has no number; what holds for several parts alike is said once."""
    parts_of: dict[tuple[str, str], list[str]] = {}
    profile = shown.assessment.profile
    for kind, parts, wanted in (
        ("tank", profile.tanks, _TANK_ROWS),
        ("drain", profile.drains, _DRAIN_ROWS),
    ):
        for part in parts:
            for row, head in wanted:
                why = shown.why_not(f"{kind}.{part.id}.{row}")
                if why:
                    parts_of.setdefault((head, why), []).append(part.id)
    heads_of: dict[tuple[str, str], list[str]] = {}
    for (head, why), ids in parts_of.items():
        heads_of.setdefault((", ".join(ids), why), []).append(head)
    return tuple(f"{ids}, {'; '.join(heads)}: {why}." for (ids, why), heads in heads_of.items())


def _bay(shown: Shown, bay: Bay) -> str:
    low, unheated = (shown.value(f"bay.{bay.id}.{row}") for row in ("low", "low_unheated"))
    without = f", without the heat put in to {unheated}" if bay.heat else ""
    return f"The air in the bay {bay.id} falls to {low} at the design low{without}."
