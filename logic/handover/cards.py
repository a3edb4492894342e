"""What is cut out of the sheet and kept where it is needed: the switch's label and the card of the fuses."""

from logic.data.profile import Run
from logic.data.quantities import NOTHING
from logic.handover.blocks import Block, Card, Section, Table
from logic.handover.limits import least_back_in
from logic.handover.shown import Shown

UNFUSED = "NONE"


def cards(shown: Shown) -> Section | None:
    """Both cards; None where nothing is heated and nothing is fused."""
    blocks: list[Block] = [card for card in (_label(shown), _fuses(shown)) if card is not None]
    return Section("Cards to cut out", tuple(blocks)) if blocks else None


def _label(shown: Shown) -> Card | None:
    profile = shown.assessment.profile
    if not profile.heaters:
        return None
    back_in = [f"{tank}: on again only with {least}, back in." for tank, least in least_back_in(shown)]
    lines = ("Off before you open the valve.", *back_in)
    return Card(f"Label at the switch, {profile.rig.name}", lines)


def _fuses(shown: Shown) -> Card | None:
    profile = shown.assessment.profile
    rows = []
    for run in profile.runs:
        fuse = shown.value(f"run.{run.id}.fuse")
        if fuse == NOTHING and run.from_ != "supply":
            continue
        rows.append(
            (
                run.id,
                UNFUSED if fuse == NOTHING else fuse,
                shown.value(f"run.{run.id}.gauge"),
                shown.value(f"run.{run.id}.current"),
                ", ".join(_served(profile.runs, run)) or "nothing",
            )
        )
    if not rows:
        return None
    table = Table(("circuit", "fuse", "wire", "draws at most", "feeds"), tuple(rows), numbers=(1, 2, 3))
    foot = "The number rules, the colour only helps. A fuse that blows twice has found a fault: look for it."
    return Card(f"Fuse card, {profile.rig.name}", table=table, foot=foot)


def _served(runs: tuple[Run, ...], run: Run) -> list[str]:
    """The heaters behind a run, with those behind later fuses."""
    names = list(run.feeds)
    for child in runs:
        if child.from_ == run.id:
            names += _served(runs, child)
    return names
