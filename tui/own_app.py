"""What the program's two apps, the screen and the list before it, have in common: themes, and leaving in peace."""

from textual import events

from tui.in_turn import KeysInTurn
from tui.themes import THEMES, roles_from


class OwnApp(KeysInTurn):
    """An app in the program's own themes."""

    def __init__(self) -> None:
        super().__init__()
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = THEMES[0].name

    def get_css_variables(self) -> dict[str, str]:
        """A theme of Textual's knows none of our roles: they are led back to its own."""
        variables = super().get_css_variables()
        # Where the panes look their colours up.
        self.theme_variables = {**roles_from(variables), **variables}
        return self.theme_variables

    async def on_event(self, event: events.Event) -> None:
        """Keys that come once the app is being left reach nobody: Textual's own looks for a screen, and fails."""
        if not (self._exit and isinstance(event, events.InputEvent)):
            await super().on_event(event)
