"""The list of every action, by Ctrl+P: Textual's own, but that it takes keys from its first instant, chooses once, and
never ends the program.
"""

from textual.command import CommandList, CommandPalette
from textual.message import Message
from textual.widgets import Input, OptionList

from tui.screens.early_keys import EarlyKeys

CHOSEN = (Input.Submitted, OptionList.OptionSelected)


class Palette(CommandPalette, EarlyKeys[None]):  # the first gives the looks
    """Moves in its list only where there is one to be seen: Textual's own fails in a list without lines."""

    def _action_command_list(self, action: str) -> None:
        if self.query_one(CommandList).scrollable_content_region.height:
            super()._action_command_list(action)

    async def _dispatch_message(self, message: Message) -> None:
        """A second Enter that came before the first had taken the palette away chooses nothing more."""
        if self.is_active or not isinstance(message, CHOSEN):
            await super()._dispatch_message(message)
