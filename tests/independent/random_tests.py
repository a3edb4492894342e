"""What a meter shows on a circuit by chance: about what it should, off, with a bad joint here and there.

Deeds as in `random_readings.py`: `energise` a circuit, read the supply, the circuit, its pads and the drops to them,
`fuse_out`; a `night` between two.
"""

from tests.independent.circuit import seen, solved
from tests.independent.proving import Proving

ABOUT = (0.85, 0.902, 0.91, 0.97, 1, 1, 1, 1, 1.03, 1.09, 1.11, 1.3)
BAD = (0, 0, 0, 0.005, 0.019, 0.023, 0.04, 0.2)  # in series with a pad [Ω]


def loaded_deeds(dice, rig):
    """Circuits one after the other, some never energised, some without the supply's volts, some twice."""
    proving = Proving(rig, solved(rig), {}, {})
    circuits = [run for run in proving.fused if dice.maybe(0.8)]
    dice.shuffle(circuits)
    deeds = []
    for run in [*circuits, *(one for one in circuits if dice.maybe(0.1))]:
        if dice.maybe(0.15):
            deeds.append(("night",))
            if dice.maybe(0.5):
                deeds.append(ohms_read(dice, "meter.leads", dice.uniform(0, 0.4)))
        if dice.maybe(0.5):
            at_holder = seen(rig, run, proving.circuit.gauges) * dice.choice(ABOUT)
            deeds.append(ohms_read(dice, f"run.{run.id}.resistance", at_holder))
        if dice.maybe(0.8):
            deeds.append(("energise", run.id))
        deeds += circuit_deeds(dice, rig, proving, run)
        if deeds and ("energise", run.id) in deeds and dice.maybe(0.6):
            deeds.append(("fuse_out", run.id))
    for heater_id in rig.heaters:
        if dice.maybe(0.03):  # whether or not a circuit is there to test it
            deeds.append(read(dice, f"heater.{heater_id}.volts", rig.supply.volts, "V"))
    return deeds


def circuit_deeds(dice, rig, proving, run):
    volts = rig.supply.volts + dice.uniform(-0.5, 0.5)
    deeds = [read(dice, "supply.volts", volts, "V")] if dice.maybe(0.8) else []
    network = proving.alone(run.id, volts)
    if dice.maybe(0.8):
        amps = proving.amps(run) * volts / rig.supply.volts * dice.choice(ABOUT)
        deeds.append(read(dice, f"run.{run.id}.current", amps, "A"))
    for heater, by in proving.behind(run.id):
        name = f"heater.{heater.id}"
        at_pad = float(network.across(heater.id, by)[0])
        lost = (
            at_pad / heater.volts**2 * heater.watts * (dice.choice(BAD) + proving.allowed(heater.id, by, run))
        )
        if dice.maybe(0.4):
            deeds.append(ohms_read(dice, f"{name}.resistance", heater.volts**2 / heater.watts))
        if dice.maybe(0.8):
            deeds.append(read(dice, f"{name}.volts", max(at_pad - lost, 0.1), "V"))
        if dice.maybe(0.5):
            out = (volts - at_pad) * dice.uniform(0.2, 0.8)
            deeds.append(read(dice, f"{name}.drop_out", out + lost, "mV"))
            if dice.maybe(0.9):
                deeds.append(read(dice, f"{name}.drop_back", volts - at_pad - out, "mV"))
    if dice.maybe(0.3):
        dice.shuffle(deeds)
    return deeds


def read(dice, slot, value, own):
    """A deed: in volts or amps, or thousandths of them, with its unit or in the slot's own without. [V, A]"""
    small = own == "mV" or dice.maybe(0.1)
    if own == "mV" and dice.maybe(0.2):
        small = False
    base = own[-1]
    places = dice.choice([0, 1] if small else [2, 3])
    shown = f"{value * 1000 if small else value:.{places}f}"
    unit = f"m{base}" if small else base
    scale = 1e-3 if small else 1.0
    bare = unit == own and dice.maybe(0.4)
    typed = shown if bare else shown + dice.choice([" ", ""]) + unit
    return ("meter", slot, typed, float(shown) * scale, 10.0**-places * scale)


def ohms_read(dice, slot, ohms):
    places = dice.choice([2, 3])
    shown = f"{ohms:.{places}f}"
    unit = dice.choice(["", " Ω", " ohm", "Ω"])
    return ("meter", slot, shown + unit, float(shown), 10.0**-places)
