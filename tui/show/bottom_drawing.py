"""A tank's bottom to scale in terminal cells, seen from below: edges, keep-outs, outlet, pads with their clearances.

A cell is taken as twice as high as wide. What is said in numbers stands in the list beside or below the drawing;
the drawing itself has names only.
"""

from logic.assessment.bottom_plan import BottomPlan, Box
from tui.show.cells import shorten, width_of
from tui.show.marks import LETTERS, Marks
from tui.show.rows import Line, Span, line

CELL_RATIO = 2.0  # height of a cell over its width
LINES = {"h": "─", "v": "│", "tl": "┌", "tr": "┐", "bl": "└", "br": "┘"}
DOUBLE = {"h": "═", "v": "║", "tl": "╔", "tr": "╗", "bl": "╚", "br": "╝"}
ASCII = {"h": "-", "v": "|", "tl": "+", "tr": "+", "bl": "+", "br": "+"}
KEEPOUT, KEEPOUT_ASCII = "▒", "/"
OUTLET, OUTLET_ASCII = "●", "o"
ORIGIN = "0"


class Canvas:
    """Cells that are drawn into; anything outside them is left out."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self.cells = [[" "] * width for _ in range(height)]

    def put(self, x: int, y: int, sign: str) -> None:
        if 0 <= x < self.width and 0 <= y < self.height:
            self.cells[y][x] = sign

    def write(self, x: int, y: int, text: str) -> None:
        """A text of narrow letters from a cell to the right."""
        for number, sign in enumerate(text):
            self.put(x + number, y, sign)

    def box(self, left: int, top: int, right: int, bottom: int, look: dict[str, str]) -> None:
        """The frame of a box, its corners in."""
        for x in range(left, right + 1):
            self.put(x, top, look["h"])
            self.put(x, bottom, look["h"])
        for y in range(top, bottom + 1):
            self.put(left, y, look["v"])
            self.put(right, y, look["v"])
        for x, y, corner in (
            (left, top, "tl"),
            (right, top, "tr"),
            (left, bottom, "bl"),
            (right, bottom, "br"),
        ):
            self.put(x, y, look[corner])

    def fill(self, left: int, top: int, right: int, bottom: int, sign: str) -> None:
        for y in range(top, bottom + 1):
            for x in range(left, right + 1):
                self.put(x, y, sign)

    def lines(self) -> list[Line]:
        return [line(Span("".join(row).rstrip())) for row in self.cells]


class Scale:
    """Metres to cells: as large as fits, the same in both directions."""

    def __init__(self, plan: BottomPlan, width: int, height: int) -> None:
        inner_width, inner_height = max(4, width - 2), max(2, height - 2)
        self.metres = max(plan.length / inner_width, plan.width / (inner_height * CELL_RATIO))

    def across(self, metres: float) -> int:
        return round(metres / self.metres)

    def down(self, metres: float) -> int:
        return round(metres / (self.metres * CELL_RATIO))


def bottom_drawing(plan: BottomPlan, width: int, height: int, marks: Marks) -> list[Line]:
    """The drawing, at most `width` by `height` cells."""
    scale = Scale(plan, width, height)
    plain = marks == LETTERS
    frame, pad = (ASCII, ASCII) if plain else (LINES, DOUBLE)
    columns, rows = scale.across(plan.length), scale.down(plan.width)
    canvas = Canvas(columns + 2, rows + 2)
    canvas.box(0, 0, columns + 1, rows + 1, frame)
    for box in plan.boxes:
        if box.kind == "keepout":
            corners = corners_of(box, scale)
            canvas.fill(*corners, KEEPOUT_ASCII if plain else KEEPOUT)
    if plan.outlet is not None:
        draw_outlet(canvas, plan, scale, OUTLET_ASCII if plain else OUTLET)
    for box in plan.boxes:
        if box.kind == "pad":
            left, top, right, bottom = corners_of(box, scale)
            right, bottom = max(right, left + 1), max(bottom, top + 1)
            canvas.box(left, top, right, bottom, pad)
            room = right - left - 1
            name = shorten(box.label, room)
            if name and bottom - top >= 2:
                canvas.write(left + 1 + (room - width_of(name)) // 2, (top + bottom) // 2, name)
    x, y = (scale.across(plan.origin[0]), scale.down(plan.origin[1]))
    canvas.put(0 if x <= 0 else columns + 1, 0 if y <= 0 else rows + 1, ORIGIN)
    return canvas.lines()


def corners_of(box: Box, scale: Scale) -> tuple[int, int, int, int]:
    """Left, top, right, bottom cell of a box, the tank's frame outside of them; at least one cell."""
    left, top = 1 + scale.across(box.x), 1 + scale.down(box.y)
    right = max(left, scale.across(box.x + box.length))
    bottom = max(top, scale.down(box.y + box.width))
    return left, top, right, bottom


def draw_outlet(canvas: Canvas, plan: BottomPlan, scale: Scale, sign: str) -> None:
    """Every cell whose middle lies in the outlet; its own cell at least."""
    outlet = plan.outlet
    assert outlet is not None
    canvas.put(1 + int(outlet.x / scale.metres), 1 + int(outlet.y / (scale.metres * CELL_RATIO)), sign)
    for y in range(1, canvas.height - 1):
        for x in range(1, canvas.width - 1):
            across = (x - 0.5) * scale.metres - outlet.x
            down = (y - 0.5) * scale.metres * CELL_RATIO - outlet.y
            if across**2 + down**2 <= outlet.radius**2:
                canvas.put(x, y, sign)
