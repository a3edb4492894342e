"""Where bottom pads lie: clearances as the format counts them, and a search line by line.

A pad's corner is sought on many lines of constant x. On a line, what each obstacle takes away is an interval of y,
so the best y is exact; between lines the best x is closed in on by finer and finer lines.
"""

import math
from types import SimpleNamespace

INCH = 0.0254
EDGE, APART = INCH, INCH / 2
TIE = 1e-7
LINES = 600


def bottom_pads(rig, tank):
    """In the order in which they get their places: those with `at` first."""
    pads = rig.on(tank.id, "bottom")
    return [pad for pad in pads if pad.at] + [pad for pad in pads if not pad.at]


def rectangle_gap(one, other):
    """Straight-line distance of two rectangles (x, y, along, across), or less than 0: the least shift. [m]"""
    beside = max(other[0] - one[0] - one[2], one[0] - other[0] - other[2])
    above = max(other[1] - one[1] - one[3], one[1] - other[1] - other[3])
    if beside < 0 and above < 0:
        return max(beside, above)
    return math.hypot(max(beside, 0.0), max(above, 0.0))


def to_outlet(spot, outlet):
    """Edge to edge; less than 0 over it. [m]"""
    x, y, along, across = spot
    beside, above = (
        max(x - outlet.x, 0.0, outlet.x - x - along),
        max(y - outlet.y, 0.0, outlet.y - y - across),
    )
    return math.hypot(beside, above) - outlet.diameter / 2


def obstacles(tank, others):
    return [(one.x, one.y, one.length, one.width) for one in tank.keepout] + list(others)


def overhang(tank, spot, margin=0.0):
    """Least distance to an edge of the bottom less a margin; negative over it. [m]"""
    x, y, along, across = spot
    return min(x, y, tank.bottom_length - x - along, tank.bottom_width - y - across) - margin


def clearance(tank, spot, others):
    gaps = [overhang(tank, spot), *(rectangle_gap(spot, one) for one in obstacles(tank, others))]
    if tank.outlet:
        gaps.append(to_outlet(spot, tank.outlet))
    return min(gaps)


def off_by(tank, spot, others):
    """How far a spot is from keeping every distance that a free place keeps; 0 or more: it keeps them. [m]"""
    gaps = [
        overhang(tank, spot, EDGE),
        *(rectangle_gap(spot, one) - APART for one in obstacles(tank, others)),
    ]
    if tank.outlet:
        gaps.append(to_outlet(spot, tank.outlet) - APART)
    return min(gaps)


def distance(tank, spot):
    """What a free place keeps small: edge to edge of the outlet, or middle to middle. [m]"""
    if tank.outlet:
        return to_outlet(spot, tank.outlet)
    x, y, along, across = spot
    return math.hypot(x + along / 2 - tank.bottom_length / 2, y + across / 2 - tank.bottom_width / 2)


class Line:
    """The free y at one x, for one way round."""

    def __init__(self, tank, size, x, others):
        self.tank, self.size, self.x = tank, size, x
        along, across = size
        taken = [between for one in obstacles(tank, others) if (between := shadow(one, x, along, across))]
        if tank.outlet:
            beside = max(x - tank.outlet.x, 0.0, tank.outlet.x - x - along)
            reach = tank.outlet.diameter / 2 + APART
            if beside < reach - 1e-12:
                half = math.sqrt(reach**2 - beside**2)
                taken.append((tank.outlet.y - half - across, tank.outlet.y + half))
        self.free = without(EDGE, tank.bottom_width - EDGE - across, taken)

    def best(self):
        """(distance, y) of the best free y; None without one."""
        middle = self.tank.bottom_width / 2 - self.size[1] / 2
        wanted = [self.tank.outlet.y - self.size[1], self.tank.outlet.y] if self.tank.outlet else [middle]
        tries = [min(max(want, low), high) for low, high in self.free for want in wanted]
        return min(((distance(self.tank, (self.x, y, *self.size)), y) for y in tries), default=None)

    def least_y(self, within):
        """The smallest free y whose distance is within a limit."""
        tries = [y for low, high in self.free for y in (low, *self.at_limit(within)) if low <= y <= high]
        return min(
            (y for y in tries if distance(self.tank, (self.x, y, *self.size)) <= within + 1e-12), default=None
        )

    def at_limit(self, within):
        """The y from which on the distance is within a limit."""
        along, across = self.size
        if self.tank.outlet:
            beside = max(self.x - self.tank.outlet.x, 0.0, self.tank.outlet.x - self.x - along)
            rest = (within + self.tank.outlet.diameter / 2) ** 2 - beside**2
            return [self.tank.outlet.y - across - math.sqrt(rest)] if rest >= 0 else []
        rest = within**2 - (self.x + along / 2 - self.tank.bottom_length / 2) ** 2
        return [self.tank.bottom_width / 2 - across / 2 - math.sqrt(rest)] if rest >= 0 else []


