"""A list of keyed rows with a cursor: what all four panes and most of the other screens are made of.

Rows come laid out for the width there is. Only lines that differ are drawn again; cursor and scroll follow the
row's key, not its number.
"""

from collections.abc import Iterable, Sequence
from typing import ClassVar, NamedTuple

from rich.console import RenderableType
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Region, Size
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

from tui.panes.in_order import has_lost_focus, obeyed_at_once, pass_on
from tui.panes.kept_strips import keep_strips
from tui.panes.painted import Painted, PlainBar
from tui.show.marks import SIGNS, Marks
from tui.show.rows import STRONG, Line, Row, Span, changed_lines

CURSOR_COLUMNS = 2


class Listed(NamedTuple):
    """Rows, and what is looked up in them."""

    rows: tuple[Row, ...]
    lines: list[Line]
    row_at: list[int]  # the row of each line
    first_line: dict[str, int]
    number_of: dict[str, int]

    @classmethod
    def of(cls, rows: Sequence[Row]) -> "Listed":
        lines: list[Line] = []
        row_at: list[int] = []
        first_line: dict[str, int] = {}
        number_of: dict[str, int] = {}
        for number, row in enumerate(rows):
            number_of[row.key] = number
            first_line[row.key] = len(lines)
            lines.extend(row.lines)
            row_at.extend([number] * len(row.lines))
        return cls(tuple(rows), lines, row_at, first_line, number_of)


