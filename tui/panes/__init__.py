"""The four panes."""
