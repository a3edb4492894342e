"""Heat of the pads themselves: what reaches the liquid, and how hot they stand."""

from tests.independent import drains
from tests.independent.heat import film, share, surroundings
from tests.independent.numbers import R_HEAD, R_LIQUID, STILL


def pad_figures(rig, circuit):
    """Share, wall, bare, dry and density of every heater."""
    figures: dict[str, float | None] = {}
    for pad in rig.heaters.values():
        area = pad.length * pad.width
        fed = pad.id in circuit.volts
        wrap = pad.face == "wrap"
        if wrap:
            drain = rig.drains[pad.on]
            eta, wall = drains.share(rig, drain), None
            through = (drain.outside - drain.inside) / 2 / drain.wall_conductivity
            over = drain.insulation / drain.conductivity
        else:
            tank = rig.tanks[pad.on]
            eta, through, over = share(rig, pad), tank.wall / tank.wall_conductivity, pad.insulation
            inward, outward = R_LIQUID + through, over + 1 / film(rig, tank.place)
            around = surroundings(rig, tank.place, rig.weather.steady_low)
            heat = circuit.watts[pad.id] / area
            wall = (heat + rig.design.hold / inward + around / outward) / (1 / inward + 1 / outward)
        hot = pad.watts * (rig.supply.charging / pad.volts) ** 2 / area
        head, back = through + R_HEAD, over + 1 / STILL
        own = {
            "share": eta,
            "density": pad.watts / area,
            "wall": wall if fed else None,
            "bare": rig.design.warm + hot / (2 * STILL) if fed else None,
            "dry": rig.design.warm + hot * head * back / (head + back) if fed else None,
        }
        figures |= {f"heater.{pad.id}.{name}": value for name, value in own.items()}
    return figures