class RowList(Painted, ScrollView, can_focus=True):
    """Rows by key; arrows move the cursor, Enter or one more click on the cursor's row opens it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", "up", show=False),
        Binding("down", "move(1)", "down", show=False),
        Binding("pageup", "page(-1)", "page up", show=False),
        Binding("pagedown", "page(1)", "page down", show=False),
        Binding("home", "edge(0)", "first", show=False),
        Binding("end", "edge(-1)", "last", show=False),
        Binding("enter", "open", "open", show=False),
    ]

    cursor: reactive[str | None] = reactive(None, repaint=False)

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(id=id, classes=classes)
        self.marks: Marks = SIGNS
        self.rows: tuple[Row, ...] = ()
        self._lines: list[Line] = []
        self._row_at: list[int] = []  # the row of each line
        self._first_line: dict[str, int] = {}
        self._index: dict[str, int] = {}
        self._laid: tuple[object, ...] = ()  # sizes as they were last laid out
        self._early: list[events.Key] = []  # keys that came before it had a size
        self._pressed: str | None = None  # the row that the mouse was pressed on,
        self._pressed_awake = False  # and whether the list had the focus then

    def on_mount(self) -> None:
        self.marks = getattr(self.app, "marks", self.marks)
        keep_strips(self.vertical_scrollbar)
        if self.in_letters:
            self.vertical_scrollbar.renderer = PlainBar  # type: ignore[misc]  # of this one alone

    # --- what a pane says ---

    def lay_out(self, width: int) -> Sequence[Row] | Listed:
        """The rows for a width; each pane has its own."""
        return self.rows

    # --- showing ---

    @property
    def row_width(self) -> int:
        """Cells that a row may fill: what is left beside cursor and scroll bar."""
        return max(10, self.scrollable_content_region.width - CURSOR_COLUMNS)

    def relay(self) -> None:
        """Lay the rows out again and draw what changed."""
        if self.size.width > 0:
            self.put(self.lay_out(self.row_width))

    def put(self, rows: Sequence[Row] | Listed) -> None:
        """Take new rows; the cursor stays on its key, or on what now stands where it was.

        A cursor that was in view stays there, its row whole, and where it can on the same line of the screen.
        """
        old_lines, old_cursor_line, old_top = self._lines, self._cursor_line(), self.scroll_offset.y
        old_row, was_seen = self.row_of(self.cursor), bool(self._lines) and self._in_view(old_cursor_line)
        old_number = self._index.get(self.cursor or "", 0)
        listed = rows if isinstance(rows, Listed) else Listed.of(rows)
        self.rows, self._lines, self._row_at, self._first_line, self._index = listed
        lost = self.cursor not in self._index
        if lost:
            self.set_reactive(RowList.cursor, self._choosable_near(old_number))
        if len(old_lines) != len(self._lines):
            self._be_as_high_as(len(self._lines))
        if lost:
            self.refresh()
            self.cursor_moved()
            if was_seen:
                self.show_cursor()
            return
        self._refresh_stretches(changed_lines(old_lines, self._lines))
        moved, row = self._cursor_line() - old_cursor_line, self.row_of(self.cursor)
        grown = row is not None and old_row is not None and len(row.lines) > len(old_row.lines)
        if was_seen and (moved or grown):
            if moved and old_top > 0:
                self.scroll_to(y=old_top + moved, animate=False, force=True, immediate=True)
            self.show_cursor()

    def _refresh_stretches(self, stretches: Iterable[tuple[int, int]]) -> None:
        """Paint stretches of lines anew, (first, count) each, all at once; those out of view want nothing."""
        seen, top = self.size.region, self.scroll_offset.y
        regions = [seen.intersection(Region(0, first - top, seen.width, count)) for first, count in stretches]
        if any(regions):
            self.refresh(*filter(None, regions))

    def _be_as_high_as(self, count: int) -> None:
        """So many lines to scroll through, never wider than what is seen.

        Where the scroll bar neither comes nor goes, it alone has to follow, in the frame of the new lines; Textual's
        own would lay the whole screen out and paint the bar a frame later.
        """
        size, laid = Size(1, count), self._laid
        if not laid or (count > self.container_size.height) != self.show_vertical_scrollbar:
            self.virtual_size = size
            return
        self.set_reactive(RowList.virtual_size, size)
        self._laid = (*laid[:2], size, *laid[3:])
        self._scroll_update(size)

    def _scroll_update(self, virtual_size: Size) -> None:
        """The bar stands where the list does, and the wheel goes on from there.

        Textual's own leaves the bar at the top where the list was scrolled before the bar came, and lets the wheel
        begin beyond the end where fewer lines are left.
        """
        super()._scroll_update(virtual_size)
        if self.show_vertical_scrollbar:
            bar = self.vertical_scrollbar
            bar.position = self.scroll_y
            if not bar.is_mounted:
                bar.call_later(bar.refresh)  # what it is told before it stands it would not paint
        if self.scroll_target_y > self.max_scroll_y:
            self.set_reactive(RowList.scroll_target_y, self.max_scroll_y)

    def _cursor_line(self) -> int:
        return self._first_line.get(self.cursor or "", 0)

    def _in_view(self, number: int) -> bool:
        top = self.scroll_offset.y
        return top <= number < top + self.scrollable_content_region.height

    def _choosable_near(self, number: int) -> str | None:
        later = [row.key for row in self.rows[number:] if row.choosable]
        if later:
            return later[0]
        earlier = [row.key for row in self.rows[:number] if row.choosable]
        return earlier[-1] if earlier else None

    # --- the cursor ---

    def row_of(self, key: str | None) -> Row | None:
        number = self._index.get(key or "")
        return self.rows[number] if number is not None else None

    def choose(self, key: str | None, *, tell: bool = True) -> None:
        """Put the cursor on a row, if there is one with that key, and bring it into view."""
        if key is None or (self.rows and key not in self._index):
            return
        if not self.rows:  # not laid out yet: the cursor waits for its row
            self.set_reactive(RowList.cursor, key)
            return
        if key == self.cursor:
            self.show_cursor()
            return
        before, self.cursor = self.cursor, key
        for each in (before, key):
            row = self.row_of(each)
            if row is not None:
                self.refresh_lines(self._first_line[row.key], len(row.lines))
        self.cursor_moved()
        self.show_cursor()
        if tell:
            self.told_moved(key)

    def cursor_moved(self) -> None:
        """For panes whose rows say more where the cursor stands."""

    def told_moved(self, key: str) -> None:
        """For lists that do something where a person moves the cursor."""

    def show_cursor(self) -> None:
        """Scroll so that the whole row of the cursor is in view."""
        row = self.row_of(self.cursor)
        if row is not None and self.size.height:
            region = Region(0, self._first_line[row.key], 1, len(row.lines))
            self.scroll_to_region(region, animate=False, force=True, immediate=True)

    @property
    def stands(self) -> bool:
        """Whether it can take keys: it has its size, or is not to be seen at all."""
        return bool(self.size) or not all(each.display for each in self.ancestors_with_self)

    async def on_event(self, event: events.Event) -> None:
        """Keys that come before the list has its size wait for it: a page is as long as what is seen."""
        if isinstance(event, events.Key) and not self.size:
            self._early.append(event)
        else:
            await super().on_event(event)

    async def _on_key(self, event: events.Key) -> None:
        """Every key at once, before the next; one that comes too late for the list goes where the focus is now."""
        if has_lost_focus(self):
            pass_on(event, self)
            return
        await obeyed_at_once(event, self)

    def action_move(self, by: int) -> None:
        number = self._index.get(self.cursor or "", -1 if by > 0 else len(self.rows))
        while 0 <= number + by < len(self.rows):
            number += by
            if self.rows[number].choosable:
                self.choose(self.rows[number].key)
                return
        if by < 0:  # what stands above the first row that can be chosen
            self.scroll_to(y=0, animate=False, immediate=True)

    def action_page(self, by: int) -> None:
        height = max(1, self.scrollable_content_region.height - 1)
        wanted = self._cursor_line() + by * height
        self._choose_at(min(max(wanted, 0), len(self._lines) - 1), by)

    def action_edge(self, end: int) -> None:
        if self._lines:
            self._choose_at(0 if end == 0 else len(self._lines) - 1, 1 if end == 0 else -1)

    def _choose_at(self, y: int, by: int) -> None:
        """The row at a line, or the next one from there that can be chosen."""
        if not 0 <= y < len(self._row_at):
            return
        number = self._row_at[y]
        for step in (by, -by):
            near = number
            while 0 <= near < len(self.rows):
                if self.rows[near].choosable:
                    self.choose(self.rows[near].key)
                    return
                near += step

    def action_open(self) -> None:
        if self.cursor is not None:
            self.tell_opened(self.cursor)

    def tell_opened(self, key: str) -> None:
        """Have a row opened by the screen. A call and no message: the next key must find it open."""
        row_opened = getattr(self.screen, "row_opened", None)
        if row_opened is not None:
            row_opened(key)

    def _forward_event(self, event: events.Event) -> None:
        """Note at once what the mouse was pressed on: the focus that it brings may move the rows under it."""
        if isinstance(event, events.MouseDown):
            y = event.get_content_offset_capture(self).y + self.scroll_offset.y
            number = self._row_at[y] if 0 <= y < len(self._row_at) else None
            self._pressed = self.rows[number].key if number is not None else None
            self._pressed_awake = self.has_focus
        super()._forward_event(event)

    def on_click(self) -> None:
        """A click chooses a row, the next one opens it; the one that brings the focus only chooses."""
        row = self.row_of(self._pressed)
        if row is None or not row.choosable:
            return
        if row.key == self.cursor and self._pressed_awake:
            self.tell_opened(row.key)
        else:
            self.choose(row.key)

    # --- painting ---

    def _size_updated(
        self, size: Size, virtual_size: Size, container_size: Size, layout: bool = True
    ) -> bool:
        """Nothing to be done where nothing of it changed.

        Textual's own paints the scroll bar of every framed list anew whenever anything is laid out anywhere.
        """
        laid = (size, container_size, self.virtual_size, self.styles.gutter.totals)
        if laid == self._laid:
            return False
        self._laid = laid
        return super()._size_updated(size, virtual_size, container_size, layout)

    async def on_resize(self) -> None:
        self.relay()
        self.show_cursor()
        early, self._early = self._early, []
        for event in early:
            await self.on_event(event)

    def watch_has_focus(self, _has_focus: bool) -> None:
        super().watch_has_focus(_has_focus)
        row = self.row_of(self.cursor)
        if row is not None:
            self.refresh_lines(self._first_line[row.key], len(row.lines))

    def render(self) -> RenderableType:
        return ""

    def render_line(self, y: int) -> Strip:
        width = self.scrollable_content_region.width
        number = y + self.scroll_offset.y
        if number >= len(self._lines):
            return self.strip_of((), width)
        row = self.rows[self._row_at[number]]
        if row.key != self.cursor:
            return self.strip_of((Span(" " * CURSOR_COLUMNS), *self._lines[number]), width)
        head = number == self._first_line[row.key]
        mark = f"{self.marks.cursor} " if head else " " * CURSOR_COLUMNS
        over = self.laid_over(awake=self.has_focus)
        return self.strip_of((Span(mark, STRONG), *self._lines[number]), width, over=over)

    def laid_over(self, *, awake: bool) -> Style:
        """What the cursor's row adds to each span: reverse where it has the focus, bold where not."""
        if not awake:
            return Style(bold=True)
        found = self._looks.get("cursor")
        if found is None:
            ground = self.colour("cursor-ground", self.background_colors[1])
            ink = self.colour("cursor-ink", ground)
            found = self._looks["cursor"] = Style(color=ink.rich_color, bgcolor=ground.rich_color)
        return found
