"""A slot by typed parts of its name before the value: `gray len 41 3/8`.

Parts are matched from the left of words, so that `g len` finds the gray tank's length; what stands for several
slots is never guessed, unless only one of them is owed a reading.
"""

import re
from collections.abc import Sequence
from typing import NamedTuple

from logic.data.profile import Profile
from logic.data.state import SlotView
from tui.show.names import place_name

OVER_RANGE = ("ol", "open", "over")
WORD = re.compile(r"[^\W\d_][\w.-]*", re.UNICODE)


class Named(NamedTuple):
    """What a typed text says: a slot's name (empty where there is none) and a value."""

    name: str
    value: str


def parted(typed: str) -> Named:
    """The words of a name before the first thing that belongs to a value."""
    words = typed.strip().split()
    count = 0
    while count < len(words) and WORD.fullmatch(words[count]) and words[count].lower() not in OVER_RANGE:
        count += 1
    # A number after a name may belong to it (keep-out 1 x): another name must follow it.
    while count and count + 1 < len(words) and words[count].isdigit() and WORD.fullmatch(words[count + 1]):
        if words[count + 1].lower() in UNIT_WORDS or words[count + 1].lower() in OVER_RANGE:
            break
        count += 2
    return Named(" ".join(words[:count]), " ".join(words[count:]))


UNIT_WORDS = ("in", "ft", "mm", "cm", "m", "v", "mv", "a", "ma", "ohm", "kohm", "mohm", "f", "c", "degf", "degc",
              "inch", "inches", "feet", "foot", "ω", "kω", "mω")  # fmt: skip


def name_words(view: SlotView, profile: Profile | None) -> list[str]:
    """Every word that a slot may be called by: its place's, its own, and the parts of both."""
    words = f"{place_name(view.place, profile)} {view.title} {view.slot.replace('.', ' ')}".lower().split()
    parts = [part for word in words for part in re.split(r"[-_.]", word)]
    return [*words, *parts]


def matching(name: str, views: Sequence[SlotView], profile: Profile | None = None) -> list[SlotView]:
    """The slots that a typed name may mean: one where it is clear, several where it isn't, none where nothing fits."""
    wanted = [part for part in name.lower().replace(",", " ").split() if part]
    if not wanted:
        return []
    found = [view for view in views if view.slot == name]
    if found:
        return found
    found = [
        view for view in views
        if all(any(word.startswith(part) for word in name_words(view, profile)) for part in wanted)
    ]  # fmt: skip
    if len(found) > 1:
        whole = [view for view in found if all(part in name_words(view, profile) for part in wanted)]
        found = whole if len(whole) == 1 else found
    if len(found) > 1:
        by_title = [view for view in found if view.title.lower().split()[0].startswith(wanted[-1])]
        found = by_title or found
    if len(found) > 1:
        owed = [view for view in found if view.owed]
        found = owed if len(owed) == 1 else found
    return found
