"""How a step of the work is declared: one template, made into one step for each place of its kind."""

import msgspec

# What a template is made for; a circuit is a fused run with all behind it.
PER = ("rig", "tank", "bay", "heater", "run", "circuit")

# How the minutes of a row of the trade's table, given for two tanks with a pad each, are shared out.
SCALES = (
    "rig",  # once for the rig
    "tank",  # half of them for each tank
    "heater",  # half of them for each heater, spread over the template's steps
    "each",  # as they stand, for each step
)


class StepTemplate(msgspec.Struct, frozen=True):
    id: str
    group: str
    per: str
    title: str  # `{name}` is the part's id
    minutes: float = 0.0
    scale: str = "rig"
    under: bool = False  # under the vehicle, or beside it
    on_wire: bool = False  # hands on conductors: wants them proven dead
    live: bool = False  # made on an energised circuit
    make_safe: bool = False  # lapses, and is done again
    meanwhile: bool = False  # can go on while adhesive cures
    skippable: bool = True
    when: str = ""  # which places of the kind it is made for (see `layout.py`)
    after: tuple[str, ...] = ()  # templates whose steps come first, as far as they belong to the same place
    readings: tuple[str, ...] = ()  # slots that must be fresh when it starts
    takes: tuple[str, ...] = ()  # slots that are read in it; `{place}` is its place
    held_while: tuple[str, ...] = ()  # gates (see `gates.py`)
    timer: str = ""  # dwell | alcohol | leak | chill | warm (see `timers.py`)
    record: tuple[str, ...] = ()
    caution: str = ""  # an id of `cautions.py`
    moment: str = ""  # which figures stand first while it is worked on (see `moments.py`)
    source: str = "practice-order-of-work"
