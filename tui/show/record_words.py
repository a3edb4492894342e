"""What each thing that a step asks to have written down may be, said under its field."""

ABOUT = {
    "known source before": "what the meter shows on a source that you know is live, as 12.6 V",
    "circuit": "what it shows on the circuit that you will touch: 0 V where it is dead",
    "known source after": "what it shows on the known source again: a meter that failed in between reads 0 V too",
    "gas pipe": "seen, and where it runs; or: not seen, which holds all drilling",
    "120 V cable": "seen, and where it runs; or: not seen, which holds all drilling",
    "held by": "what holds it up, and how many: straps, bolts, hangers",
    "floor falls to the outlet": "yes or no",
    "dry": "yes or no; no holds the bonding",
    "touches all the way": "yes or no: where it does not touch the wall, it overheats",
    "pressed": "yes or no",
    "rolled": "yes or no",
    "clamps": "how many",
    "closed": "yes or no: an open thermostat reads as a broken pad",
    "return lifted": "yes or no: with the return on, the meter reads through it",
    "before": "how the wall feels beside the pad: cold, cool, warm",
    "after 5 min": "how the wall feels beside the pad: cold, cool, warm",
    "after 10 min": "how the wall feels beside the pad: cold, cool, warm",
    "even": "yes or no: warm alike over the whole pad",
    "opened warm": "yes or no",
    "paper": "dry or wet",
}
