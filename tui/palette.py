"""The list of every action, by Ctrl+P: Textual's own, which must not end the program where its list has no height."""

from textual.command import CommandList, CommandPalette


class Palette(CommandPalette):
    """Moves in its list only where there is one to be seen: Textual's own fails in a list without lines."""

    def _action_command_list(self, action: str) -> None:
        if self.query_one(CommandList).scrollable_content_region.height:
            super()._action_command_list(action)
