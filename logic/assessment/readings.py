"""What the readings of a session say: each slot's value and state, what is owed, and the order of asking.

Profile and State in, plain views out. How readings agree stands in `agreement.py`, what can't be true
together in `contradictions.py`, and the profile with its measured values in `measured.py`.
"""

from collections import OrderedDict
from functools import lru_cache

import msgspec

from logic.assessment.agreement import IN_DISPUTE, MOST_COUNTED, Agreed, agreement
from logic.assessment.contradictions import contradictions, level_above_tank
from logic.assessment.measured import with_readings
from logic.assessment.standing_readings import standing_readings
from logic.data.profile import Profile
from logic.data.reading_constants import (
    BOUNCE_SECONDS,
    FAR_LEAST,
    FAR_SHARE,
    REPEATABILITY,
    REPEATABILITY_WALL,
    SAME_WITHIN,
    TAPE_METRIC,
    TAPE_US,
)
from logic.data.slots import TAPE, Slot, slots_of
from logic.data.state import Instant, Reading, SlotView, State
from logic.data.tape_length import METRIC
from logic.physics.uncertainty import of_reading

__all__ = [
    "is_bounce",
    "is_far_from_plan",
    "slot_views",
    "uncertainty_of",
    "walking_order",
    "with_readings",
]

PLANNED, NOT_READ, READ = "planned", "not read", "read"
WANTED = 2
"""Readings that a deciding slot wants."""


def slot_views(profile: Profile, state: State | None, now: Instant | None = None) -> tuple[SlotView, ...]:
    """Every slot as it stands, in the order of the profile.

    profile : as it stands in the session, without readings.  state : None, no session: every slot is planned.
    Readings of slots that the profile no longer has are left out here; they stay in the state.
    """
    metric = profile.rig.units == "metric"
    standing = standing_readings(state) if state is not None else {}
    views = tuple(_view(slot, standing.get(slot.id, ()), metric=metric) for slot in slots_of(profile))
    return _with_contradictions(profile, views) if standing else views


_seen: OrderedDict[str, tuple[Slot, tuple[Reading, ...], bool, SlotView]] = OrderedDict()
_MOST_SEEN = 2048


def _view(slot: Slot, readings: tuple[Reading, ...], *, metric: bool) -> SlotView:
    """The slot's view: the very same one while its readings are.

    Kept by hand: readings are quick to compare where they are the same objects, and slow to hash.
    """
    seen = _seen.get(slot.id)
    if seen is not None and (seen[0] is slot or seen[0] == slot) and seen[1:3] == (readings, metric):
        return seen[3]
    view = _viewed(slot, readings, metric=metric)
    _seen[slot.id] = (slot, readings, metric, view)
    _seen.move_to_end(slot.id)
    if len(_seen) > _MOST_SEEN:
        _seen.popitem(last=False)
    return view


def _viewed(slot: Slot, readings: tuple[Reading, ...], *, metric: bool) -> SlotView:
    value, u, known = slot.planned, None, PLANNED if slot.planned is not None else NOT_READ
    owed = WANTED if slot.deciding else 0
    if readings and slot.family != TAPE:
        value, known = readings[-1].value, READ
    elif readings:
        agreed = _agreement(slot, readings)
        value, u, known = agreed.value, agreed.u, agreed.state
        if slot.deciding:
            owed = max(WANTED - len(readings), 1 if known == IN_DISPUTE else 0)
    return SlotView(
        slot=slot.id,
        place=slot.place,
        title=slot.title,
        kind=slot.kind,
        own_unit=slot.own_unit(metric=metric),
        value=value,
        state=known,
        u=u,
        planned=slot.planned,
        deciding=slot.deciding,
        owed=owed,
        readings=readings,
    )


def _agreement(slot: Slot, readings: tuple[Reading, ...]) -> Agreed:
    newest = readings[-MOST_COUNTED:]
    return agreement(
        tuple(reading.value for reading in newest),
        tuple(uncertainty_of(reading, wall=slot.wall) for reading in newest),
    )


def uncertainty_of(reading: Reading, *, wall: bool = False) -> float:
    """Standard uncertainty of one reading by tape: rounding and the reader's repeatability. [m]

    wall : read by a gauge or at a cut edge, which repeats better.
    """
    resolution = reading.resolution
    if resolution is None:
        resolution = float(TAPE_METRIC if reading.unit in METRIC else TAPE_US)
    return _of_reading(resolution, REPEATABILITY_WALL if wall else REPEATABILITY)


@lru_cache(maxsize=256)
def _of_reading(resolution: float, repeatability: float) -> float:
    return of_reading(resolution, repeatability=repeatability)


def _with_contradictions(profile: Profile, views: tuple[SlotView, ...]) -> tuple[SlotView, ...]:
    """Marks the readings that contradict another value, until those that are left can all be true.

    The profile by itself has no contradiction, so that this ends at the latest with every reading marked.
    """
    read = {view.slot for view in views if view.readings and view.u is not None}
    why: dict[str, str] = {}
    while True:
        measured = with_readings(profile, views)
        found = {
            slot: contradiction.text
            for contradiction in contradictions(measured)
            for slot in contradiction.slots
            if slot in read and slot not in why
        }
        if not found:
            break
        why |= found
        views = tuple(
            msgspec.structs.replace(view, impossible=why[view.slot]) if view.slot in found else view
            for view in views
        )
    tanks = {f"tank.{tank.id}": tank for tank in measured.tanks}
    return tuple(
        msgspec.structs.replace(view, impossible="deeper than the tank is inside")
        if view.slot.endswith(".level")
        and view.readings
        and view.value is not None
        and level_above_tank(tanks[view.place], view.value)
        else view
        for view in views
    )


def is_far_from_plan(value: float, planned: float | None, *, kind: str = "length") -> bool:
    """Whether a value is off its plan by more than 10 % and by more than 1 in, or has the other sign.

    planned : None: there is no plan.  kind : of the slot; for what isn't a length only the sign counts.
    Source `practice-far-from-plan`.
    """
    if planned is None:
        return False
    if value * planned < 0:
        return True
    if kind not in ("length", "route"):
        return False
    off = abs(value - planned)
    return off > FAR_SHARE * abs(planned) + SAME_WITHIN and off > FAR_LEAST + SAME_WITHIN


def is_bounce(view: SlotView, value: float, *, now: Instant) -> bool:
    """Whether a value just typed is a bounced key: the slot's newest reading again, within 20 s."""
    if not view.readings:
        return False
    newest = view.readings[-1]
    return abs(newest.value - value) <= SAME_WITHIN and 0.0 <= now.at - newest.when.at < BOUNCE_SECONDS


def walking_order(views: tuple[SlotView, ...], state: State | None = None) -> tuple[str, ...]:
    """Slots still wanted, next first: disputes, the newest first; then the first pass; then the second.

    As many entries as readings are owed (and one for a dispute that owes none): a slot without a reading
    stands in both passes. Each pass goes by place in the profile's order.
    """
    disputed = sorted(
        (view for view in views if view.state == IN_DISPUTE),
        key=lambda view: view.readings[-1].id,
        reverse=True,
    )
    if state is not None and len(disputed) > 1:
        taken = {reading.id: place for place, reading in enumerate(state.readings)}
        disputed.sort(key=lambda view: taken.get(view.readings[-1].id, -1), reverse=True)
    owing = [view for view in views if view.owed and view.state != IN_DISPUTE]
    first = [view for view in owing if view.owed >= WANTED]
    return tuple(view.slot for view in (*disputed, *first, *owing))