def shadow(rectangle, x, along, across):
    """The y that a rectangle takes from a pad's corner at x: nearer than 1/2 in."""
    beside = max(rectangle[0] - x - along, x - rectangle[0] - rectangle[2], 0.0)
    if beside >= APART - 1e-12:
        return None
    half = math.sqrt(APART**2 - beside**2)
    return rectangle[1] - half - across, rectangle[1] + rectangle[3] + half


def without(low, high, taken):
    """What is left of an interval, as closed intervals."""
    free, start = [], low
    for since, until in sorted(taken):
        if since >= start - 1e-12 and start <= high + 1e-12:
            free.append((start, min(since, high)))
        start = max(start, until)
    if start <= high + 1e-12:
        free.append((start, max(start, high)))
    return [(a, b) for a, b in free if b >= a - 1e-12]


def lines_of(tank, size, others):
    """The x to look at first: evenly, and where something begins or ends to be in the way."""
    along = size[0]
    low, high = EDGE, tank.bottom_length - EDGE - along
    if high < low - 1e-12 or tank.bottom_width - 2 * EDGE < size[1] - 1e-12:
        return []
    special = {low, max(low, high)}
    for x, _, length, _ in obstacles(tank, others):
        special |= {x - APART - along, x + length + APART, x - along, x + length}
    if tank.outlet:
        reach = tank.outlet.diameter / 2 + APART
        special |= {tank.outlet.x + way - back for way in (-reach, 0.0, reach) for back in (0.0, along)}
    even = [low + (high - low) * n / LINES for n in range(LINES + 1)]
    return sorted(x for x in special.union(even) if low - 1e-12 <= x <= max(low, high) + 1e-12)


def best_of(tank, size, others):
    """(distance, [(x, distance)]) for one way round: the lines looked at, closed in on the best ones."""
    seen: dict[float, float] = {}

    def look(x):
        if x not in seen:
            found = Line(tank, size, x, others).best()
            seen[x] = math.inf if found is None else found[0]
        return seen[x]

    xs = lines_of(tank, size, others)
    for x in xs:
        look(x)
    for _ in range(12):
        ranked = sorted(seen, key=seen.__getitem__)[:4]
        order = sorted(seen)
        for x in ranked:
            n = order.index(x)
            for beside in order[max(0, n - 1) : n] + order[n + 1 : n + 2]:
                for share in (0.25, 0.5, 0.75):
                    look(x + (beside - x) * share)
    return seen


def search(tank, length, width, others):
    """The place by the format's rule; None without one."""
    ways = [(False, (length, width)), (True, (width, length))]
    seen = {turned: best_of(tank, size, others) for turned, size in ways}
    best = min(min(one.values(), default=math.inf) for one in seen.values())
    if best == math.inf:
        return None
    for turned, size in ways:
        within = {x for x, found in seen[turned].items() if found <= best + TIE}
        if within:
            x = leftmost(tank, size, others, min(within), seen[turned], best + TIE)
            ends = [(end, Line(tank, size, end, others).least_y(best + TIE)) for end in (x, x + TIE)]
            x, y = min((end for end in ends if end[1] is not None), key=lambda end: end[1])
            return SimpleNamespace(turned=turned, wanted=(x, y, *size), distance=best)
    return None


def leftmost(tank, size, others, x, seen, within):
    """Halving between the first line that is good enough and the one before it."""
    low = max((one for one in seen if one < x), default=x)
    while x - low > 1e-9:
        middle = (low + x) / 2
        found = Line(tank, size, middle, others).best()
        low, x = (low, middle) if found and found[0] <= within else (middle, x)
    return x


def fit_figures(tank, pads, spots):
    """Of a tank's bottom pads at their places; nulls without one."""
    figures: dict[str, float | None] = {}
    for pad in pads:
        spot, name = spots[pad.id], f"heater.{pad.id}"
        others = [one for pad_id, one in spots.items() if pad_id != pad.id and one is not None]
        figures |= dict.fromkeys((f"{name}.clearance", f"{name}.to_outlet"))
        if spot is not None:
            figures[f"{name}.clearance"] = clearance(tank, spot, others)
            if tank.outlet:
                figures[f"{name}.to_outlet"] = to_outlet(spot, tank.outlet)
    return figures
