"""Plain Textual apps with no program behind them: what the screen's speed is measured against.

`python -m tests.benchmarks.bare_apps line`: a single Input. `… panes`: Tree, DataTable, OptionList, Static, Input.
"""

import sys

from textual.app import App, ComposeResult
from textual.containers import Grid
from textual.widgets import DataTable, Input, OptionList, Static, Tree

READY = "ready for typing"


class BareLine(App[None]):
    """One Input, and the word that says it stands."""

    def compose(self) -> ComposeResult:
        yield Static(READY)
        yield Input()


class BarePanes(App[None]):
    """Four panes of Textual's own widgets and an Input."""

    CSS = "Grid { grid-size: 2 2; } Input { dock: bottom; }"

    def compose(self) -> ComposeResult:
        with Grid():
            tree: Tree[None] = Tree(READY)
            tree.root.expand()
            for number in range(12):
                tree.root.add_leaf(f"slot {number}   41 3/8 in   planned")
            yield tree
            yield DataTable()
            yield OptionList(*(f"step {number}   may start" for number in range(12)))
            yield Static("\n".join(f"stop   item {number}" for number in range(12)))
        yield Input()

    def on_mount(self) -> None:
        table = self.query_one(DataTable)
        table.add_columns("figure", "value", "band")
        for number in range(12):
            table.add_row(f"figure {number}", "21.5 W", "16 … 27")
        self.query_one(Input).focus()


APPS = {"line": BareLine, "panes": BarePanes}

if __name__ == "__main__":
    APPS[sys.argv[1]]().run()
