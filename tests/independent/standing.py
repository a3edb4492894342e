"""A rig as its readings leave it: what each slot is known to be, what contradicts, the measured rig."""

from types import SimpleNamespace

from tests.independent.measured import contradictions, decides, tape_slots, too_high, with_values
from tests.independent.readings import known


def standing(rig, taken):
    """known: slot → Known. impossible: slots. values: of the slots read that count. measured: the rig with them.

    taken : slot → the readings that stand there. What contradicts stays out, and then whatever contradicts what
    the profile says in its place.
    """
    slots = {
        slot: known(taken.get(slot, ()), planned, wall=slot.endswith(".wall"), decides=decides(rig, slot))
        for slot, planned in tape_slots(rig).items()
    }
    values = {slot: one.value for slot, one in slots.items() if slot in taken}
    impossible: set[str] = set()
    while True:
        measured = with_values(rig, values)
        more = {slot for one in contradictions(measured) for slot in one if slot in values}
        more = more or too_high(measured, values)  # a level is held against sizes that can be
        if not more:
            return SimpleNamespace(known=slots, impossible=impossible, values=values, measured=measured)
        impossible |= more
        values = {slot: value for slot, value in values.items() if slot not in more}
