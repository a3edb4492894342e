"""A session's profile as it stands now, with the readings that are trusted, as files of its own.

What a person measured takes the place of what was planned; what is owed a second reading, or is in dispute,
stays as planned and is named, and so does what no profile may have beside the rest. A file that is there is never
written over.
"""

import os
from pathlib import Path
from typing import Any

import msgspec

from logic.assessment.readings import slot_views
from logic.data.faults import ProfileFaults
from logic.data.hourly_file import hourly_text
from logic.data.profile import Profile
from logic.data.profile_check import check_document
from logic.data.profile_edit import as_built, changed
from logic.data.profile_write import profile_text
from logic.data.state import Instant, SlotView
from logic.session.files import Files, place_new
from logic.session.kept_session import Session

AGREED, SINGLE = "agreed", "single"


class AsBuilt(msgspec.Struct, frozen=True):
    """A profile with what was measured in it."""

    document: dict[str, Any]
    left_planned: tuple[str, ...]  # slots that were read, and whose reading isn't trusted yet
    unfit: tuple[str, ...] = ()  # slots whose reading no profile may have beside the others


def as_built_of(session: Session, now: Instant) -> AsBuilt:
    """The session's document with its readings. Raises ProfileFaults where it is no profile without them either."""
    read = [view for view in slot_views(session.profile, session.state, now) if view.readings]
    values = {view.slot: view.value for view in read if is_trusted(view) and view.value is not None}
    unfit: list[str] = []
    while True:
        document = as_built(session.document, values, metric=session.profile.rig.units == "metric")
        try:
            check_document(document, file=session.id, hourly=session.profile.design.hourly)
        except ProfileFaults as wrong:
            at_fault = _slots_at_fault(wrong, values, session.profile)
            if not at_fault:
                raise
            unfit += at_fault
            values = {slot: value for slot, value in values.items() if slot not in at_fault}
        else:
            break
    left = tuple(view.slot for view in read if view.deciding and not is_trusted(view))
    return AsBuilt(document, left, tuple(unfit))


def _slots_at_fault(wrong: ProfileFaults, values: dict[str, float], profile: Profile) -> list[str]:
    """The slots read that faults of a profile name; of a bay that its tanks outgrow, their sizes."""
    paths = {fault.path for fault in wrong.faults}
    bays = {path.split(".")[1] for path in paths if path.startswith("bay.")}
    places = {f"tank.{tank.id}" for tank in profile.tanks if tank.place in bays}
    return [slot for slot in values if slot in paths or slot.rpartition(".")[0] in places]


def is_trusted(view: SlotView) -> bool:
    """Whether a slot's value may stand in a profile: agreed, or read once where once is enough."""
    if view.impossible:
        return False
    return view.state == AGREED or (view.state == SINGLE and not view.deciding)


def as_built_text(session: Session, built: AsBuilt, *, hourly_name: str = "") -> str:
    """The profile as TOML; `hourly_name` is what its file of temperatures is called from now on."""
    document = built.document
    if hourly_name and session.profile.design.hourly is not None:
        document = changed(document, "design.hourly", hourly_name)
    return profile_text(document, comment=f"as it stands in the session {session.id}")


def write_as_built(session: Session, built: AsBuilt, path: Path) -> tuple[Path, ...]:
    """Write the profile to `path`, and the session's hourly rows beside it. The files written.

    Raises FileExistsError where one of them is there already, OSError where it can't be written.
    """
    hourly = session.profile.design.hourly
    beside = path.with_suffix(".csv")
    texts = {path: as_built_text(session, built, hourly_name=beside.name)}
    if hourly is not None:
        texts[beside] = hourly_text(hourly)
    for file in texts:
        if os.path.lexists(file):
            raise FileExistsError(f"{file} is there already")
    for file, text in texts.items():
        place_new(Files(), file, text.encode())
    return tuple(texts)
