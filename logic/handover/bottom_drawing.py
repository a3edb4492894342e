"""A tank's bottom to scale, seen from below, as SVG: pads, keep-outs, outlet, clearances in numbers."""

from logic.assessment.bottom_plan import BottomPlan, Box
from logic.data.quantities import show
from logic.handover.blocks import Drawing
from logic.handover.svg import HATCH, PALE, Labels, box, circle, label, rule, svg

WIDTH, MARGIN, SIZE = 640.0, 46.0, 11.0
MOST_HEIGHT = 250.0  # of the bottom itself, so that several drawings find room on a page


def bottom_drawing(plan: BottomPlan, units: str) -> Drawing:
    """The drawing and the words that say the same; labels that find no free spot stand in a list below it."""
    scale = min((WIDTH - 2 * MARGIN) / plan.length, MOST_HEIGHT / plan.width)
    height = plan.width * scale

    def at(x: float, y: float) -> tuple[float, float]:
        return MARGIN + x * scale, MARGIN + y * scale

    body = [box(MARGIN, MARGIN, plan.length * scale, height, line=2)]
    labels, below = Labels(), []
    for part in plan.boxes:
        x, y = at(part.x, part.y)
        wide, high = part.length * scale, part.width * scale
        if part.kind == "keepout":
            body.append(box(x, y, wide, high, fill=PALE, dash="3 2"))
            step = 8.0
            count = int((wide + high) // step)
            body += [_stroke(x, y, wide, high, number * step) for number in range(1, count + 1)]
        else:
            body.append(box(x, y, wide, high, fill="#fff", line=1.8))
    if plan.outlet is not None:
        x, y = at(plan.outlet.x, plan.outlet.y)
        body.append(circle(x, y, plan.outlet.radius * scale, fill="#fff", line=1.8))
        body.append(circle(x, y, max(plan.outlet.radius * scale - 4, 1)))
        labels.put([(x, y)], "    ", size=SIZE)
    for part in sorted(plan.boxes, key=lambda each: each.kind != "pad"):
        for line_number, text in enumerate(_texts(part, units)):
            spots = _spots(part, scale, line_number)
            placed = labels.put(spots, text, size=SIZE, bold=part.kind == "pad" and line_number == 0)
            if placed is None:
                below.append(f"{part.label}: {text}" if text != part.label else text)
            else:
                body.append(placed)
    body.append(
        label(
            MARGIN,
            MARGIN - 26,
            "front of the vehicle to the left, street side at the top: as seen from below",
        )
    )
    body.append(
        label(
            MARGIN + plan.length * scale / 2, MARGIN - 8, show(plan.length, "length", units), anchor="middle"
        )
    )
    body.append(label(MARGIN - 6, MARGIN + height / 2, show(plan.width, "length", units), anchor="end"))
    corner = at(*plan.origin)
    body.append(circle(*corner, 4, fill="#111"))
    bottom = MARGIN + height
    body.append(circle(MARGIN + 4, bottom + 16, 4, fill="#111"))
    body.append(label(MARGIN + 14, bottom + 20, "corner from which x and y are measured"))
    for number, text in enumerate(below, start=1):
        body.append(label(MARGIN, bottom + 20 + number * 15, text))
    total = bottom + 30 + 15 * len(below)
    title = f"bottom of {plan.tank}"
    caption = _caption(plan, units)
    return Drawing(svg(WIDTH, total, body, title), caption, caption)


def _texts(part: Box, units: str) -> list[str]:
    if part.kind == "keepout":
        return [part.label]
    lines = [part.label, f"{show(part.length, 'length', units)} × {show(part.width, 'length', units)}"]
    if part.clearance is not None:
        word = "clear by" if part.clearance >= 0 else "over by"
        lines.append(f"{word} {show(abs(part.clearance), 'length', units)}")
    return lines


def _spots(part: Box, scale: float, line_number: int) -> list[tuple[float, float]]:
    x = MARGIN + (part.x + part.length / 2) * scale
    y = MARGIN + (part.y + part.width / 2) * scale
    high = part.width * scale
    down = (line_number - 1) * 15 if part.kind == "pad" else 0.0
    shifts = (0.0, high / 4, -high / 4, high / 2 + 10, -high / 2 - 10)
    sides = (0.0, part.length * scale / 4, -part.length * scale / 4)
    return [(x + aside, y + down + shift) for shift in shifts for aside in sides]


def _stroke(x: float, y: float, wide: float, high: float, offset: float) -> str:
    """One stroke of the hatching at 45° inside a rectangle, `offset` along its upper and right edges."""
    x1, y1 = (x + offset, y) if offset <= wide else (x + wide, y + offset - wide)
    x2, y2 = (x, y + offset) if offset <= high else (x + offset - high, y + high)
    return rule(x1, y1, x2, y2, line=0.5, ink=HATCH)


def _caption(plan: BottomPlan, units: str) -> str:
    length, width = (show(side, "length", units) for side in (plan.length, plan.width))
    parts = [f"Bottom of {plan.tank}, {length} along by {width}."]
    for part in plan.boxes:
        if part.kind == "pad":
            to_outlet = (
                "" if part.to_outlet is None else f", {show(part.to_outlet, 'length', units)} from the outlet"
            )
            parts.append(f"Pad {'; '.join(_texts(part, units))}{to_outlet}.")
    parts += [f"Pad {pad} has no place." for pad in plan.homeless]
    return " ".join(parts)
