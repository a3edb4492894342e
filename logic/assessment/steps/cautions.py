"""What can hurt, in a sentence or two: shown before work starts and beside the steps it belongs to."""

CAUTIONS: dict[str, str] = {
    "crush": "Chocks on both sides and rated stands before anyone goes under. A jack alone holds nobody.",
    "tank-weight": (
        "Each gallon weighs 8.3 lb. See what carries the tank before a pan, strap or rail comes off, "
        "and let nobody lie beneath a tank that fills with a support off."
    ),
    "sources-off": (
        "Solar panels go off before the battery, battery negative last. The breakaway brake and the gas "
        "alarm lose power with it: both are back before anyone tows or sleeps in the rig."
    ),
    "prove-dead": "Try the meter on a source you know, then on the circuit, then on that source again.",
    "drill": (
        "Find LP gas and 120 V from both sides before a bit turns; drill nothing blind. Use a stop collar."
    ),
    "gas": "Shut the valve at the cylinder. A smell of gas ends the day's work.",
    "mains": "120 V work belongs to a licensed electrician, and so does any doubt about it.",
    "waste": "Waste tanks are emptied first. Gloves, eye cover, and a wash before eating.",
    "solvent-vapour": "Solvent vapour burns: fresh air, no spark, no flame or torch under a vehicle.",
    "pad": "A pad is never stretched, folded, cut or laid over another. Its own sheet overrules all this.",
    "fresh-bond": "A wall that fills bulges under a fresh pad. Wait for the sheet's hours.",
    "never-tap": "Never tap the wires of brake, lamps, gas alarm or breakaway switch.",
    "fuse-last": "Nothing is energised without a fuse at its source, and that fuse goes in last.",
    "live": (
        "Live: one circuit, its fuse last in and first out. Hands off bare metal, "
        "and nobody beneath while it is switched."
    ),
    "dry-wall": "Never heat a dry or frozen-off wall, and switch off before the valve is opened.",
    "hydrogen": "A charging battery gives off hydrogen: no spark near it.",
    "isolation": "Unplug electronics first. A megohmmeter only where the pad's sheet allows it.",
    "foam": "No foam over a heater unless its own sheet allows that.",
    "lithium": "Lithium cells are not charged below freezing.",
    "closing": "What isn't checked before the belly is closed is not checked at all.",
    "code": (
        "Local code and the maker's sheet overrule every figure here. The program estimates; "
        "it certifies nothing."
    ),
}
