"""The list of every action, by Ctrl+P: Textual's own, but that it takes keys from its first instant, chooses once, and
never ends the program.
"""

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.command import CommandList, CommandPalette
from textual.message import Message
from textual.widgets import Input, OptionList

from tui.screens.early_keys import EarlyKeys

CHOSEN = (Input.Submitted, OptionList.OptionSelected)
HELP = (
    "Here stands everything that can be done, each with its key where it has one.",
    "Letters: leave only what has them in its name.",
    "Up and down: mark another line. Enter: do what is marked.",
    "Esc: back without doing anything.",
)


class Palette(CommandPalette, EarlyKeys[None]):  # the first gives the looks
    """Moves in its list only where there is one to be seen: Textual's own fails in a list without lines."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("f1", "help", "help", show=False)]

    @property
    def stands(self) -> bool:
        """And whether its list is what was asked for, and seen: Enter takes nothing from that of a letter before."""
        if not super().stands or not all(each.is_finished for each in self.workers if each.node is self):
            return False
        found = self._list()
        return found is not None and (not found.option_count or found.scrollable_content_region.height > 0)

    def _list(self) -> CommandList | None:
        """None: the palette is on its way out, and its parts went before it."""
        return next(iter(self.query(CommandList)), None)

    def action_help(self) -> None:
        from tui.screens.dialog_help import DialogHelp

        self.app.push_screen(DialogHelp(HELP))

    def _action_command_list(self, action: str) -> None:
        found = self._list()
        if found is not None and found.scrollable_content_region.height:
            super()._action_command_list(action)

    async def _dispatch_message(self, message: Message) -> None:
        """A second Enter that came before the first had taken the palette away chooses nothing more."""
        if self.is_active or not isinstance(message, CHOSEN):
            await super()._dispatch_message(message)
