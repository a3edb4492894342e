"""The screen and the command line: they show an assessment and send intents."""
