"""What the parts of a rig and their slots are called, on the screen and on the sheet; a path says the same in ids."""

from logic.data.profile import Profile

KIND_WORDS = {"tank": "tank", "drain": "drain", "run": "run", "bay": "bay", "bundle": "sleeve"}
ALONE = {
    "rig": "rig",
    "design": "what it must stand",
    "supply": "supply",
    "wiring": "wiring",
    "parts": "parts",
    "meter": "meter",
    "work": "the day's weather",
}


def place_of_slot(slot: str) -> str:
    """`tank.galley.outlet.x` → `tank.galley`; `supply.volts` → `supply`."""
    kind, _, rest = slot.partition(".")
    return kind if kind in ALONE else f"{kind}.{rest.partition('.')[0]}"


def place_name(place: str, profile: Profile | None = None) -> str:
    """`tank.galley` → `galley tank`; a heater is called what it is: pad or wrap. The id stays whole."""
    if place in ALONE:
        return ALONE[place]
    kind, _, name = place.partition(".")
    if not name:
        return place
    if kind == "heater":
        return f"{heater_word(name, profile)} {name}"
    if kind == "run":
        return f"run {name}"
    word = KIND_WORDS.get(kind)
    if word is None:
        return place
    return name if name.endswith(word) else f"{name} {word}"


def heater_word(name: str, profile: Profile | None) -> str:
    """`wrap` for one round a drain, else `pad`."""
    for heater in profile.heaters if profile is not None else ():
        if heater.id == name:
            return "wrap" if heater.face == "wrap" else "pad"
    return "pad"


def name_of(place: str, profile: Profile | None = None) -> str:
    """What a finding is about, in words: a place, a slot of one (`gray tank, outlet x`), or a step."""
    if ":" in place:
        template, _, of = place.partition(":")
        return f"{template.replace('-', ' ')}, {place_name(of, profile)}"
    home = place_of_slot(place)
    if home == place:
        return place_name(place, profile)
    slot = place.removeprefix(f"{home}.").replace(".", " ").replace("_", " ").replace("keepout", "keep-out")
    return f"{place_name(home, profile)}, {slot}"
