"""A slot by typed parts of its name before the value: `gray len 41 3/8`.

Parts are matched from the left of words, so that `g len` finds the gray tank's length; what stands for several
slots is never guessed, unless only one of them is owed a reading.
"""

import re
from collections.abc import Callable, Sequence
from typing import NamedTuple

from logic.data.profile import Profile
from logic.data.state import SlotView
from tui.show.names import place_name

OVER_RANGE = ("ol", "open", "over")


class Named(NamedTuple):
    """What a typed text says: a slot's name (empty where there is none) and a value."""

    name: str
    value: str


def parted(typed: str) -> Named:
    """The words of a name before the first thing that belongs to a value."""
    words = typed.strip().split()
    count = 0
    while count < len(words) and is_name(words[count]):
        count += 1
    # A number after a name may belong to it (keepout 1 x): another name must follow it.
    while count and count + 1 < len(words) and words[count].isdigit() and is_name(words[count + 1]):
        if words[count + 1].lower() in UNIT_WORDS:
            break
        count += 2
    return Named(" ".join(words[:count]), " ".join(words[count:]))


def is_name(word: str) -> bool:
    """Whether a word can be part of a slot's name: it begins with a letter, and says no reading."""
    return word[:1].isalpha() and word.lower() not in OVER_RANGE


UNIT_WORDS = (
    "in", "ft", "mm", "cm", "m", "v", "mv", "a", "ma", "ohm", "kohm", "mohm", "f", "c", "degf", "degc",
    "inch", "inches", "feet", "foot", "ω", "kω", "mω",
)  # fmt: skip

WHOLE, PART, BEGINNING, NOTHING = 3, 2, 1, 0


def fit(part: str, words: Sequence[str]) -> int:
    """How well a typed part fits one of some words: the whole of it, a part between hyphens, the beginning of one."""
    if part in words:
        return WHOLE
    parts = [each for word in words for each in re.split(r"[-_]", word)]
    if part in parts:
        return PART
    return BEGINNING if any(word.startswith(part) for word in (*words, *parts)) else NOTHING


def matching(name: str, views: Sequence[SlotView], profile: Profile | None = None) -> list[SlotView]:
    """The slots that a typed name may mean: one where it is clear, several where it isn't, none where nothing fits.

    What fits whole words goes before what fits parts of them, a slot's id before its title; of what is left, one
    whose every word was typed, then one that is owed a reading before those that aren't, then one that has no word
    within its place that wasn't typed: a tank's own length, before that of its bottom or of a keep-out on it.
    """
    global _asked
    if _asked is None or _asked.name != name or _asked.views is not views or _asked.profile is not profile:
        _asked = Asked(name, views, profile, _matching(name, views, profile))
    return list(_asked.found)


class Asked(NamedTuple):
    """What was asked last: with every digit behind a name, the name is asked for again."""

    name: str
    views: Sequence[SlotView]
    profile: Profile | None
    found: list[SlotView]


_asked: Asked | None = None


def _matching(name: str, views: Sequence[SlotView], profile: Profile | None) -> list[SlotView]:
    wanted = [part for part in name.lower().replace(",", " ").split() if part]
    if not wanted:
        return []
    whole = [view for view in views if view.slot == name]
    if whole:
        return whole
    found = best(wanted, views, lambda view: words_of_id(view, profile))
    found = found or best(
        wanted, views, lambda view: [*words_of_id(view, profile), *view.title.lower().split()]
    )
    for clear in (
        [view for view in found if set(words_of_id(view, profile)) <= set(wanted)],
        [view for view in found if view.owed],
        [
            view
            for view in found
            if all(any(fit(part, (word,)) for part in wanted) for word in own_words(view))
        ],
    ):
        if len(clear) == 1:
            return clear
    return found


def words_of_id(view: SlotView, profile: Profile | None) -> list[str]:
    """The words of a slot's id, and of what its place is called."""
    return [*view.slot.lower().split("."), *place_name(view.place, profile).lower().split()]


def own_words(view: SlotView) -> list[str]:
    """The words of a slot's id within its place: `keepout`, `1` and `width` of a keep-out on a tank."""
    return re.split(r"[._]", view.slot.removeprefix(f"{view.place}.").lower())


def best(
    wanted: Sequence[str], views: Sequence[SlotView], words: Callable[[SlotView], Sequence[str]]
) -> list[SlotView]:
    """The slots that all wanted parts fit, those that they fit best."""
    scores = {}
    for view in views:
        fits = [fit(part, words(view)) for part in wanted]
        if min(fits) > NOTHING:
            scores[view.slot] = sum(fits)
    most = max(scores.values(), default=0)
    return [view for view in views if scores.get(view.slot) == most and most > 0]
