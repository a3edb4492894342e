"""Plain Textual apps with no program behind them: what the screen's speed is measured against.

`python -m tests.benchmarks.bare_apps line`: a single Input. `… panes`: Tree, DataTable, OptionList, Static, Input.
"""

import sys

from textual.app import App, ComposeResult
from textual.containers import Grid
from textual.widgets import DataTable, Input, OptionList, Static, Tree

READY = "ready for typing"
LINES = 12  # in each pane
WIDE = 42  # cells of a pane


class BareLine(App[None]):
    """One Input, and the word that says it stands."""

    def compose(self) -> ComposeResult:
        yield Static(READY)
        yield Input()

    def on_mount(self) -> None:
        self.query_one(Input).focus()


class BarePanes(App[None]):
    """Four panes of Textual's own widgets and an Input; Enter writes some lines of each pane anew."""

    CSS = "Grid { grid-size: 2 2; } Input { dock: bottom; }"

    def __init__(self, lines: int = 0) -> None:
        """`lines` : of each pane, how many Enter changes."""
        super().__init__()
        self.lines_changed = lines
        self.turn = 0

    def compose(self) -> ComposeResult:
        with Grid():
            tree: Tree[None] = Tree(READY)
            tree.root.expand()
            for number in range(LINES):
                tree.root.add_leaf(f"slot {number}   41 3/8 in   planned")
            yield tree
            yield DataTable()
            yield OptionList(*(f"step {number}   may start" for number in range(LINES)))
            yield Static("\n".join(f"stop   item {number}" for number in range(LINES)))
        yield Input()

    def on_mount(self) -> None:
        table = self.query_one(DataTable)
        self.columns = table.add_columns("figure", "value", "band")
        for number in range(LINES):
            table.add_row(f"figure {number}", "21.5 W", "16 … 27", key=str(number))
        self.query_one(Input).focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Lines as long as a pane is wide, no cell of them as before."""
        event.input.clear()
        self.turn += 1
        fill = "abcdefghij"[self.turn % 10]
        tree, table = self.query_one(Tree), self.query_one(DataTable)
        options = self.query_one(OptionList)
        for number in range(self.lines_changed):
            tree.root.children[number].set_label(fill * WIDE)
            for column in self.columns:
                table.update_cell(str(number), column, fill * (WIDE // 3))
            options.replace_option_prompt_at_index(number, fill * WIDE)
        said = [
            fill * WIDE if number < self.lines_changed else f"stop   item {number}" for number in range(LINES)
        ]
        self.query_one(Static).update("\n".join(said))


def main(words: list[str]) -> None:
    app = BareLine() if words[0] == "line" else BarePanes(int(words[1]) if len(words) > 1 else 0)
    app.run()


if __name__ == "__main__":
    main(sys.argv[1:])
